//! Journeys in a real browser against the real program, at phone size first. SQLite by default;
//! `TEST_DATABASE_URL=postgres://...` runs them on PostgreSQL. Screenshots go to `target/screenshots`.

mod decide;
mod every_page;
mod journey;
mod manual;
mod outbox;
mod paper;
mod passkeys;
mod policy;
mod ring;
mod season;
mod shed;

mod support;
mod workday;
