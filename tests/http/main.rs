//! The whole app over HTTP, without sockets: the router is called as a function. SQLite by default;
//! `TEST_DATABASE_URL=postgres://...` runs the same tests on PostgreSQL.

mod accounts;
mod architecture;
mod bags;
mod calculators;
mod calendar;
mod cards;
mod compare;
mod csrf;
mod floaters;
mod headers;
mod isolation;
mod labels;
mod members;
mod photos;
mod rates;
mod rings;
mod routines;
mod settings;
mod sql;
mod standing;
mod stock;
mod support;
mod transfer;
mod trays;
mod trials;
mod upkeep;
