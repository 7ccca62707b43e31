use super::arg::{postgres, sqlite};
use super::turns::Turn;
use super::{Arg, Health};
use futures_util::TryStreamExt;
use sqlx::pool::PoolConnection;
use sqlx::postgres::PgRow;
use sqlx::sqlite::SqliteRow;
use sqlx::{Either, Executor, FromRow, Postgres, SqlSafeStr, Sqlite, Transaction};
use std::pin::Pin;

/// A row that both engines deliver.
pub trait Row: for<'r> FromRow<'r, SqliteRow> + for<'r> FromRow<'r, PgRow> + Send + Unpin {}
impl<T> Row for T where T: for<'r> FromRow<'r, SqliteRow> + for<'r> FromRow<'r, PgRow> + Send + Unpin {}

/// A connection: one that reads, or one inside a write transaction. Store functions take `&mut Conn`.
pub enum Conn {
    SqliteRead(PoolConnection<Sqlite>, Health),
    SqliteSnapshot(Transaction<'static, Sqlite>, Health),
    SqliteWrite(Turn, Health),
    PostgresRead(PoolConnection<Postgres>, Health),
    PostgresWrite(Transaction<'static, Postgres>, Health),
}

/// A row as its engine gave it.
pub(super) enum Raw {
    Sqlite(SqliteRow),
    Postgres(PgRow),
}

impl Raw {
    fn read<T: Row>(&self) -> Result<T, sqlx::Error> {
        match self {
            Self::Sqlite(row) => T::from_row(row),
            Self::Postgres(row) => T::from_row(row),
        }
    }
}

type Answer<'a, T> = Pin<Box<dyn Future<Output = Result<T, sqlx::Error>> + Send + 'a>>;

/// Runs `$body` with the query `$q` and the connection `$e` on whichever engine `$conn` is.
macro_rules! on_engine {
    ($conn:expr, $sql:expr, $args:expr, |$q:ident, $e:ident, $raw:ident| $body:expr) => {{
        tracing::trace!(target: "hilum::sql", text = $sql);
        match $conn {
            Conn::SqliteRead(c, health) => {
                on_engine!(@ c, health, $sql, $sql.into_sql_str(), sqlite($args), Sqlite, |$q, $e, $raw| $body)
            }
            Conn::SqliteSnapshot(c, health) => {
                on_engine!(@ c, health, $sql, $sql.into_sql_str(), sqlite($args), Sqlite, |$q, $e, $raw| $body)
            }
            Conn::SqliteWrite(c, health) => {
                let (text, args) = c.with_later($sql, $args);
                let result = on_engine!(@ c, health, $sql, text, sqlite(args), Sqlite, |$q, $e, $raw| $body);
                c.heed(result)
            }
            Conn::PostgresRead(c, health) => {
                on_engine!(@ c, health, $sql, $sql.into_sql_str(), postgres($args), Postgres, |$q, $e, $raw| $body)
            }
            Conn::PostgresWrite(c, health) => {
                on_engine!(@ c, health, $sql, $sql.into_sql_str(), postgres($args), Postgres, |$q, $e, $raw| $body)
            }
        }
    }};
    (@ $c:ident, $health:ident, $sql:expr, $text:expr, $encoded:expr, $engine:ident, |$q:ident, $e:ident, $raw:ident| $body:expr) => {{
        $health.lets($sql)?;
        let $q = sqlx::query_with::<$engine, _>($text, $encoded.map_err(sqlx::Error::Encode)?);
        let ($e, $raw) = (&mut **$c, Raw::$engine);
        $health.seen($body)
    }};
}

/// The engines' own code is compiled here once, behind boxed futures, and not again for each type of row.
#[expect(clippy::disallowed_methods, reason = "the one place that runs SQL")]
impl Conn {
    pub(super) fn every(&mut self, sql: &'static str, args: Vec<Arg>) -> Answer<'_, Vec<Raw>> {
        Box::pin(async move {
            on_engine!(self, sql, args, |q, e, raw| q
                .fetch_all(e)
                .await
                .map(|rows| rows.into_iter().map(raw).collect()))
        })
    }

    fn first(&mut self, sql: &'static str, args: Vec<Arg>) -> Answer<'_, Option<Raw>> {
        Box::pin(async move {
            on_engine!(self, sql, args, |q, e, raw| q.fetch_optional(e).await.map(|row| row.map(raw)))
        })
    }

    fn execute(&mut self, sql: &'static str, args: Vec<Arg>) -> Answer<'_, u64> {
        Box::pin(async move {
            on_engine!(self, sql, args, |q, e, _raw| {
                let (mut steps, mut rows) = (e.fetch_many(q), Ok(0));
                // of several statements, what the last one touched
                loop {
                    match steps.try_next().await {
                        Ok(Some(Either::Left(done))) => rows = Ok(done.rows_affected()),
                        Ok(Some(Either::Right(_))) => {}
                        Ok(None) => break rows,
                        Err(error) => break Err(error),
                    }
                }
            })
        })
    }
}

impl Conn {
    /// Every row.
    pub async fn all<T: Row>(&mut self, sql: &'static str, args: Vec<Arg>) -> Result<Vec<T>, sqlx::Error> {
        self.every(sql, args).await?.iter().map(Raw::read).collect()
    }

    /// The first row, if there is one.
    pub async fn maybe<T: Row>(
        &mut self,
        sql: &'static str,
        args: Vec<Arg>,
    ) -> Result<Option<T>, sqlx::Error> {
        self.first(sql, args).await?.as_ref().map(Raw::read).transpose()
    }

    /// The first row; `RowNotFound` where there is none.
    pub async fn one<T: Row>(&mut self, sql: &'static str, args: Vec<Arg>) -> Result<T, sqlx::Error> {
        self.maybe(sql, args).await?.ok_or(sqlx::Error::RowNotFound)
    }

    /// Runs a statement; how many rows it touched.
    pub async fn run(&mut self, sql: &'static str, args: Vec<Arg>) -> Result<u64, sqlx::Error> {
        self.execute(sql, args).await
    }

    /// Runs a statement of which only an error would matter: before the next one that gives something, or the commit,
    /// and with that in one message to the engine where it takes several.
    pub async fn later(&mut self, sql: &'static str, args: Vec<Arg>) -> Result<(), sqlx::Error> {
        match self {
            Self::SqliteWrite(turn, health) if !turn.has_enough() => {
                tracing::trace!(target: "hilum::sql", text = sql);
                health.lets(sql)?;
                turn.put_off(sql, args);
                Ok(())
            }
            _ => self.run(sql, args).await.map(drop),
        }
    }

    /// Whether SQLite is behind it.
    pub(super) fn is_sqlite(&self) -> bool {
        matches!(self, Self::SqliteRead(..) | Self::SqliteSnapshot(..) | Self::SqliteWrite(..))
    }

    /// Makes the transaction last. On a reading connection there is nothing to do.
    pub async fn commit(mut self) -> Result<(), sqlx::Error> {
        if let Self::SqliteWrite(turn, health) = &self {
            health.lets("COMMIT")?;
            let last = turn.last();
            self.run(last, Vec::new()).await?;
        }
        match self {
            Self::SqliteWrite(turn, health) => health.seen(turn.commit().await),
            Self::PostgresWrite(tx, health) => {
                health.lets("COMMIT")?;
                health.seen(tx.commit().await)
            }
            Self::SqliteRead(..) | Self::SqliteSnapshot(..) | Self::PostgresRead(..) => Ok(()),
        }
    }
}
