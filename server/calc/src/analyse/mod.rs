//! The club's long table of counts in, the whole computation out: measures of every bag, the club
//! table, the mixed model, sources compared, and which sources are linked at all.

mod bags;
mod cells;
mod date;
mod document;
mod fault;
mod lines;
mod sheet;

use crate::club::{Adjusted, Care, Club};
use crate::standard_day::final_count_day;
use crate::table::{At, Bag, Of, Options as Choice, Row};
pub use cells::is_risky;
pub use date::day_number;
pub use fault::Fault;
use serde_json::Value;
pub use sheet::{HEADER as TABLE_HEADER, cells as table_cells};

/// What to compute.
#[derive(Debug, Clone, Copy)]
pub struct Options {
    /// What the rate is a share of; seeds started by default.
    pub of: Of,
    /// By when; the standard day by default.
    pub at: At,
    /// Day of the reading as [`day_number`] gives it; `None` takes every bag.
    pub as_of: Option<i32>,
}

impl Default for Options {
    fn default() -> Self {
        Self { of: Of::Started, at: At::Day, as_of: None }
    }
}

/// Everything computed from one file.
pub struct Analysis {
    bags: Vec<bags::BagFile>,
    club: Club,
}

/// The bags of one file.
pub struct Counts(Vec<bags::BagFile>);

impl Counts {
    /// Each bag with what else its lines say, sorted by kind, variety, source, trial and bag.
    pub fn bags(&self) -> impl Iterator<Item = (Bag<'_>, Care<'_>)> {
        self.0.iter().map(|file| (file.bag(), file.care()))
    }
}

/// Reads `csv_text` (RFC 4180 with a header), or says every fault of the file.
pub fn read(csv_text: &str) -> Result<Counts, Vec<Fault>> {
    bags::read(csv_text).map(Counts)
}

/// Reads `csv_text` (RFC 4180 with a header) and computes everything, or says every fault of the file.
pub fn run(csv_text: &str, options: Options) -> Result<Analysis, Vec<Fault>> {
    let files = bags::read(csv_text)?;
    let bags: Vec<_> = files.iter().map(bags::BagFile::bag).collect();
    let cares: Vec<_> = files.iter().map(bags::BagFile::care).collect();
    let choice =
        Choice { of: options.of, at: options.at, as_of: options.as_of, standard_day: &final_count_day };
    let club = Club::of(bags, cares, &choice);
    Ok(Analysis { bags: files, club })
}

impl Analysis {
    /// The document that the command prints.
    #[must_use]
    pub fn json(&self) -> Value {
        document::document(self)
    }

    /// The same document as text; for large clubs, whose document would fill the memory.
    #[must_use]
    pub fn json_text(&self) -> String {
        document::text(self)
    }

    /// The club table as CSV (RFC 4180, with a header).
    #[must_use]
    pub fn table_csv(&self) -> String {
        sheet::table_csv(self)
    }

    fn adjusted_of(&self, row: &Row) -> Option<&Adjusted> {
        self.club.standing.adjusted((&row.kind, &row.variety, &row.source))
    }
}
