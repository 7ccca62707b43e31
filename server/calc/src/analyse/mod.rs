//! The club's long table of counts in, the whole computation out: measures of every bag, the club
//! table, the mixed model, sources compared, and which sources are linked at all.

mod bags;
mod cells;
mod date;
mod document;
mod effects;
mod fault;
mod lines;
mod model;
mod pairs;
mod sheet;
mod within;

use crate::standard_day::final_count_day;
use crate::table::{At, Of, Options as Choice, Place, Reading, Row};
pub use date::day_number;
pub use fault::Fault;
use model::Model;
use pairs::Pair;
use serde_json::Value;
use std::collections::BTreeMap;

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

/// The adjusted rate of one source: of seeds on paper, for a grower of average care.
#[derive(Debug, Clone, Copy)]
pub struct Adjusted {
    /// Share, 0 to 1.
    pub rate: f64,
    /// Lower end of the 95 % interval.
    pub low: f64,
    /// Upper end.
    pub high: f64,
}

/// Everything computed from one file.
pub struct Analysis {
    bags: Vec<bags::BagFile>,
    rows: Vec<Row>,
    adjusted: BTreeMap<(String, String, String), Adjusted>,
    model: Option<Model>,
    pairs: Vec<Pair>,
    linked: Vec<Linked>,
}

/// The sources of one variety by the group in which they can be compared.
struct Linked {
    kind: String,
    variety: String,
    groups: Vec<Vec<String>>,
}

/// Reads `csv_text` (RFC 4180 with a header) and computes everything, or says every fault of the file.
pub fn run(csv_text: &str, options: Options) -> Result<Analysis, Vec<Fault>> {
    let files = bags::read(csv_text)?;
    let bags: Vec<_> = files.iter().map(bags::BagFile::bag).collect();
    let choice =
        Choice { of: options.of, at: options.at, as_of: options.as_of, standard_day: &final_count_day };
    let reading = Reading::new(&bags, &choice);
    let (rows, groups, trials) = (reading.rows(), reading.groups(), reading.trials());
    let ready = model::Ready::new(&trials, &files);
    let fitted = ready.as_ref().map(model::Ready::fit);
    let adjusted = fitted.as_ref().map(model::Fitted::adjusted).unwrap_or_default();
    let pairs = pairs::pairs(fitted.as_ref(), &trials, &groups);
    let model = fitted.as_ref().map(model::Fitted::model);
    let linked = linked(&groups);
    drop((reading, bags, fitted));
    Ok(Analysis { bags: files, rows, adjusted, model, pairs, linked })
}

fn linked(groups: &BTreeMap<Place, usize>) -> Vec<Linked> {
    let mut varieties: Vec<Linked> = Vec::new();
    for ((kind, variety, source), group) in groups {
        if varieties.last().is_none_or(|v| (v.kind.as_str(), v.variety.as_str()) != (*kind, *variety)) {
            let (kind, variety) = ((*kind).to_owned(), (*variety).to_owned());
            varieties.push(Linked { kind, variety, groups: Vec::new() });
        }
        if let Some(last) = varieties.last_mut() {
            let places = last.groups.len().max(*group);
            last.groups.resize(places, Vec::new());
            last.groups[group - 1].push((*source).to_owned());
        }
    }
    varieties
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
        self.adjusted.get(&(row.kind.clone(), row.variety.clone(), row.source.clone()))
    }
}
