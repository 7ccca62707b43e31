use super::{Fault, day_number};
use std::collections::BTreeSet;
use std::sync::Arc;

/// Most seeds of one bag.
const MOST_SEEDS: u32 = 1_000_000;
/// Most hours a bag is followed: ten years.
const MOST_HOURS: f64 = 87_660.0;

/// A text cell of a spreadsheet that a leading apostrophe keeps from being read as a formula: the
/// text without it.
pub fn unguarded(cell: &str) -> &str {
    let cell = cell.trim();
    cell.strip_prefix('\'').filter(|rest| is_risky(rest)).unwrap_or(cell)
}

/// Whether a spreadsheet would run this text as a formula, or it begins with the apostrophe that keeps others from
/// it: in a file of ours it gets an apostrophe before it, which reading takes off.
#[must_use]
pub fn is_risky(cell: &str) -> bool {
    cell.starts_with(['=', '+', '-', '@', '\t', '\r', '\''])
}

/// Every text of the file once: a long file says the same names on most of its lines.
#[derive(Default)]
pub struct Names(BTreeSet<Arc<str>>);

impl Names {
    fn once(&mut self, text: &str) -> Arc<str> {
        if let Some(known) = self.0.get(text) {
            return Arc::clone(known);
        }
        let new: Arc<str> = Arc::from(text);
        self.0.insert(Arc::clone(&new));
        new
    }
}

/// The cells of one line by column name; collects every fault instead of stopping at the first.
pub struct Cells<'a> {
    pub line: u64,
    columns: &'a [String],
    values: Vec<&'a str>,
    names: &'a mut Names,
    pub faults: Vec<Fault>,
}

impl<'a> Cells<'a> {
    pub fn new(line: u64, columns: &'a [String], values: Vec<&'a str>, names: &'a mut Names) -> Self {
        Self { line, columns, values, names, faults: Vec::new() }
    }

    pub fn fault(&mut self, column: &str, error: impl Into<String>) {
        self.faults.push(Fault::new(self.line, column, error));
    }

    /// The cell, where the column is there and not empty.
    pub fn maybe(&self, column: &str) -> Option<&'a str> {
        let place = self.columns.iter().position(|name| name == column)?;
        Some(self.values[place]).filter(|cell| !cell.is_empty())
    }

    fn must(&mut self, column: &str) -> Option<&'a str> {
        let cell = self.maybe(column);
        if cell.is_none() {
            self.fault(column, "is empty");
        }
        cell
    }

    pub fn text(&mut self, column: &str) -> Arc<str> {
        let cell = self.must(column).unwrap_or_default();
        if cell.chars().count() > 200 {
            self.fault(column, "is longer than 200 characters");
        }
        self.names.once(cell)
    }

    /// A whole number, `least` or more.
    pub fn whole(&mut self, column: &str, least: u32) -> u32 {
        self.between(column, least, MOST_SEEDS)
    }

    pub fn year(&mut self, column: &str) -> u32 {
        self.between(column, 1900, 2199)
    }

    fn between(&mut self, column: &str, least: u32, most: u32) -> u32 {
        let Some(cell) = self.must(column) else { return 0 };
        let digits = cell.bytes().all(|b| b.is_ascii_digit());
        match cell.parse::<u32>().ok().filter(|n| digits && (least..=most).contains(n)) {
            Some(n) => n,
            None => {
                self.fault(
                    column,
                    format!("must be a whole number from {least} to {most}, not '{}'", short(cell)),
                );
                0
            }
        }
    }

    pub fn number(&mut self, column: &str, least: f64, most: f64) -> f64 {
        let Some(cell) = self.must(column) else { return 0.0 };
        match decimal(cell).filter(|x| (least..=most).contains(x)) {
            Some(x) => x,
            None => {
                self.fault(column, format!("must be a number from {least} to {most}, not '{}'", short(cell)));
                0.0
            }
        }
    }

    pub fn hours(&mut self, column: &str) -> f64 {
        let hours = self.number(column, 0.0, MOST_HOURS);
        if self.maybe(column).and_then(decimal).is_some_and(|x| x == 0.0) {
            self.fault(column, "must be more than 0: the moment on paper is not a look");
        }
        hours
    }

    pub fn flag(&mut self, column: &str, default: bool) -> bool {
        match self.maybe(column) {
            None => default,
            Some("0") => false,
            Some("1") => true,
            Some(cell) => {
                self.fault(column, format!("must be 0 or 1, not '{}'", short(cell)));
                default
            }
        }
    }

    pub fn date(&mut self, column: &str) -> Option<i32> {
        let cell = self.maybe(column)?;
        let day = day_number(cell);
        if day.is_none() {
            self.fault(column, format!("must be a date as 2024-03-31, not '{}'", short(cell)));
        }
        day
    }
}

/// A finite number in plain decimal notation.
fn decimal(cell: &str) -> Option<f64> {
    let plain = cell.bytes().all(|b| b.is_ascii_digit() || matches!(b, b'.' | b'-' | b'+'));
    cell.parse::<f64>().ok().filter(|x| plain && x.is_finite())
}

fn short(cell: &str) -> String {
    if cell.chars().count() > 20 { cell.chars().take(20).chain(['…']).collect() } else { cell.to_owned() }
}
