//! What a member's phone keeps: the worker that keeps pages, which pages, and the pages that tell of it.

mod pages;
mod worker;

use crate::app::App;
use axum::Router;
use axum::routing::get;

pub fn routes() -> Router<App> {
    Router::new()
        .route("/sw.js", get(worker::script))
        .route("/offline.json", get(pages::list))
        .route("/outbox", get(pages::outbox))
        .route("/phone", get(pages::phone))
}
