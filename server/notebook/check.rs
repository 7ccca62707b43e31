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

use crate::db::ids::At;
use crate::db::{Conn, FromRow};
use crate::error::AppError;

/// Every SQL text of the check.
pub fn all_sql() -> Vec<&'static str> {
    [sums::ALL, cells::ALL, order::ALL, voids::ALL, saves::ALL, marks::ALL, blind::ALL].concat()
}

/// Every breach found at the moment `now`, in words that name the invariant and the mark, in the order of the
/// invariants. While others write, a breach counts only if it is seen again (see [`crate::upkeep::check::breaches`]).
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
