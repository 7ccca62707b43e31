//! A season list against what the club knows: choices for near spellings, marks, and the import itself.

use super::choice::{Choice, ORDER, orders};
use super::columns::{PACKETS, of_field};
use super::fault::Fault;
use super::matching::{Matching, worth};
use super::read::{List, Row, read};
use super::sheet::{self, Sheet};
use super::store as kept;
use crate::db::Conn;
use crate::db::ids::{At, MemberId, PacketId};
use crate::error::AppError;
use crate::marks;
use crate::notebook::Act;
use crate::stock::known::Known;
use crate::stock::model::Naming;
use crate::stock::names;
use crate::stock::published::{self, kind_key};
use crate::stock::store;
use crate::web::forms::Form;
use std::collections::{BTreeMap, BTreeSet};

/// A list that was compared with what is known; ready to be imported where it has no faults.
pub struct Season {
    pub list: List,
    pub choices: Vec<Choice>,
    /// Whether some number was given before, so that new letters would help.
    pub taken: bool,
    /// How many rows were brought in before and are left out.
    pub here: usize,
    digest: String,
}

impl Season {
    /// Reads the rows and compares them with what the club has. `answers` holds the letters and the choices so far.
    pub async fn plan(
        conn: &mut Conn,
        member: &MemberId,
        (sheet, matching): (&Sheet, &Matching),
        answers: &Form,
        now: At,
    ) -> Result<Self, AppError> {
        let zone = crate::accounts::store::zone(conn).await?;
        let mut list = read(sheet, matching, answers.value("letters"), now.day(zone));
        let digest = sheet.digest("packets");
        let standing = kept::standing(conn, member, &digest).await?;
        let rows = list.rows.len();
        list.rows.retain(|row| !standing.contains(&row.line));
        let here = rows - list.rows.len();
        list.faults.retain(|f| !standing.contains(&f.line));
        let mut season = Self { here, digest, ..Self::weighed(conn, member, list, answers).await? };
        if season.list.rows.is_empty() && season.here > 0 {
            season.list.faults.push(Fault::new(0, "", t!("transfer-nothing-left")));
        }
        Ok(season)
    }

    /// Compares packets to be with what the club has.
    pub async fn weighed(
        conn: &mut Conn,
        member: &MemberId,
        list: List,
        answers: &Form,
    ) -> Result<Self, AppError> {
        let mut known = Known::load(conn, member).await?;
        let mut season = Self { list, choices: Vec::new(), taken: false, here: 0, digest: String::new() };
        season.names(&mut known, answers);
        season.species(&known);
        season.marks(&known);
        season.list.faults.sort_by_key(|f| f.line);
        Ok(season)
    }

    /// Asks about each distinct new name that is near a known one or one further up, and each pair of kind and variety
    /// that look swapped; and puts the answers in.
    fn names(&mut self, known: &mut Known, answers: &Form) {
        let mut asked = BTreeSet::new();
        let mut choices = Vec::new();
        let mut ask = |what, field: String, name: &mut String, near: Vec<String>| {
            let answer = answers.value(&field);
            let chosen = near.iter().find(|n| *n == answer).cloned();
            if !near.is_empty() && asked.insert(field.clone()) {
                choices.push(Choice { field, what, name: name.clone(), near });
            }
            if let Some(chosen) = chosen {
                *name = chosen;
            }
        };
        let mut settled = Settled::default();
        let mut varieties: BTreeSet<String> = known.varieties.keys().map(|(_, key)| key.clone()).collect();
        for row in &mut self.list.rows {
            let n = &mut row.packet.naming;
            let [mut order, other] = orders(&n.kind, &n.variety);
            let field = format!("order:{}:{}", names::key(&n.kind), names::key(&n.variety));
            let there = !swapped(known, &varieties, n);
            let near = settled.once(field.clone(), there, || vec![other.clone()]);
            ask(ORDER, field, &mut order, near);
            if order == other {
                std::mem::swap(&mut n.kind, &mut n.variety);
            }
            let kind = kind_key(&n.kind);
            let near = settled
                .once(format!("kind:{kind}"), known.kinds.contains_key(&kind), || known.near_kinds(&n.kind));
            ask("kind", format!("kind:{kind}"), &mut n.kind, near);
            // the list is shown as it will be
            if let Some(name) = known.kinds.get(&kind_key(&n.kind)) {
                n.kind.clone_from(name);
            }
            let (kind, key) = (kind_key(&n.kind), names::key(&n.variety));
            let field = format!("variety:{kind}:{key}");
            let there = known.varieties.contains_key(&(kind, key));
            let near = settled.once(field.clone(), there, || known.near_varieties(&n.kind, &n.variety));
            ask("variety", field, &mut n.variety, near);
            let key = names::key(&n.source);
            let field = format!("source:{key}");
            let there = known.sources.contains_key(&key);
            let near = settled.once(field.clone(), there, || known.near_sources(&n.source));
            ask("source", field, &mut n.source, near);
            known.learn(&n.kind, &n.variety, &n.source);
            varieties.insert(names::key(&n.variety));
        }
        self.choices = choices;
    }

