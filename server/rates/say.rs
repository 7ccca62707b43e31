//! The table in words.

use super::choice::Choice;
use super::rows::{ClubRow, ClubTable};
use crate::web::words::{counted, percent};
use hilum_calc::units::shown;
use std::collections::BTreeMap;

/// Fewer independent seeds than this are said to be few.
const FEW: f64 = 30.0;

/// A rate as a page shows it: "86 %", "(78 to 92)", "120 seeds, 4 growers".
#[derive(Debug, Clone)]
pub struct SaidRate {
    pub rate: String,
    pub span: String,
    pub seeds: String,
}

/// The rate with its interval and what it is from.
pub fn rate(r: &ClubRow, choice: &Choice) -> SaidRate {
    let (seeds, growers) = (base(r, choice), r.row.growers);
    SaidRate {
        rate: r.row.rate.map_or_else(|| "not known yet".to_owned(), |p| format!("{} %", percent(p))),
        span: format!("({} to {})", percent(r.row.low), percent(r.row.high)),
        seeds: format!("{}, {}", number(seeds, "seed"), number(growers as u64, "grower")),
    }
}

/// The seeds the rate is a share of.
pub fn base(r: &ClubRow, choice: &Choice) -> u64 {
    if choice.of_paper { r.row.seeds } else { r.row.soaked }
}

pub fn number(n: u64, noun: &str) -> String {
    counted(i64::try_from(n).unwrap_or(i64::MAX), noun, &format!("{noun}s"))
}

/// Days until half of the seeds that root have rooted.
pub fn median(r: &ClubRow) -> String {
    r.row.median_days.map_or_else(String::new, |d| format!("{} days", shown(d, 1)))
}

/// What a reader must know of a row besides its numbers.
pub fn signs(r: &ClubRow, choice: &Choice) -> Vec<String> {
    let bags = |n: usize, what: &str| (n > 0).then(|| format!("{} {what}", number(n as u64, "bag")));
    let few = (base(r, choice) as f64) / r.row.design_effect < FEW;
    [
        few.then(|| "few seeds".to_owned()),
        r.row.estimated.then(|| "estimated".to_owned()),
        bags(r.row.closed_early, "closed before the day"),
        bags(r.row.running, "still running"),
        bags(r.waiting, "not there yet"),
        (r.threw > 0).then(|| "floaters thrown out".to_owned()),
        bags(r.in_doubt, "in doubt"),
        bags(r.abandoned, "abandoned"),
        r.row.club_day.then(|| "the club's own day".to_owned()),
        (r.groups > 1).then(|| format!("group {} of {}", r.row.group, r.groups)),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// What the rate means under this choice.
pub fn meaning(choice: &Choice) -> String {
    let of = if choice.of_paper {
        "Of the seeds that went on paper, less those lost"
    } else {
        "Of the seeds started, less those lost or put back (floaters thrown out count as not rooted)"
    };
    let at = if choice.at_close {
        "the share whose root was out when the bag was closed, however late"
    } else {
        "the share whose root was out by the standard day of the kind"
    };
    format!("{of}: {at}.")
}

/// The standard days of the kinds in the table, in two sentences at most; empty at the close.
pub fn days(table: &ClubTable) -> String {
    let mut published = BTreeMap::new();
    let mut own = BTreeMap::new();
    for r in &table.rows {
        if let Some(day) = r.row.day {
            let days = if r.row.club_day { &mut own } else { &mut published };
            days.entry(r.row.kind.as_str())
                .or_insert_with(|| format!("{} day {}", r.row.kind, shown(day, 0)));
        }
    }
    let list = |days: BTreeMap<&str, String>| days.into_values().collect::<Vec<_>>().join(", ");
    let mut said = Vec::new();
    if !published.is_empty() {
        said.push(format!("Standard days: {}.", list(published)));
    }
    if !own.is_empty() {
        said.push(format!(
            "No day is published for these, so the club's own is used, by which 95 % of all its rooted seeds were out: {}.",
            list(own)
        ));
    }
    said.join(" ")
}

/// As of when the rates of a large club are, and how many counts came `since`.
pub fn behind(when: &str, since: i64) -> String {
    if since == 0 {
        return format!("The rates are as of {when}, with every count in them.");
    }
    let counts = counted(since, "count", "counts");
    format!("The rates are as of {when}, {counts} since: they come in within a minute.")
}

/// What is not in the rates, with its number.
pub fn aside(table: &ClubTable) -> String {
    let bags = |n: usize| number(n as u64, "bag");
    format!(
        "Not in the rates: {} that went on paper too lately, {} in doubt, {} abandoned.",
        bags(table.waiting),
        bags(table.in_doubt),
        bags(table.abandoned)
    )
}
