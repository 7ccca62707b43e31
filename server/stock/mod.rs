//! Kinds, varieties, sources, lots, packets and their ledgers.

pub mod model;
pub mod names;
pub mod published;
pub mod store;

use crate::app::App;
use crate::db::Conn;
use crate::db::ids::At;
use crate::error::AppError;
use axum::Router;

pub fn routes() -> Router<App> {
    Router::new()
}

pub fn all_sql() -> Vec<&'static str> {
    store::all_sql()
}

/// Inserts the kinds that have published facts, where they are missing. Run at each start.
pub async fn ensure_kinds(conn: &mut Conn, now: At) -> Result<(), AppError> {
    for name in published::names() {
        store::insert_kind(conn, name, true, now).await?;
    }
    Ok(())
}
