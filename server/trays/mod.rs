//! Trays, their cells, what became of the plants, and the printed sheet.

use crate::app::App;
use axum::Router;

pub fn routes() -> Router<App> {
    Router::new()
}

pub fn all_sql() -> Vec<&'static str> {
    Vec::new()
}
