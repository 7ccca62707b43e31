use super::{Column, Sort, Table, quoted};
use crate::db::Conn;
use data_encoding::BASE64;
use futures_util::StreamExt;
use futures_util::stream::BoxStream;
use serde_json::Value;
use sqlx::{AssertSqlSafe, ColumnIndex, Database, Decode, Row, Type};

/// The rows of `table`, in the order of its key by bytes, one after the other.
#[expect(clippy::disallowed_methods, reason = "SQL made of the tables' own names")]
pub fn rows<'a>(conn: &'a mut Conn, table: &Table) -> BoxStream<'a, Result<Vec<Value>, sqlx::Error>> {
    let sql = AssertSqlSafe(text(table, conn.is_sqlite()));
    let sorts: Vec<Sort> = table.columns.iter().map(|c| c.sort).collect();
    match conn {
        Conn::SqliteRead(c, ..) => {
            sqlx::query(sql).fetch(&mut **c).map(move |row| read(&row?, &sorts)).boxed()
        }
        Conn::SqliteSnapshot(c, ..) => {
            sqlx::query(sql).fetch(&mut **c).map(move |row| read(&row?, &sorts)).boxed()
        }
        Conn::SqliteWrite(c, ..) => {
            sqlx::query(sql).fetch(&mut **c).map(move |row| read(&row?, &sorts)).boxed()
        }
        Conn::PostgresRead(c, ..) => {
            sqlx::query(sql).fetch(&mut **c).map(move |row| read(&row?, &sorts)).boxed()
        }
        Conn::PostgresWrite(c, ..) => {
            sqlx::query(sql).fetch(&mut **c).map(move |row| read(&row?, &sorts)).boxed()
        }
    }
}

fn text(table: &Table, sqlite: bool) -> String {
    let of = |column: &Column| {
        let name = quoted(&column.name);
        match column.sort {
            Sort::Truth => format!("CAST(CAST({name} AS INTEGER) AS BIGINT)"),
            Sort::Day => format!("to_char({name}, 'YYYY-MM-DD')"),
            _ => name,
        }
    };
    let by = |column: &Column| {
        let name = quoted(&column.name);
        if column.sort == Sort::Text && !sqlite { format!("{name} COLLATE \"C\"") } else { name }
    };
    let columns: Vec<String> = table.columns.iter().map(of).collect();
    let order: Vec<String> = table.columns.iter().filter(|c| c.key > 0).map(by).collect();
    format!("SELECT {} FROM {} ORDER BY {}", columns.join(", "), quoted(&table.name), order.join(", "))
}

fn read<'r, R: Row>(row: &'r R, sorts: &[Sort]) -> Result<Vec<Value>, sqlx::Error>
where
    usize: ColumnIndex<R>,
    Option<i64>: Decode<'r, R::Database> + Type<R::Database>,
    Option<f64>: Decode<'r, R::Database> + Type<R::Database>,
    Option<String>: Decode<'r, R::Database> + Type<R::Database>,
    Option<Vec<u8>>: Decode<'r, R::Database> + Type<R::Database>,
    R::Database: Database,
{
    let cell = |(place, sort): (usize, &Sort)| {
        Ok(match sort {
            Sort::Whole | Sort::Truth => row.try_get::<Option<i64>, _>(place)?.into(),
            Sort::Real => row.try_get::<Option<f64>, _>(place)?.into(),
            Sort::Text | Sort::Day => row.try_get::<Option<String>, _>(place)?.into(),
            Sort::Bytes => row.try_get::<Option<Vec<u8>>, _>(place)?.map(|b| BASE64.encode(&b)).into(),
        })
    };
    sorts.iter().enumerate().map(cell).collect()
}
