//! One packet through one routine: steps, float tally, onto paper.

pub mod model;
pub mod store;

use crate::app::App;
use axum::Router;

pub fn routes() -> Router<App> {
    Router::new()
}

pub fn all_sql() -> Vec<&'static str> {
    store::all_sql()
}
