//! One text for each step, mapped for SQLite; forward only, checksummed by sqlx.

use super::Conn;
use sqlx::migrate::{Migrate, Migration, Migrator};

static STEPS: Migrator = sqlx::migrate!("./migrations");

/// The number of the newest step.
pub fn newest() -> i64 {
    STEPS.iter().map(|step| step.version).max().unwrap_or_default()
}

/// Brings the schema up to the step `to`; where it is there already, verifies that no step was changed since.
pub async fn up_to(conn: &mut Conn, to: i64) -> Result<(), sqlx::Error> {
    match conn {
        Conn::SqliteRead(c, ..) => run(sqlite_text, to, &mut **c).await,
        Conn::SqliteSnapshot(c, ..) => run(sqlite_text, to, &mut **c).await,
        Conn::SqliteWrite(c, ..) => run(sqlite_text, to, &mut **c).await,
        Conn::PostgresRead(c, ..) => run(postgres_text, to, &mut **c).await,
        Conn::PostgresWrite(c, ..) => run(postgres_text, to, &mut **c).await,
    }
}

async fn run<C: Migrate>(text: fn(&str) -> String, to: i64, conn: &mut C) -> Result<(), sqlx::Error> {
    let done = mapped(text).run_direct(Some(to), conn, false).await;
    done.map_err(|error| sqlx::Error::Configuration(Box::new(error)))
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
