//! Count cards for the shed wall: printed with empty columns for dates, and typed in later in the same order.

mod make;
pub mod model;
mod print;
mod record;
mod store;
mod typing;

use crate::app::App;
use axum::Router;
use axum::routing::get;

pub fn routes() -> Router<App> {
    Router::new()
        .route("/cards", get(make::list).post(make::make))
        .route("/cards/print", get(print::print))
        .route("/cards/{id}", get(typing::show).post(typing::save))
        .route("/C/{card}", get(typing::scanned))
}

pub fn all_sql() -> Vec<&'static str> {
    store::ALL.to_vec()
}
