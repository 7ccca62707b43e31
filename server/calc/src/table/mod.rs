//! The club table: germination by kind, variety and source, pooled over growers, trials and bags.
//!
//! A bag that was not seen near the standard day is not a failure: what is known of it bounds its
//! share, and the curve of its cell says where between the bounds. Bags, trials and growers differ more
//! than seeds do, so the interval is that of [`Row::design_effect`] times fewer seeds: of the rate as a
//! mean over growers like the club's.

mod groups;
mod looks;
mod packed;
mod reading;
mod spread;
mod state;

pub use groups::{Place, groups};
pub use looks::{Look, Looks};
pub use packed::Packed;
pub use reading::{Count, Reading};
pub use spread::Alike;
use spread::{Cell, Spread, Tally};
pub use state::intervals;
use state::{Horizon, Share, tally};
use std::collections::BTreeMap;

const HOURS: f64 = 24.0;

/// One bag (replicate) with all its looks, in any order.
#[derive(Debug, Clone, PartialEq)]
pub struct Bag<'a> {
    /// Kind, such as pepper.
    pub kind: &'a str,
    /// Named cultivar of the kind.
    pub variety: &'a str,
    /// Who the seed came from.
    pub source: &'a str,
    /// Whose trial it is.
    pub grower: &'a str,
    /// Name or id of the trial, unique in the whole list.
    pub trial: &'a str,
    /// Name or id of the bag, unique in its trial.
    pub bag: &'a str,
    /// Seeds put on paper, 1 or more.
    pub seeds: u32,
    /// Seeds put to soak that this bag stands for, `seeds` or more.
    pub soaked: u32,
    /// A bag of floaters.
    pub floated: bool,
    /// Day number the bag went on paper, any epoch; `None` where not known.
    pub put_on_paper: Option<i32>,
    /// Closed: what is left will not be looked at again.
    pub closed: bool,
    /// All looks.
    pub looks: Looks<'a>,
}

/// What a rate is a share of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Of {
    /// Seeds put to soak; thrown-out floaters count as not germinated.
    Started,
    /// Seeds put on paper.
    Paper,
}

/// By when a seed must have rooted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum At {
    /// The standard day of its kind.
    Day,
    /// The close of its bag.
    Close,
}

/// How to read the bags.
pub struct Options<'f> {
    /// What the rate is a share of.
    pub of: Of,
    /// By when.
    pub at: At,
    /// Day number of the reading, same epoch as [`Bag::put_on_paper`]; `None` takes every bag.
    pub as_of: Option<i32>,
    /// Days from paper to the final count of a kind; `None` where nothing is published, then the
    /// club's own day is used: by which 95 % of the kind's rooted seeds were seen.
    pub standard_day: &'f dyn Fn(&str) -> Option<f64>,
}

/// One row: everything known of one source of one variety.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Kind.
    pub kind: String,
    /// Variety.
    pub variety: String,
    /// Source.
    pub source: String,
    /// Growers, trials and bags behind the rate.
    pub growers: usize,
    /// Trials.
    pub trials: usize,
    /// Bags.
    pub bags: usize,
    /// Seeds on paper.
    pub seeds: u64,
    /// Seeds put to soak.
    pub soaked: u64,
    /// Seeds seen rooted by the chosen time.
    pub rooted: u64,
    /// Share rooted of the chosen base, 0 to 1; `None` where no look reaches the day.
    pub rate: Option<f64>,
    /// Lower end of the 95 % interval.
    pub low: f64,
    /// Upper end of the 95 % interval.
    pub high: f64,
    /// How many times fewer independent seeds there are than seeds, 1 or more.
    pub design_effect: f64,
    /// Independent seeds that tell as much as these: seeds less what open ones leave unknown, by the
    /// design effect; 1 or more.
    pub independent: f64,
    /// Days until half of the seeds that root have rooted.
    pub median_days: Option<f64>,
    /// Sources of a variety in the same group are linked through shared growers; from 1.
    pub group: usize,
    /// The day the rate is for; `None` at the close.
    pub day: Option<f64>,
    /// `day` is the club's own, nothing is published for the kind.
    pub club_day: bool,
    /// Some bag was not seen within a day of `day`, the curve stood in.
    pub estimated: bool,
    /// Bags closed before `day` with seeds still on paper.
    pub closed_early: usize,
    /// Bags still running.
    pub running: usize,
    /// Trials that threw floaters out.
    pub threw_floaters: usize,
}

