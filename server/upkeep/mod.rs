//! What the host runs: check, host-check, demo.

pub mod check;
pub mod demo;
pub mod host;

use crate::app::App;
use axum::Router;

pub fn routes() -> Router<App> {
    Router::new()
}

pub fn all_sql() -> Vec<&'static str> {
    [crate::notebook::check::all_sql(), demo::ALL.to_vec()].concat()
}
