//! Ordered steps before the paper, and the solutions they need.

pub mod actions;
pub mod cautions;
pub mod mixing;
pub mod model;
pub mod pages;
pub mod said;
pub mod solutions;
mod starters;
pub mod store;

pub use starters::ensure_starters;

use crate::app::App;
use axum::Router;
use axum::routing::{get, post};

pub fn routes() -> Router<App> {
    Router::new()
        .route("/routines", get(pages::list))
        .route("/routines/new", get(pages::new).post(actions::add))
        .route("/routines/{id}", get(pages::show))
        .route("/routines/{id}/edit", get(pages::edit).post(actions::edit))
        .route("/routines/{id}/retire", post(actions::retire))
        .route("/mix", get(pages::mix).post(actions::made))
}

pub fn all_sql() -> Vec<&'static str> {
    [store::ALL, solutions::ALL].concat()
}
