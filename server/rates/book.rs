//! The club's bags as the statistics take them: who left the rate, what each bag stands for, when it was looked at.

use super::reading::Reading;
use super::store::{BagRow, LookRow};
use crate::db::ids::At;
pub use crate::notebook::seen::Standing;
use crate::notebook::seen::{self, count, hours};
use chrono::{Datelike, NaiveDate};
use chrono_tz::Tz;
use hilum_calc::club::Care;
use hilum_calc::table::{Bag, Look};
use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::sync::Arc;

/// One bag with its looks. Seeds sown unrooted stand as a part of their own, seen until they left.
#[derive(Debug, Clone)]
pub struct Counted {
    pub kind_id: String,
    pub kind: String,
    pub variety: String,
    pub source: String,
    pub grower_id: String,
    pub grower: String,
    pub trial: String,
    pub bag: String,
    /// Seeds on paper, without those lost.
    pub seeds: u32,
    /// Seeds put to soak that it stands for.
    pub soaked: u32,
    /// Its trial threw floaters out.
    pub threw: bool,
    pub floated: bool,
    pub on_paper: NaiveDate,
    pub closed: bool,
    pub standing: Standing,
    /// Seeds sown unrooted: nobody will ever know of them on paper.
    pub sown: bool,
    /// The club that found it; `None` for ours.
    pub club: Option<String>,
    pub lot: String,
    pub lot_code: String,
    pub lot_year: Option<i64>,
    /// Seed of one year is one lot: what the file of counts tells too.
    pub lot_told: Option<String>,
    pub routine_id: String,
    pub routine: String,
    pub warmth_c: Option<f64>,
    pub age_years: Option<i64>,
    pub looks: Vec<Look>,
}

impl Counted {
    /// The mark of the bag, also where this is a part of it.
    pub fn mark(&self) -> &str {
        self.bag.split(',').next().unwrap_or_default()
    }

    /// The bag as the calculation takes it; days count from 1970.
    pub fn bag(&self) -> Bag<'_> {
        Bag {
            kind: &self.kind,
            variety: &self.variety,
            source: &self.source,
            grower: &self.grower,
            trial: &self.trial,
            bag: &self.bag,
            seeds: self.seeds,
            soaked: self.soaked,
            floated: self.floated,
            put_on_paper: Some(day_number(self.on_paper)),
            closed: self.closed,
            looks: self.looks.clone(),
        }
    }

    /// What else the model is told of its trial.
    pub fn care(&self) -> Care<'_> {
        Care {
            trial: &self.trial,
            seeds: self.seeds,
            routine: Some(self.routine.as_str()).filter(|name| !name.is_empty()),
            warmth_c: self.warmth_c,
            age_years: self.age_years.map(|years| years as f64),
            club: self.club.as_deref(),
            lot: self.lot_told.as_deref(),
        }
    }
}

/// Days since 1970-01-01.
pub fn day_number(day: NaiveDate) -> i32 {
    day.num_days_from_ce() - NaiveDate::default().num_days_from_ce()
}

/// Every bag of the club; and those of other clubs, which only the model takes.
#[derive(Debug, Default)]
pub struct Book {
    pub bags: Vec<Counted>,
    pub others: Arc<Vec<Counted>>,
}

impl Book {
    /// Puts what was read together.
    pub fn new(read: &Reading, zone: Tz) -> Self {
        let mut bags: Vec<&BagRow> = read.bags.values().collect();
        bags.sort_by(|a, b| {
            let key = |r: &BagRow| (r.began_at, r.on_paper_at);
            (key(a), &a.trial, &a.mark).cmp(&(key(b), &b.trial, &b.mark))
        });
        let (growers, trials) = (names(&bags), trial_names(&bags));
        let mut owing: HashMap<&str, i64> = HashMap::new();
        for s in &read.spoiled {
            *owing.entry(&s.trial).or_default() += s.seeds;
        }
        for (trial, thrown_out) in
            bags.iter().map(|b| (b.trial.as_str(), b.thrown_out)).collect::<HashMap<_, _>>()
        {
            *owing.entry(trial).or_default() += thrown_out;
        }
        let mut out: Vec<Counted> = Vec::with_capacity(bags.len());
        for row in bags {
            let looks = read.looks.get(&row.id).map(Vec::as_slice).unwrap_or_default();
            let grower = growers[&row.grower_id].clone();
            let mut parts = parts(row.clone(), looks, &trials, grower, zone);
            if let Some(first) = parts.iter_mut().find(|p| p.standing == Standing::Counts) {
                let owed = owing.remove(row.trial.as_str()).unwrap_or(0);
                first.soaked = first.soaked.saturating_add(count(owed));
            }
            out.append(&mut parts);
        }
        Self { bags: out, others: read.others.clone() }
    }
}

