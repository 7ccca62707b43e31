use super::{Db, migrate};
use sqlx::postgres::{PgConnectOptions, PgPoolOptions};
use std::str::FromStr;

const CONNECTIONS: u32 = 8;

/// A writing and a read-only pool on the same database.
pub async fn open(url: &str) -> Result<Db, sqlx::Error> {
    let base = PgConnectOptions::from_str(url)?.application_name("hilum");
    let pool = || PgPoolOptions::new().max_connections(CONNECTIONS);
    let writer = pool().connect_with(base.clone().options([("synchronous_commit", "on")])).await?;
    migrate::postgres(&writer).await?;
    let readers = pool().connect_with(base.options([("default_transaction_read_only", "on")])).await?;
    Ok(Db::Postgres { writer, readers })
}
