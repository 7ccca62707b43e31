//! What is due, as a calendar that phones subscribe to (RFC 5545); read by its secret address alone.

mod ical;
mod model;
mod pages;
mod store;

use crate::app::App;
use axum::Router;
use axum::routing::get;

pub fn routes() -> Router<App> {
    Router::new().route("/calendar/{file}", get(pages::feed))
}

pub fn all_sql() -> Vec<&'static str> {
    store::ALL.to_vec()
}
