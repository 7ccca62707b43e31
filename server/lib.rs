//! Hilum: numbered seed lots from packet to labelled tray cell, and the club's germination table.

pub mod accounts;
pub mod app;
pub mod clock;
pub mod config;
pub mod db;
pub mod error;
pub mod marks;
pub mod notebook;
pub mod web;

/// Every SQL text of the app, for the test that prepares each on both engines.
pub fn all_sql() -> Vec<&'static str> {
    [accounts::store::ALL, marks::ALL, web::once::ALL, web::session::ALL, &notebook::all_sql()].concat()
}
