use super::Db;
use sqlx::sqlite::{SqliteConnectOptions, SqliteJournalMode, SqlitePoolOptions, SqliteSynchronous};
use sqlx::{ConnectOptions, SqlitePool};
use std::path::Path;
use std::time::Duration;

const READERS: u32 = 4;
/// Another process may be upgrading a large database for so long.
const UPGRADE: Duration = Duration::from_secs(600);
/// Whoever serves the file holds it open all the time, so a short wait tells.
const SHORT: Duration = Duration::from_millis(500);
/// Whole tables are read with so many rows under way; some are photos.
const ROWS_AHEAD: usize = 256;

fn base(path: &Path) -> SqliteConnectOptions {
    SqliteConnectOptions::new()
        .filename(path)
        .foreign_keys(true)
        .busy_timeout(Duration::from_secs(5))
        .pragma("trusted_schema", "OFF")
        .pragma("cell_size_check", "ON")
}

/// For work on whole tables: its statements are long, and slow ones are no news.
fn quiet(path: &Path) -> SqliteConnectOptions {
    base(path).row_buffer_size(ROWS_AHEAD).disable_statement_logging()
}

fn lasting(options: SqliteConnectOptions) -> SqliteConnectOptions {
    options.create_if_missing(true).journal_mode(SqliteJournalMode::Wal).synchronous(SqliteSynchronous::Full)
}

/// One writer, some read-only readers, WAL, a sync at each commit.
pub async fn open(path: &Path) -> Result<Db, sqlx::Error> {
    let write = lasting(base(path));
    let writer = SqlitePoolOptions::new().max_connections(1).min_connections(1).connect_with(write).await?;
    let readers = readers(base(path)).await?;
    let db = Db::Sqlite { writer, readers };
    verify(&db).await?;
    Ok(db)
}

async fn readers(options: SqliteConnectOptions) -> Result<SqlitePool, sqlx::Error> {
    let options = options.read_only(true).pragma("query_only", "ON");
    SqlitePoolOptions::new().max_connections(READERS).connect_with(options).await
}

/// One connection that enforces no foreign keys.
pub async fn alone(path: &Path) -> Result<Db, sqlx::Error> {
    let options = quiet(path).foreign_keys(false).busy_timeout(UPGRADE);
    let options = lasting(options);
    let writer = SqlitePoolOptions::new().max_connections(1).connect_with(options).await?;
    Ok(Db::Sqlite { readers: writer.clone(), writer })
}

/// Readers of a file that is there, and a writer for whatever needs one.
pub async fn as_it_is(path: &Path) -> Result<Db, sqlx::Error> {
    let readers = readers(quiet(path)).await?;
    let writer =
        SqlitePoolOptions::new().max_connections(1).connect_lazy_with(quiet(path).busy_timeout(SHORT));
    Ok(Db::Sqlite { writer, readers })
}

/// Readers of a file that nobody writes to; no journal is looked for.
pub async fn still(path: &Path) -> Result<Db, sqlx::Error> {
    let readers = readers(quiet(path).immutable(true)).await?;
    Ok(Db::Sqlite { writer: readers.clone(), readers })
}

/// Writes the whole database to `path`, which is empty or not there, while others go on.
#[expect(clippy::disallowed_methods, reason = "a statement of SQLite alone, outside any transaction")]
pub async fn copy_into(writer: &SqlitePool, path: &Path) -> Result<(), sqlx::Error> {
    sqlx::query("VACUUM INTO $1").bind(path.display().to_string()).execute(writer).await.map(drop)
}

/// Whether anybody else has the file open: only alone can its journal be put away.
#[expect(clippy::disallowed_methods, reason = "a statement of SQLite alone, outside any transaction")]
pub async fn in_use(writer: &SqlitePool) -> Result<bool, sqlx::Error> {
    match sqlx::query_scalar::<_, String>("PRAGMA journal_mode = DELETE").fetch_one(writer).await {
        Ok(mode) => Ok(mode != "delete"),
        Err(sqlx::Error::Database(error)) if error.code().as_deref() == Some("5") => Ok(true),
        Err(error) => Err(error),
    }
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
