//! Backups: taken while the program runs, verified by opening them, tried out, restored; and upgrades, each after one.

pub mod archive;
mod build;
mod fault;
mod here;
pub mod keep;
mod kind;
pub mod names;
mod pages;
pub mod restore;
pub mod schedule;
mod store;
mod swap;
pub mod take;
pub mod upgrade;
mod ways_in;

pub use fault::Fault;
pub use here::last_good;
pub use store::{Row, last_tried, latest};

use crate::app::App;
use axum::Router;
use axum::routing::get;

pub fn routes() -> Router<App> {
    Router::new().route("/backups", get(pages::show))
}

pub fn all_sql() -> Vec<&'static str> {
    store::ALL.to_vec()
}

/// `640 kB`, `1.2 MB`.
pub fn size(bytes: i64) -> String {
    match bytes {
        ..1_000_000 => format!("{} kB", (bytes + 999) / 1000),
        1_000_000..1_000_000_000 => format!("{:.1} MB", bytes as f64 / 1e6),
        _ => format!("{:.1} GB", bytes as f64 / 1e9),
    }
}
