//! Trays, their cells, what became of the plants, and the printed sheet.

pub mod actions;
pub mod cells;
pub mod model;
pub mod pages;
pub mod published;
pub mod sheet;
pub mod store;

use crate::app::App;
use axum::Router;
use axum::routing::{get, post};

pub fn routes() -> Router<App> {
    Router::new()
        .route("/trays", get(pages::list::list))
        .route("/trays/new", get(pages::list::new).post(actions::trays::make))
        .route("/trays/{id}", get(pages::tray::show))
        .route("/trays/{id}/place", post(actions::trays::place))
        .route("/trays/{id}/finish", post(actions::trays::finish))
        .route("/trays/{id}/reopen", post(actions::trays::reopen))
        .route("/trays/{id}/outcomes", get(pages::outcomes::tray).post(actions::outcomes::tray))
        .route("/trays/{id}/sheet", get(pages::sheet::sheet))
        .route("/T/{mark}", get(pages::tray::by_mark))
        .route("/bags/{id}/plant", get(pages::plant::plant).post(actions::plant::plant))
        .route("/plantings/{id}", get(pages::planting::show))
        .route("/plantings/{id}/outcomes", post(actions::outcomes::planting))
        .route("/plantings/{id}/end", post(actions::outcomes::end))
}

pub fn all_sql() -> Vec<&'static str> {
    [store::tray::ALL, store::plant::ALL, store::plantings::ALL, store::outcomes::ALL].concat()
}
