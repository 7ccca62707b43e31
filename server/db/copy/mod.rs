//! Whole tables in and out, in values that both engines share: numbers, text, and bytes as base64. Truth is 1 or 0, a
//! day `2026-03-02`.

mod put;
mod rows;
mod rules;

pub use put::put;
pub use rows::rows;
pub use rules::{Held, clear, hold, integrity, loosen, refer, tighten};

use super::{Conn, FromRow};
use crate::args;

/// A table of this database; columns of its key first, then by name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Table {
    pub name: String,
    pub columns: Vec<Column>,
}

#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Column {
    pub name: String,
    sort: Sort,
    /// Its place in the key, from 1; 0 for the others.
    key: i64,
}

/// What a column holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Sort {
    Whole,
    Real,
    Text,
    Truth,
    Day,
    Bytes,
}

impl Sort {
    fn of(kind: &str) -> Option<Self> {
        Some(match kind {
            "INTEGER" | "int8" => Self::Whole,
            "REAL" | "float8" => Self::Real,
            "TEXT" | "text" => Self::Text,
            "bool" => Self::Truth,
            "date" => Self::Day,
            "BLOB" | "bytea" => Self::Bytes,
            _ => return None,
        })
    }
}

const SQLITE: &str = "SELECT t.name AS of_table, c.name AS name, c.type AS kind, c.pk AS key
    FROM sqlite_schema t, pragma_table_info(t.name) c
    WHERE t.type = 'table' AND t.name NOT LIKE 'sqlite%' AND t.name <> '_sqlx_migrations'";
const POSTGRES: &str = "SELECT CAST(t.relname AS TEXT) AS of_table, CAST(a.attname AS TEXT) AS name,
      CAST(y.typname AS TEXT) AS kind, COALESCE((SELECT k.place FROM pg_catalog.pg_index i,
        unnest(CAST(i.indkey AS SMALLINT[])) WITH ORDINALITY AS k (number, place)
        WHERE i.indrelid = t.oid AND i.indisprimary AND k.number = a.attnum), 0) AS key
    FROM pg_catalog.pg_class t JOIN pg_catalog.pg_namespace n ON n.oid = t.relnamespace
      JOIN pg_catalog.pg_attribute a ON a.attrelid = t.oid JOIN pg_catalog.pg_type y ON y.oid = a.atttypid
    WHERE t.relkind = 'r' AND n.nspname = current_schema() AND t.relname <> '_sqlx_migrations'
      AND a.attnum > 0 AND NOT a.attisdropped";

#[derive(FromRow)]
struct Listed {
    of_table: String,
    name: String,
    kind: String,
    key: i64,
}

/// The tables, by name.
pub async fn tables(conn: &mut Conn) -> Result<Vec<Table>, sqlx::Error> {
    let sql = if conn.is_sqlite() { SQLITE } else { POSTGRES };
    let mut listed: Vec<Listed> = conn.all(sql, args![]).await?;
    listed.sort_by(|a, b| {
        let place = |l: &Listed| if l.key == 0 { i64::MAX } else { l.key };
        (&a.of_table, place(a), &a.name).cmp(&(&b.of_table, place(b), &b.name))
    });
    let mut tables: Vec<Table> = Vec::new();
    for Listed { of_table, name, kind, key } in listed {
        let Some(sort) = Sort::of(&kind) else {
            return Err(sqlx::Error::Protocol(format!("{of_table}.{name} is of a sort ({kind}) of its own")));
        };
        let column = Column { name, sort, key };
        match tables.last_mut().filter(|t| t.name == of_table) {
            Some(table) => table.columns.push(column),
            None => tables.push(Table { name: of_table, columns: vec![column] }),
        }
    }
    Ok(tables)
}

/// A name as SQL takes it.
fn quoted(name: &str) -> String {
    format!("\"{}\"", name.replace('"', "\"\""))
}

fn listed<'a>(names: impl Iterator<Item = &'a str>) -> String {
    names.map(quoted).collect::<Vec<_>>().join(", ")
}
