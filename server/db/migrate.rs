//! One text for each step, mapped for SQLite; forward only, each in one transaction, checksummed by sqlx.

use sqlx::migrate::{Migration, Migrator};
use sqlx::{PgPool, SqlitePool};

static STEPS: Migrator = sqlx::migrate!("./migrations");

/// The number of the newest step.
pub fn newest() -> i64 {
    STEPS.iter().map(|step| step.version).max().unwrap_or_default()
}

/// Brings a SQLite database up to the newest step.
pub async fn sqlite(pool: &SqlitePool) -> Result<(), sqlx::Error> {
    mapped(sqlite_text).run(pool).await.map_err(plain)
}

/// Brings a PostgreSQL database up to the newest step.
pub async fn postgres(pool: &PgPool) -> Result<(), sqlx::Error> {
    mapped(postgres_text).run(pool).await.map_err(plain)
}

fn plain(error: sqlx::migrate::MigrateError) -> sqlx::Error {
    sqlx::Error::Configuration(Box::new(error))
}

fn mapped(text: fn(&str) -> String) -> Migrator {
    let steps = STEPS.iter().map(|m| {
        let sql = sqlx::AssertSqlSafe(text(m.sql.as_str()));
        Migration::new(
            m.version,
            m.description.clone(),
            m.migration_type,
            sqlx::SqlSafeStr::into_sql_str(sql),
            m.no_tx,
        )
    });
    Migrator { migrations: steps.collect::<Vec<_>>().into(), ..Migrator::DEFAULT }
}

/// SQLite's names for the types, and STRICT so that it refuses what PostgreSQL refuses.
fn sqlite_text(sql: &str) -> String {
    let types = [
        ("BIGINT", "INTEGER"),
        ("DOUBLE PRECISION", "REAL"),
        ("BOOLEAN", "INTEGER"),
        (" DATE", " TEXT"),
        ("BYTEA", "BLOB"),
    ];
    let mut text = only(sql, "sqlite");
    for (ours, theirs) in types {
        text = text.replace(ours, theirs);
    }
    text.replace("\n);", "\n) STRICT;")
}

fn postgres_text(sql: &str) -> String {
    only(sql, "postgres")
}

/// Drops the lines that are marked for the other engine: `-- [sqlite]` ... `-- [both]`.
fn only(sql: &str, engine: &str) -> String {
    let mut keep = true;
    let mut out = String::with_capacity(sql.len());
    for line in sql.lines() {
        if let Some(name) = line.trim().strip_prefix("-- [").and_then(|rest| rest.strip_suffix(']')) {
            keep = name == engine || name == "both";
        } else if keep {
            out.push_str(line);
            out.push('\n');
        }
    }
    out
}
