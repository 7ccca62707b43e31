//! The database: one SQL text, two engines. The only module that may call `sqlx::query*`.
//!
//! SQL is a `&'static str` with `$1 ..` placeholders; parameters are the closed set [`Arg`]; rows are any
//! `#[derive(FromRow)]` struct. Feature code never names an engine.

mod arg;
mod conn;
pub mod copy;
mod health;
pub mod ids;
pub mod migrate;
mod plain;
mod postgres;
pub mod reach;
pub mod schema;
mod sqlite;
mod trouble;
mod turns;

pub use arg::Arg;
pub use conn::{Conn, Row};
pub use health::Health;
pub use sqlx::FromRow;
pub use trouble::Trouble;
pub use turns::attend;

use crate::metrics::{Waits, Work};
use sqlx::error::BoxDynError;
use sqlx::{PgPool, SqlitePool};
use std::path::Path;
use std::sync::Arc;
use std::time::Instant;
use turns::Writer;

/// A pair of pools on one engine: one that may write, one that only reads.
#[derive(Clone)]
pub enum Db {
    Sqlite { writer: Writer, readers: SqlitePool, health: Health },
    Postgres { writer: PgPool, readers: PgPool, health: Health },
}

impl Db {
    /// Opens `postgres://...` or `sqlite:PATH` (created where missing) and brings the schema up to date; a damaged file
    /// is opened for reading where that is possible, and not changed.
    pub async fn open(url: &str) -> Result<Self, sqlx::Error> {
        Self::open_after(url, async |_| Ok(())).await
    }

    /// The same; where a club is in an older database, `before` is done first, with the step it is at.
    pub async fn open_after(
        url: &str,
        before: impl AsyncFnOnce(i64) -> Result<(), BoxDynError>,
    ) -> Result<Self, sqlx::Error> {
        match file(url) {
            None => postgres::open(url, before).await,
            Some(path) => sqlite::open(path, before).await,
        }
    }

    /// One connection, for work on the schema or on all tables: SQLite (the file is made where missing) enforces no
    /// foreign keys on it.
    pub async fn alone(url: &str) -> Result<Self, sqlx::Error> {
        match file(url) {
            None => postgres::alone(url).await,
            Some(path) => sqlite::alone(path).await,
        }
    }

    /// A database that is there, without bringing its schema up to date.
    pub async fn as_it_is(url: &str) -> Result<Self, sqlx::Error> {
        match file(url) {
            None => postgres::as_it_is(url).await,
            Some(path) => sqlite::as_it_is(path).await,
        }
    }

    /// A SQLite file that nobody writes to, for reading alone.
    pub async fn still(path: &Path) -> Result<Self, sqlx::Error> {
        sqlite::still(path).await
    }

    /// A connection that only reads. The engine itself refuses a write on it.
    pub async fn read(&self) -> Result<Conn, sqlx::Error> {
        turns::settled().await?;
        let (health, began) = (self.health(), Instant::now());
        let reader = match self {
            Self::Sqlite { readers, .. } => {
                Conn::SqliteRead(health.seen(readers.acquire().await)?, health.clone())
            }
            Self::Postgres { readers, .. } => {
                Conn::PostgresRead(health.seen(readers.acquire().await)?, health.clone())
            }
        };
        health.waits().waited(Work::Read, began.elapsed());
        Ok(reader)
    }

    /// A transaction that only reads: all of it as it was at the first look.
    pub async fn snapshot(&self) -> Result<Conn, sqlx::Error> {
        turns::settled().await?;
        let health = self.health();
        Ok(match self {
            Self::Sqlite { readers, .. } => {
                Conn::SqliteSnapshot(health.seen(readers.begin().await)?, health.clone())
            }
            Self::Postgres { readers, .. } => {
                let begun = readers.begin_with("BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY").await;
                Conn::PostgresWrite(health.seen(begun)?, health.clone())
            }
        })
    }

    /// Writes all of a SQLite database to `path`, empty or not there, while it is in use.
    pub async fn copy_into(&self, path: &Path) -> Result<(), sqlx::Error> {
        match self {
            Self::Sqlite { writer, health, .. } => health.seen(sqlite::copy_into(&writer.pool, path).await),
            Self::Postgres { .. } => Err(sqlx::Error::Protocol("PostgreSQL is not one file".to_owned())),
        }
    }

    /// Whether another running Hilum is connected to it, as far as the engine tells. A SQLite file is left in one
    /// piece, without a journal.
    pub async fn in_use(&self) -> Result<bool, sqlx::Error> {
        match self {
            Self::Sqlite { writer, .. } => sqlite::in_use(&writer.pool).await,
            Self::Postgres { writer, .. } => postgres::in_use(writer).await,
        }
    }

    /// A write transaction. Dropping it without [`Conn::commit`] rolls everything back. Refused where the database is
    /// damaged.
    pub async fn write(&self) -> Result<Conn, sqlx::Error> {
        turns::settled().await?;
        let (health, began) = (self.health(), Instant::now());
        health.must_be_sound()?;
        health.lets("BEGIN")?;
        let writer = match self {
            Self::Sqlite { writer, .. } => {
                Conn::SqliteWrite(health.seen(writer.turn().await)?, health.clone())
            }
            Self::Postgres { writer, .. } => {
                Conn::PostgresWrite(health.seen(writer.begin().await)?, health.clone())
            }
        };
        health.waits().waited(Work::Write, began.elapsed());
        Ok(writer)
    }

    /// How long reading and writing waited for their turn.
    pub fn waits(&self) -> Waits {
        self.health().waits().clone()
    }

    /// What of the engine's settings lets a power cut take what members saw saved; SQLite's are set at each opening.
    pub async fn weak_settings(&self) -> Result<Vec<String>, sqlx::Error> {
        let mut conn = self.read().await?;
        if conn.is_sqlite() { Ok(Vec::new()) } else { postgres::weak(&mut conn).await }
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

    /// The same, where it is not the club's database but a copy of it or a backup.
    pub fn aside(self) -> Self {
        match self {
            Self::Sqlite { writer, readers, health } => {
                Self::Sqlite { writer, readers, health: health.aside() }
            }
            Self::Postgres { writer, readers, health } => {
                Self::Postgres { writer, readers, health: health.aside() }
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
                writer.pool.close().await;
            }
            Self::Postgres { writer, readers, .. } => {
                readers.close().await;
                writer.close().await;
            }
        }
    }
}

/// The file of a SQLite address; `None` for PostgreSQL.
pub fn file(url: &str) -> Option<&Path> {
    let postgres = url.starts_with("postgres:") || url.starts_with("postgresql:");
    if postgres { None } else { Some(Path::new(url.trim_start_matches("sqlite:"))) }
}

/// Whether `error` is a broken unique rule (the same on both engines).
pub fn is_taken(error: &sqlx::Error) -> bool {
    error.as_database_error().is_some_and(sqlx::error::DatabaseError::is_unique_violation)
}

/// Parameters for a query, in the order of `$1 ..`: `args![member, id, day]`.
#[macro_export]
macro_rules! args {
    ($($value:expr),* $(,)?) => { vec![$($crate::db::Arg::from($value)),*] };
}
