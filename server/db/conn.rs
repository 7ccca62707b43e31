use super::Arg;
use super::arg::{postgres, sqlite};
use sqlx::pool::PoolConnection;
use sqlx::postgres::PgRow;
use sqlx::sqlite::SqliteRow;
use sqlx::{FromRow, Postgres, Sqlite, Transaction};

/// A row that both engines deliver.
pub trait Row: for<'r> FromRow<'r, SqliteRow> + for<'r> FromRow<'r, PgRow> + Send + Unpin {}
impl<T> Row for T where T: for<'r> FromRow<'r, SqliteRow> + for<'r> FromRow<'r, PgRow> + Send + Unpin {}

/// A connection: one that reads, or one inside a write transaction. Store functions take `&mut Conn`.
pub enum Conn {
    SqliteRead(PoolConnection<Sqlite>),
    SqliteWrite(Transaction<'static, Sqlite>),
    PostgresRead(PoolConnection<Postgres>),
    PostgresWrite(Transaction<'static, Postgres>),
}

macro_rules! query {
    ($conn:expr, $sql:expr, $args:expr, |$q:ident, $e:ident| $body:expr, $kind:ident $(::<$row:ty>)?) => {
        match $conn {
            Conn::SqliteRead(c) => {
                let ($q, $e) = (query!(@ $kind, Sqlite $(, $row)?)($sql, encoded(sqlite($args))?), &mut **c);
                $body
            }
            Conn::SqliteWrite(c) => {
                let ($q, $e) = (query!(@ $kind, Sqlite $(, $row)?)($sql, encoded(sqlite($args))?), &mut **c);
                $body
            }
            Conn::PostgresRead(c) => {
                let ($q, $e) = (query!(@ $kind, Postgres $(, $row)?)($sql, encoded(postgres($args))?), &mut **c);
                $body
            }
            Conn::PostgresWrite(c) => {
                let ($q, $e) = (query!(@ $kind, Postgres $(, $row)?)($sql, encoded(postgres($args))?), &mut **c);
                $body
            }
        }
    };
    (@ rows, $db:ident, $row:ty) => { sqlx::query_as_with::<$db, $row, _> };
    (@ plain, $db:ident) => { sqlx::query_with::<$db, _> };
}

#[expect(clippy::disallowed_methods, reason = "the one place that runs SQL")]
impl Conn {
    /// Every row.
    pub async fn all<T: Row>(&mut self, sql: &'static str, args: Vec<Arg>) -> Result<Vec<T>, sqlx::Error> {
        query!(self, sql, args, |q, e| q.fetch_all(e).await, rows::<T>)
    }

    /// The first row, if there is one.
    pub async fn maybe<T: Row>(
        &mut self,
        sql: &'static str,
        args: Vec<Arg>,
    ) -> Result<Option<T>, sqlx::Error> {
        query!(self, sql, args, |q, e| q.fetch_optional(e).await, rows::<T>)
    }

    /// The first row; `RowNotFound` where there is none.
    pub async fn one<T: Row>(&mut self, sql: &'static str, args: Vec<Arg>) -> Result<T, sqlx::Error> {
        query!(self, sql, args, |q, e| q.fetch_one(e).await, rows::<T>)
    }

    /// Runs a statement; how many rows it touched.
    pub async fn run(&mut self, sql: &'static str, args: Vec<Arg>) -> Result<u64, sqlx::Error> {
        query!(self, sql, args, |q, e| q.execute(e).await.map(|r| r.rows_affected()), plain)
    }

    /// Makes the transaction last. On a reading connection there is nothing to do.
    pub async fn commit(self) -> Result<(), sqlx::Error> {
        match self {
            Self::SqliteWrite(tx) => tx.commit().await,
            Self::PostgresWrite(tx) => tx.commit().await,
            Self::SqliteRead(_) | Self::PostgresRead(_) => Ok(()),
        }
    }
}

fn encoded<T>(args: Result<T, sqlx::error::BoxDynError>) -> Result<T, sqlx::Error> {
    args.map_err(sqlx::Error::Encode)
}
