//! The database: one SQL text, two engines. The only module that may call `sqlx::query*`.
//!
//! SQL is a `&'static str` with `$1 ..` placeholders; parameters are the closed set [`Arg`]; rows are any
//! `#[derive(FromRow)]` struct. Feature code never names an engine.

mod arg;
mod conn;
mod health;
pub mod ids;
pub mod migrate;
mod plain;
mod postgres;
mod sqlite;
mod trouble;

pub use arg::Arg;
pub use conn::{Conn, Row};
pub use health::Health;
pub use sqlx::FromRow;
pub use trouble::Trouble;

use sqlx::{PgPool, SqlitePool};
use std::path::Path;
use std::sync::Arc;

/// A pair of pools on one engine: one that may write, one that only reads.
#[derive(Clone)]
pub enum Db {
    Sqlite { writer: SqlitePool, readers: SqlitePool, health: Health },
    Postgres { writer: PgPool, readers: PgPool, health: Health },
}

impl Db {
    /// Opens `postgres://...` or `sqlite:PATH` (created where missing) and brings the schema up to date.
    pub async fn open(url: &str) -> Result<Self, sqlx::Error> {
        if url.starts_with("postgres:") || url.starts_with("postgresql:") {
            postgres::open(url).await
        } else {
            sqlite::open(Path::new(url.trim_start_matches("sqlite:"))).await
        }
    }

    /// A connection that only reads. The engine itself refuses a write on it.
    pub async fn read(&self) -> Result<Conn, sqlx::Error> {
        let health = self.health();
        Ok(match self {
            Self::Sqlite { readers, .. } => {
                Conn::SqliteRead(health.seen(readers.acquire().await)?, health.clone())
            }
            Self::Postgres { readers, .. } => {
                Conn::PostgresRead(health.seen(readers.acquire().await)?, health.clone())
            }
        })
    }

    /// A write transaction. Dropping it without [`Conn::commit`] rolls everything back. Refused where the database is
    /// damaged.
    pub async fn write(&self) -> Result<Conn, sqlx::Error> {
        let health = self.health();
        health.must_be_sound()?;
        health.lets("BEGIN")?;
        Ok(match self {
            Self::Sqlite { writer, .. } => {
                let begun = writer.begin_with("BEGIN IMMEDIATE").await;
                Conn::SqliteWrite(health.seen(begun)?, health.clone())
            }
            Self::Postgres { writer, .. } => {
                Conn::PostgresWrite(health.seen(writer.begin().await)?, health.clone())
            }
        })
    }

    /// Whether the database was found damaged since the start.
    pub fn damaged(&self) -> bool {
        self.health().damaged()
    }

    /// What the engine finds wrong in all that is kept, in its own words; empty where nothing is.
    pub async fn faults(&self) -> Result<Vec<String>, sqlx::Error> {
        health::faults(&mut self.read().await?, true).await
    }

    /// The same database for a test: its statements fail where `fault` says so.
    pub fn failing(self, fault: impl Fn(&'static str) -> bool + Send + Sync + 'static) -> Self {
        match self {
            Self::Sqlite { writer, readers, health } => {
                Self::Sqlite { writer, readers, health: health.with(Arc::new(fault)) }
            }
            Self::Postgres { writer, readers, health } => {
                Self::Postgres { writer, readers, health: health.with(Arc::new(fault)) }
            }
        }
    }

    fn health(&self) -> &Health {
        match self {
            Self::Sqlite { health, .. } | Self::Postgres { health, .. } => health,
        }
    }

    /// The engine's name for people: logs, `check`, the about page.
    pub fn engine(&self) -> &'static str {
        match self {
            Self::Sqlite { .. } => "SQLite",
            Self::Postgres { .. } => "PostgreSQL",
        }
    }

    /// Waits for connections to come home and closes them.
    pub async fn close(&self) {
        match self {
            Self::Sqlite { writer, readers, .. } => {
                readers.close().await;
                writer.close().await;
            }
            Self::Postgres { writer, readers, .. } => {
                readers.close().await;
                writer.close().await;
            }
        }
    }
}

/// Whether `error` is a broken unique rule (the same on both engines).
pub fn is_taken(error: &sqlx::Error) -> bool {
    error.as_database_error().is_some_and(sqlx::error::DatabaseError::is_unique_violation)
}

/// Whether `error` is a broken CHECK rule.
pub fn is_refused(error: &sqlx::Error) -> bool {
    error.as_database_error().is_some_and(sqlx::error::DatabaseError::is_check_violation)
}

/// Parameters for a query, in the order of `$1 ..`: `args![member, id, day]`.
#[macro_export]
macro_rules! args {
    ($($value:expr),* $(,)?) => { vec![$($crate::db::Arg::from($value)),*] };
}
