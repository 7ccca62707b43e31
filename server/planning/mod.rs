//! The sowing plan of a season, what it takes week by week, what it promises of which packet; seed that ages, and what
//! to buy.
//!
//! `entry` reads lines as typed; `rate` and `days` choose what a line is reckoned with; `reckon` reckons one line;
//! `read` puts a season together; `weeks` shows it by week; `ageing` and `shopping` say what of the stock to test, to
//! use and to buy.

mod actions;
mod ageing;
pub mod days;
pub mod entry;
mod files;
pub mod model;
mod pages;
mod raising;
pub mod rate;
mod read;
pub mod reckon;
mod shopping;
pub mod store;
mod weeks;

use crate::app::App;
use axum::Router;
use axum::routing::{get, post};

pub fn routes() -> Router<App> {
    Router::new()
        .route("/plan", get(pages::plan::show))
        .route("/plan/season", get(pages::season::show).post(actions::season::save))
        .route("/plan/lines", get(pages::enter::show).post(actions::lines::add))
        .route("/plan/accept", post(actions::lines::accept))
        .route("/plan/lines/{id}", get(pages::line::show).post(actions::line::change))
        .route("/plan/lines/{id}/accept", post(actions::line::accept))
        .route("/plan/lines/{id}/withdraw", post(actions::line::withdraw))
        .route("/plan/lines/{id}/delete", post(actions::line::delete))
        .route("/plan/weeks", get(pages::weeks::show))
        .route("/plan/print", get(pages::print::show))
        .route("/plan/shopping", get(pages::shopping::show))
        .route("/packets/ageing", get(pages::ageing::show))
        .route("/plan.csv", get(files::season))
        .route("/shopping.csv", get(files::shopping))
}

/// What is to be said, one sentence after the other.
fn sentences<const N: usize>(said: [Option<String>; N]) -> String {
    said.into_iter().flatten().collect::<Vec<_>>().join(" ")
}

pub fn all_sql() -> Vec<&'static str> {
    store::ALL.to_vec()
}