/// Growers by name; where two share one, with their letters.
fn names(bags: &[&BagRow]) -> BTreeMap<String, String> {
    let mut sharing: BTreeMap<&str, BTreeSet<&str>> = BTreeMap::new();
    for b in bags {
        sharing.entry(&b.grower).or_default().insert(&b.grower_id);
    }
    let name = |b: &BagRow| match (sharing[b.grower.as_str()].len(), &b.letters) {
        (1, _) | (_, None) => b.grower.clone(),
        (_, Some(letters)) => format!("{} ({letters})", b.grower),
    };
    bags.iter().map(|b| (b.grower_id.clone(), name(b))).collect()
}

/// Trials by the mark of their packet and their number among its trials.
fn trial_names(bags: &[&BagRow]) -> HashMap<String, String> {
    let mut of_packet: HashMap<&str, usize> = HashMap::new();
    let mut named = HashMap::new();
    for b in bags {
        if !named.contains_key(&b.trial) {
            let n = of_packet.entry(&b.packet).or_default();
            *n += 1;
            named.insert(b.trial.clone(), format!("{} trial {n}", b.packet));
        }
    }
    named
}

fn parts(
    row: BagRow,
    looks: &[LookRow],
    trials: &HashMap<String, String>,
    grower: String,
    zone: Tz,
) -> Vec<Counted> {
    let at = |l: &LookRow| hours(At(l.at).hours_since(At(row.on_paper_at)));
    let sown: Vec<(f64, u32)> = looks.iter().filter(|l| l.sown > 0).map(|l| (at(l), count(l.sown))).collect();
    let rest = row.seeds + row.moved_in - row.moved_out - row.lost - row.sown_unrooted;
    let new = looks.iter().filter(|l| l.sown == 0);
    let found = seen::found(new.map(|l| (at(l), [l.rooted, l.abnormal, l.dead])));
    let on_paper = At(row.on_paper_at).day(zone);
    let variety = if row.doubtful_cross { format!("{} (doubtful cross)", row.variety) } else { row.variety };
    let year = (row.year != 0).then_some(row.year);
    let whole = Counted {
        kind_id: row.kind_id,
        kind: row.kind,
        variety,
        source: row.source,
        grower_id: row.grower_id,
        grower,
        trial: trials[&row.trial].clone(),
        bag: row.mark,
        seeds: count(rest),
        soaked: count(rest),
        threw: row.thrown_out > 0,
        floated: row.floaters,
        on_paper,
        closed: row.closed_at.is_some(),
        standing: Standing::Counts,
        sown: false,
        club: None,
        lot: row.lot,
        lot_code: row.lot_code,
        lot_year: year,
        lot_told: year.map(|y| y.to_string()),
        routine_id: row.routine_id,
        routine: row.routine,
        warmth_c: row.warmth_c.filter(|c| *c >= -20.0),
        age_years: year.map(|y| (i64::from(At(row.began_at).day(zone).year()) - y).max(0)),
        looks: found,
    };
    let mut parts: Vec<Counted> = sown.into_iter().map(|(h, n)| sown_part(&whole, h, n)).collect();
    parts.insert(0, whole);
    for part in &mut parts {
        part.standing = Standing::of(&part.looks, part.seeds, row.in_doubt, &row.ending);
    }
    parts
}

/// Seeds sown unrooted after `hours`: not rooted at any look until then, not known afterwards.
fn sown_part(whole: &Counted, hours: f64, seeds: u32) -> Counted {
    let looks = seen::until_sown(&whole.looks, hours);
    let bag = format!("{}, sown unrooted after {hours} h", whole.bag);
    Counted { bag, seeds, soaked: seeds, closed: false, sown: true, looks, ..whole.clone() }
}
