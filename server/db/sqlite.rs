use super::{Db, migrate};
use sqlx::sqlite::{SqliteConnectOptions, SqliteJournalMode, SqlitePoolOptions, SqliteSynchronous};
use std::path::Path;
use std::time::Duration;

const READERS: u32 = 4;

/// One writer, some read-only readers, WAL, a sync at each commit.
pub async fn open(path: &Path) -> Result<Db, sqlx::Error> {
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
    let writer = SqlitePoolOptions::new().max_connections(1).min_connections(1).connect_with(write).await?;
    migrate::sqlite(&writer).await?;
    let readers = SqlitePoolOptions::new()
        .max_connections(READERS)
        .connect_with(base.read_only(true).pragma("query_only", "ON"))
        .await?;
    let db = Db::Sqlite { writer, readers };
    verify(&db).await?;
    Ok(db)
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
