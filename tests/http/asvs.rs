//! The record of the security standard, tests/reference/asvs.csv: whole, and true of the sources as they are.

use crate::support::routes::sources;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

const RECORD: &str = include_str!("../reference/asvs.csv");

/// Of the 253 requirements of levels 1 and 2 of the OWASP ASVS 5.0.0: those of each chapter that apply, and that do not
/// (counted in the standard's text, github OWASP/ASVS 5.0/en; V9, V10 and V17 fall away whole).
const CHAPTERS: &[(&str, usize, usize)] = &[
    ("1", 22, 5),
    ("2", 11, 0),
    ("3", 19, 0),
    ("4", 4, 6),
    ("5", 8, 1),
    ("6", 30, 5),
    ("7", 16, 2),
    ("8", 7, 0),
    ("9", 0, 7),
    ("10", 0, 29),
    ("11", 8, 6),
    ("12", 8, 1),
    ("13", 13, 0),
    ("14", 9, 0),
    ("15", 13, 0),
    ("16", 15, 1),
    ("17", 0, 7),
];

struct Line {
    id: String,
    level: String,
    met: String,
    check: String,
}

impl Line {
    fn applies(&self) -> bool {
        self.check != "not applicable"
    }
}

fn record() -> Vec<Line> {
    let mut rows = csv::Reader::from_reader(RECORD.as_bytes());
    assert_eq!(rows.headers().unwrap(), vec!["id", "level", "how it is met", "check"]);
    let line = |row: csv::StringRecord| {
        let cell = |n: usize| row[n].trim().to_owned();
        Line { id: cell(0), level: cell(1), met: cell(2), check: cell(3) }
    };
    rows.records().map(|row| line(row.unwrap())).collect()
}

#[test]
fn every_requirement_stands_in_the_record_once() {
    let lines = record();
    let ids: BTreeSet<&str> = lines.iter().map(|l| l.id.as_str()).collect();
    assert_eq!(ids.len(), lines.len(), "an id stands twice");
    let mut counted: BTreeMap<&str, (usize, usize)> = BTreeMap::new();
    for line in &lines {
        let chapter = counted.entry(line.id.split('.').next().unwrap()).or_default();
        // a chapter that falls away whole is one line with its number of requirements
        let many = line.level.strip_prefix("1-2 x ").map_or(1, |n| n.parse().unwrap());
        if line.applies() {
            chapter.0 += many
        } else {
            chapter.1 += many
        }
        assert!(
            ["1", "2"].contains(&line.level.as_str()) || many > 1,
            "{} is of level {}",
            line.id,
            line.level
        );
        assert!(line.met.len() > 8, "{} says how", line.id);
    }
    let expected: BTreeMap<&str, (usize, usize)> =
        CHAPTERS.iter().map(|(c, yes, no)| (*c, (*yes, *no))).collect();
    assert_eq!(counted, expected);
    let (yes, no) = counted.values().fold((0, 0), |sum, c| (sum.0 + c.0, sum.1 + c.1));
    assert_eq!((yes, no), (183, 27 + 43));
}

#[test]
fn every_requirement_has_a_check_that_is_there() {
    let tests: Vec<(String, String)> = [sources("tests", "rs"), sources("server", "rs")]
        .concat()
        .into_iter()
        .map(|(path, text)| (path.display().to_string(), text))
        .collect();
    let mut faults = Vec::new();
    for line in record().iter().filter(|l| l.applies()) {
        if line.check.is_empty() {
            faults.push(format!("{} has no check", line.id));
        }
        for check in line.check.split(';').map(str::trim) {
            faults.extend(fault(check, &tests).map(|fault| format!("{}: {fault}", line.id)));
        }
    }
    assert!(faults.is_empty(), "{faults:#?}");
}

/// What is wrong with a check: `test path::name`, `gate path: words`, `record date: words` or `gap: words`.
fn fault(check: &str, tests: &[(String, String)]) -> Option<String> {
    let (sort, rest) = check.split_once(' ').unwrap_or((check, ""));
    match sort {
        "test" => {
            let Some((path, name)) = rest.split_once("::") else {
                return Some(format!("'{check}' names no test"));
            };
            let text = tests.iter().find(|(p, _)| p == path).map(|(_, text)| text.as_str());
            let there = text.is_some_and(|text| is_test(text, name));
            (!there).then(|| format!("there is no test {rest}"))
        }
        "gate" => {
            let Some((path, words)) = rest.split_once(": ") else {
                return Some(format!("'{check}' names no words"));
            };
            let text =
                std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join(path)).unwrap_or_default();
            (!text.contains(words)).then(|| format!("'{words}' does not stand in {path}"))
        }
        "record" => {
            let (date, words) = rest.split_once(": ").unwrap_or_default();
            let dated = chrono::NaiveDate::parse_from_str(date, "%Y-%m-%d").is_ok();
            (!dated || words.len() < 12).then(|| format!("'{check}' says no date or nothing found"))
        }
        "gap:" => (rest.len() < 12).then(|| format!("'{check}' does not say what is missing")),
        _ => Some(format!("'{check}' is no check")),
    }
}

fn is_test(text: &str, name: &str) -> bool {
    let start = text.find(&format!("fn {name}("));
    start.is_some_and(|at| text[..at].rsplit("\n\n").next().is_some_and(|head| head.contains("test")))
}

#[test]
fn a_check_that_is_not_there_is_found() {
    let tests = [("a.rs".to_owned(), "#[test]\nfn one() {}\n\nfn two() {}\n".to_owned())];
    assert_eq!(fault("test a.rs::one", &tests), None);
    for bad in [
        "test a.rs::two",
        "test a.rs",
        "test a.rs::three",
        "test b.rs::one",
        "gate Cargo.toml: no such words",
        "gate Cargo.toml",
        "record today: looked at it all",
        "record 2026-11-26: ok",
        "gap: none",
        "yes",
        "",
    ] {
        assert!(fault(bad, &tests).is_some(), "{bad}");
    }
}

#[test]
fn gaps_are_few_and_said() {
    let lines = record();
    let open: Vec<&Line> = lines.iter().filter(|l| l.check.contains("gap:")).collect();
    for line in &open {
        println!("{}: {}", line.id, line.check);
    }
    let recorded = lines.iter().filter(|l| l.check.starts_with("record")).count();
    println!("{} open, {recorded} by record alone", open.len());
    assert!(open.len() <= 3, "{} requirements are open", open.len());
}