/// The club table, sorted by kind, variety, source. The order of `bags` and of their looks never
/// matters, not even in the last digit.
#[must_use]
pub fn table(bags: &[Bag], options: &Options) -> Vec<Row> {
    Reading::new(bags.to_vec(), options).rows()
}

fn sorted<'a>(mut bags: Vec<Bag<'a>>) -> Vec<Bag<'a>> {
    let key = |b: &Bag<'a>| (b.kind, b.variety, b.source, b.trial, b.bag);
    bags.sort_by(|a, b| key(a).cmp(&key(b)).then_with(|| (a.grower, a.seeds).cmp(&(b.grower, b.seeds))));
    bags
}

fn horizons<'a>(bags: &[Bag<'a>], options: &Options) -> BTreeMap<&'a str, Horizon> {
    let mut kinds: BTreeMap<&str, Vec<&Bag>> = BTreeMap::new();
    for bag in bags {
        kinds.entry(bag.kind).or_default().push(bag);
    }
    let horizon = |kind: &str, bags: &[&Bag]| {
        let published = (options.standard_day)(kind).filter(|d| d.is_finite() && *d > 0.0);
        let day = published.or_else(|| club_day(bags));
        Horizon { day, club: published.is_none() && day.is_some(), close: options.at == At::Close }
    };
    kinds.iter().map(|(kind, bags)| (*kind, horizon(kind, bags))).collect()
}

/// The first whole day by which 95 % of all seeds that rooted had been seen rooted.
fn club_day(bags: &[&Bag]) -> Option<f64> {
    let mut looks: Vec<(f64, u64)> = Vec::new();
    for bag in bags {
        looks.extend(bag.looks.in_order().iter().map(|l| (l.hours, u64::from(l.rooted))));
    }
    looks.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
    let all: u64 = looks.iter().map(|l| l.1).sum();
    let mut seen = 0;
    let reached = |(hours, rooted): &(f64, u64)| {
        seen += rooted;
        (seen * 100 >= all * 95).then(|| (hours / HOURS).ceil().max(1.0))
    };
    if all == 0 { None } else { looks.iter().find_map(reached) }
}

fn enters(bag: &Bag, horizon: &Horizon, options: &Options) -> bool {
    match (bag.put_on_paper, options.as_of) {
        (Some(paper), Some(as_of)) => f64::from(as_of) - f64::from(paper) >= horizon.day.unwrap_or(0.0),
        _ => true,
    }
}

fn cell<'a>(bags: &[&Bag<'a>], horizon: &Horizon, of: Of) -> Cell<'a> {
    let share = Share::of(bags, horizon);
    let tallies: Vec<Tally> = bags.iter().map(|bag| tally(bag, horizon, of, &share)).collect();
    Cell { tallies, median_days: share.median_days() }
}

fn counts(bags: &[&Bag], horizon: &Horizon) -> Row {
    let distinct = |mut names: Vec<&str>| {
        names.sort_unstable();
        names.dedup();
        names.len()
    };
    let threw = bags.iter().filter(|b| b.soaked > b.seeds).map(|b| b.trial).collect();
    Row {
        kind: bags[0].kind.to_owned(),
        variety: bags[0].variety.to_owned(),
        source: bags[0].source.to_owned(),
        growers: distinct(bags.iter().map(|b| b.grower).collect()),
        trials: distinct(bags.iter().map(|b| b.trial).collect()),
        bags: bags.len(),
        seeds: bags.iter().map(|b| u64::from(b.seeds)).sum(),
        soaked: bags.iter().map(|b| u64::from(b.soaked.max(b.seeds))).sum(),
        running: bags.iter().filter(|b| !b.closed).count(),
        threw_floaters: distinct(threw),
        day: horizon.day.filter(|_| !horizon.close),
        club_day: horizon.club && !horizon.close,
        rooted: 0,
        rate: None,
        low: 0.0,
        high: 1.0,
        design_effect: 1.0,
        independent: 1.0,
        median_days: None,
        group: 0,
        estimated: false,
        closed_early: 0,
    }
}

fn rate(row: &mut Row, cell: &Cell, spread: &Spread) {
    let sums = cell.sums();
    let interval = spread.interval(cell);
    row.rooted = cell.tallies.iter().map(|t| t.seen).sum();
    row.rate = sums.rate();
    row.low = interval.low;
    row.high = interval.high;
    row.design_effect = interval.design_effect;
    row.independent = interval.independent;
    row.median_days = cell.median_days;
    row.estimated = cell.tallies.iter().any(|t| t.estimated);
    row.closed_early = cell.tallies.iter().filter(|t| t.closed_early).count();
}
