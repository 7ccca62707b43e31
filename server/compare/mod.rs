//! Source against source: which to buy from again, how sure that is, and what cannot be compared. Everything is read
//! from the standing that was fitted off the request path and from the cached table.

pub mod model;
mod pages;
pub mod read;

use crate::app::App;
use axum::Router;
use axum::routing::get;

pub fn routes() -> Router<App> {
    Router::new()
        .route("/table/variety", get(pages::variety::variety))
        .route("/table/source", get(pages::source::source))
        .route("/table/care", get(pages::care::care))
        .route("/table/report", get(pages::report::report))
}
