//! Rows about bags of seasons past, gathered into bags and trials that keep what must always hold.

use super::super::columns::{self, PACKETS, of_field};
use super::super::fault::Fault;
use super::super::read::{List, Row as PacketRow};
use super::super::sheet::Called;
use super::looks::{Who, moment, of_day};
use super::read::{Past, Row};
use super::{PastBag, PastLook, PastTrial};
use crate::db::ids::{At, RoutineId};
use crate::routines::model::{Routine, name_key};
use crate::routines::said::is_called;
use crate::stock::form as packet_form;
use crate::web::forms::Form;
use chrono::{NaiveDate, NaiveTime};
use std::collections::BTreeMap;

/// The trials, and their packets in the same order.
#[derive(Default)]
pub struct Gathered {
    pub trials: Vec<PastTrial>,
    pub packets: List,
    pub faults: Vec<Fault>,
}

/// Gathers the rows: those of one trial are one packet, those of one bag one bag.
pub fn gather(who: Who<'_>, letters: &str, rows: &[Row], routines: &[Routine]) -> Gathered {
    let mut all = Gathered::default();
    let mut trials: BTreeMap<(&str, &str), Vec<&Row>> = BTreeMap::new();
    for row in rows {
        let alone = if row.past.trial.is_empty() { row.bag.as_str() } else { "" };
        trials.entry((&row.past.trial, alone)).or_default().push(row);
    }
    let mut groups: Vec<Vec<&Row>> = trials.into_values().collect();
    groups.sort_by_key(|rows| rows[0].line);
    for rows in groups {
        let before = all.faults.len();
        if let Some((trial, packet)) = one(who, letters, &rows, routines, &mut all.faults)
            && all.faults.len() == before
        {
            all.trials.push(trial);
            all.packets.rows.push(packet);
        }
    }
    all
}

fn one(
    who: Who<'_>,
    letters: &str,
    rows: &[&Row],
    routines: &[Routine],
    faults: &mut Vec<Fault>,
) -> Option<(PastTrial, PacketRow)> {
    let first = rows[0];
    agree(who.row, rows, faults);
    let Some((day, time)) = first.past.paper else {
        let message = t!("transfer-say-when-on-paper");
        faults.push(Fault::new(first.line, "on paper", message));
        return None;
    };
    let hours = rows.iter().filter_map(|r| r.hours).fold(0.0, f64::max);
    let paper = began(who, day, time, hours);
    if day > who.now.day(who.zone) {
        faults.push(Fault::new(first.line, "on paper", t!("transfer-in-the-future")));
    }
    let bags = bags(who, paper, rows, faults);
    let on_paper: i64 = bags.iter().map(|b| b.seeds).sum();
    let thrown = thrown(rows, &bags, on_paper, faults);
    let routine = routine(first, routines, faults)?;
    let packet = packet(who, letters, (first, on_paper + thrown), faults);
    let (routine, routine_name) = (routine.0, routine.1);
    let trial = PastTrial { line: first.line, routine, routine_name, paper, thrown, bags };
    Some((trial, PacketRow { line: first.line, packet, ..PacketRow::default() }))
}

/// When the bags went on paper: at noon where only the day is known, or as early on it as looks of so many hours
/// after it ask for.
fn began(who: Who<'_>, day: NaiveDate, time: Option<NaiveTime>, hours: f64) -> At {
    let noon = of_day(who.zone, day, time).min(who.now);
    let earlier = At(who.now.0 - (hours * 3600.0).ceil() as i64);
    if time.is_none() && earlier < noon && earlier.day(who.zone) == day { earlier } else { noon }
}

/// A trial is one packet put through one routine at one time.
fn agree(called: Called, rows: &[&Row], faults: &mut Vec<Fault>) {
    let first = rows[0];
    for row in &rows[1..] {
        let (a, b) = (&row.past, &first.past);
        let names = ["kind", "variety", "source", "year"];
        let naming = names.iter().zip(a.naming.iter().zip(&b.naming)).filter(|(_, (x, y))| x != y);
        let mut differ: Vec<&str> = naming.map(|(name, _)| *name).collect();
        differ.extend((a.routine != b.routine).then_some("routine"));
        differ.extend((a.paper != b.paper).then_some("on paper"));
        for column in differ {
            let place = called.within(first.line);
            let message = t!("transfer-another-in-trial", column = columns::words(column), place = place);
            faults.push(Fault::new(row.line, column, message));
        }
    }
}

