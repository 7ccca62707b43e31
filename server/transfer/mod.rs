//! Lists that come in and go out as files.

mod actions;
mod asked;
pub mod cells;
mod choice;
pub mod clubs;
pub mod columns;
pub mod counts;
pub mod dates;
mod export;
mod fault;
pub mod matching;
mod mcpd;
mod pages;
pub mod read;
mod season;
pub mod sheet;
mod store;

pub use clubs::{SharedTables, Wanted, shared_table};
pub use counts::import_counts;
pub use export::season_list;
pub use fault::Fault;
pub use mcpd::seed_list;
pub use season::import_season_list;
pub use store::whose;

use crate::app::App;
use axum::Router;
use axum::extract::DefaultBodyLimit;
use axum::routing::{get, post};

/// The largest list that is taken.
const MOST_BYTES: usize = 10 * 1024 * 1024;
/// What a request may weigh: the file is refused by its own page where it is a little too large.
const MOST_SENT: usize = MOST_BYTES + 3 * 1024 * 1024;

pub fn routes() -> Router<App> {
    Router::new()
        .route("/packets.csv", get(export::packets))
        .route("/packets/mcpd.csv", get(mcpd::packets))
        .route("/clubs/{code}/use", post(clubs::set_used))
        .route("/clubs/{code}/remove", post(clubs::remove))
}

/// Files on their way in, and the shared table: they may take longer than a page.
pub fn uploads() -> Router<App> {
    Router::new()
        .route("/packets/import", get(pages::ask).post(actions::preview))
        .route("/packets/import/confirm", post(actions::confirm))
        .route("/counts/import", get(counts::ask).post(counts::preview))
        .route("/counts/import/confirm", post(counts::confirm))
        .route("/clubs", get(clubs::show))
        .route("/clubs/table.zip", post(clubs::table))
        .route("/clubs/import", post(clubs::look))
        .route("/clubs/import/confirm", post(clubs::bring_in))
        .layer(DefaultBodyLimit::max(MOST_SENT))
}

pub fn all_sql() -> Vec<&'static str> {
    [store::ALL, clubs::ALL].concat()
}
