//! Photos that go with counts: read, turned upright, made smaller and written anew, so that nothing that a camera
//! hides in a file is kept.

pub mod model;
mod pages;
mod received;
pub mod store;

pub use received::{Received, ask_again, received};

use crate::app::App;
use axum::Router;
use axum::routing::get;

pub fn routes() -> Router<App> {
    Router::new().route("/photos/{id}", get(pages::large)).route("/photos/{id}/small", get(pages::small))
}

pub fn all_sql() -> Vec<&'static str> {
    store::ALL.to_vec()
}
