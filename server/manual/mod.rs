//! The manual: Markdown under `templates/manual`, read in the repository and served under Help. What the methods page
//! says of a number is also what the pages with that number say of it.

mod pages;
mod render;
mod text;

use crate::app::App;
use axum::Router;
use axum::routing::get;

pub use text::{Told, quoted, told};

pub fn routes() -> Router<App> {
    Router::new().route("/help", get(pages::contents)).route("/help/{page}", get(pages::show))
}
