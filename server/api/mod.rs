//! What members' own programs ask: /api/v1 reads and records as JSON, with a token; /api tells people how.
//!
//! `table` gives each address its handler and its place in the document at once, so that neither can lack the other.
//! `reads` shows what the stores of the features know. `saves` turns what was sent into the fields of a form and hands
//! it to the form's own handler (`record`): the rules, the notebook and the keys of `once` are those of the pages.
//! A save is a POST with an `id` in its body, made by the sender, and not a PUT to that id: one save may write several
//! entries, bags or plantings, so the id names the save (as the form's key does), not what comes of it; and in the
//! body it stays with the content wherever that waits to be sent again.

mod ask;
mod document;
mod list;
mod page;
mod problem;
mod reads;
mod record;
mod saves;
mod table;
mod values;

use crate::app::App;
use crate::texts;
use crate::web::pace;
use axum::Router;
use axum::extract::DefaultBodyLimit;
use axum::routing::{any, get};
use problem::{Problem, kinds};
use std::sync::Arc;
use table::Table;
use tower_http::catch_panic::CatchPanicLayer;
use tower_http::timeout::TimeoutLayer;

/// Where the addresses of [`table`] begin.
const ROOT: &str = "/api/v1";
/// Everything else below /api.
const REST: &str = "/api/{*rest}";
/// The most that is read of a body, in bytes.
const BODY: usize = 64 * 1024;

/// The addresses of `app`; `forms` is the router of the pages, to which saves are handed on.
pub fn routes(app: &App, forms: Router, within: TimeoutLayer) -> Router<App> {
    let Table { router, operations, .. } = saves::add(reads::add(Table::new(forms)));
    let operations = Arc::new(operations);
    let (told, shown) = (operations.clone(), operations);
    let answers = router
        .route(REST, any(|| async { Problem::of(&kinds::NOT_FOUND) }))
        .method_not_allowed_fallback(|| async { Problem::of(&kinds::METHOD) })
        .route("/api/v1/openapi.json", get(move |app| document::show(app, told)))
        .layer(within)
        .layer(axum::middleware::from_fn_with_state(app.clone(), pace::keep))
        .layer(CatchPanicLayer::custom(problem::panicked))
        .layer(axum::middleware::map_response(problem::only))
        .layer(axum::middleware::from_fn(texts::in_english))
        .layer(DefaultBodyLimit::max(BODY));
    answers.route("/api", get(move |app, chrome| page::show(app, chrome, shown)))
}
