//! Rows as JSON, whatever their columns: for files that say all that there is.

use super::Arg;
use super::conn::{Conn, Raw};
use chrono::NaiveDate;
use serde_json::{Map, Value};
use sqlx::postgres::PgRow;
use sqlx::sqlite::SqliteRow;
use sqlx::{Column, Row, TypeInfo, ValueRef};

impl Conn {
    /// Every row as an object of its columns. Bytes are left out.
    pub async fn objects(
        &mut self,
        sql: &'static str,
        args: Vec<Arg>,
    ) -> Result<Vec<Map<String, Value>>, sqlx::Error> {
        self.every(sql, args).await?.iter().map(object).collect()
    }
}

fn object(row: &Raw) -> Result<Map<String, Value>, sqlx::Error> {
    let mut object = Map::new();
    match row {
        Raw::Sqlite(row) => {
            for (at, column) in row.columns().iter().enumerate() {
                object.insert(column.name().to_owned(), of_sqlite(row, at)?);
            }
        }
        Raw::Postgres(row) => {
            for (at, column) in row.columns().iter().enumerate() {
                object.insert(column.name().to_owned(), of_postgres(row, at)?);
            }
        }
    }
    Ok(object)
}

fn of_sqlite(row: &SqliteRow, at: usize) -> Result<Value, sqlx::Error> {
    let kind = row.try_get_raw(at)?.type_info().name().to_owned();
    Ok(match kind.as_str() {
        "INTEGER" => row.try_get::<i64, _>(at)?.into(),
        "REAL" => row.try_get::<f64, _>(at)?.into(),
        "TEXT" => row.try_get::<String, _>(at)?.into(),
        _ => Value::Null,
    })
}

fn of_postgres(row: &PgRow, at: usize) -> Result<Value, sqlx::Error> {
    let raw = row.try_get_raw(at)?;
    if raw.is_null() {
        return Ok(Value::Null);
    }
    let kind = raw.type_info().name().to_owned();
    Ok(match kind.as_str() {
        "INT8" => row.try_get::<i64, _>(at)?.into(),
        "FLOAT8" => row.try_get::<f64, _>(at)?.into(),
        "TEXT" => row.try_get::<String, _>(at)?.into(),
        // as the other engine keeps it
        "BOOL" => i64::from(row.try_get::<bool, _>(at)?).into(),
        "DATE" => row.try_get::<NaiveDate, _>(at)?.to_string().into(),
        _ => Value::Null,
    })
}
