use super::Rows;
use crate::args;
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use crate::marks::fold;
use std::collections::HashMap;

const MARKS: &str = "SELECT key, shown FROM marks WHERE key > $1 ORDER BY key LIMIT $2";
const LETTERS: &str = "SELECT key, shown FROM letters WHERE key > $1 ORDER BY key LIMIT $2";
const THINGS: &str =
    "SELECT x.thing, x.mark, x.mark_key, m.shown, m.thing AS given_to, m.thing_id = x.id AS ours
    FROM (SELECT 'packet' AS thing, id, mark, mark_key FROM packets
      UNION ALL SELECT 'bag', id, mark, mark_key FROM bags
      UNION ALL SELECT 'tray', id, mark, mark_key FROM trays
      UNION ALL SELECT 'holder', id, mark, mark_key FROM holders) x
    LEFT JOIN marks m ON m.key = x.mark_key
    WHERE m.key IS NULL OR m.thing <> x.thing OR m.thing_id <> x.id OR m.shown <> x.mark
    ORDER BY x.mark_key, x.thing LIMIT 200";

pub(super) const ALL: &[&str] = &[MARKS, LETTERS, THINGS];

#[derive(FromRow)]
struct Given {
    key: String,
    shown: String,
}

#[derive(FromRow)]
struct Thing {
    thing: String,
    mark: String,
    mark_key: String,
    shown: Option<String>,
    given_to: Option<String>,
    ours: Option<bool>,
}

/// I9: no mark twice after folding, members' letters unique, and every thing has its own mark.
pub(super) async fn all(conn: &mut Conn) -> Result<Vec<String>, AppError> {
    let mut found = folded(conn, "mark", MARKS).await?;
    found.extend(folded(conn, "letters", LETTERS).await?);
    let things: Vec<Thing> = conn.all(THINGS, args![]).await?;
    found.extend(things.iter().filter_map(Thing::at_fault));
    Ok(found)
}

async fn folded(conn: &mut Conn, what: &str, sql: &'static str) -> Result<Vec<String>, AppError> {
    let mut found = Vec::new();
    let mut seen: HashMap<String, String> = HashMap::new();
    let mut rows = Rows::of(sql, |g: &Given| &g.key);
    while let Some(given) = rows.next(conn).await? {
        for g in given {
            let key = fold(&g.shown);
            if key != g.key {
                found.push(format!("I9 {what} {}: kept under {}, it folds to {key}", g.shown, g.key));
            }
            if let Some(other) = seen.get(&key) {
                found.push(format!("I9 {what} {}: the same as {other} after folding", g.shown));
            }
            seen.insert(key, g.shown);
        }
    }
    Ok(found)
}

impl Thing {
    fn at_fault(&self) -> Option<String> {
        let why = match (&self.shown, &self.given_to, self.ours) {
            (Some(shown), Some(to), Some(true)) if *to == self.thing && *shown == self.mark => return None,
            (Some(_), _, Some(true)) => "its mark is written otherwise in the list of marks".to_owned(),
            (Some(_), Some(to), _) => format!("its mark was given to another {to}"),
            _ => format!("its mark ({}) is not in the list of marks", self.mark_key),
        };
        Some(format!("I9 {} {}: {why}", self.thing, self.mark))
    }
}
