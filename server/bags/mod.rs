//! Bags on damp paper: looks, events, closing; and what is due now.

use crate::app::App;
use axum::Router;

pub fn routes() -> Router<App> {
    Router::new()
}

pub fn all_sql() -> Vec<&'static str> {
    Vec::new()
}
