//! Which column of a sheet is which column of ours: guessed by the headings, changed by whoever brings it in.

use super::cells::plain;
use super::columns::{Column, PACKETS, meant};
use super::fault::{Fault, shortened};
use super::mcpd;
use super::sheet::{Line, Sheet};
use crate::web::forms::Form;

/// Headings stand in one of the first so many rows.
const FIRST: usize = 20;
/// The choice that leaves a column out.
pub const OUT: &str = "-";

/// A column of the sheet.
#[derive(Debug, Clone)]
pub struct Place {
    /// `col:0`: the field that says what it is.
    pub field: String,
    pub heading: String,
    /// The first cell below the heading.
    pub example: String,
    /// What it is; `None` is left out.
    pub meant: Option<usize>,
}

#[derive(Debug)]
pub struct Matching {
    pub columns: &'static [Column],
    /// The row of the headings, as a place among the lines of the sheet.
    head: usize,
    pub places: Vec<Place>,
}

impl Matching {
    /// As the headings say, and as `form` says otherwise.
    pub fn of(sheet: &Sheet, columns: &'static [Column], form: &Form) -> Self {
        let head = head(sheet, columns, form);
        let headings: &[String] = sheet.lines.get(head).map_or(&[], |l| &l.cells);
        let below = sheet.lines.iter().skip(head + 1).take(FIRST);
        let width = below.clone().map(|l| l.cells.len()).max().unwrap_or(0).max(headings.len());
        let place = |i: usize| {
            let field = format!("col:{i}");
            let heading = headings.get(i).map(|h| plain(h).trim().to_owned()).unwrap_or_default();
            let example = below.clone().filter_map(|l| l.cells.get(i)).find(|c| !c.is_empty());
            let asked = form.value(&field);
            let found = match asked {
                "" => guessed(columns, headings, &heading),
                asked => columns.iter().position(|c| c.field == asked),
            };
            Place { field, heading, example: example.map(|c| shortened(c)).unwrap_or_default(), meant: found }
        };
        Self { columns, head, places: (0..width).map(place).collect() }
    }

    /// The number of the row in which the headings stand.
    pub fn head_line(&self, sheet: &Sheet) -> u64 {
        sheet.lines.get(self.head).map_or(1, |l| l.line)
    }

    /// The rows below the headings.
    pub fn rows<'s>(&self, sheet: &'s Sheet) -> &'s [Line] {
        sheet.lines.get(self.head + 1..).unwrap_or(&[])
    }

    pub fn has(&self, field: &str) -> bool {
        self.places.iter().any(|p| p.meant.is_some_and(|i| self.columns[i].field == field))
    }

    /// Headings of columns that are left out.
    pub fn ignored(&self) -> Vec<String> {
        let out = self.places.iter().filter(|p| p.meant.is_none() && !p.heading.is_empty());
        out.map(|p| p.heading.clone()).collect()
    }

    /// Two columns for one thing, and cells below no heading.
    pub fn faults(&self, sheet: &Sheet) -> Vec<Fault> {
        let line = self.head_line(sheet);
        let mut faults = Vec::new();
        for (i, place) in self.places.iter().enumerate() {
            let Some(found) = place.meant else { continue };
            if self.places[..i].iter().any(|p| p.meant == Some(found)) {
                let message = t!("transfer-two-columns", column = self.columns[found].words());
                faults.push(Fault::new(line, &place.heading, message));
            }
        }
        faults
    }

    /// The name of a column of the sheet: what it is, its heading, or its number.
    pub fn name(&self, i: usize) -> String {
        match self.places.get(i) {
            Some(Place { meant: Some(found), .. }) => self.columns[*found].name.to_owned(),
            Some(place) if !place.heading.is_empty() => place.heading.clone(),
            _ => (i + 1).to_string(),
        }
    }

    /// The cells of a row by field, without the guard against formulas; and what is wrong with the row itself.
    pub fn cells<'l>(&self, line: &'l Line) -> (Vec<(&'static str, &'l str)>, Vec<Fault>) {
        let (mut cells, mut faults) = (Vec::new(), Vec::new());
        for (i, cell) in line.cells.iter().enumerate().filter(|(_, c)| !c.trim().is_empty()) {
            match self.places.get(i) {
                Some(Place { meant: Some(found), .. }) => {
                    cells.push((self.columns[*found].field, plain(cell)));
                }
                Some(place) if !place.heading.is_empty() => {}
                _ => {
                    let message = t!("transfer-no-heading", cell = shortened(cell));
                    faults.push(Fault::new(line.line, &self.name(i), message));
                }
            }
        }
        (cells, faults)
    }

    /// Cells that hold an error of the spreadsheet in a column that is read.
    pub fn broken(&self, sheet: &Sheet) -> Vec<Fault> {
        let used = |i: &usize| self.places.get(*i).is_some_and(|p| p.meant.is_some());
        let cells = sheet.broken.iter().filter(|(row, i)| *row > self.head && used(i));
        let fault = |(row, i): &(usize, usize)| {
            let line = &sheet.lines[*row];
            let message = t!("transfer-cell-not-worked-out", cell = line.cells[*i]);
            Fault::new(line.line, &self.name(*i), message)
        };
        cells.map(fault).collect()
    }
}

/// The row that was asked for, else the first of those in which most headings are known.
fn head(sheet: &Sheet, columns: &[Column], form: &Form) -> usize {
    let asked: Option<u64> = form.value("head").trim().parse().ok();
    if let Some(place) = asked.and_then(|line| sheet.lines.iter().position(|l| l.line == line)) {
        return place;
    }
    let rows = sheet.lines.iter().take(FIRST).map(|l| known(columns, l)).enumerate();
    rows.rev().max_by_key(|(_, known)| *known).map_or(0, |(place, _)| place)
}

/// What a heading means among those beside it: descriptors of gene banks are not what the same words are elsewhere.
fn guessed(columns: &[Column], headings: &[String], heading: &str) -> Option<usize> {
    let of_banks = columns == PACKETS && headings.iter().any(|h| mcpd::is_number(plain(h)));
    match mcpd::field(heading).filter(|_| of_banks) {
        Some(field) => columns.iter().position(|c| c.field == field),
        None => meant(columns, heading),
    }
}

fn known(columns: &[Column], line: &Line) -> usize {
    line.cells.iter().filter(|c| guessed(columns, &line.cells, plain(c)).is_some()).count()
}

/// How many headings of a sheet are known.
pub fn worth(sheet: &Sheet, columns: &[Column]) -> usize {
    sheet.lines.iter().take(FIRST).map(|l| known(columns, l)).max().unwrap_or(0)
}
