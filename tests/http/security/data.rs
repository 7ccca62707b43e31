//! All that the database holds, whatever its tables are.

use crate::support::Club;
use hilum::args;
use hilum::db::FromRow;

#[derive(FromRow)]
struct Column {
    t: String,
    c: String,
    sort: String,
}

#[derive(FromRow)]
struct Value {
    value: String,
}

const SQLITE: &str = "SELECT m.name AS t, p.name AS c, lower(p.type) AS sort FROM sqlite_master m
    JOIN pragma_table_info(m.name) p WHERE m.type = 'table' AND substr(m.name, 1, 1) <> '_'
    AND substr(m.name, 1, 7) <> 'sqlite_' ORDER BY m.name, p.cid";
const POSTGRES: &str = "SELECT CAST(table_name AS TEXT) AS t, CAST(column_name AS TEXT) AS c,
    CAST(data_type AS TEXT) AS sort FROM information_schema.columns
    WHERE table_schema = 'public' AND left(table_name, 1) <> '_' ORDER BY table_name, ordinal_position";

async fn columns(club: &Club) -> Vec<Column> {
    let sql = if club.app.db.engine() == "SQLite" { SQLITE } else { POSTGRES };
    club.app.db.read().await.unwrap().all(sql, args![]).await.unwrap()
}

async fn values(club: &Club, sql: String) -> Vec<String> {
    let sql: &'static str = Box::leak(sql.into_boxed_str());
    let found: Vec<Value> = club.app.db.read().await.unwrap().all(sql, args![]).await.unwrap();
    found.into_iter().map(|v| v.value).collect()
}

/// Every text that holds `part`, with its table and column.
pub async fn texts(club: &Club, part: &str) -> Vec<(String, String)> {
    let mut found = Vec::new();
    for Column { t, c, .. } in columns(club).await.iter().filter(|c| c.sort == "text") {
        let all =
            values(club, format!("SELECT {c} AS value FROM {t} WHERE {c} IS NOT NULL ORDER BY 1")).await;
        found.extend(all.into_iter().filter(|v| v.contains(part)).map(|v| (format!("{t}.{c}"), v)));
    }
    found
}

/// Every row of every table, as text.
pub async fn everything(club: &Club) -> Vec<String> {
    let mut tables: Vec<(String, Vec<String>)> = Vec::new();
    for Column { t, c, .. } in columns(club).await {
        match tables.last_mut() {
            Some((table, columns)) if *table == t => columns.push(c),
            _ => tables.push((t, vec![c])),
        }
    }
    assert!(tables.len() > 30, "only {} tables", tables.len());
    let mut rows = Vec::new();
    for (table, columns) in tables {
        let row = match club.app.db.engine() {
            "SQLite" => columns.iter().map(|c| format!("quote({c})")).collect::<Vec<_>>().join(" || '|' || "),
            _ => format!("CAST({table} AS TEXT)"),
        };
        let all = values(club, format!("SELECT {row} AS value FROM {table} ORDER BY 1")).await;
        rows.extend(all.into_iter().map(|row| format!("{table}: {row}")));
    }
    rows
}
