//! What the club holds about a member: saved as a file, and erased.

mod actions;
pub mod copy;
pub mod erase;
mod pages;

use crate::app::App;
use axum::Router;
use axum::routing::{get, post};

pub fn routes() -> Router<App> {
    Router::new()
        .route("/me/data", get(pages::show))
        .route("/me/data/copy.zip", post(actions::save))
        .route("/me/data/erase", post(actions::erase))
}

pub fn all_sql() -> Vec<&'static str> {
    copy::all_sql().into_iter().chain(erase::all_sql()).collect()
}
