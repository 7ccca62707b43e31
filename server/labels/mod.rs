//! Labels of vials, bags, pots and tray ends on any sheet: drawn to scale, with a code that opens the thing and its
//! mark in large letters.

mod draw;
mod measures;
mod pages;
mod scanned;
mod sheet;
mod sheets;
mod store;
mod things;

use crate::app::App;
use axum::Router;
use axum::routing::{get, post};

pub fn routes() -> Router<App> {
    Router::new()
        .route("/labels", get(pages::choose))
        .route("/labels/print", get(pages::print))
        .route("/labels/paper/{size}", get(pages::paper))
        .route("/labels/sheets", get(sheets::list))
        .route("/labels/sheets/new", get(sheets::new).post(sheets::add))
        .route("/labels/sheets/{id}", get(sheets::edit).post(sheets::change))
        .route("/labels/sheets/{id}/remove", post(sheets::remove))
        .route("/labels/sheets/{id}/test", get(sheets::test))
        .route("/trials/{id}/labels", get(pages::of_trial))
        .route("/V/{vial}", get(scanned::vial))
        .route("/P/{pot}", get(scanned::pot))
}

pub fn all_sql() -> Vec<&'static str> {
    store::ALL.to_vec()
}
