//! Ring trials: the same lots tested by several growers on a plan, under blind marks until they are opened.

mod actions;
pub mod model;
mod pages;
pub mod plan;
mod result;
pub mod store;

use crate::app::App;
use axum::Router;
use axum::routing::{get, post};

pub fn routes() -> Router<App> {
    Router::new()
        .route("/rings", get(pages::list::list))
        .route("/rings/new", get(pages::new::new).post(actions::plan::new))
        .route("/rings/{id}", get(pages::show::show))
        .route("/rings/{id}/numbers", post(actions::plan::numbers))
        .route("/rings/{id}/draw", post(actions::hand_out::draw))
        .route("/rings/{id}/hand-out", post(actions::hand_out::hand_out))
        .route("/rings/{id}/labels", get(pages::paper::labels))
        .route("/rings/{id}/key", get(pages::paper::key))
        .route("/rings/{id}/open", get(pages::open::open).post(actions::end::open))
        .route("/rings/{id}/give-up", post(actions::end::give_up))
}

pub fn all_sql() -> Vec<&'static str> {
    store::all_sql()
}
