//! The club's bags as the statistics take them: who left the rate, what each bag stands for, when it was looked at.

use super::choice::Offers;
use super::name::{DOUBTFUL_CROSS, Name, Names};
use super::store::{BagRow, GrowerRow, SeedRow, SpoiledRow};
use crate::db::ids::At;
use crate::error::AppError;
use crate::notebook::bag::Finding;
pub use crate::notebook::seen::Standing;
use crate::notebook::seen::{self, count, hours};
use chrono::{Datelike, NaiveDate};
use chrono_tz::Tz;
use hilum_calc::club::Care;
use hilum_calc::table::{Bag, Packed};
use std::collections::HashMap;
use std::sync::{Arc, OnceLock};

/// One bag with its looks. Seeds sown unrooted stand as a part of their own, seen until they left.
#[derive(Debug, Clone)]
pub struct Counted {
    pub kind_id: Name,
    pub kind: Name,
    pub variety: Name,
    pub source: Name,
    pub grower_id: Name,
    pub grower: Name,
    pub trial: Name,
    pub bag: Name,
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
    pub club: Option<Name>,
    pub lot: Name,
    pub lot_code: Name,
    pub lot_year: Option<i64>,
    /// Seed of one year is one lot: what the file of counts tells too.
    pub lot_told: Option<Name>,
    pub routine_id: Name,
    pub routine: Name,
    pub warmth_c: Option<f64>,
    pub age_years: Option<i64>,
    pub looks: Packed,
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
            looks: (&self.looks).into(),
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

/// Every bag of the club in order of time; and those of other clubs, which only the model takes.
#[derive(Debug, Default)]
pub struct Book {
    pub bags: Vec<Arc<Counted>>,
    pub others: Arc<Vec<Counted>>,
    offers: OnceLock<Offers>,
}

impl Book {
    pub fn new(bags: Vec<Arc<Counted>>, others: Arc<Vec<Counted>>) -> Self {
        Self { bags, others, offers: OnceLock::new() }
    }

    /// What there is to choose from.
    pub fn offers(&self) -> &Offers {
        self.offers.get_or_init(|| Offers::of(self))
    }

    /// Our own bags.
    pub fn own(&self) -> impl Iterator<Item = &Counted> {
        self.bags.iter().map(AsRef::as_ref)
    }
}

/// What was read of one packet: its bags in the order of the book.
#[derive(Debug)]
pub struct PacketRows {
    pub seed: SeedRow,
    pub bags: Vec<BagRow>,
    pub spoiled: Vec<SpoiledRow>,
}

impl PacketRows {
    /// A packet without bags.
    pub fn of(seed: SeedRow) -> Self {
        Self { seed, bags: Vec::new(), spoiled: Vec::new() }
    }
}

/// What the bags of one packet have in common.
struct Seed {
    kind_id: Name,
    kind: Name,
    variety: Name,
    source: Name,
    lot: Name,
    lot_code: Name,
    year: Option<i64>,
    lot_told: Option<Name>,
}

impl Seed {
    fn new(row: &SeedRow, names: &mut Names) -> Self {
        let year = (row.year != 0).then_some(row.year);
        Self {
            kind_id: names.one(&row.kind_id),
            kind: names.one(&row.kind),
            variety: if row.doubtful_cross {
                names.one(&format!("{}{DOUBTFUL_CROSS}", row.variety))
            } else {
                names.one(&row.variety)
            },
            source: names.one(&row.source),
            lot: names.one(&row.lot),
            lot_code: names.one(&row.lot_code),
            year,
            lot_told: year.map(|y| names.one(&y.to_string())),
        }
    }
}

/// Who has bags, and what each is called: by name, and where two share one, with their letters.
#[derive(Debug, Default)]
pub struct Growers(HashMap<String, String>);

impl Growers {
    pub fn knows(&self, id: &str) -> bool {
        self.0.contains_key(id)
    }
}

impl FromIterator<GrowerRow> for Growers {
    fn from_iter<I: IntoIterator<Item = GrowerRow>>(rows: I) -> Self {
        let rows: Vec<GrowerRow> = rows.into_iter().collect();
        let mut sharing: HashMap<&str, usize> = HashMap::new();
        for row in &rows {
            *sharing.entry(&row.name).or_default() += 1;
        }
        let called = |row: &GrowerRow| match (sharing[row.name.as_str()], &row.letters) {
            (1, _) | (_, None) => row.name.clone(),
            (_, Some(letters)) => format!("{} ({letters})", row.name),
        };
        Self(rows.iter().map(|row| (row.id.clone(), called(row))).collect())
    }
}

/// The bags of one packet with their parts. A packet's trials are numbered in the order in which they are met.
pub fn counted<'r>(
    rows: &'r PacketRows,
    growers: &Growers,
    names: &mut Names,
    zone: Tz,
) -> Result<Vec<(&'r BagRow, Vec<Counted>)>, AppError> {
    let seed = Seed::new(&rows.seed, names);
    let mut owing = rows.owing();
    let mut trials: Vec<&str> = Vec::new();
    let mut out = Vec::with_capacity(rows.bags.len());
    for row in &rows.bags {
        let known = trials.iter().position(|t| *t == row.trial);
        let number = known.unwrap_or_else(|| {
            trials.push(&row.trial);
            trials.len() - 1
        });
        let trial = names.one(&format!("{} trial {}", rows.seed.mark, number + 1));
        let grower = names.one(growers.0.get(&row.grower_id).unwrap_or(&row.grower));
        let whole = whole(row, &seed, (grower, trial), names, zone);
        let mut parts = parts(row, &Finding::all(&row.findings)?, whole);
        if let Some(first) = parts.iter_mut().find(|p| p.standing == Standing::Counts) {
            let owed = owing.remove(row.trial.as_str()).unwrap_or(0);
            first.soaked = first.soaked.saturating_add(count(owed));
        }
        out.push((row, parts));
    }
    Ok(out)
}

