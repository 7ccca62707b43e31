use super::reach::{self, Reach};
use super::{Conn, Db, FromRow, Health, schema};
use sqlx::error::BoxDynError;
use sqlx::postgres::PgPoolOptions;
use sqlx::{ConnectOptions, Connection, PgPool};
use std::time::Duration;

const CONNECTIONS: u32 = 8;
/// For so long a page waits for a connection; then it says that the database cannot be reached.
const TURN: Duration = Duration::from_secs(5);

/// sqlx tries a connection when it is given back; within so long it is taken again without asking the server.
const TRIED: Duration = Duration::from_secs(1);

/// Our statements join many small tables in the order in which they are best read: to search for a better one, or to
/// compile them, takes longer than to run them (the history of a bag: 50 ms of planning against 4).
const PLANNING: [(&str, &str); 2] = [("jit", "off"), ("join_collapse_limit", "4")];

fn pool() -> PgPoolOptions {
    let options = PgPoolOptions::new().max_connections(CONNECTIONS).acquire_timeout(TURN);
    options.test_before_acquire(false).before_acquire(|conn, of| {
        Box::pin(async move { Ok(of.idle_for < TRIED || conn.ping().await.is_ok()) })
    })
}

/// A writing and a read-only pool on the same database. Refused where the server does not keep what it confirms.
pub async fn open(
    url: &str,
    before: impl AsyncFnOnce(i64) -> Result<(), BoxDynError>,
) -> Result<Db, sqlx::Error> {
    if Reach::of(url)? == Reach::Open {
        tracing::warn!("what goes to the database and back is not encrypted, as its address says");
    }
    let base = reach::options(url)?.application_name("hilum").options(PLANNING);
    let (writer, readers) = tokio::try_join!(
        reach::connect(pool(), base.clone().options([("synchronous_commit", "on")])),
        reach::connect(pool(), base.options([("default_transaction_read_only", "on")])),
    )?;
    let health = Health::default();
    let mut first = Conn::PostgresRead(writer.acquire().await?, health.clone());
    verify(&mut first).await?;
    if !schema::is_current(&mut first).await? {
        schema::bring_up(alone(url).await?, before).await?;
    }
    Ok(Db::Postgres { writer, readers, health })
}

#[derive(FromRow)]
struct Setting {
    name: String,
    setting: String,
}

/// Reads back what a confirmed save hangs on: `synchronous_commit` as it is on our own connection, where a pooler
/// between may have dropped what we asked for.
async fn verify(conn: &mut Conn) -> Result<(), sqlx::Error> {
    let off = weak(conn).await?;
    if off.is_empty() {
        return Ok(());
    }
    let text = format!(
        "PostgreSQL runs with {} off: after a power cut, counts that members saw saved could be gone. Set it to on",
        off.join(" and ")
    );
    Err(sqlx::Error::Configuration(text.into()))
}

/// Those settings that are off on this connection.
pub async fn weak(conn: &mut Conn) -> Result<Vec<String>, sqlx::Error> {
    const SETTINGS: &str = "SELECT name, setting FROM pg_settings
        WHERE name IN ('fsync', 'full_page_writes', 'synchronous_commit') ORDER BY name";
    let all: Vec<Setting> = conn.all(SETTINGS, vec![]).await?;
    Ok(all.into_iter().filter(|s| s.setting == "off").map(|s| s.name).collect())
}

/// One connection, which says of itself that it serves nobody. Refused likewise.
pub async fn alone(url: &str) -> Result<Db, sqlx::Error> {
    let options = reach::options(url)?.application_name("hilum, at work on the schema");
    let options = options.options([("synchronous_commit", "on")]).disable_statement_logging();
    let writer =
        reach::connect(PgPoolOptions::new().max_connections(1).acquire_timeout(TURN), options).await?;
    let health = Health::default();
    verify(&mut Conn::PostgresRead(writer.acquire().await?, health.clone())).await?;
    Ok(Db::Postgres { readers: writer.clone(), writer, health })
}

pub async fn as_it_is(url: &str) -> Result<Db, sqlx::Error> {
    let options = reach::options(url)?.application_name("hilum, taking a backup");
    let options = options.options([("default_transaction_read_only", "on"), ("synchronous_commit", "on")]);
    let options = options.disable_statement_logging();
    let readers =
        reach::connect(PgPoolOptions::new().max_connections(2).acquire_timeout(TURN), options).await?;
    Ok(Db::Postgres { writer: readers.clone(), readers, health: Health::default() })
}

#[expect(clippy::disallowed_methods, reason = "asks PostgreSQL alone")]
pub async fn in_use(pool: &PgPool) -> Result<bool, sqlx::Error> {
    const SERVING: &str = "SELECT EXISTS (SELECT 1 FROM pg_catalog.pg_stat_activity
        WHERE datname = current_database() AND application_name = 'hilum')";
    sqlx::query_scalar(SERVING).fetch_one(pool).await
}
