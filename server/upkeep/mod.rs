//! What the host runs: check, demo, and a large club for trying how it is borne.

pub mod check;
pub mod demo;
pub mod folder;
pub mod scale;

use crate::app::App;
use axum::Router;

pub fn routes() -> Router<App> {
    Router::new()
}

pub fn all_sql() -> Vec<&'static str> {
    [crate::notebook::check::all_sql(), demo::ALL.to_vec(), scale::ALL.to_vec(), scale::all_sql()].concat()
}
