//! Whether a whole database keeps the invariants I1 to I9, and blind packets blind: what `hilum check` prints.
//!
//! Kept sums are compared with the replay that the app itself uses; the rest is asked of the tables.

mod blind;
mod cells;
mod marks;
mod order;
mod saves;
mod sums;
mod voids;

use crate::args;
use crate::db::ids::At;
use crate::db::{Conn, FromRow, Row};
use crate::error::AppError;

/// Every SQL text of the check.
pub fn all_sql() -> Vec<&'static str> {
    [sums::ALL, cells::ALL, order::ALL, voids::ALL, saves::ALL, marks::ALL, blind::ALL].concat()
}

/// Every breach found at the moment `now`, in words that name the invariant and the mark, in the order of the
/// invariants; of each rule about entries the first 200, since a clock that was wrong for a day can break thousands.
/// While others write, a breach counts only if it is seen again (see [`crate::upkeep::check::breaches`]).
pub async fn all(conn: &mut Conn, now: At) -> Result<Vec<String>, AppError> {
    let mut found = sums::packets(conn).await?;
    found.extend(sums::trials(conn).await?);
    found.extend(sums::bags(conn).await?);
    found.extend(cells::all(conn).await?);
    found.extend(order::all(conn, now).await?);
    found.extend(voids::all(conn).await?);
    found.extend(saves::all(conn).await?);
    found.extend(marks::all(conn).await?);
    found.extend(blind::all(conn).await?);
    found.sort();
    Ok(found)
}

/// So many rows are held at a time: a large club has a hundred thousand bags.
const AT_ONCE: i64 = 500;

/// Rows of one table, some at a time in the order of their ids (`$1` the last seen, `$2` how many).
struct Rows<T> {
    sql: &'static str,
    id: fn(&T) -> &str,
    last: String,
}

impl<T: Row> Rows<T> {
    fn of(sql: &'static str, id: fn(&T) -> &str) -> Self {
        Self { sql, id, last: String::new() }
    }

    /// The next ones; none at the end.
    async fn next(&mut self, conn: &mut Conn) -> Result<Option<Vec<T>>, AppError> {
        let rows: Vec<T> = conn.all(self.sql, args![&self.last, AT_ONCE]).await?;
        let Some(last) = rows.last() else { return Ok(None) };
        self.last = (self.id)(last).to_owned();
        Ok(Some(rows))
    }
}

/// An entry or thing at fault, by its mark.
#[derive(FromRow)]
struct Fault {
    mark: String,
    what: String,
    at: i64,
}

impl Fault {
    /// The breach of `rule` in words; `why` completes "the look of 2 Mar 2026 08:00 UTC ...".
    fn says(&self, rule: &str, why: &str) -> String {
        let when = At(self.at).local(chrono_tz::UTC).format("%-d %b %Y %H:%M UTC");
        format!("{rule} {}: the {} of {when} {why}", self.mark, self.what)
    }
}

/// Kept fields that differ from the replayed ones, as (field, sentence).
macro_rules! differing {
    ($kept:expr, $replayed:expr, [$($field:ident),* $(,)?]) => {{
        let mut found: Vec<(&'static str, String)> = Vec::new();
        $(if $kept.$field != $replayed.$field {
            let name = stringify!($field).replace('_', " ");
            let (kept, said) = (serde_json::json!($kept.$field), serde_json::json!($replayed.$field));
            found.push((stringify!($field), format!("{name} is kept as {kept}, the entries say {said}")));
        })*
        found
    }};
}
use differing;
