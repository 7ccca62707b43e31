use super::turns::{TURN, Writer};
use super::{Db, Health, Trouble, health, migrate, schema};
use futures_util::future::try_join_all;
use sqlx::error::BoxDynError;
use sqlx::sqlite::{
    SqliteConnectOptions, SqliteJournalMode, SqlitePool, SqlitePoolOptions, SqliteSynchronous,
};
use sqlx::{ConnectOptions, Connection, Executor};
use std::path::Path;
use std::time::{Duration, Instant};

const READERS: u32 = 4;
/// KiB of pages that each connection holds; as SQLite writes it.
const CACHE: &str = "-2048";
const AGAIN: Duration = Duration::from_millis(50);
/// Another process may be upgrading a large database for so long.
const UPGRADE: Duration = Duration::from_secs(600);
/// Whoever serves the file holds it open all the time, so a short wait tells.
const SHORT: Duration = Duration::from_millis(500);
/// Bytes. To look over a larger file takes longer than a start may.
const LARGE: u64 = 64 * 1024 * 1024;
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

/// One writer, some read-only readers, WAL, a sync at each commit. A damaged file is opened for reading where that
/// is possible.
pub async fn open(
    path: &Path,
    before: impl AsyncFnOnce(i64) -> Result<(), BoxDynError>,
) -> Result<Db, sqlx::Error> {
    opened(path, before).await.map_err(|error| match Trouble::of(&error) {
        Some(Trouble::Damaged) => {
            tracing::debug!(%error, "the database cannot be opened");
            unreadable(path, "")
        }
        _ => error,
    })
}

/// Opens again where another process is just opening the same file: SQLite does not wait while the sort of its log changes.
async fn connected(pool: SqlitePoolOptions, to: SqliteConnectOptions) -> Result<SqlitePool, sqlx::Error> {
    let began = Instant::now();
    loop {
        let opened = pool.clone().connect_with(to.clone()).await;
        let held = opened.as_ref().is_err_and(|e| Trouble::of(e) == Some(Trouble::Contended));
        if !held || began.elapsed() > TURN {
            return opened;
        }
        tokio::time::sleep(AGAIN).await;
    }
}

async fn opened(
    path: &Path,
    before: impl AsyncFnOnce(i64) -> Result<(), BoxDynError>,
) -> Result<Db, sqlx::Error> {
    // only here: it opens the log, and a file whose log is open is in use
    let options = base(path).pragma("cache_size", CACHE);
    let writer = writer(lasting(options.clone())).await?;
    let readers = readers(options).await?;
    all_open(&writer).await?;
    all_open(&readers).await?;
    let db = Db::Sqlite { writer: Writer::new(writer), readers, health: Health::default() };
    health::look_over(&db, is_large(path) && is_current(&db).await).await;
    let ready = if db.damaged() { Ok(()) } else { ready(&db, path, before).await };
    // of a large file it may have been found only meanwhile
    let ready = if db.damaged() { must_be_current(&db, path).await } else { ready };
    if ready.is_err() {
        db.close().await;
    }
    ready.map(|()| db)
}

async fn ready(
    db: &Db,
    path: &Path,
    before: impl AsyncFnOnce(i64) -> Result<(), BoxDynError>,
) -> Result<(), sqlx::Error> {
    schema::bring_up(alone(path).await?, before).await?;
    verify(db).await
}

/// So many connections, all opened at the start and for good: pages are read also while no file can be opened. sqlx tries
/// each when it is given back; nothing happens to it until it is taken again.
fn kept_open(connections: u32) -> SqlitePoolOptions {
    let options = SqlitePoolOptions::new().max_connections(connections).min_connections(connections);
    options.idle_timeout(None).max_lifetime(None).test_before_acquire(false)
}

/// sqlx opens one connection at first, and SQLite the log at the first look into the database: here all of it is opened.
/// What the look finds wrong, the next one tells.
async fn all_open(pool: &SqlitePool) -> Result<(), sqlx::Error> {
    let all = (0..pool.options().get_min_connections()).map(|_| pool.acquire());
    for mut conn in try_join_all(all).await? {
        let _ = conn.fetch_optional("SELECT 1 FROM sqlite_schema LIMIT 1").await;
    }
    Ok(())
}

/// SQLite itself rolls back after a full disk or an error of the disk; sqlx then counts one transaction too many on
/// that connection and begins no other. So such a connection is not used again.
async fn writer(options: SqliteConnectOptions) -> Result<SqlitePool, sqlx::Error> {
    let pool = kept_open(1).acquire_timeout(TURN).after_release(|conn, _| {
        Box::pin(async move {
            conn.ping().await?;
            Ok(!conn.is_in_transaction())
        })
    });
    connected(pool, options).await
}

async fn readers(options: SqliteConnectOptions) -> Result<SqlitePool, sqlx::Error> {
    let options = options.read_only(true).pragma("query_only", "ON");
    connected(kept_open(READERS).acquire_timeout(TURN), options).await
}

fn is_large(path: &Path) -> bool {
    path.metadata().is_ok_and(|file| file.len() >= LARGE)
}

/// Whether the tables are those of this program; what is to be upgraded is looked over before.
async fn is_current(db: &Db) -> bool {
    match db.read().await {
        Ok(mut conn) => schema::step(&mut conn).await.is_ok_and(|step| step == migrate::newest()),
        Err(_) => false,
    }
}

/// A damaged file is not migrated: it can be read only where its tables are those of this program.
async fn must_be_current(db: &Db, path: &Path) -> Result<(), sqlx::Error> {
    if schema::step(&mut db.read().await?).await? == migrate::newest() {
        return Ok(());
    }
    Err(unreadable(path, ", and its tables are of another version"))
}

fn unreadable(path: &Path, why: &str) -> sqlx::Error {
    let text = format!(
        "the database {} is damaged and cannot be opened{why}. Leave it as it is and restore the last backup",
        path.display()
    );
    sqlx::Error::Configuration(text.into())
}

/// One connection that enforces no foreign keys.
pub async fn alone(path: &Path) -> Result<Db, sqlx::Error> {
    let options = lasting(quiet(path).foreign_keys(false).busy_timeout(UPGRADE));
    let writer = connected(SqlitePoolOptions::new().max_connections(1), options).await?;
    Ok(Db::Sqlite { readers: writer.clone(), writer: Writer::new(writer), health: Health::default() })
}

/// Readers of a file that is there, and a writer for whatever needs one.
pub async fn as_it_is(path: &Path) -> Result<Db, sqlx::Error> {
    let readers = readers(quiet(path)).await?;
    let writer =
        SqlitePoolOptions::new().max_connections(1).connect_lazy_with(quiet(path).busy_timeout(SHORT));
    Ok(Db::Sqlite { writer: Writer::new(writer), readers, health: Health::default() })
}

/// Readers of a file that nobody writes to; no journal is looked for.
pub async fn still(path: &Path) -> Result<Db, sqlx::Error> {
    let readers = readers(quiet(path).immutable(true)).await?;
    Ok(Db::Sqlite { writer: Writer::new(readers.clone()), readers, health: Health::default().aside() })
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