fn bags(who: Who<'_>, paper: At, rows: &[&Row], faults: &mut Vec<Fault>) -> Vec<PastBag> {
    let mut of_bag: BTreeMap<&str, Vec<&Row>> = BTreeMap::new();
    rows.iter().for_each(|row| of_bag.entry(&row.bag).or_default().push(row));
    let mut groups: Vec<Vec<&Row>> = of_bag.into_values().collect();
    groups.sort_by_key(|rows| rows[0].line);
    groups.iter().filter_map(|rows| bag(who, paper, rows, faults)).collect()
}

fn bag(who: Who<'_>, paper: At, rows: &[&Row], faults: &mut Vec<Fault>) -> Option<PastBag> {
    let first = rows[0];
    let own = |p: &Past| (p.seeds, p.soaked, p.floated, p.closed, p.warmth_c);
    for row in rows.iter().filter(|row| own(&row.past) != own(&first.past)) {
        let message = t!("transfer-other-things-of-bag", place = who.row.within(first.line));
        faults.push(Fault::new(row.line, "bag", message));
    }
    let Some(seeds) = first.past.seeds else {
        let message = t!("transfer-say-how-many-seeds");
        faults.push(Fault::new(first.line, "seeds", message));
        return None;
    };
    let mut looks = Vec::new();
    for row in rows {
        match moment(who, paper, row) {
            Ok(at) => looks.push(PastLook { line: row.line, at, look: row.look }),
            Err((column, message)) => faults.push(Fault::new(row.line, column, message)),
        }
    }
    looks.sort_by_key(|l| (l.at, l.line));
    for pair in looks.windows(2).filter(|pair| pair[0].at == pair[1].at) {
        let message = t!("transfer-look-at-same-time", place = who.row.within(pair[0].line));
        faults.push(Fault::new(pair[1].line, "date of the look", message));
    }
    let mut left = seeds;
    for l in &looks {
        left -= l.look.rooted + l.look.abnormal + l.look.dead;
        if left < 0 {
            let message = t!("transfer-more-counted-than-seeds", n = seeds);
            faults.push(Fault::new(l.line, "rooted", message));
            break;
        }
    }
    let Past { floated, warmth_c, closed, .. } = first.past;
    Some(PastBag { name: first.bag.clone(), seeds, floated, warmth_c, closed, looks })
}

/// Seeds soaked that came into no bag: floaters thrown out.
fn thrown(rows: &[&Row], bags: &[PastBag], on_paper: i64, faults: &mut Vec<Fault>) -> i64 {
    let soaked: BTreeMap<&str, i64> =
        rows.iter().filter_map(|r| Some((r.bag.as_str(), r.past.soaked?))).collect();
    if soaked.is_empty() {
        return 0;
    }
    let all: i64 = bags.iter().map(|b| soaked.get(b.name.as_str()).copied().unwrap_or(b.seeds)).sum();
    if all < on_paper {
        let message = t!("transfer-soaked-fewer", n = all, paper = on_paper);
        faults.push(Fault::new(rows[0].line, "soaked", message));
    } else if all > on_paper && bags.iter().any(|b| b.floated) {
        let message = t!("transfer-floaters-both-ways");
        faults.push(Fault::new(rows[0].line, "floated", message));
    }
    (all - on_paper).max(0)
}

/// The routine of that name; dry seed straight to paper where none is told.
fn routine(row: &Row, routines: &[Routine], faults: &mut Vec<Fault>) -> Option<(RoutineId, String)> {
    let key = name_key(&row.past.routine);
    let open = || routines.iter().filter(|r| r.retired_at.is_none());
    let found = if key.is_empty() {
        open().find(|r| r.steps == 0)
    } else {
        open().find(|r| is_called(&r.name, &key))
    };
    if found.is_none() {
        faults.push(Fault::new(row.line, "routine", t!("transfer-no-such-routine")));
    }
    found.map(|r| (r.id.clone(), r.name.clone()))
}

fn packet(
    who: Who<'_>,
    letters: &str,
    (row, seeds): (&Row, i64),
    faults: &mut Vec<Fault>,
) -> crate::stock::model::NewPacket {
    let fields = ["kind", "variety", "source", "year"].iter().zip(&row.past.naming);
    let form = fields.fold(Form::default(), |form, (field, cell)| form.with(field, cell));
    let what = if row.past.trial.is_empty() {
        format!("bag {}", row.bag)
    } else {
        format!("trial {}", row.past.trial)
    };
    let note = format!("Brought in with its counts: {what}");
    let mut form = form.with("seeds", seeds).with("letters", letters).with("note", note);
    let packet = packet_form::new_packet(&mut form, who.now.day(who.zone));
    for (field, error) in form.errors() {
        faults.push(Fault::of_cell(row.line, of_field(PACKETS, field), form.value(field), error));
    }
    packet
}
