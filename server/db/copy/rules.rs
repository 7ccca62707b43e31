//! The rules between tables: set aside while tables are filled, and verified afterwards.

use super::{listed, quoted, tables};
use crate::args;
use crate::db::{Conn, FromRow};
use sqlx::{AssertSqlSafe, Executor};

const FOREIGN_KEYS: &str = "SELECT CAST(c.relname AS TEXT) AS of_table, CAST(r.conname AS TEXT) AS name,
      pg_get_constraintdef(r.oid) AS rule
    FROM pg_catalog.pg_constraint r JOIN pg_catalog.pg_class c ON c.oid = r.conrelid
      JOIN pg_catalog.pg_namespace n ON n.oid = c.relnamespace
    WHERE r.contype = 'f' AND n.nspname = current_schema() ORDER BY 1, 2";
const TRIGGERED: &str = "SELECT DISTINCT CAST(p.proname AS TEXT) AS name
    FROM pg_catalog.pg_trigger t JOIN pg_catalog.pg_proc p ON p.oid = t.tgfoid
      JOIN pg_catalog.pg_class c ON c.oid = t.tgrelid JOIN pg_catalog.pg_namespace n ON n.oid = c.relnamespace
    WHERE NOT t.tgisinternal AND n.nspname = current_schema() AND p.pronamespace = n.oid ORDER BY 1";
const BROKEN: &str = "SELECT \"table\" AS of_table, \"parent\" AS named, COUNT(*) AS n
    FROM pragma_foreign_key_check GROUP BY 1, 2 ORDER BY 1, 2";
const INTEGRITY: &str = "SELECT integrity_check AS said FROM pragma_integrity_check";

/// Rules of PostgreSQL that were set aside.
#[derive(Debug)]
pub struct Held(Vec<ForeignKey>);

#[derive(Debug, FromRow)]
struct ForeignKey {
    of_table: String,
    name: String,
    rule: String,
}

#[derive(FromRow)]
struct Function {
    name: String,
}

#[derive(FromRow)]
struct Broken {
    of_table: String,
    named: String,
    n: i64,
}

#[derive(FromRow)]
struct Said {
    said: String,
}

/// Lets rows come in any order. On SQLite the connection itself must not enforce foreign keys.
pub async fn loosen(conn: &mut Conn) -> Result<Held, sqlx::Error> {
    if conn.is_sqlite() {
        return Ok(Held(Vec::new()));
    }
    let keys: Vec<ForeignKey> = conn.all(FOREIGN_KEYS, args![]).await?;
    for key in &keys {
        let (table, name) = (quoted(&key.of_table), quoted(&key.name));
        plain(conn, format!("ALTER TABLE {table} DROP CONSTRAINT {name}")).await?;
    }
    Ok(Held(keys))
}

/// Puts the rules back; an error where a row breaks one.
pub async fn tighten(conn: &mut Conn, held: Held) -> Result<(), sqlx::Error> {
    for ForeignKey { of_table, name, rule } in &held.0 {
        let (table, name) = (quoted(of_table), quoted(name));
        plain(conn, format!("ALTER TABLE {table} ADD CONSTRAINT {name} {rule}")).await?;
    }
    refer(conn).await
}

/// An error where a row of SQLite names another that is not there; PostgreSQL sees to that itself.
pub async fn refer(conn: &mut Conn) -> Result<(), sqlx::Error> {
    if !conn.is_sqlite() {
        return Ok(());
    }
    let broken: Vec<Broken> = conn.all(BROKEN, args![]).await?;
    match broken.first() {
        None => Ok(()),
        Some(Broken { of_table, named, n }) => {
            let why = format!("{n} rows of {of_table} name rows of {named} that are not there");
            Err(sqlx::Error::Decode(why.into()))
        }
    }
}

/// An error where SQLite finds its file damaged.
pub async fn integrity(conn: &mut Conn) -> Result<(), sqlx::Error> {
    let said: Vec<Said> = conn.all(INTEGRITY, args![]).await?;
    match said.iter().find(|line| line.said != "ok") {
        None => Ok(()),
        Some(line) => {
            tracing::debug!(said = line.said, "a file is damaged");
            Err(sqlx::Error::Decode("its pages do not fit together".into()))
        }
    }
}

/// Until the end of the transaction, others may read the tables of PostgreSQL but not write.
pub async fn hold(conn: &mut Conn) -> Result<(), sqlx::Error> {
    let all = tables(conn).await?;
    if all.is_empty() {
        return Ok(());
    }
    let names = listed(all.iter().map(|t| t.name.as_str()));
    plain(conn, format!("LOCK TABLE {names} IN SHARE ROW EXCLUSIVE MODE")).await
}

/// Takes all our tables away, and with PostgreSQL the functions of their triggers.
pub async fn clear(conn: &mut Conn) -> Result<(), sqlx::Error> {
    let functions: Vec<Function> =
        if conn.is_sqlite() { Vec::new() } else { conn.all(TRIGGERED, args![]).await? };
    for table in tables(conn).await? {
        plain(conn, format!("DROP TABLE {} CASCADE", quoted(&table.name))).await?;
    }
    for function in functions {
        plain(conn, format!("DROP FUNCTION {}()", quoted(&function.name))).await?;
    }
    plain(conn, "DROP TABLE IF EXISTS _sqlx_migrations".to_owned()).await
}

async fn plain(conn: &mut Conn, sql: String) -> Result<(), sqlx::Error> {
    let sql = AssertSqlSafe(sql);
    match conn {
        Conn::SqliteRead(c, ..) => (&mut **c).execute(sql).await.map(drop),
        Conn::SqliteSnapshot(c, ..) => (&mut **c).execute(sql).await.map(drop),
        Conn::SqliteWrite(c, ..) => (&mut **c).execute(sql).await.map(drop),
        Conn::PostgresRead(c, ..) => (&mut **c).execute(sql).await.map(drop),
        Conn::PostgresWrite(c, ..) => (&mut **c).execute(sql).await.map(drop),
    }
}
