//! The rows of a season list as packets to be, and every fault by cell. No database here.

use super::columns::{self, PACKETS, of_field};
use super::fault::Fault;
use super::matching::Matching;
use super::sheet::{Called, Line, Sheet};
use crate::stock::form as packet_form;
use crate::stock::model::NewPacket;
use crate::web::forms::Form;
use chrono::NaiveDate;

const ROUGH_WORDS: [&str; 9] =
    ["about", "approx", "approximately", "circa", "ca", "etwa", "ungefähr", "rund", "zirka"];

/// A row as it will be.
#[derive(Debug, Clone, Default)]
pub struct Row {
    pub line: u64,
    /// The seeds as typed.
    pub seeds: String,
    pub packet: NewPacket,
}

/// What was read of a list.
#[derive(Debug, Default)]
pub struct List {
    pub rows: Vec<Row>,
    pub faults: Vec<Fault>,
    /// Headings that are no column of ours and are left out.
    pub ignored: Vec<String>,
    pub row: Called,
}

/// Reads the rows of a sheet. `letters` stand where a row has none of its own; nothing is later than `today`.
pub fn read(sheet: &Sheet, matching: &Matching, letters: &str, today: NaiveDate) -> List {
    let mut list = List { faults: needed(sheet, matching), row: sheet.row, ..List::default() };
    if !list.faults.is_empty() {
        return list;
    }
    list.ignored = matching.ignored();
    list.faults = matching.broken(sheet);
    for line in matching.rows(sheet) {
        row(line, matching, (letters, today), &mut list);
    }
    if list.rows.is_empty() && list.faults.is_empty() {
        let line = matching.head_line(sheet) + 1;
        list.faults.push(Fault::new(line, "", t!("transfer-no-packet-below")));
    }
    list
}

fn needed(sheet: &Sheet, matching: &Matching) -> Vec<Fault> {
    let line = matching.head_line(sheet);
    if sheet.lines.is_empty() {
        return vec![Fault::new(1, "", t!("transfer-nothing-in-list"))];
    }
    let mut faults = matching.faults(sheet);
    for name in ["kind", "variety", "source"].into_iter().filter(|n| !matching.has(n)) {
        faults.push(Fault::new(line, name, t!("transfer-no-column-named", name = columns::words(name))));
    }
    if !matching.has("seeds") && !matching.has("grams") {
        faults.push(Fault::new(line, "seeds", t!("transfer-no-seeds-nor-grams")));
    }
    faults
}

fn row(line: &Line, matching: &Matching, (letters, today): (&str, NaiveDate), list: &mut List) {
    let (cells, faults) = matching.cells(line);
    list.faults.extend(faults);
    let mut form = Form::default();
    let mut own_letters = letters.to_owned();
    for (field, cell) in &cells {
        match *field {
            "number" => {
                let (typed, number) = mark(cell);
                form = form.with(field, number);
                if !typed.is_empty() {
                    own_letters = typed.to_owned();
                }
            }
            "seeds" => form = seeds(form, cell),
            "genus" | "species" | "subtaxon" => {}
            "state" => form = form.with(field, state(cell)),
            _ => form = form.with(field, cell),
        }
    }
    form = form.with("letters", own_letters).with("species", species(&cells));
    let packet = packet_form::new_packet(&mut form, today);
    let typed = |field: &str| cells.iter().find(|(f, _)| *f == field).map_or("", |(_, cell)| cell);
    let fault = |(field, error): &(String, String)| match field.as_str() {
        "state" => Fault::new(line.line, "state", t!("transfer-not-a-state")),
        _ => Fault::of_cell(line.line, of_field(PACKETS, field), typed(field), error),
    };
    list.faults.extend(form.errors().iter().map(fault));
    list.rows.push(Row { line: line.line, seeds: typed("seeds").to_owned(), packet });
}

