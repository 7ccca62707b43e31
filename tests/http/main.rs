//! The whole app over HTTP, without sockets: the router is called as a function. SQLite by default;
//! `TEST_DATABASE_URL=postgres://...` runs the same tests on PostgreSQL.

mod accounts;
mod sql;
mod support;
