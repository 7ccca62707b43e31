//! Ordered steps before the paper, and the solutions they need.

pub mod model;
pub mod store;

use crate::app::App;
use axum::Router;

pub fn routes() -> Router<App> {
    Router::new()
}

pub fn all_sql() -> Vec<&'static str> {
    store::ALL.to_vec()
}
