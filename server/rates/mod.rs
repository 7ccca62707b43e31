//! The club table: everyone's counts pooled by kind, variety and source.

mod adjusted;
pub mod book;
pub mod cache;
pub mod choice;
pub mod counts;
mod drawn;
mod files;
mod floaters;
pub mod known;
pub mod links;
pub mod name;
mod order;
pub mod others;
mod pages;
mod reading;
pub mod rows;
mod say;
pub mod standing;
pub mod store;
pub mod unnamed;

pub use book::{Book, Counted, Standing};
pub use cache::{Tables, book};
pub use files::numbers;

use crate::app::App;
use axum::Router;
use axum::routing::get;

pub fn routes() -> Router<App> {
    Router::new()
        .route("/table", get(pages::table))
        .route("/table.csv", get(files::table))
        .route("/counts.csv", get(files::counts))
        .route("/floaters", get(floaters::show))
}

pub fn all_sql() -> Vec<&'static str> {
    [store::ALL, standing::ALL].concat()
}
