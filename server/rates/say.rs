//! The table in words.

use super::choice::Choice;
use super::rows::{ClubRow, ClubTable};
use crate::web::words::{decimal, percent};
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
        rate: r
            .row
            .rate
            .map_or_else(|| t!("rates-not-known-yet").to_owned(), |p| format!("{} %", percent(p))),
        span: t!("rates-span", low = percent(r.row.low), high = percent(r.row.high)),
        seeds: t!("rates-seeds-of-growers", seeds = seeds, growers = growers),
    }
}

/// The seeds the rate is a share of.
pub fn base(r: &ClubRow, choice: &Choice) -> u64 {
    if choice.of_paper { r.row.seeds } else { r.row.soaked }
}

/// Days until half of the seeds that root have rooted.
pub fn median(r: &ClubRow) -> String {
    r.row.median_days.map_or_else(String::new, |d| t!("rates-days", n = decimal(&shown(d, 1))))
}

/// What a reader must know of a row besides its numbers.
pub fn signs(r: &ClubRow, choice: &Choice) -> Vec<String> {
    let few = (base(r, choice) as f64) / r.row.design_effect < FEW;
    let (early, running) = (r.row.closed_early, r.row.running);
    [
        few.then(|| t!("rates-few-seeds").to_owned()),
        r.row.estimated.then(|| t!("rates-estimated").to_owned()),
        (early > 0).then(|| t!("rates-bags-closed-early", n = early)),
        (running > 0).then(|| t!("rates-bags-running", n = running)),
        (r.waiting > 0).then(|| t!("rates-bags-not-there", n = r.waiting)),
        (r.threw > 0).then(|| t!("rates-floaters-thrown-out").to_owned()),
        (r.in_doubt > 0).then(|| t!("rates-bags-in-doubt", n = r.in_doubt)),
        (r.abandoned > 0).then(|| t!("rates-bags-abandoned", n = r.abandoned)),
        r.row.club_day.then(|| t!("rates-own-day").to_owned()),
        (r.groups > 1).then(|| t!("rates-group", n = r.row.group, all = r.groups)),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// What the rate means under this choice.
pub fn meaning(choice: &Choice) -> &'static str {
    match (choice.of_paper, choice.at_close) {
        (false, false) => t!("rates-of-started-by-day"),
        (false, true) => t!("rates-of-started-at-close"),
        (true, false) => t!("rates-of-paper-by-day"),
        (true, true) => t!("rates-of-paper-at-close"),
    }
}

/// The same in the caption of the table.
pub fn caption(choice: &Choice) -> &'static str {
    match (choice.of_paper, choice.at_close) {
        (false, false) => t!("rates-rows-of-started-by-day"),
        (false, true) => t!("rates-rows-of-started-at-close"),
        (true, false) => t!("rates-rows-of-paper-by-day"),
        (true, true) => t!("rates-rows-of-paper-at-close"),
    }
}

/// The standard days of the kinds in the table, in two sentences at most; empty at the close.
pub fn days(table: &ClubTable) -> String {
    let mut published = BTreeMap::new();
    let mut own = BTreeMap::new();
    for r in &table.rows {
        if let Some(day) = r.row.day {
            let days = if r.row.club_day { &mut own } else { &mut published };
            days.entry(r.row.kind.as_str())
                .or_insert_with(|| t!("rates-kind-and-day", kind = r.row.kind, day = shown(day, 0)));
        }
    }
    let list = |days: BTreeMap<&str, String>| days.into_values().collect::<Vec<_>>().join(", ");
    let mut said = Vec::new();
    if !published.is_empty() {
        said.push(t!("rates-standard-days", days = list(published)));
    }
    if !own.is_empty() {
        said.push(t!("rates-own-standard-days", days = list(own)));
    }
    said.join(" ")
}

/// As of when the rates of a large club are, and how many counts came `since`.
pub fn behind(when: &str, since: i64) -> String {
    match since {
        0 => t!("rates-as-of-now", when = when),
        _ => t!("rates-as-of-before", when = when, n = since),
    }
}

/// What is not in the rates, with its number.
pub fn aside(table: &ClubTable) -> String {
    t!(
        "rates-not-in-the-rates",
        late = t!("rates-bags-too-late", n = table.waiting),
        doubt = t!("rates-bags-in-doubt", n = table.in_doubt),
        abandoned = t!("rates-bags-abandoned", n = table.abandoned)
    )
}
