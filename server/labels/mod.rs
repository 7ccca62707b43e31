//! Labels for vials and bags: drawn to scale, with a code that opens the thing and its mark in large letters.

mod draw;
mod pages;
mod store;

use crate::app::App;
use axum::Router;
use axum::routing::get;

pub fn routes() -> Router<App> {
    Router::new()
        .route("/labels", get(pages::choose))
        .route("/labels/print", get(pages::print))
        .route("/trials/{id}/labels", get(pages::of_trial))
        .route("/V/{vial}", get(pages::vial))
}

pub fn all_sql() -> Vec<&'static str> {
    store::ALL.to_vec()
}
