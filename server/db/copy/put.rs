use super::{Column, Sort, Table, listed, quoted};
use crate::db::{Arg, Conn, arg};
use data_encoding::{BASE64, HEXLOWER};
use serde_json::Value;
use sqlx::postgres::PgConnection;
use sqlx::sqlite::SqliteConnection;
use sqlx::{AssertSqlSafe, Sqlite};

/// In one statement; SQLite takes 32766.
const PARAMETERS: usize = 6_000;

/// Adds rows to a table; `names` are the columns of each row, and all of them are the table's. A value that its column
/// cannot hold is a decoding error.
pub async fn put(
    conn: &mut Conn,
    table: &Table,
    names: &[String],
    rows: &[Vec<Value>],
) -> Result<(), sqlx::Error> {
    let columns = columns(table, names)?;
    if let Some(row) = rows.iter().find(|row| row.len() != columns.len()) {
        return Err(wrong(format!("{}: {} columns, but {} values", table.name, columns.len(), row.len())));
    }
    let into = format!("{} ({})", quoted(&table.name), listed(names.iter().map(String::as_str)));
    match conn {
        Conn::SqliteRead(c, ..) => sqlite(c, &into, &columns, rows).await,
        Conn::SqliteSnapshot(c, ..) => sqlite(c, &into, &columns, rows).await,
        Conn::SqliteWrite(c, ..) => sqlite(c, &into, &columns, rows).await,
        Conn::PostgresRead(c, ..) => postgres(c, &into, &columns, rows).await,
        Conn::PostgresWrite(c, ..) => postgres(c, &into, &columns, rows).await,
    }
}

fn columns<'a>(table: &'a Table, names: &[String]) -> Result<Vec<&'a Column>, sqlx::Error> {
    let find = |name: &String| {
        let column = table.columns.iter().find(|c| c.name == *name);
        column.ok_or_else(|| wrong(format!("{} has no column {name}", table.name)))
    };
    names.iter().map(find).collect()
}

#[expect(clippy::disallowed_methods, reason = "SQL made of the tables' own names")]
async fn sqlite(
    conn: &mut SqliteConnection,
    into: &str,
    columns: &[&Column],
    rows: &[Vec<Value>],
) -> Result<(), sqlx::Error> {
    let width = columns.len().max(1);
    // without numbers: SQLite looks numbered ones up one by one, which takes the square of their number
    let one = format!("({})", vec!["?"; width].join(", "));
    for some in rows.chunks(PARAMETERS / width) {
        let sql = format!("INSERT INTO {into} VALUES {}", vec![one.as_str(); some.len()].join(", "));
        let mut args = Vec::with_capacity(some.len() * width);
        for row in some {
            for (column, value) in columns.iter().zip(row) {
                args.push(parameter(column, value)?);
            }
        }
        let args = arg::sqlite(args).map_err(sqlx::Error::Encode)?;
        sqlx::query_with::<Sqlite, _>(AssertSqlSafe(sql), args).execute(&mut *conn).await?;
    }
    Ok(())
}

fn parameter(column: &Column, value: &Value) -> Result<Arg, sqlx::Error> {
    let fits = |arg: Option<Arg>| arg.ok_or_else(|| unfit(column, value));
    let absent = value.is_null();
    Ok(match column.sort {
        Sort::Whole | Sort::Truth if absent => Arg::Int(None),
        Sort::Whole | Sort::Truth => fits(value.as_i64().map(Arg::from))?,
        Sort::Real if absent => Arg::Real(None),
        Sort::Real => fits(value.as_f64().map(Arg::from))?,
        Sort::Text | Sort::Day if absent => Arg::Text(None),
        Sort::Text | Sort::Day => fits(value.as_str().map(Arg::from))?,
        Sort::Bytes if absent => Arg::Bytes(None),
        Sort::Bytes => fits(bytes(value).map(Arg::from))?,
    })
}

async fn postgres(
    conn: &mut PgConnection,
    into: &str,
    columns: &[&Column],
    rows: &[Vec<Value>],
) -> Result<(), sqlx::Error> {
    let mut lines = String::new();
    for row in rows {
        for (place, (column, value)) in columns.iter().zip(row).enumerate() {
            if place > 0 {
                lines.push('\t');
            }
            add(&mut lines, column, value)?;
        }
        lines.push('\n');
    }
    let mut copy = conn.copy_in_raw(&format!("COPY {into} FROM STDIN")).await?;
    match copy.send(lines.as_bytes()).await {
        Ok(_) => copy.finish().await.map(drop),
        Err(error) => {
            copy.abort("given up").await?;
            Err(error)
        }
    }
}

/// Adds one value as PostgreSQL's COPY reads it.
fn add(line: &mut String, column: &Column, value: &Value) -> Result<(), sqlx::Error> {
    let number = |fits: bool| if fits { Ok(value.to_string()) } else { Err(unfit(column, value)) };
    match column.sort {
        _ if value.is_null() => line.push_str("\\N"),
        Sort::Whole | Sort::Truth => line.push_str(&number(value.is_i64())?),
        Sort::Real => line.push_str(&number(value.is_number())?),
        Sort::Text | Sort::Day => escape(line, value.as_str().ok_or_else(|| unfit(column, value))?),
        Sort::Bytes => {
            let bytes = bytes(value).ok_or_else(|| unfit(column, value))?;
            line.push_str("\\\\x");
            line.push_str(&HEXLOWER.encode(&bytes));
        }
    }
    Ok(())
}

fn escape(line: &mut String, text: &str) {
    for c in text.chars() {
        match c {
            '\\' => line.push_str("\\\\"),
            '\t' => line.push_str("\\t"),
            '\n' => line.push_str("\\n"),
            '\r' => line.push_str("\\r"),
            c => line.push(c),
        }
    }
}

fn bytes(value: &Value) -> Option<Vec<u8>> {
    BASE64.decode(value.as_str()?.as_bytes()).ok()
}

fn unfit(column: &Column, value: &Value) -> sqlx::Error {
    let text: String = value.to_string().chars().take(40).collect();
    wrong(format!("{} cannot hold {text}", column.name))
}

fn wrong(why: String) -> sqlx::Error {
    sqlx::Error::Decode(why.into())
}
