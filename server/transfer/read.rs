//! A season list as text: its columns and rows, and every fault by line and column. No database here.

use super::cells;
use super::columns::{COLUMNS, meant, of_field};
use crate::stock::form as packet_form;
use crate::stock::model::NewPacket;
use crate::web::forms::Form;
use chrono::NaiveDate;

/// How many packets one list may hold.
pub const MOST_ROWS: usize = 1000;
const ROUGH_WORDS: [&str; 5] = ["about", "approx", "approximately", "circa", "ca"];

/// What is wrong where. Lines count from 1, the line of the headings included.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    pub line: u64,
    pub column: String,
    pub message: String,
}

impl Fault {
    pub fn new(line: u64, column: &str, message: impl Into<String>) -> Self {
        Self { line, column: column.to_owned(), message: message.into() }
    }
}

/// A row as it will be.
#[derive(Debug, Clone)]
pub struct Row {
    pub line: u64,
    pub packet: NewPacket,
}

/// What was read of a list.
#[derive(Debug, Default)]
pub struct List {
    pub rows: Vec<Row>,
    pub faults: Vec<Fault>,
    /// Headings that are no column of ours and are left out.
    pub ignored: Vec<String>,
}

/// Reads a list of comma, semicolon or tab separated text (RFC 4180). `letters` stand where a row has none of its
/// own; Nothing is later than `today`.
pub fn read(text: &str, letters: &str, today: NaiveDate) -> List {
    // the reader counts lines right only where they end alike
    let text = text.trim_start_matches('\u{feff}').replace("\r\n", "\n").replace('\r', "\n");
    let text = text.as_str();
    let mut list = List::default();
    let mut records = csv::ReaderBuilder::new()
        .delimiter(separator(text))
        .has_headers(false)
        .flexible(true)
        .from_reader(text.as_bytes())
        .into_records();
    let Some(Ok(head)) = records.next() else {
        list.faults.push(Fault::new(
            1,
            "",
            "There is nothing in the list. Its first line names the columns.",
        ));
        return list;
    };
    let columns = headings(&head, &mut list);
    if !list.faults.is_empty() {
        return list;
    }
    for record in records {
        let Ok(record) = record else {
            list.faults.push(Fault::new(1, "", "The list could not be read."));
            return list;
        };
        if record.iter().all(|cell| cell.trim().is_empty()) {
            continue;
        }
        if list.rows.len() == MOST_ROWS {
            let line = line_of(text, &record);
            list.faults.push(Fault::new(line, "", format!("At most {MOST_ROWS} packets at a time, please.")));
            return list;
        }
        row((line_of(text, &record), &record), &columns, (letters, today), &mut list);
    }
    if list.rows.is_empty() && list.faults.is_empty() {
        list.faults.push(Fault::new(2, "", "There is no packet below the headings."));
    }
    list
}

/// The line a record begins on: the reader names the first of the empty lines before it.
fn line_of(text: &str, record: &csv::StringRecord) -> u64 {
    let Some(place) = record.position() else { return 0 };
    let from = usize::try_from(place.byte()).unwrap_or(usize::MAX);
    let empty = text.as_bytes().iter().skip(from).take_while(|b| **b == b'\n').count();
    place.line() + empty as u64
}

/// The sign that parts the headings most often.
fn separator(text: &str) -> u8 {
    let head = text.lines().next().unwrap_or_default();
    let count = |sign: u8| head.bytes().filter(|b| *b == sign).count();
    [b',', b';', b'\t'].into_iter().rev().max_by_key(|sign| count(*sign)).unwrap_or(b',')
}

fn headings(head: &csv::StringRecord, list: &mut List) -> Vec<Option<usize>> {
    let columns: Vec<Option<usize>> = head.iter().map(meant).collect();
    for (place, found) in columns.iter().enumerate() {
        let heading = head.get(place).unwrap_or_default().trim();
        match found {
            None if !heading.is_empty() => list.ignored.push(heading.to_owned()),
            Some(i) if columns[..place].contains(found) => {
                let message = format!("There are two columns for {}.", COLUMNS[*i].0);
                list.faults.push(Fault::new(1, heading, message));
            }
            _ => {}
        }
    }
    let has = |name: &str| columns.iter().flatten().any(|i| COLUMNS[*i].0 == name);
    for name in ["kind", "variety", "source"].into_iter().filter(|n| !has(n)) {
        list.faults.push(Fault::new(1, name, format!("There is no column named {name}.")));
    }
    if !has("seeds") && !has("grams") {
        list.faults.push(Fault::new(1, "seeds", "There is no column named seeds, and none named grams."));
    }
    columns
}

