use super::{Conn, Db, FromRow, Health, migrate};
use sqlx::postgres::{PgConnectOptions, PgPoolOptions};
use std::str::FromStr;
use std::time::Duration;

const CONNECTIONS: u32 = 8;
/// For so long a page waits for a connection; then it says that the database cannot be reached.
const TURN: Duration = Duration::from_secs(5);

/// A writing and a read-only pool on the same database. Refused where the server does not keep what it confirms.
pub async fn open(url: &str) -> Result<Db, sqlx::Error> {
    let base = PgConnectOptions::from_str(url)?.application_name("hilum");
    let pool = || PgPoolOptions::new().max_connections(CONNECTIONS).acquire_timeout(TURN);
    let writer = pool().connect_with(base.clone().options([("synchronous_commit", "on")])).await?;
    let health = Health::default();
    verify(&mut Conn::PostgresRead(writer.acquire().await?, health.clone())).await?;
    migrate::postgres(&writer).await?;
    let readers = pool().connect_with(base.options([("default_transaction_read_only", "on")])).await?;
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
    const SETTINGS: &str = "SELECT name, setting FROM pg_settings
        WHERE name IN ('fsync', 'full_page_writes', 'synchronous_commit') ORDER BY name";
    let all: Vec<Setting> = conn.all(SETTINGS, vec![]).await?;
    let off: Vec<_> = all.iter().filter(|s| s.setting == "off").map(|s| s.name.as_str()).collect();
    if off.is_empty() {
        return Ok(());
    }
    let text = format!(
        "PostgreSQL runs with {} off: after a power cut, counts that members saw saved could be gone. Set it to on",
        off.join(" and ")
    );
    Err(sqlx::Error::Configuration(text.into()))
}
