//! The file of another club, of which nothing is taken on trust.

use super::super::fault::{Fault, shortened};
use super::super::sheet::part;
use super::package::hash;
use chrono::{DateTime, NaiveDate};
use hilum_calc::analyse::{self, day_number};
use hilum_calc::table::Bag;
use serde_json::Value;
use std::collections::BTreeSet;
use std::io::Cursor;
use zip::ZipArchive;

/// Most parts of the archive, and bytes of its descriptor and its counts.
const MOST_PARTS: usize = 100;
const MOST_HEAD: u64 = 1024 * 1024;
const MOST_COUNTS: u64 = 48 * 1024 * 1024;
/// Most looks in one table.
const MOST_LINES: usize = 400_000;

/// How much there is in a table.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Numbers {
    pub seeds: i64,
    pub bags: i64,
    pub growers: i64,
}

/// What a club shares.
#[derive(Debug, Clone)]
pub struct Shared {
    /// Of its installation.
    pub code: String,
    pub name: String,
    pub made_on: NaiveDate,
    pub licence: String,
    /// The long table of counts, proven to read back.
    pub counts: String,
    pub numbers: Numbers,
    /// Kind, variety, source and its seeds, in order of names.
    pub places: Vec<([String; 3], i64)>,
}

/// Why a file is not taken: one sentence, or faults by line and column of its counts.
#[derive(Debug)]
pub enum Refusal {
    File(String),
    Faults(Vec<Fault>),
}

fn file(why: impl Into<String>) -> Refusal {
    Refusal::File(why.into())
}

/// Reads the file; nothing in it is later than `today`, and it is not of the installation `own`.
pub fn read(bytes: &[u8], own: Option<&str>, today: NaiveDate) -> Result<Shared, Refusal> {
    let unlike = t!("transfer-not-a-shared-table");
    let mut archive = ZipArchive::new(Cursor::new(bytes)).map_err(|_| file(unlike))?;
    if archive.len() > MOST_PARTS {
        return Err(file(unlike));
    }
    if archive.index_for_name("datapackage.json").is_none() {
        return Err(file(unlike));
    }
    let head = part(&mut archive, "datapackage.json", MOST_HEAD).map_err(file)?;
    let head: Value = serde_json::from_slice(&head)
        .map_err(|_| file(t!("transfer-part-is-damaged", part = "datapackage.json")))?;
    let (name, code, made_on) = named(&head, today)?;
    if own == Some(code.as_str()) {
        return Err(file(t!("transfer-table-of-our-own")));
    }
    let counts = part(&mut archive, "counts.csv", MOST_COUNTS).map_err(file)?;
    whole(&head, &counts)?;
    let counts = String::from_utf8(counts).map_err(|_| file(t!("transfer-counts-not-utf-8")))?;
    let (numbers, places) = checked(&counts, today).map_err(Refusal::Faults)?;
    let licence = head["licenses"][0]["name"].as_str().or_else(|| head["licenses"][0]["path"].as_str());
    let licence = licence.unwrap_or_default().chars().filter(|c| !c.is_control()).take(200).collect();
    Ok(Shared { code, name, made_on, licence, counts, numbers, places })
}

/// Name, code and day of the file.
fn named(head: &Value, today: NaiveDate) -> Result<(String, String, NaiveDate), Refusal> {
    let text = |value: &Value| value.as_str().unwrap_or_default().trim().to_owned();
    let (name, code) = (text(&head["club"]["name"]), text(&head["club"]["installation"]));
    let printable = !name.is_empty() && name.chars().count() <= 80 && !name.chars().any(char::is_control);
    if !printable {
        return Err(file(t!("transfer-file-names-no-club")));
    }
    let hex = |c: char| c.is_ascii_digit() || ('a'..='f').contains(&c);
    if code.len() != 32 || !code.chars().all(hex) {
        return Err(file(t!("transfer-file-names-no-installation")));
    }
    let made = DateTime::parse_from_rfc3339(&text(&head["created"])).map(|t| t.date_naive());
    // clocks and time zones of two clubs may differ by a day
    match made {
        Ok(day) if day <= today.succ_opt().unwrap_or(today) => Ok((name, code, day)),
        _ => Err(file(t!("transfer-file-names-no-day"))),
    }
}

/// The counts must be those that the descriptor was made for.
fn whole(head: &Value, counts: &[u8]) -> Result<(), Refusal> {
    let resources = head["resources"].as_array().map(Vec::as_slice).unwrap_or_default();
    let said = resources.iter().find(|r| r["path"] == "counts.csv").and_then(|r| r["hash"].as_str());
    match said {
        Some(said) if said != hash(counts) => Err(file(t!("transfer-counts-were-changed"))),
        Some(_) => Ok(()),
        None => Err(file(t!("transfer-counts-not-described"))),
    }
}

type Places = Vec<([String; 3], i64)>;

/// Everything that must hold of counts: that of `hilum analyse`, and what the club table needs besides.
fn checked(text: &str, today: NaiveDate) -> Result<(Numbers, Places), Vec<Fault>> {
    if text.lines().count() > MOST_LINES {
        return Err(vec![Fault::new(1, "", t!("transfer-too-many-looks", most = MOST_LINES))]);
    }
    let said = |f: analyse::Fault| Fault::new(f.line, &f.column, f.error);
    let counts = analyse::read(text).map_err(|all| all.into_iter().map(said).collect::<Vec<_>>())?;
    let latest = day_number(&today.succ_opt().unwrap_or(today).to_string());
    let (mut faults, mut numbers, mut places) = (Vec::new(), Numbers::default(), Places::new());
    let mut growers = BTreeSet::new();
    for (bag, care) in counts.bags() {
        faults.extend(fault(&bag, care.routine, latest));
        growers.insert(bag.grower.to_owned());
        numbers.bags += 1;
        numbers.seeds += i64::from(bag.seeds);
        let place = [bag.kind, bag.variety, bag.source].map(str::to_owned);
        match places.last_mut() {
            Some((last, seeds)) if *last == place => *seeds += i64::from(bag.seeds),
            _ => places.push((place, i64::from(bag.seeds))),
        }
    }
    numbers.growers = growers.len() as i64;
    if numbers.bags == 0 {
        faults.push(Fault::new(1, "", t!("transfer-no-count-in-it")));
    }
    if faults.is_empty() { Ok((numbers, places)) } else { Err(faults) }
}

fn fault(bag: &Bag, routine: Option<&str>, latest: Option<i32>) -> Option<Fault> {
    let at = |column: &str, why: String| Fault::new(0, column, format!("{}, {}: {why}", bag.trial, bag.bag));
    let texts = [("kind", bag.kind, 80), ("variety", bag.variety, 150), ("source", bag.source, 120)];
    let more =
        [("grower", bag.grower, 120), ("trial", bag.trial, 120), ("routine", routine.unwrap_or("-"), 80)];
    for (column, text, most) in texts.into_iter().chain(more) {
        if text.chars().any(char::is_control) || text.chars().count() > most {
            return Some(at(column, t!("transfer-too-long", text = shortened(text))));
        }
    }
    let nameless = texts.iter().find(|(_, text, _)| crate::stock::names::key(text).is_empty());
    if let Some((column, text, _)) = nameless {
        return Some(at(column, t!("transfer-no-name", text = text)));
    }
    match bag.put_on_paper {
        None => Some(at("put_on_paper", t!("transfer-day-is-missing").to_owned())),
        Some(day) if Some(day) > latest || day < 0 => {
            Some(at("put_on_paper", t!("transfer-day-is-out-of-range").to_owned()))
        }
        Some(_) => None,
    }
}
