//! One packet through one routine: steps, float tally, onto paper.

pub mod actions;
pub mod alike;
pub mod model;
pub mod pages;
pub mod rooting;
pub mod store;

use crate::app::App;
use axum::Router;
use axum::routing::{get, post};

pub fn routes() -> Router<App> {
    Router::new()
        .route("/trials", get(pages::list))
        .route("/trials/new", get(pages::new).post(actions::start))
        .route("/trials/{id}", get(pages::show))
        .route("/trials/{id}/step", post(actions::step))
        .route("/trials/{id}/note", post(actions::note))
        .route("/trials/{id}/tally", get(pages::tally).post(actions::tally))
        .route("/trials/{id}/paper", get(pages::paper).post(actions::paper))
        .route("/trials/{id}/seeds", get(pages::seeds).post(actions::seeds))
}

pub fn all_sql() -> Vec<&'static str> {
    store::all_sql()
}
