//! How the rows of the club table are sorted, and the heads that say so.

use super::adjusted::Column;
use super::choice::{FILTERS, address};
use super::rows::ClubRow;
use crate::web::forms::Form;
use std::cmp::Ordering;

/// Heads of the table as the address names them, and whether they are of numbers.
const HEADS: [(&str, bool); 10] = [
    ("variety", false),
    ("source", false),
    ("kind", false),
    ("rate", false),
    ("adjusted", false),
    ("rooted", true),
    ("trials", true),
    ("bags", true),
    ("growers", true),
    ("median", true),
];

/// A head as the page names it.
fn words(head: &str) -> &'static str {
    match head {
        "variety" => t!("rates-variety"),
        "source" => t!("rates-source"),
        "kind" => t!("rates-kind"),
        "rate" => t!("rates-rate"),
        "adjusted" => t!("rates-adjusted"),
        "rooted" => t!("rates-rooted"),
        "trials" => t!("rates-trials"),
        "bags" => t!("rates-bags"),
        "growers" => t!("rates-growers"),
        _ => t!("rates-half-rooted-by"),
    }
}

pub struct Head {
    pub words: &'static str,
    pub number: bool,
    /// Left out on a screen that is neither wide nor a phone's: the rate has the most of it beside it.
    pub spare: bool,
    pub link: String,
    /// `ascending`, `descending` or empty.
    pub sorted: &'static str,
}

/// How the rows are sorted; by kind, variety and source where nothing is asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Order {
    by: Option<&'static str>,
    down: bool,
}

impl Order {
    pub fn read(form: &mut Form) -> Self {
        let asked = form.value("sort");
        let by = HEADS.iter().map(|h| h.0).find(|name| *name == asked);
        if by.is_none() && !asked.is_empty() {
            form.refuse("sort", t!("rates-no-such-column"));
        }
        Self { by, down: form.value("way") == "down" }
    }

    pub fn heads(self, form: &Form, column: &Column) -> Vec<Head> {
        let head = |(name, number): (&'static str, bool)| {
            let current = self.by == Some(name);
            let way = if current && !self.down { "down" } else { "up" };
            let more = [("sort", name.to_owned()), ("way", way.to_owned())];
            let sorted = match (current, self.down) {
                (false, _) => "",
                (true, false) => "ascending",
                (true, true) => "descending",
            };
            let spare = ["rooted", "trials", "bags", "growers"].contains(&name);
            let link = address("/table", form, &FILTERS, &more);
            Head { words: words(name), number, spare, link, sorted }
        };
        HEADS.into_iter().filter(|h| h.0 != "adjusted" || column.shown()).map(head).collect()
    }

    /// Rows without the number come last, whichever way.
    pub fn sorted<'r>(self, rows: &'r [ClubRow], column: &Column) -> Vec<&'r ClubRow> {
        let mut rows: Vec<&'r ClubRow> = rows.iter().collect();
        let Some(by) = self.by else { return rows };
        if by == "adjusted" {
            let mut rated: Vec<_> = rows.into_iter().map(|r| (column.rate(r), r)).collect();
            rated.sort_by(|a, b| self.known(a.0, b.0));
            return rated.into_iter().map(|(_, r)| r).collect();
        }
        rows.sort_by(|a, b| {
            let (a, b) = (&a.row, &b.row);
            let turn = |o: Ordering| if self.down { o.reverse() } else { o };
            match by {
                "kind" => turn(a.kind.cmp(&b.kind)),
                "variety" => turn(a.variety.to_lowercase().cmp(&b.variety.to_lowercase())),
                "source" => turn(a.source.to_lowercase().cmp(&b.source.to_lowercase())),
                "rate" => self.known(a.rate, b.rate),
                "median" => self.known(a.median_days, b.median_days),
                "rooted" => turn(a.rooted.cmp(&b.rooted)),
                "trials" => turn(a.trials.cmp(&b.trials)),
                "bags" => turn(a.bags.cmp(&b.bags)),
                _ => turn(a.growers.cmp(&b.growers)),
            }
        });
        rows
    }

    fn known(self, a: Option<f64>, b: Option<f64>) -> Ordering {
        match (a, b) {
            (Some(a), Some(b)) if self.down => b.total_cmp(&a),
            (Some(a), Some(b)) => a.total_cmp(&b),
            (a, b) => b.is_some().cmp(&a.is_some()),
        }
    }
}
