//! Lists that come in and go out as files.

mod actions;
pub mod cells;
mod columns;
mod export;
mod pages;
mod read;
mod season;
mod upload;

pub use read::Fault;
pub use season::import_season_list;

use crate::app::App;
use axum::Router;
use axum::extract::DefaultBodyLimit;
use axum::routing::{get, post};

/// The longest list that is taken: 10 MiB, and a little for what surrounds it.
const LIST_LIMIT: usize = 10 * 1024 * 1024 + 64 * 1024;

pub fn routes() -> Router<App> {
    let lists = Router::new()
        .route("/packets/import", get(pages::ask).post(actions::preview))
        .route("/packets/import/confirm", post(actions::confirm))
        .layer(DefaultBodyLimit::max(LIST_LIMIT));
    Router::new().route("/packets.csv", get(export::packets)).merge(lists)
}

pub fn all_sql() -> Vec<&'static str> {
    Vec::new()
}