/// The state that a cell means in English or German, as stored; else the cell.
fn state(cell: &str) -> String {
    let cell = cell.trim().to_lowercase();
    let stored = match cell.as_str() {
        "unbehandelt" | "ungebeizt" | "natur" => "plain",
        "pilliert" | "pille" | "pillen" => "pelleted",
        "geprimt" => "primed",
        "gebeizt" | "behandelt" => "treated",
        other => other,
    };
    stored.to_owned()
}

/// The botanical name, which may come in parts; `sp.` stands for no species.
fn species(cells: &[(&str, &str)]) -> String {
    let part = |field: &str| cells.iter().find(|(f, _)| *f == field).map_or("", |(_, cell)| cell.trim());
    let parts = [part("genus"), part("species"), part("subtaxon")];
    let given = parts.into_iter().filter(|p| !p.is_empty() && !p.eq_ignore_ascii_case("sp."));
    given.collect::<Vec<_>>().join(" ")
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
    let form = form.with("seeds", without_marks(&number));
    if rough { form.with("rough", "yes") } else { form }
}

/// `1,000` and `1 000` as `1000`: seeds are whole numbers, so a mark before each three digits parts thousands.
fn without_marks(number: &str) -> String {
    for mark in [',', ' ', '\u{a0}', '\u{202f}'] {
        let Some((first, rest)) = number.split_once(mark) else { continue };
        let digits = |part: &str| part.bytes().all(|b| b.is_ascii_digit());
        let begun = (1..=3).contains(&first.len()) && digits(first) && !first.starts_with('0');
        if begun && rest.split(mark).all(|part| part.len() == 3 && digits(part)) {
            return number.replace(mark, "");
        }
    }
    number.to_owned()
}

#[cfg(test)]
mod tests {
    use super::super::sheet;
    use super::*;

    const TODAY: NaiveDate = NaiveDate::from_ymd_opt(2026, 3, 2).unwrap();
    const HEAD: &str = "No;Kind;Variety;Source;Year;Seeds;Grams;Colour\n";

    fn list(text: &str) -> List {
        let sheet = sheet::open(text.as_bytes().to_vec()).unwrap().sheet("", |_| 0).unwrap();
        read(&sheet, &Matching::of(&sheet, PACKETS, &Form::default()), "JB", TODAY)
    }

    fn faults(body: &str) -> Vec<(u64, String)> {
        let list = list(&format!("{HEAD}{body}"));
        list.faults.into_iter().map(|f| (f.line, f.column)).collect()
    }

    #[test]
    fn rows_are_read_with_their_own_marks_and_rough_numbers() {
        let text = format!(
            "\u{feff}{HEAD}7;pepper;Kestrel;Testwood;2024;about 25;;red\n;pepper;\"Os\nprey\";Testwood;;;0,5;\n\
             KK-9;tomato;Wren;Testwood;;~12;;\n"
        );
        let list = list(&text);
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
    fn thousands_may_be_marked_where_they_cannot_be_anything_else() {
        for (typed, read) in [("1,000", "1000"), ("1 000", "1000"), ("12,345,678", "12345678"), ("25", "25")]
        {
            assert_eq!(without_marks(typed), read);
        }
        for typed in ["1,00", "0,500", "1,000 2", "1000,000", "1,0000", "1,000.5", ",000", "1.000"] {
            assert_eq!(without_marks(typed), typed);
        }
        let list = list(&format!("{HEAD}1;pepper;K;T;;about 1 000;;\n"));
        assert_eq!((list.rows[0].packet.seeds, list.rows[0].packet.details.rough), (1000, true));
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
        let columns =
            |text: &str| -> Vec<String> { list(text).faults.into_iter().map(|f| f.column).collect() };
        assert_eq!(columns("kind,variety\npepper,K\n"), ["source", "seeds"]);
        assert_eq!(columns("kind,crop,variety,source,seeds\n"), ["crop"]);
        assert_eq!(columns(""), [""]);
    }
}