fn row(
    (line, record): (u64, &csv::StringRecord),
    columns: &[Option<usize>],
    (letters, today): (&str, NaiveDate),
    list: &mut List,
) {
    for (place, cell) in record.iter().enumerate().skip(columns.len()).filter(|(_, c)| !c.trim().is_empty()) {
        let message = format!("\"{}\" stands where there is no heading.", shortened(cell));
        list.faults.push(Fault::new(line, &format!("{}", place + 1), message));
    }
    let mut form = Form::default();
    let mut own_letters = letters.to_owned();
    for (cell, found) in record.iter().zip(columns) {
        let Some((_, field, _)) = found.map(|i| COLUMNS[i]) else { continue };
        let cell = cells::plain(cell.trim());
        match field {
            "number" => {
                let (typed, number) = mark(cell);
                form = form.with(field, number);
                if !typed.is_empty() {
                    own_letters = typed.to_owned();
                }
            }
            "seeds" => form = seeds(form, cell),
            "state" => form = form.with(field, cell.to_lowercase()),
            _ => form = form.with(field, cell),
        }
    }
    form = form.with("letters", own_letters);
    let packet = packet_form::new_packet(&mut form, today);
    let faults = form.errors().iter().map(|(field, error)| Fault::new(line, of_field(field), error));
    list.faults.extend(faults);
    list.rows.push(Row { line, packet });
}

fn shortened(cell: &str) -> String {
    cell.trim().chars().take(30).collect()
}

/// `JB 42`, `JB42` and `42`: the letters, if any, and the number.
fn mark(cell: &str) -> (&str, &str) {
    let digits = cell.find(|c: char| c.is_ascii_digit()).unwrap_or(0);
    let (letters, number) = cell.split_at(digits);
    let bare = letters.trim_matches(|c: char| c.is_whitespace() || matches!(c, '-' | '.' | '#' | '_'));
    if bare.chars().all(char::is_alphabetic) { (bare, number.trim()) } else { ("", cell) }
}

/// `25`, `about 25`, `~25`: the number, and whether it is rough.
fn seeds(form: Form, cell: &str) -> Form {
    let lower = cell.to_lowercase();
    let rest = lower.trim_start_matches(['~', '≈']).trim();
    let first = rest.split([' ', '.']).next().unwrap_or_default();
    let (rough, number) = if ROUGH_WORDS.contains(&first) {
        (true, rest[first.len()..].trim_start_matches('.').trim().to_owned())
    } else {
        (rest.len() < lower.len(), rest.to_owned())
    };
    let form = form.with("seeds", number);
    if rough { form.with("rough", "yes") } else { form }
}

#[cfg(test)]
mod tests {
    use super::*;

    const TODAY: NaiveDate = NaiveDate::from_ymd_opt(2026, 3, 2).unwrap();
    const HEAD: &str = "No;Kind;Variety;Source;Year;Seeds;Grams;Colour\n";

    fn faults(body: &str) -> Vec<(u64, String)> {
        let list = read(&format!("{HEAD}{body}"), "JB", TODAY);
        list.faults.into_iter().map(|f| (f.line, f.column)).collect()
    }

    #[test]
    fn rows_are_read_with_their_own_marks_and_rough_numbers() {
        let text = format!(
            "\u{feff}{HEAD}7;pepper;Kestrel;Testwood;2024;about 25;;red\n;pepper;\"Os\nprey\";Testwood;;;0,5;\n\
             KK-9;tomato;Wren;Testwood;;~12;;\n"
        );
        let list = read(&text, "JB", TODAY);
        assert_eq!(list.ignored, ["Colour"]);
        assert_eq!(list.faults, [Fault::new(3, "variety", "One line, please.")]);
        let first = &list.rows[0].packet;
        assert_eq!((first.number, first.seeds, first.details.rough), (Some(7), 25, true));
        assert_eq!(list.rows[1].packet.seeds, 83);
        let third = &list.rows[2];
        assert_eq!((third.line, third.packet.letters.as_str(), third.packet.number), (5, "KK", Some(9)));
        assert_eq!((third.packet.seeds, third.packet.details.rough), (12, true));
    }

    #[test]
    fn every_fault_has_its_line_and_column() {
        assert_eq!(faults("x1y;pepper;K;T;;5;;\n"), [(2, "number".into())]);
        assert_eq!(faults("1;;K;T;24;5;;\n"), [(2, "kind".into()), (2, "year".into())]);
        assert_eq!(faults("1;pepper;K;T;;;;\n2;pepper;K;T;;many;;\n").len(), 2);
        assert_eq!(faults("1;pepper;K;T;;5;;;;extra\n"), [(2, "10".into())]);
        assert_eq!(faults("1;pepper;K;T;;5;;\r\n2;pepper;K;T;;x;;\r\n"), [(3, "seeds".into())]);
        assert_eq!(faults("\n;;;;;;;\n"), [(2, String::new())]);
        let after_blank = "1;pepper;K;T;;5;;\n\n\n2;pepper;K;T;;x;;\n3;pepper;K;T;;y;;\n";
        assert_eq!(faults(after_blank), [(5, "seeds".into()), (6, "seeds".into())]);
    }

    #[test]
    fn headings_that_are_missing_or_twice_are_faults() {
        let columns = |text: &str| -> Vec<String> {
            read(text, "JB", TODAY).faults.into_iter().map(|f| f.column).collect()
        };
        assert_eq!(columns("kind,variety\npepper,K\n"), ["source", "seeds"]);
        assert_eq!(columns("kind,crop,variety,source,seeds\n"), ["crop"]);
        assert_eq!(columns(""), [""]);
    }
}
