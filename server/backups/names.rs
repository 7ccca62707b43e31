//! Names of backups: when in UTC, of which step of the schema, and what for.

use crate::db::ids::At;
use chrono::{DateTime, NaiveDateTime};

const FORM: &str = "hilum-%Y-%m-%dT%H%M%SZ";
const PLAIN: usize = "hilum-2026-03-02T080000Z".len();

/// What a backup was made for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Why {
    /// By the schedule or by hand; these make room after a while.
    Safety,
    /// Kept until somebody deletes it.
    BeforeUpgrade,
    /// What stood where another was restored; kept likewise.
    Replaced,
    /// The same, where it was damaged.
    Damaged,
}

impl Why {
    fn words(self) -> &'static str {
        match self {
            Self::Safety => "",
            Self::BeforeUpgrade => "-before-upgrade",
            Self::Replaced => "-replaced",
            Self::Damaged => "-damaged",
        }
    }
}

/// Such as `hilum-2026-03-02T080000Z-schema-0016.db`; `nth` tells those of one second apart, from 1.
pub fn name(at: At, schema: i64, why: Why, nth: u32, ending: &str) -> String {
    let when = DateTime::from_timestamp(at.0, 0).unwrap_or_default().format(FORM);
    let nth = if nth > 1 { format!("-{nth}") } else { String::new() };
    format!("{when}-schema-{schema:04}{}{nth}.{ending}", why.words())
}

/// When a backup of this name was made; `None` for files that are not ours to delete.
pub fn made(name: &str) -> Option<At> {
    let (stem, ending) = name.rsplit_once('.')?;
    let kept = [Why::BeforeUpgrade, Why::Replaced, Why::Damaged].iter().any(|why| stem.contains(why.words()));
    if kept || !["db", "zip"].contains(&ending) || !stem.get(PLAIN..)?.starts_with("-schema-") {
        return None;
    }
    moment(name)
}

/// When the club was as a file of this name has it, whatever it was made for.
pub fn moment(name: &str) -> Option<At> {
    let at = NaiveDateTime::parse_from_str(name.get(..PLAIN)?, FORM).ok()?;
    Some(At(at.and_utc().timestamp()))
}