    /// One variety, one species: also between rows.
    fn species(&mut self, known: &Known) {
        let mut noted: BTreeMap<(String, String), String> = BTreeMap::new();
        for row in &self.list.rows {
            let n = &row.packet.naming;
            let variety = (kind_key(&n.kind), names::key(&n.variety));
            let before =
                known.varieties.get(&variety).map(|(_, species)| species.clone()).unwrap_or_default();
            let noted = noted.entry(variety).or_insert(before);
            if noted.is_empty() {
                noted.clone_from(&n.species);
            } else if !n.species.is_empty() && names::key(noted) != names::key(&n.species) {
                let message = t!("transfer-species-noted", variety = n.variety, species = noted.as_str());
                self.list.faults.push(Fault::new(row.line, "species", message));
            }
        }
    }

    /// Each number must be free, and the letters the member's.
    fn marks(&mut self, known: &Known) {
        let mut lines: BTreeMap<String, u64> = BTreeMap::new();
        for row in &mut self.list.rows {
            let Some(shown) = known.letters.get(&marks::fold(&row.packet.letters)) else {
                let message = t!("transfer-letters-not-yours", letters = row.packet.letters);
                self.list.faults.push(Fault::new(row.line, "number", message));
                continue;
            };
            row.packet.letters.clone_from(shown);
            let Some(number) = row.packet.number else { continue };
            let mark = format!("{shown} {number}");
            if known.marks.contains(&marks::fold(&mark)) {
                self.taken = true;
                let message = t!("transfer-mark-given-before", mark = mark);
                self.list.faults.push(Fault::new(row.line, "number", message));
            } else if let Some(line) = lines.insert(marks::fold(&mark), row.line) {
                let message =
                    t!("transfer-mark-stands-twice", mark = mark, place = self.list.row.within(line));
                self.list.faults.push(Fault::new(row.line, "number", message));
            }
        }
    }

    /// Adds every packet, in the order of the list; own numbers first, so that none is given away.
    pub async fn import(
        &self,
        conn: &mut Conn,
        member: &MemberId,
        save_key: &str,
        now: At,
    ) -> Result<Result<Vec<PacketId>, Vec<Fault>>, AppError> {
        if !self.list.faults.is_empty() {
            return Ok(Err(self.list.faults.clone()));
        }
        let mut order: Vec<(usize, &Row)> = self.list.rows.iter().enumerate().collect();
        order.sort_by_key(|(_, row)| row.packet.number.is_none());
        let mut added = BTreeMap::new();
        for (place, row) in order {
            let act = Act::new(member, save_key, now, now);
            match store::add_packet(conn, &act, &row.packet).await {
                Ok(id) => {
                    let receipt = kept::receipt(conn, &id).await?;
                    kept::note(conn, member, (&self.digest, row.line), receipt.as_ref()).await?;
                    added.insert(place, id)
                }
                Err(AppError::Refused { field, message }) => {
                    return Ok(Err(vec![Fault::new(row.line, of_field(PACKETS, field), message)]));
                }
                Err(other) => return Err(other),
            };
        }
        Ok(Ok(added.into_values().collect()))
    }
}

/// Whether the variety of a row bears the name of a kind, or its kind that of a variety and of no kind.
fn swapped(known: &Known, varieties: &BTreeSet<String>, n: &Naming) -> bool {
    let is_kind = |key: &str, name: &str| known.kinds.contains_key(key) || published::of(name).is_some();
    let (kind, variety) = (kind_key(&n.kind), kind_key(&n.variety));
    let there = known.varieties.contains_key(&(kind.clone(), names::key(&n.variety)));
    if there || kind == variety || kind.is_empty() || variety.is_empty() {
        return false;
    }
    is_kind(&variety, &n.variety) || !is_kind(&kind, &n.kind) && varieties.contains(&names::key(&n.kind))
}

/// What was near a new name when it first stood in the list; it stays so for the rows below.
#[derive(Default)]
struct Settled(BTreeMap<String, Vec<String>>);

impl Settled {
    fn once(&mut self, field: String, known: bool, near: impl FnOnce() -> Vec<String>) -> Vec<String> {
        self.0.entry(field).or_insert_with(|| if known { Vec::new() } else { near() }).clone()
    }
}

/// Imports a season list as it stands: near spellings are new names. Either every packet is added (the caller
/// commits) or none and the faults are given. `sheet` names the sheet of a workbook; empty for the first.
pub async fn import_season_list(
    conn: &mut Conn,
    member: &MemberId,
    letters: &str,
    (file, sheet): (&[u8], &str),
    now: At,
) -> Result<Result<Vec<PacketId>, Vec<Fault>>, AppError> {
    let read = sheet::open(file.to_vec()).and_then(|mut book| book.sheet(sheet, |s| worth(s, PACKETS)));
    let sheet = match read {
        Ok(sheet) => sheet,
        Err(why) => return Ok(Err(vec![Fault::new(1, "", why)])),
    };
    let answers = Form::new().with("letters", letters);
    let matching = Matching::of(&sheet, PACKETS, &answers);
    let season = Season::plan(conn, member, (&sheet, &matching), &answers, now).await?;
    season.import(conn, member, answers.key(), now).await
}
