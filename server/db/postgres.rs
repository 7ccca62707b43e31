use super::Db;
use sqlx::postgres::{PgConnectOptions, PgPoolOptions};
use sqlx::{ConnectOptions, PgPool};
use std::str::FromStr;

const CONNECTIONS: u32 = 8;

/// A writing and a read-only pool on the same database.
pub async fn open(url: &str) -> Result<Db, sqlx::Error> {
    let base = PgConnectOptions::from_str(url)?.application_name("hilum");
    let pool = || PgPoolOptions::new().max_connections(CONNECTIONS);
    let writer = pool().connect_with(base.clone().options([("synchronous_commit", "on")])).await?;
    let readers = pool().connect_with(base.options([("default_transaction_read_only", "on")])).await?;
    Ok(Db::Postgres { writer, readers })
}

/// One connection, which says of itself that it serves nobody.
pub async fn alone(url: &str) -> Result<Db, sqlx::Error> {
    let options = PgConnectOptions::from_str(url)?.application_name("hilum, at work on the schema");
    let options = options.options([("synchronous_commit", "on")]).disable_statement_logging();
    let writer = PgPoolOptions::new().max_connections(1).connect_with(options).await?;
    Ok(Db::Postgres { readers: writer.clone(), writer })
}

pub async fn as_it_is(url: &str) -> Result<Db, sqlx::Error> {
    let options = PgConnectOptions::from_str(url)?.application_name("hilum, taking a backup");
    let options = options.options([("default_transaction_read_only", "on")]).disable_statement_logging();
    let readers = PgPoolOptions::new().max_connections(2).connect_with(options).await?;
    Ok(Db::Postgres { writer: readers.clone(), readers })
}

#[expect(clippy::disallowed_methods, reason = "asks PostgreSQL alone")]
pub async fn in_use(pool: &PgPool) -> Result<bool, sqlx::Error> {
    const SERVING: &str = "SELECT EXISTS (SELECT 1 FROM pg_catalog.pg_stat_activity
        WHERE datname = current_database() AND application_name = 'hilum')";
    sqlx::query_scalar(SERVING).fetch_one(pool).await
}
