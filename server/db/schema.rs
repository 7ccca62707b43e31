//! Which step of the schema a database is at, and bringing an older one up to date: by one process, all or nothing.

use super::{Conn, Db, FromRow, copy, migrate};
use crate::args;
use sqlx::error::BoxDynError;

const LISTED_SQLITE: &str =
    "SELECT COUNT(*) AS n FROM sqlite_schema WHERE type = 'table' AND name = '_sqlx_migrations'";
const LISTED_POSTGRES: &str = "SELECT COUNT(*) AS n FROM pg_catalog.pg_tables
    WHERE schemaname = current_schema() AND tablename = '_sqlx_migrations'";
const STEP: &str = "SELECT CAST(COALESCE(MAX(version), 0) AS BIGINT) AS n FROM _sqlx_migrations";
const MEMBERS: &str = "SELECT COUNT(*) AS n FROM members";
const TURN: &str = "SELECT CAST(1 AS BIGINT) AS n FROM pg_advisory_xact_lock(4862150911)";

/// A database that a newer program has worked with.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error(
    "it is at step {found} of the schema, made by a newer Hilum, and this one ({}) knows the steps up to {known}; \
     nothing was changed. Run the newer Hilum again, or restore a backup of step {known} or before",
    env!("CARGO_PKG_VERSION")
)]
pub struct Newer {
    pub found: i64,
    pub known: i64,
}

impl Newer {
    /// Refuses a step that this program does not know.
    pub fn refuse(found: i64) -> Result<(), Self> {
        let known = migrate::newest();
        if found > known { Err(Self { found, known }) } else { Ok(()) }
    }
}

#[derive(FromRow)]
struct Tally {
    n: i64,
}

/// The step that a database is at; 0 where it has none of our tables.
pub async fn step(conn: &mut Conn) -> Result<i64, sqlx::Error> {
    let listed = if conn.is_sqlite() { LISTED_SQLITE } else { LISTED_POSTGRES };
    if conn.one::<Tally>(listed, args![]).await?.n == 0 {
        return Ok(0);
    }
    Ok(conn.one::<Tally>(STEP, args![]).await?.n)
}

/// Whether a club is in it: somebody has an account.
pub async fn is_filled(conn: &mut Conn) -> Result<bool, sqlx::Error> {
    Ok(step(conn).await? > 0 && conn.one::<Tally>(MEMBERS, args![]).await?.n > 0)
}

/// Waits until no other process changes the schema; until the end of this transaction nobody writes to the tables.
pub async fn take_turn(conn: &mut Conn) -> Result<(), sqlx::Error> {
    if !conn.is_sqlite() {
        conn.one::<Tally>(TURN, args![]).await?;
        copy::hold(conn).await?;
    }
    Ok(())
}

/// Brings the schema up to date in one transaction. `before` is called first where a club is in an older database,
/// with the step it is at; where that fails, nothing is changed. The connection `alone` is closed at the end.
pub(super) async fn bring_up(
    alone: Db,
    before: impl AsyncFnOnce(i64) -> Result<(), BoxDynError>,
) -> Result<(), sqlx::Error> {
    let done = up(&alone, before).await;
    alone.close().await;
    done
}

/// Whether it is up to date. Refused where a step was changed since.
pub(super) async fn is_current(conn: &mut Conn) -> Result<bool, sqlx::Error> {
    let newest = migrate::newest();
    let current = step(conn).await? == newest;
    if current {
        migrate::up_to(conn, newest).await?;
    }
    Ok(current)
}

async fn up(db: &Db, before: impl AsyncFnOnce(i64) -> Result<(), BoxDynError>) -> Result<(), sqlx::Error> {
    if is_current(&mut db.read().await?).await? {
        return Ok(());
    }
    let newest = migrate::newest();
    let mut conn = db.write().await?;
    take_turn(&mut conn).await?;
    let from = step(&mut conn).await?;
    Newer::refuse(from).map_err(|newer| sqlx::Error::Configuration(Box::new(newer)))?;
    if from < newest && is_filled(&mut conn).await? {
        before(from).await.map_err(sqlx::Error::Configuration)?;
    }
    migrate::up_to(&mut conn, newest).await?;
    copy::refer(&mut conn).await?;
    conn.commit().await
}
