//! Sums done for growers on one page each: nothing is stored, and the address holds the question.

mod comparison;
mod comparison_page;
mod list;
mod numbers;
mod sowing;
mod sowing_page;

use crate::app::App;
use axum::Router;
use axum::routing::get;

pub fn routes() -> Router<App> {
    Router::new()
        .route("/calculators", get(list::list))
        .route("/calculators/sowing", get(sowing_page::show))
        .route("/calculators/comparison", get(comparison_page::show))
}
