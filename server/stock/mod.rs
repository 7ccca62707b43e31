//! Kinds, varieties, sources, lots, packets and their ledgers.

mod actions;
pub mod form;
pub mod handed;
pub mod known;
pub mod model;
pub mod names;
pub mod near;
mod pages;
pub mod promises;
pub mod published;
pub mod spelling;
pub mod store;

use crate::app::App;
use crate::db::Conn;
use crate::db::ids::At;
use crate::error::AppError;
use crate::texts::{Language, spoken};
use axum::Router;
use axum::routing::{get, post};
use hilum_calc::kinds;

pub fn routes() -> Router<App> {
    Router::new()
        .route("/packets", get(pages::list::list))
        .route("/packets/new", get(pages::edit::new).post(actions::edit::new))
        .route("/packets/letters", get(pages::letters::show).post(actions::letters::take))
        .route("/packets/{id}", get(pages::show::show))
        .route("/packets/{id}/edit", get(pages::edit::edit).post(actions::edit::edit))
        .route("/packets/{id}/seeds", get(pages::ledger::seeds).post(actions::ledger::seeds))
        .route("/packets/{id}/give", get(pages::ledger::give).post(actions::ledger::give))
        .route("/kinds", get(pages::kinds::list).post(actions::kinds::add))
        .route("/kinds/{id}", get(pages::kinds::show))
        .route("/kinds/{id}/name", post(actions::kinds::rename))
        .route("/kinds/{id}/join", post(actions::kinds::join))
        .route("/varieties", get(pages::names::varieties))
        .route("/varieties/{id}", get(pages::names::variety))
        .route("/varieties/{id}/merge", post(actions::names::merge_variety))
        .route("/varieties/{id}/unmerge", post(actions::names::unmerge_variety))
        .route("/sources", get(pages::names::sources))
        .route("/sources/{id}", get(pages::names::source))
        .route("/sources/{id}/merge", post(actions::names::merge_source))
        .route("/sources/{id}/unmerge", post(actions::names::unmerge_source))
}

pub fn all_sql() -> Vec<&'static str> {
    [store::all_sql(), handed::ALL.to_vec(), known::ALL.to_vec(), promises::ALL.to_vec()].concat()
}

/// Inserts the kinds that have published facts, where they are missing. Run at each start.
pub async fn ensure_kinds(conn: &mut Conn, now: At) -> Result<(), AppError> {
    for name in published::names() {
        store::insert_kind(conn, name, true, now).await?;
    }
    Ok(())
}

/// Calls the built-in kinds what the language of the request calls them.
pub async fn name_kinds(conn: &mut Conn) -> Result<(), AppError> {
    if spoken() == Language::German {
        for kind in published::names() {
            let name = kinds::german(kind).unwrap_or(kind);
            store::name_kind(conn, &kinds::kind_key(kind), name).await?;
        }
    }
    Ok(())
}
