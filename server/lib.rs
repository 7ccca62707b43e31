//! Hilum: numbered seed lots from packet to labelled tray cell, and the club's germination table.
//!
//! One folder for each noun; inside, the same names: `mod.rs` (addresses), `model.rs` (types and rules, no I/O),
//! `store.rs` (SQL), `pages.rs` (GET), `actions.rs` (POST). See DEVELOPERS.md.

#[macro_use]
pub mod texts;

pub mod accounts;
mod api;
pub mod app;
pub mod audit;
pub mod backups;
pub mod bags;
pub mod calculators;
pub mod calendar;
pub mod cards;
pub mod charts;
pub mod clock;
pub mod compare;
pub mod config;
pub mod db;
pub mod error;
pub mod host;
pub mod labels;
mod leases;
pub mod manual;
pub mod marks;
pub mod metrics;
pub mod notebook;
pub mod outlook;
pub mod own;
pub mod phone;
pub mod photos;
pub mod planning;
pub mod rates;
pub mod rings;
pub mod routines;
pub mod stock;
pub mod transfer;
pub mod trays;
pub mod trials;
pub mod upkeep;
pub mod web;

/// Every SQL text of the app, for the test that prepares each on both engines.
pub fn all_sql() -> Vec<&'static str> {
    let features = [
        accounts::all_sql(),
        backups::all_sql(),
        bags::all_sql(),
        calendar::all_sql(),
        cards::all_sql(),
        labels::all_sql(),
        notebook::all_sql(),
        own::all_sql(),
        photos::all_sql(),
        planning::all_sql(),
        rates::all_sql(),
        rings::all_sql(),
        routines::all_sql(),
        stock::all_sql(),
        transfer::all_sql(),
        trays::all_sql(),
        trials::all_sql(),
        upkeep::all_sql(),
    ];
    [audit::ALL, leases::ALL, marks::ALL, web::once::ALL, web::session::ALL, &features.concat()].concat()
}
