//! Bags on damp paper: looks, events, closing; and what is due now.
//!
//! `due` is the home page; `looks` records many bags at once; `show`, `count`, `happened`, `elsewhere` and
//! `close` are about one bag; `holders` groups bags; `unknown` helps with a lost label; `find` and `voids` serve
//! every kind of thing.

mod close;
mod count;
mod due;
mod elsewhere;
mod find;
mod happened;
mod holders;
mod looks;
pub mod model;
mod show;
pub mod store;
mod unknown;
mod voids;
pub mod warmth;

use crate::app::App;
use axum::Router;
use axum::extract::DefaultBodyLimit;
use axum::routing::{get, post};

/// The most that is read of a count with a photo, in bytes. More than is kept of the photo: a browser that is still
/// sending would not hear why it was refused.
const UPLOAD: usize = 48 * 1024 * 1024;

pub fn routes() -> Router<App> {
    Router::new()
        .route("/", get(due::show))
        .route("/looks", get(looks::show).post(looks::save))
        .route("/bags/unknown", get(unknown::show).post(unknown::save))
        .route("/bags/{id}", get(show::show))
        .route("/bags/{id}/happened", get(happened::show).post(happened::save))
        .route("/bags/{id}/elsewhere", get(elsewhere::show).post(elsewhere::save))
        .route("/bags/{id}/close", get(close::show).post(close::save))
        .route("/bags/{id}/reopen", post(close::reopen))
        .route("/holders", get(holders::list).post(holders::add))
        .route("/holders/{id}", get(holders::show).post(holders::save))
        .route("/find", get(find::show))
        .route("/L/{mark}", get(find::scanned))
        .route("/l/{mark}", get(find::scanned))
        .route("/undo", post(voids::undo))
        .route("/entries/{id}/void", get(voids::show).post(voids::save))
}

/// What may carry a photo.
pub fn uploads() -> Router<App> {
    Router::new().route("/bags/{id}/count", post(count::save)).layer(DefaultBodyLimit::max(UPLOAD))
}

pub fn all_sql() -> Vec<&'static str> {
    [store::ALL, close::ALL, find::ALL, happened::ALL, holders::store::ALL, voids::ALL].concat()
}
