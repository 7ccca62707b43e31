//! What other clubs found, as the model takes it. It is never among our own counts.

use super::book::Counted;
use super::name::Name;
use super::store::OtherRow;
use crate::db::Conn;
use crate::error::AppError;
use crate::notebook::seen::Standing;
use crate::stock::names::key;
use crate::stock::published::kind_key;
use crate::stock::store;
use chrono::{Days, NaiveDate};
use hilum_calc::analyse::{self, Fault};
use hilum_calc::club::Care;
use hilum_calc::table::{Bag, Options, Packed, Reading};
use std::collections::{BTreeMap, BTreeSet};

/// What other clubs found with one source of one variety.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Beside {
    /// On paper, those not yet known left out.
    pub seeds: f64,
    pub clubs: BTreeSet<String>,
    pub growers: BTreeSet<String>,
}

impl Beside {
    /// `120 seeds of 2 other clubs`
    pub fn words(&self) -> String {
        t!("rates-of-other-clubs", seeds = self.whole_seeds(), clubs = self.clubs.len())
    }

    /// `with 120 seeds of 2 other clubs`
    pub fn with_words(&self) -> String {
        t!("rates-with-other-clubs", seeds = self.whole_seeds(), clubs = self.clubs.len())
    }

    fn whole_seeds(&self) -> i64 {
        self.seeds.round() as i64
    }
}

/// The same for every kind, variety and source that other clubs tried.
#[derive(Debug, Clone, Default)]
pub struct Besides(BTreeMap<String, Beside>);

fn place((kind, variety, source): (&str, &str, &str)) -> String {
    format!("{kind}\u{0}{variety}\u{0}{source}")
}

impl Besides {
    pub fn of(others: &[Counted], options: &Options) -> Self {
        let clubs: BTreeMap<&str, &str> =
            others.iter().filter_map(|b| Some((b.trial.as_str(), b.club.as_deref()?))).collect();
        let bags: Vec<Bag> = others.iter().map(Counted::bag).collect();
        let mut all: BTreeMap<String, Beside> = BTreeMap::new();
        for t in Reading::new(bags, options).trials() {
            let beside = all.entry(place(t.place)).or_default();
            beside.seeds += t.seeds;
            beside.growers.insert(t.grower.to_owned());
            beside.clubs.extend(clubs.get(t.trial).map(|club| (*club).to_owned()));
        }
        Self(all)
    }

    /// What they found with this source; `None` where they did not try it.
    pub fn with(&self, at: (&str, &str, &str)) -> Option<&Beside> {
        self.0.get(&place(at))
    }

    /// All of it together; `None` where there is nothing.
    pub fn whole(&self) -> Option<Beside> {
        let add = |mut all: Beside, one: &Beside| {
            all.seeds += one.seeds;
            all.clubs.extend(one.clubs.iter().cloned());
            all.growers.extend(one.growers.iter().cloned());
            all
        };
        (!self.0.is_empty()).then(|| self.0.values().fold(Beside::default(), add))
    }
}

/// Our own names by their keys, with what they count under.
#[derive(Default)]
pub struct Names {
    kinds: BTreeMap<String, String>,
    varieties: BTreeMap<(String, String), String>,
    sources: BTreeMap<String, String>,
    routines: BTreeMap<String, String>,
}

impl Names {
    pub async fn load(conn: &mut Conn) -> Result<Self, AppError> {
        let varieties = store::varieties(conn).await?.into_iter();
        let routines = crate::routines::store::routines(conn).await?.into_iter();
        Ok(Self {
            kinds: store::kinds(conn).await?.into_iter().map(|k| (k.name_key, k.name)).collect(),
            varieties: varieties.map(|v| ((kind_key(&v.kind), v.name_key), v.counts_as)).collect(),
            sources: store::sources(conn).await?.into_iter().map(|s| (s.name_key, s.counts_as)).collect(),
            routines: routines.map(|r| (crate::routines::model::name_key(&r.name), r.name)).collect(),
        })
    }

