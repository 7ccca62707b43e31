//! Lines gathered into bags, with what must agree between lines.

use super::Fault;
use super::lines::{Line, lines};
use crate::club::Care;
use crate::table::{Bag, Look};
use std::collections::BTreeMap;

/// One bag of the file: the first of its lines, and all its looks by time.
pub struct BagFile {
    pub first: Line,
    pub lot: Option<String>,
    pub looks: Vec<Look>,
}

impl BagFile {
    /// The bag as the club table takes it.
    pub fn bag(&self) -> Bag<'_> {
        let l = &self.first;
        Bag {
            kind: &l.kind,
            variety: &l.variety,
            source: &l.source,
            grower: &l.grower,
            trial: &l.trial,
            bag: &l.bag,
            seeds: l.seeds,
            soaked: l.soaked,
            floated: l.floated,
            put_on_paper: l.put_on_paper,
            closed: l.closed,
            looks: self.looks.as_slice().into(),
        }
    }

    /// What else its lines say.
    pub fn care(&self) -> Care<'_> {
        let l = &self.first;
        Care {
            trial: &l.trial,
            seeds: l.seeds,
            routine: l.routine.as_deref(),
            warmth_c: l.warmth_c,
            age_years: l.age_years,
            club: l.club.as_deref(),
            lot: self.lot.as_deref(),
        }
    }
}

/// Reads the bags, sorted by kind, variety, source, trial and bag; or every fault, sorted by line.
pub fn read(text: &str) -> Result<Vec<BagFile>, Vec<Fault>> {
    let mut faults = Vec::new();
    let lines = lines(text, &mut faults);
    check_trials(&lines, &mut faults);
    let mut bags: BTreeMap<(&str, &str), Vec<&Line>> = BTreeMap::new();
    for line in &lines {
        bags.entry((&line.trial, &line.bag)).or_default().push(line);
    }
    let mut files: Vec<BagFile> = bags.into_values().map(|lines| gathered(lines, &mut faults)).collect();
    if !faults.is_empty() {
        faults.sort();
        return Err(faults);
    }
    files.sort_by(|a, b| key(&a.first).cmp(&key(&b.first)));
    Ok(files)
}

fn key(l: &Line) -> (&str, &str, &str, &str, &str) {
    (&l.kind, &l.variety, &l.source, &l.trial, &l.bag)
}

/// A trial is one packet, one grower, one routine.
fn check_trials(lines: &[Line], faults: &mut Vec<Fault>) {
    let mut firsts: BTreeMap<&str, &Line> = BTreeMap::new();
    for line in lines {
        let first = *firsts.entry(&line.trial).or_insert(line);
        let same = [
            ("kind", line.kind == first.kind),
            ("variety", line.variety == first.variety),
            ("source", line.source == first.source),
            ("grower", line.grower == first.grower),
            ("club", line.club == first.club),
            ("lot_year", line.lot_year == first.lot_year),
            ("routine", line.routine == first.routine),
            ("age_years", line.age_years == first.age_years),
        ];
        let differs = |name: &str| {
            let error =
                format!("must be the same for the whole trial '{}', see line {}", line.trial, first.line);
            Fault::new(line.line, name, error)
        };
        faults.extend(same.iter().filter(|(_, same)| !same).map(|(name, _)| differs(name)));
    }
}

fn gathered(mut lines: Vec<&Line>, faults: &mut Vec<Fault>) -> BagFile {
    let first = lines[0];
    for line in &lines {
        let same = [
            ("seeds", line.seeds == first.seeds),
            ("soaked", line.soaked == first.soaked),
            ("floated", line.floated == first.floated),
            ("closed", line.closed == first.closed),
            ("warmth_c", line.warmth_c == first.warmth_c),
            ("put_on_paper", line.put_on_paper == first.put_on_paper),
        ];
        let differs = |name: &str| {
            let error =
                format!("must be the same on all lines of bag '{}', see line {}", line.bag, first.line);
            Fault::new(line.line, name, error)
        };
        faults.extend(same.iter().filter(|(_, same)| !same).map(|(name, _)| differs(name)));
    }
    lines.sort_by(|a, b| a.hours.total_cmp(&b.hours).then(a.line.cmp(&b.line)));
    for pair in lines.windows(2).filter(|pair| pair[0].hours == pair[1].hours) {
        let error = format!("this bag has a look at the same hour on line {}", pair[0].line);
        faults.push(Fault::new(pair[1].line, "hours", error));
    }
    let mut left = u64::from(first.seeds);
    for line in &lines {
        let gone = u64::from(line.rooted) + u64::from(line.abnormal) + u64::from(line.dead);
        if gone > left {
            let error = format!(
                "up to this look more seeds rooted, were abnormal or died than the {} of the bag",
                first.seeds
            );
            faults.push(Fault::new(line.line, "rooted", error));
            break;
        }
        left -= gone;
    }
    let look = |l: &&Line| Look { hours: l.hours, rooted: l.rooted, abnormal: l.abnormal, dead: l.dead };
    let lot = first.lot_year.map(|year| year.to_string());
    BagFile { first: first.clone(), lot, looks: lines.iter().map(look).collect() }
}
