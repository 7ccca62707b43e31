//! The file as lines of typed cells.

use super::Fault;
use super::cells::{Cells, Names, unguarded};
use std::sync::Arc;

/// Columns that must be there, and those that may.
pub const NEEDED: [&str; 11] =
    ["kind", "variety", "source", "grower", "trial", "bag", "seeds", "hours", "rooted", "abnormal", "dead"];
pub const OPTIONAL: [&str; 9] =
    ["soaked", "floated", "lot_year", "routine", "warmth_c", "age_years", "put_on_paper", "closed", "club"];

/// One look into one bag, with what its line says of the bag.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    pub line: u64,
    pub kind: Arc<str>,
    pub variety: Arc<str>,
    pub source: Arc<str>,
    pub grower: Arc<str>,
    pub trial: Arc<str>,
    pub bag: Arc<str>,
    pub seeds: u32,
    pub hours: f64,
    pub rooted: u32,
    pub abnormal: u32,
    pub dead: u32,
    pub soaked: u32,
    pub floated: bool,
    pub closed: bool,
    pub lot_year: Option<u32>,
    pub routine: Option<Arc<str>>,
    pub warmth_c: Option<f64>,
    pub age_years: Option<f64>,
    pub put_on_paper: Option<i32>,
    /// The club of the grower; none for our own.
    pub club: Option<Arc<str>>,
}

/// Reads all lines; lines with faults are left out, the faults are added to `faults`.
pub fn lines(text: &str, faults: &mut Vec<Fault>) -> Vec<Line> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let mut reader = csv::ReaderBuilder::new().has_headers(false).flexible(true).from_reader(text.as_bytes());
    let mut records = reader.records().filter_map(Result::ok);
    let Some(header) = records.next() else {
        faults.push(Fault::new(1, "kind", "the file is empty; the first line must name the columns"));
        return Vec::new();
    };
    let names: Vec<String> = header.iter().map(|name| name.trim().to_lowercase()).collect();
    check_header(&names, faults);
    if !faults.is_empty() {
        return Vec::new();
    }
    let mut lines = Vec::new();
    let mut known = Names::default();
    let mut last = 1;
    for record in records {
        let line = record.position().map_or(0, csv::Position::line);
        last = line;
        if record.iter().all(|cell| cell.trim().is_empty()) {
            continue;
        }
        if record.len() != names.len() {
            faults.push(uneven(line, &names, record.len()));
            continue;
        }
        let values = record.iter().map(unguarded).collect();
        lines.extend(line_of(Cells::new(line, &names, values, &mut known), faults));
    }
    if text.matches('"').count() % 2 == 1 {
        faults.push(Fault::new(last, &called(&names, names.len()), "a quotation mark is not closed"));
    }
    lines
}

fn check_header(names: &[String], faults: &mut Vec<Fault>) {
    let missing = NEEDED.iter().filter(|n| !names.iter().any(|name| name == *n));
    faults.extend(missing.map(|name| Fault::new(1, name, "this column is missing")));
    for name in NEEDED.iter().chain(&OPTIONAL) {
        if names.iter().filter(|n| n == name).count() > 1 {
            faults.push(Fault::new(1, name, "this column is there twice"));
        }
    }
}

fn uneven(line: u64, names: &[String], cells: usize) -> Fault {
    let error = format!("the line has {cells} cells, the header has {}", names.len());
    Fault::new(line, &called(names, cells), error)
}

/// The name of the column at `place`, or of the last; its number where the header leaves it without one.
fn called(names: &[String], place: usize) -> String {
    let place = place.min(names.len() - 1);
    if names[place].is_empty() { (place + 1).to_string() } else { names[place].clone() }
}

fn line_of(mut cells: Cells, faults: &mut Vec<Fault>) -> Option<Line> {
    let seeds = cells.whole("seeds", 1);
    let line = Line {
        line: cells.line,
        kind: cells.text("kind"),
        variety: cells.text("variety"),
        source: cells.text("source"),
        grower: cells.text("grower"),
        trial: cells.text("trial"),
        bag: cells.text("bag"),
        seeds,
        hours: cells.hours("hours"),
        rooted: cells.whole("rooted", 0),
        abnormal: cells.whole("abnormal", 0),
        dead: cells.whole("dead", 0),
        soaked: cells.maybe("soaked").map_or(seeds, |_| cells.whole("soaked", 1)),
        floated: cells.flag("floated", false),
        closed: cells.flag("closed", true),
        lot_year: cells.maybe("lot_year").map(|_| cells.year("lot_year")),
        routine: cells.maybe("routine").map(|_| cells.text("routine")),
        warmth_c: cells.maybe("warmth_c").map(|_| cells.number("warmth_c", -20.0, 70.0)),
        age_years: cells.maybe("age_years").map(|_| cells.number("age_years", 0.0, 1000.0)),
        put_on_paper: cells.maybe("put_on_paper").and_then(|_| cells.date("put_on_paper")),
        club: cells.maybe("club").map(|_| cells.text("club")),
    };
    if cells.faults.is_empty() && line.soaked < line.seeds {
        cells.fault("soaked", format!("must not be fewer than seeds ({})", line.seeds));
    }
    let good = cells.faults.is_empty();
    faults.append(&mut cells.faults);
    good.then_some(line)
}
