//! The rows of a list of counts, cell by cell. No database here.

use super::super::columns::{self, COUNTS, of_field};
use super::super::dates::{self, Order};
use super::super::fault::{Fault, shortened};
use super::super::matching::Matching;
use super::super::sheet::{Line, Sheet};
use crate::notebook::bag::Look;
use crate::stock::model::MOST_SEEDS;
use crate::web::forms::Form;
use chrono::{NaiveDate, NaiveTime};

/// Ten years on paper, as `hilum analyse` takes them.
const MOST_HOURS: f64 = 87_660.0;

type Moment = (NaiveDate, Option<NaiveTime>);

/// One row.
#[derive(Debug, Clone)]
pub struct Row {
    pub line: u64,
    pub bag: String,
    pub look: Look,
    pub hours: Option<f64>,
    pub date: Option<Moment>,
    pub past: Past,
}

/// What a row says of a bag that is not here.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Past {
    pub trial: String,
    /// Kind, variety, source, year: as typed.
    pub naming: [String; 4],
    pub seeds: Option<i64>,
    pub paper: Option<Moment>,
    pub routine: String,
    pub warmth_c: Option<f64>,
    pub soaked: Option<i64>,
    pub floated: bool,
    pub closed: bool,
}

/// The rows, and how days were taken.
#[derive(Debug)]
pub struct Rows {
    pub rows: Vec<Row>,
    pub faults: Vec<Fault>,
    pub order: Order,
}

/// Reads every row; `usual` is the order of days where neither the form nor the cells say it.
pub fn read(sheet: &Sheet, matching: &Matching, form: &Form, usual: Order) -> Rows {
    let mut all = Rows { rows: Vec::new(), faults: needed(sheet, matching), order: usual };
    if !all.faults.is_empty() {
        return all;
    }
    all.order = match form.value("order") {
        "day" => Order::DayFirst,
        "month" => Order::MonthFirst,
        _ => dates::told(days(sheet, matching)).unwrap_or(usual),
    };
    all.faults = matching.broken(sheet);
    for line in matching.rows(sheet) {
        let row = row(line, matching, &mut all);
        all.rows.push(row);
    }
    if all.rows.is_empty() && all.faults.is_empty() {
        let line = matching.head_line(sheet) + 1;
        all.faults.push(Fault::new(line, "", t!("transfer-no-count-below")));
    }
    all
}

fn needed(sheet: &Sheet, matching: &Matching) -> Vec<Fault> {
    let line = matching.head_line(sheet);
    if sheet.lines.is_empty() {
        return vec![Fault::new(1, "", t!("transfer-nothing-in-list"))];
    }
    let mut faults = matching.faults(sheet);
    for name in ["bag", "rooted"].into_iter().filter(|name| !matching.has(name)) {
        faults.push(Fault::new(line, name, t!("transfer-no-column-for", column = columns::words(name))));
    }
    if !matching.has("date") && !matching.has("hours") {
        faults.push(Fault::new(line, "date of the look", t!("transfer-no-date-nor-hours")));
    }
    faults
}

fn days<'s>(sheet: &'s Sheet, matching: &'s Matching) -> impl Iterator<Item = &'s str> {
    let cells = matching.rows(sheet).iter().flat_map(|l| matching.cells(l).0);
    cells.filter(|(field, _)| ["date", "paper"].contains(field)).map(|(_, cell)| cell)
}

fn row(line: &Line, matching: &Matching, all: &mut Rows) -> Row {
    let (cells, faults) = matching.cells(line);
    all.faults.extend(faults);
    let typed = |field: &str| cells.iter().find(|(f, _)| *f == field).map_or("", |(_, cell)| *cell);
    let mut form = cells.iter().fold(Form::default(), |form, (field, cell)| form.with(field, cell));
    let number = |form: &mut Form, field: &str| form.whole(field, 0..=MOST_SEEDS);
    let counted = ["rooted", "abnormal", "dead"].map(|field| number(&mut form, field));
    if counted.iter().all(Option::is_none) && !form.failed() {
        form.refuse("rooted", t!("transfer-nothing-is-counted"));
    }
    let [rooted, abnormal, dead] = counted.map(|n| n.unwrap_or(0));
    let bag = form.must_text("bag", 60);
    let hours = form.decimal("hours", 0.0..=MOST_HOURS);
    let date = day(&mut form, "date", all.order);
    if hours.is_none() && date.is_none() && form.error("date").is_empty() && form.error("hours").is_empty() {
        form.refuse("date", t!("transfer-when-was-this-look"));
    }
    let past = past(&mut form, all.order);
    for (field, error) in form.errors() {
        all.faults.push(Fault::of_cell(line.line, of_field(COUNTS, field), typed(field), error));
    }
    Row { line: line.line, bag, look: Look { rooted, abnormal, dead }, hours, date, past }
}

fn past(form: &mut Form, order: Order) -> Past {
    Past {
        trial: form.text("trial", 60),
        naming: ["kind", "variety", "source", "year"].map(|field| form.value(field).to_owned()),
        seeds: form.whole("seeds", 1..=MOST_SEEDS),
        paper: day(form, "paper", order),
        routine: form.text("routine", 80),
        warmth_c: form.decimal("warmth", -20.0..=60.0),
        soaked: form.whole("soaked", 1..=MOST_SEEDS),
        floated: yes(form, "floated", false),
        closed: yes(form, "closed", true),
    }
}

fn day(form: &mut Form, field: &str, order: Order) -> Option<Moment> {
    let cell = form.value(field).to_owned();
    if cell.is_empty() {
        return None;
    }
    let found = dates::day(&cell, order);
    if found.is_none() {
        form.refuse(field, t!("transfer-not-a-day", cell = shortened(&cell)));
    }
    found
}

fn yes(form: &mut Form, field: &str, usual: bool) -> bool {
    let cell = form.value(field).trim().to_lowercase();
    match cell.as_str() {
        "" => usual,
        "1" | "yes" | "y" | "true" | "x" | "ja" | "j" | "wahr" => true,
        "0" | "no" | "n" | "false" | "nein" | "falsch" => false,
        _ => {
            form.refuse(field, t!("transfer-neither-yes-nor-no", cell = shortened(&cell)));
            usual
        }
    }
}
