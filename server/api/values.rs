//! Values that more than one thing is made of, and the identities in examples.

use crate::db::ids::At;
use chrono_tz::Tz;
use schemars::{JsonSchema, Schema, json_schema};
use serde::{Deserialize, Serialize};

/// A moment with its offset from UTC (RFC 3339), such as `2026-03-02T07:30:00+01:00`.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[schemars(extend("format" = "date-time"))]
pub struct Moment(pub String);

impl Moment {
    pub fn of(at: At, zone: Tz) -> Self {
        Self(at.local(zone).to_rfc3339())
    }

    pub fn maybe(at: Option<At>, zone: Tz) -> Option<Self> {
        at.map(|at| Self::of(at, zone))
    }

    pub fn example() -> Self {
        Self("2026-03-02T07:30:00+01:00".into())
    }

    /// Whether it is one.
    pub fn is_good(&self) -> bool {
        chrono::DateTime::parse_from_rfc3339(&self.0).is_ok()
    }
}

/// The id of a save: 128 random bits as 32 hexadecimal digits, made by the sender. The same id again is the same
/// save, however often it is sent.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[schemars(extend("pattern" = "^[0-9a-f]{32}$"))]
pub struct SaveId(pub String);

impl SaveId {
    pub fn example() -> Self {
        Self("5f0c9d3e7b1a4f62a8d4c6e01b7f9a35".into())
    }

    /// Whether it is one.
    pub fn is_good(&self) -> bool {
        self.0.len() == 32 && self.0.bytes().all(|b| matches!(b, b'0'..=b'9' | b'a'..=b'f'))
    }
}

/// One of these words.
pub fn one_of<'w>(words: impl IntoIterator<Item = &'w str>) -> Schema {
    let words: Vec<&str> = words.into_iter().collect();
    json_schema!({ "type": "string", "enum": words })
}

/// The same, or nothing.
pub fn one_or_none<'w>(words: impl IntoIterator<Item = &'w str>) -> Schema {
    let words: Vec<Option<&str>> = words.into_iter().map(Some).chain([None]).collect();
    json_schema!({ "type": ["string", "null"], "enum": words })
}

/// An identity that no thing has, for examples of the collection named first in a path.
pub fn example_id(collection: &str) -> String {
    let names = ["packets", "trials", "bags", "trays", "plantings", "entries", "routines"];
    match names.iter().position(|name| *name == collection) {
        Some(n) => format!("0195572e36f07d0a9c4e00000000000{}", n + 1),
        None => "pepper".to_owned(),
    }
}
