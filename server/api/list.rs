//! Lists, a page at a time: in an order that stays, from a cursor that only the server reads.

use super::ask::Ask;
use super::problem::Problem;
use super::table::Shown;
use axum::Json;
use axum::http::header::LINK;
use axum::response::{IntoResponse, Response};
use data_encoding::BASE64URL_NOPAD;
use schemars::JsonSchema;
use serde::Serialize;

const USUAL: i64 = 50;
pub const MOST: i64 = 200;

/// What a list is made of.
pub trait Listed: Shown {
    /// What it is sorted by: no two are the same, and it stays while the thing is there.
    fn key(&self) -> String;
}

/// A part of a list.
#[derive(Clone)]
pub struct Slice {
    /// The key of the last one before it; empty for the first part.
    pub after: String,
    /// One more than are shown, to know whether there are more.
    pub most: i64,
}

/// A page of a list.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "{T}List")]
pub struct List<T> {
    items: Vec<T>,
    /// Where the next page is; null on the last one. The same address stands in the header Link.
    next: Option<String>,
}

impl<T: Shown> Shown for List<T> {
    fn example() -> Self {
        Self { items: vec![T::example()], next: None }
    }
}

/// Which part of the list is asked for.
pub fn slice(ask: &Ask) -> Result<Slice, Problem> {
    let named = |name: &str| ask.query.iter().find(|(n, _)| n == name).map(|(_, v)| v.as_str());
    let limit = match named("limit") {
        None => USUAL,
        Some(typed) => match typed.parse() {
            Ok(n) if (1..=MOST).contains(&n) => n,
            _ => return Err(Problem::query("limit", format!("A whole number from 1 to {MOST}."))),
        },
    };
    let after = named("after").map(|cursor| BASE64URL_NOPAD.decode(cursor.as_bytes()));
    let after = after.map(|bytes| bytes.ok().and_then(|b| String::from_utf8(b).ok()));
    match after {
        Some(None) => Err(Problem::query("after", "Take it as it came in `next`; it cannot be made.")),
        after => Ok(Slice { after: after.flatten().unwrap_or_default(), most: limit + 1 }),
    }
}

/// The answer: those of `rows` that come after the cursor, and where the rest is.
pub fn answer<T: Listed>(ask: &Ask, slice: &Slice, mut rows: Vec<T>) -> Response {
    rows.sort_by_cached_key(Listed::key);
    rows.retain(|row| row.key() > slice.after);
    let limit = usize::try_from(slice.most - 1).unwrap_or(0);
    let more = rows.len() > limit;
    rows.truncate(limit);
    let last = rows.last().filter(|_| more).map(|row| BASE64URL_NOPAD.encode(row.key().as_bytes()));
    let next = last.map(|cursor| ask.address("after", ("after", &cursor)));
    let link = next.as_ref().map(|to| [(LINK, format!("<{to}>; rel=\"next\""))]);
    let body = Json(List { items: rows, next });
    match link {
        Some(link) => (link, body).into_response(),
        None => body.into_response(),
    }
}