/// The bag before its looks are told.
fn whole(row: &BagRow, seed: &Seed, (grower, trial): (Name, Name), names: &mut Names, zone: Tz) -> Counted {
    let rest = row.seeds + row.moved_in - row.moved_out - row.lost - row.sown_unrooted;
    let age = |year: i64| (i64::from(At(row.began_at).day(zone).year()) - year).max(0);
    Counted {
        kind_id: seed.kind_id.clone(),
        kind: seed.kind.clone(),
        variety: seed.variety.clone(),
        source: seed.source.clone(),
        grower_id: names.one(&row.grower_id),
        grower,
        trial,
        bag: Name::from(row.mark.as_str()),
        seeds: count(rest),
        soaked: count(rest),
        threw: row.thrown_out > 0,
        floated: row.floaters,
        on_paper: At(row.on_paper_at).day(zone),
        closed: row.closed_at.is_some(),
        standing: Standing::Counts,
        sown: false,
        club: None,
        lot: seed.lot.clone(),
        lot_code: seed.lot_code.clone(),
        lot_year: seed.year,
        lot_told: seed.lot_told.clone(),
        routine_id: names.one(&row.routine_id),
        routine: names.one(&row.routine),
        warmth_c: row.warmth_c.filter(|c| *c >= -20.0),
        age_years: seed.year.map(age),
        looks: Packed::default(),
    }
}

fn parts(row: &BagRow, looks: &[Finding], whole: Counted) -> Vec<Counted> {
    let at = |l: &Finding| hours(l.at.hours_since(At(row.on_paper_at)));
    let sown: Vec<(f64, u32)> = looks.iter().filter(|l| l.sown > 0).map(|l| (at(l), count(l.sown))).collect();
    let new = looks.iter().filter(|l| l.sown == 0);
    let found = seen::found(new.map(|l| (at(l), [l.rooted, l.abnormal, l.dead])));
    let whole = Counted { looks: Packed::from(&found[..]), ..whole };
    let mut parts: Vec<Counted> = sown.into_iter().map(|(h, n)| sown_part(&whole, h, n)).collect();
    parts.insert(0, whole);
    for part in &mut parts {
        part.standing = Standing::of(&part.looks.to_vec(), part.seeds, row.in_doubt, &row.ending);
    }
    parts
}

/// Seeds sown unrooted after `hours`: not rooted at any look until then, not known afterwards.
fn sown_part(whole: &Counted, hours: f64, seeds: u32) -> Counted {
    let looks = Packed::from(&seen::until_sown(&whole.looks.to_vec(), hours)[..]);
    let bag = format!("{}, sown unrooted after {hours} h", whole.bag);
    Counted { bag: bag.into(), seeds, soaked: seeds, closed: false, sown: true, looks, ..whole.clone() }
}
