//! Which backups stay: all of some days, then the newest of each week, for a year.

use super::names;
use crate::db::ids::At;
use chrono::Datelike;
use std::collections::BTreeSet;

const WEEKS_UNTIL: i64 = 366;

/// Those of these file names that may go at `now`, when each is kept for `days`. The newest never goes.
pub fn surplus(files: &[String], now: At, days: i64) -> Vec<String> {
    let mut ours: Vec<(At, &String)> = files.iter().filter_map(|f| Some((names::made(f)?, f))).collect();
    ours.sort();
    let (mut weeks, mut gone) = (BTreeSet::new(), Vec::new());
    for (place, (at, file)) in ours.iter().rev().enumerate() {
        let day = at.day(chrono_tz::UTC);
        let week = (day.iso_week().year(), day.iso_week().week());
        let recent = place == 0 || *at > now.plus_days(-days);
        let of_its_week = *at > now.plus_days(-WEEKS_UNTIL) && !weeks.contains(&week);
        if recent || of_its_week {
            weeks.insert(week);
        } else {
            gone.push((*file).clone());
        }
    }
    gone
}
