//! What whoever hosts the club can see of it: whether it is ready, what it counts of itself, and the usual mistakes of a
//! host with their mends.

pub mod ask;
pub mod backups;
pub mod database;
mod finding;
pub mod folder;
mod look;
pub mod machine;
pub mod metrics;
pub mod phones;
mod probes;
pub mod proxy;

pub use finding::{Finding, Sign};
pub use look::look;

use crate::app::App;
use axum::Router;
use axum::routing::get;

pub fn routes() -> Router<App> {
    Router::new().route("/healthz", get(probes::healthz)).route("/readyz", get(probes::readyz))
}
