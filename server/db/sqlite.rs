use super::{Db, Health, Trouble, health, migrate};
use sqlx::Connection;
use sqlx::sqlite::{
    SqliteConnectOptions, SqliteJournalMode, SqlitePool, SqlitePoolOptions, SqliteSynchronous,
};
use std::path::Path;
use std::time::Duration;

const READERS: u32 = 4;
/// For so long a page waits for its turn; then it says that the disk is slow.
const TURN: Duration = Duration::from_secs(10);

/// One writer, some read-only readers, WAL, a sync at each commit. A damaged file is opened for reading where that
/// is possible.
pub async fn open(path: &Path) -> Result<Db, sqlx::Error> {
    pools(path).await.map_err(|error| match Trouble::of(&error) {
        Some(Trouble::Damaged) => unreadable(path, &error),
        _ => error,
    })
}

async fn pools(path: &Path) -> Result<Db, sqlx::Error> {
    let base = SqliteConnectOptions::new()
        .filename(path)
        .foreign_keys(true)
        .busy_timeout(Duration::from_secs(5))
        .pragma("trusted_schema", "OFF")
        .pragma("cell_size_check", "ON");
    let write = base
        .clone()
        .create_if_missing(true)
        .journal_mode(SqliteJournalMode::Wal)
        .synchronous(SqliteSynchronous::Full);
    let writer = writer(write).await?;
    let readers = kept_open(READERS)
        .acquire_timeout(TURN)
        .connect_with(base.read_only(true).pragma("query_only", "ON"))
        .await?;
    let db = Db::Sqlite { writer: writer.clone(), readers, health: Health::default() };
    health::look_over(&db).await;
    if db.damaged() {
        must_be_current(&db, path).await?;
    } else {
        migrate::sqlite(&writer).await?;
        verify(&db).await?;
    }
    Ok(db)
}

/// So many connections, all opened at the start and for good: pages are read also while no file can be opened.
fn kept_open(connections: u32) -> SqlitePoolOptions {
    let options = SqlitePoolOptions::new().max_connections(connections).min_connections(connections);
    options.idle_timeout(None).max_lifetime(None)
}

/// SQLite itself rolls back after a full disk or an error of the disk; sqlx then counts one transaction too many on
/// that connection and begins no other. So such a connection is not used again.
async fn writer(options: SqliteConnectOptions) -> Result<SqlitePool, sqlx::Error> {
    kept_open(1)
        .acquire_timeout(TURN)
        .after_release(|conn, _| {
            Box::pin(async move {
                conn.ping().await?;
                Ok(!conn.is_in_transaction())
            })
        })
        .connect_with(options)
        .await
}

fn unreadable(path: &Path, why: &dyn std::fmt::Display) -> sqlx::Error {
    let text = format!(
        "the database {} is damaged and cannot be opened ({why}). Leave it as it is and restore the last backup",
        path.display()
    );
    sqlx::Error::Configuration(text.into())
}

#[derive(sqlx::FromRow)]
struct Step {
    version: i64,
}

/// A damaged file is not migrated: it can be read only where its tables are those of this program.
async fn must_be_current(db: &Db, path: &Path) -> Result<(), sqlx::Error> {
    const STEP: &str = "SELECT COALESCE(MAX(version), 0) AS version FROM _sqlx_migrations";
    let step: Step = db.read().await?.one(STEP, vec![]).await?;
    if step.version == migrate::newest() {
        return Ok(());
    }
    Err(unreadable(path, &"and its tables are of another version"))
}

#[derive(sqlx::FromRow)]
struct Pragma {
    journal_mode: String,
    synchronous: i64,
    foreign_keys: i64,
}

/// Reads the settings back: a file system without WAL, say, must not pass in silence.
async fn verify(db: &Db) -> Result<(), sqlx::Error> {
    const SETTINGS: &str = "SELECT j.journal_mode, s.synchronous, f.foreign_keys
        FROM pragma_journal_mode AS j, pragma_synchronous AS s, pragma_foreign_keys AS f";
    const FULL: i64 = 2;
    let p: Pragma = db.write().await?.one(SETTINGS, vec![]).await?;
    if p.journal_mode == "wal" && p.synchronous == FULL && p.foreign_keys == 1 {
        return Ok(());
    }
    Err(sqlx::Error::Configuration(
        format!(
            "SQLite did not take the settings that keep counts safe (journal {}, synchronous {}, foreign keys {}); \
             is the data folder on a network disk?",
            p.journal_mode, p.synchronous, p.foreign_keys
        )
        .into(),
    ))
}