    /// Our names for theirs: what the organiser chose, else the same by spelling, else as it is. `chosen` is by
    /// `kind:..`, `variety:..:..` and `source:..`, as a list asks for near spellings.
    pub fn ours(&self, chosen: &BTreeMap<String, String>, theirs: (&str, &str, &str)) -> [String; 3] {
        let pick = |field: String, name: &str| chosen.get(&field).map_or(name, String::as_str).to_owned();
        let kind = pick(format!("kind:{}", kind_key(theirs.0)), theirs.0);
        let kind_key = kind_key(&kind);
        let variety = pick(format!("variety:{kind_key}:{}", key(theirs.1)), theirs.1);
        let source = pick(format!("source:{}", key(theirs.2)), theirs.2);
        let known = self.varieties.get(&(kind_key.clone(), key(&variety)));
        [
            self.kinds.get(&kind_key).cloned().unwrap_or(kind),
            known.cloned().unwrap_or(variety),
            self.sources.get(&key(&source)).cloned().unwrap_or(source),
        ]
    }

    /// Whether we have that variety.
    pub fn has(&self, kind: &str, variety: &str) -> bool {
        self.varieties.contains_key(&(kind_key(kind), key(variety)))
    }

    fn routine(&self, theirs: &str) -> String {
        let key = crate::routines::model::name_key(theirs);
        self.routines.get(&key).cloned().unwrap_or_else(|| theirs.to_owned())
    }
}

/// The bags of one club's table under our names; or every fault of it.
pub fn bags(row: &OtherRow, label: &str, names: &Names) -> Result<Vec<Counted>, Vec<Fault>> {
    let chosen: BTreeMap<String, String> = serde_json::from_str(&row.names).unwrap_or_default();
    let counts = analyse::read(&row.counts)?;
    Ok(counts.bags().map(|(bag, care)| one(&bag, &care, label, (names, &chosen))).collect())
}

fn one(bag: &Bag, care: &Care, label: &str, (names, chosen): (&Names, &BTreeMap<String, String>)) -> Counted {
    let [kind, variety, source] = names.ours(chosen, (bag.kind, bag.variety, bag.source));
    let days = u64::try_from(bag.put_on_paper.unwrap_or(0)).unwrap_or(0);
    Counted {
        kind_id: Name::default(),
        kind: kind.into(),
        variety: variety.into(),
        source: source.into(),
        grower_id: Name::default(),
        grower: format!("{label}, {}", bag.grower).into(),
        trial: format!("{label}, {}", bag.trial).into(),
        bag: bag.bag.into(),
        seeds: bag.seeds,
        soaked: bag.soaked,
        threw: false,
        floated: bag.floated,
        on_paper: NaiveDate::default().checked_add_days(Days::new(days)).unwrap_or_default(),
        closed: bag.closed,
        standing: Standing::Counts,
        sown: false,
        club: Some(label.into()),
        lot: Name::default(),
        lot_code: Name::default(),
        lot_year: None,
        lot_told: care.lot.map(Name::from),
        routine_id: Name::default(),
        routine: care.routine.map(|r| names.routine(r).into()).unwrap_or_default(),
        warmth_c: care.warmth_c,
        age_years: care.age_years.map(|years| years.round() as i64),
        looks: Packed::from(&*bag.looks.in_order()),
    }
}

/// The bags of all clubs that are to count beside ours.
pub async fn all(conn: &mut Conn) -> Result<Vec<Counted>, AppError> {
    let rows = super::store::others(conn).await?;
    if rows.is_empty() {
        return Ok(Vec::new());
    }
    let names = Names::load(conn).await?;
    let mut all = Vec::new();
    for row in &rows {
        match bags(row, &label(row, &rows), &names) {
            Ok(bags) => all.extend(bags),
            Err(faults) => tracing::error!("the kept table of {} does not read back: {faults:?}", row.name),
        }
    }
    Ok(all)
}

/// The name of the club; where two share one, with the start of its code.
fn label(row: &OtherRow, rows: &[OtherRow]) -> String {
    let sharing = rows.iter().filter(|r| r.name == row.name).count();
    if sharing < 2 { row.name.clone() } else { format!("{} ({})", row.name, &row.code[..4]) }
}
