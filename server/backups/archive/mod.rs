//! One file for either engine: a zip with `club.jsonl`, the rows of all tables as lines of JSON, and `club.sha256`.
//!
//! First line `{"hilum_archive":1,"schema":16}`; for each table, by name, a line `{"table":"bags","columns":[...]}`
//! and its rows as arrays in the order of its key; last `{"rows":1234}`. Numbers, text and null as in JSON, truth as 1
//! or 0, days as `2026-03-02`, bytes as base64. The same data give the same bytes.

mod read;
mod write;

pub use read::fill;
pub use write::write;

use serde::{Deserialize, Serialize};

const ROWS: &str = "club.jsonl";
const DIGEST: &str = "club.sha256";
const FORMAT: u32 = 1;

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Head {
    hilum_archive: u32,
    schema: i64,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct TableHead {
    table: String,
    columns: Vec<String>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Foot {
    rows: u64,
}

/// As `sha256sum --check` reads it.
fn digest_line(digest: &[u8]) -> String {
    format!("{}  {ROWS}\n", data_encoding::HEXLOWER.encode(digest))
}
