//! How unlike each other bags, trials and growers are, and the interval that allows for it.
//!
//! The rate is an estimate of the mean over all growers and trials there could be, so seeds are clustered
//! in bags, bags in trials, trials in growers. Three intraclass correlations, of seeds in one bag, in two
//! bags of a trial and in two trials of a grower, are estimated over the club's cells: each as the share by
//! which pairs of seeds of that level differ less often than pairs of different growers (Donner 1986, Int.
//! Statist. Rev. 54:67-82, for the estimators of this kind). They give each cell a design effect (Kish 1965:
//! 1 + sum of pairs x correlation / seeds). A cell's own variance between growers counts with its degrees of
//! freedom, the club's with up to [`PRIOR`]. Never below 1. A cell of one grower has the club's. Where no
//! cell has two growers, trials stand in for growers; where none has two trials it is 1.

use crate::special::{t_quantile, two_sided_z};
use std::cell::RefCell;
use std::collections::BTreeMap;

/// Degrees of freedom that the club's design effect counts in a cell, at most.
const PRIOR: f64 = 8.0;
/// Least degrees of freedom of the interval: two trials alone would give an interval of no use.
const LEAST: f64 = 4.0;
const CONF: f64 = 0.95;

/// One bag's part in the rate of its cell.
#[derive(Debug, Clone)]
pub struct Tally<'a> {
    pub grower: &'a str,
    pub trial: &'a str,
    /// Seeds of the chosen base, and seeds on paper.
    pub base: f64,
    pub seeds: f64,
    /// Seeds seen rooted by the horizon.
    pub seen: u64,
    /// Seeds rooted by the horizon, open ones by the curve; `None` where the curve does not reach.
    pub rooted: Option<f64>,
    /// The looks before and after the horizon bound `rooted`.
    pub least: f64,
    pub most: f64,
    /// Seeds not known at the horizon, the curve's share of them, and the share of time they were seen.
    pub open: f64,
    pub q: f64,
    pub elapsed: f64,
    pub estimated: bool,
    pub closed_early: bool,
}

impl Tally<'_> {
    /// How many seeds' worth of knowledge of the rate `p` its open seeds lack.
    fn missing(&self, p: f64) -> f64 {
        let pq = p * (1.0 - p);
        let part = if pq > 0.0 { self.q * (1.0 - self.q) / pq } else { 1.0 - self.elapsed };
        self.open * part
    }
}

/// The bags of one kind, variety and source, sorted by trial and bag.
pub struct Cell<'a> {
    pub tallies: Vec<Tally<'a>>,
    pub median_days: Option<f64>,
}

/// Totals of a cell.
pub struct Sums {
    pub base: f64,
    pub rooted: Option<f64>,
    pub least: f64,
    pub most: f64,
}

impl Sums {
    /// Share rooted, 0 to 1.
    pub fn rate(&self) -> Option<f64> {
        self.rooted.map(|rooted| (rooted / self.base).clamp(0.0, 1.0))
    }
}

impl<'a> Cell<'a> {
    pub fn sums(&self) -> Sums {
        let sum = |f: fn(&Tally) -> f64| self.tallies.iter().map(f).sum();
        Sums {
            base: sum(|t| t.base),
            rooted: self.tallies.iter().map(|t| t.rooted).sum(),
            least: sum(|t| t.least),
            most: sum(|t| t.most),
        }
    }

    /// Of each bag, the rooted and all seeds on paper, less what its open seeds leave unknown; 0 of 0
    /// where the curve does not reach.
    pub fn known(&self) -> impl Iterator<Item = (f64, f64)> {
        let seeds: f64 = self.tallies.iter().map(|t| t.seeds).sum();
        let p = self.sums().rooted.map(|rooted| (rooted / seeds).clamp(0.0, 1.0));
        self.tallies.iter().map(move |t| match (p, t.rooted) {
            (Some(p), Some(rooted)) => {
                let part = 1.0 - (t.missing(p) / t.seeds).min(0.95);
                (rooted * part, t.seeds * part)
            }
            _ => (0.0, 0.0),
        })
    }

    fn trials(&self) -> impl Iterator<Item = &[Tally<'a>]> {
        self.tallies.chunk_by(|a, b| a.trial == b.trial)
    }

    /// Seeds and rooted ones, by how much they share.
    fn shared(&self) -> Shared {
        let mut by_grower: BTreeMap<&str, Group> = BTreeMap::new();
        let (mut bags, mut trials) = (Level::default(), Level::default());
        for trial in self.trials() {
            let mut whole = Group::default();
            for bag in trial {
                let group = Group { rooted: bag.rooted.unwrap_or(0.0), seeds: bag.base };
                bags.add(&group);
                whole.add(&group);
            }
            trials.add(&whole);
            by_grower.entry(trial[0].grower).or_default().add(&whole);
        }
        let (mut growers, mut seeds) = (Level::default(), Group::default());
        for group in by_grower.values() {
            growers.add(group);
            seeds.add(group);
        }
        Shared { bags, trials, growers, seeds }
    }
}

/// Seeds that share something.
#[derive(Debug, Clone, Copy, Default)]
struct Group {
    rooted: f64,
    seeds: f64,
}

impl Group {
    fn add(&mut self, other: &Self) {
        self.rooted += other.rooted;
        self.seeds += other.seeds;
    }
}

/// One level of sharing: its groups, ordered pairs of seeds within them, and pairs of which only the first
/// rooted. Of pairs that do not share the level within, `groups` are degrees of freedom.
#[derive(Debug, Clone, Copy, Default)]
struct Level {
    groups: f64,
    pairs: f64,
    unlike: f64,
}

impl Level {
    fn add(&mut self, group: &Group) {
        self.groups += 1.0;
        self.pairs += group.seeds * group.seeds;
        self.unlike += group.rooted * (group.seeds - group.rooted);
    }

    /// The pairs that share this level but not the one within.
    fn less(&self, within: &Self) -> Self {
        let (pairs, unlike) = (self.pairs - within.pairs, self.unlike - within.unlike);
        Self { groups: within.groups - self.groups, pairs, unlike }
    }
}

struct Shared {
    bags: Level,
    trials: Level,
    growers: Level,
    seeds: Group,
}

impl Shared {
    /// Pairs in one bag, in bags of one trial, in trials of one grower, of different growers.
    fn levels(&self) -> [Level; 4] {
        let in_trial = self.trials.less(&self.bags);
        let in_grower = self.growers.less(&self.trials);
        [self.in_bag(), in_trial, in_grower, self.all().less(&self.growers)]
    }

    /// Pairs in one bag and in different trials.
    fn in_bag_and_apart(&self) -> [Level; 2] {
        [self.in_bag(), self.all().less(&self.trials)]
    }

    fn in_bag(&self) -> Level {
        self.bags.less(&Level { groups: self.seeds.seeds, pairs: self.seeds.seeds, unlike: 0.0 })
    }

    fn all(&self) -> Level {
        let mut all = Level::default();
        all.add(&self.seeds);
        all
    }
}

/// Places in [`Shared::levels`].
const IN_BAG: usize = 0;
const IN_TRIAL: usize = 1;
const IN_GROWER: usize = 2;
const APART: usize = 3;

/// The share by which pairs of one level differ less often than those of the level `base`, and the degrees
/// of freedom of the latter; `None` where no cell has both or none differ.
fn alike<const N: usize>(cells: &[[Level; N]], level: usize, base: usize) -> Option<(f64, f64)> {
    let (mut less, mut all, mut df) = (0.0, 0.0, 0.0);
    for cell in cells.iter().filter(|l| l[base].pairs > 0.0 && l[level].pairs > 0.0) {
        let weight = cell[level].groups.min(cell[base].groups);
        let apart = cell[base].unlike / cell[base].pairs;
        less += weight * (apart - cell[level].unlike / cell[level].pairs);
        all += weight * apart;
        df += cell[base].groups;
    }
    (all > 0.0).then(|| ((less / all).clamp(0.0, 1.0), df))
}

/// The club's correlations of seeds in one bag, in two bags of a trial, in two trials of a grower.
pub struct Spread {
    alike: [f64; 3],
    /// Growers are told apart; otherwise trials stand alone.
    growers: bool,
    df: f64,
    /// Student's quantiles by (whole) degrees of freedom: few differ, and each is slow to find.
    quantiles: RefCell<BTreeMap<u64, f64>>,
}

/// The 95 % interval of a rate and the design effect behind it.
pub struct Interval {
    pub low: f64,
    pub high: f64,
    pub design_effect: f64,
    pub independent: f64,
}

/// How much more alike two seeds of one bag are than two seeds of different trials of the same source.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Alike {
    /// Intraclass correlation, 0 to 1.
    pub in_bag: f64,
    /// Trials it rests on, less one for each source; 0 where no source has two.
    pub df: f64,
}

impl Alike {
    /// From all cells with two trials or more.
    pub fn of_club<'c, 'a: 'c>(cells: impl Iterator<Item = &'c Cell<'a>>) -> Self {
        let cells = cells.filter(|c| c.sums().rooted.is_some());
        let levels: Vec<[Level; 2]> = cells.map(|c| c.shared().in_bag_and_apart()).collect();
        let (in_bag, df) = alike(&levels, 0, 1).unwrap_or_default();
        Self { in_bag, df }
    }
}

impl Spread {
    /// From all cells with a rate and two growers or more; where there are none, from those with two
    /// trials. Sorted cells give the same sums in the last digit.
    pub fn of_club<'c, 'a: 'c>(cells: impl Iterator<Item = &'c Cell<'a>>) -> Self {
        let cells: Vec<&Cell> = cells.filter(|c| c.sums().rooted.is_some()).collect();
        let mut names: Vec<&str> = cells.iter().flat_map(|c| c.tallies.iter().map(|t| t.grower)).collect();
        names.sort_unstable();
        names.dedup();
        let levels: Vec<[Level; 4]> = cells.iter().map(|c| c.shared().levels()).collect();
        let growers = levels.iter().any(|l| l[APART].pairs > 0.0);
        let base = if growers { APART } else { IN_GROWER };
        // Seeds are no less alike than within growers, where there may be more to learn from.
        let alike = |level: usize| {
            let [apart, within] = [base, IN_GROWER].map(|base| alike(&levels, level, base));
            let ((a, df), (w, more)) = (apart.or(within)?, within.unwrap_or_default());
            let pooled = (a * df + w * more) / (df + more);
            Some((if w > a { pooled } else { a }, df))
        };
        let (in_bag, df) = alike(IN_BAG).unwrap_or_default();
        let in_trial = alike(IN_TRIAL).map_or(in_bag, |a| a.0).min(in_bag);
        let in_grower = alike(IN_GROWER).map_or(in_trial, |a| a.0).min(in_trial);
        let df = if growers { df.min(names.len() as f64 - 1.0) } else { df };
        Self {
            alike: [in_bag, in_trial, if growers { in_grower } else { 0.0 }],
            growers,
            df,
            quantiles: RefCell::default(),
        }
    }

    fn design_effect(&self, cell: &Cell) -> (f64, f64) {
        let shared = cell.shared();
        let levels = shared.levels();
        let base = shared.seeds.seeds;
        let pairs = |(alike, level): (&f64, &Level)| alike * level.pairs;
        let club = 1.0 + self.alike.iter().zip(&levels).map(pairs).sum::<f64>() / base;
        let (own, df) = self.own(cell).unwrap_or((1.0, 0.0));
        // The club's growers come back in other cells, trials do not.
        let prior = PRIOR.min(if self.growers { self.df } else { self.df - df });
        let mixed = if df + prior > 0.0 { (df * own + prior * club) / (df + prior) } else { club };
        (mixed.max(1.0), df + prior)
    }

    /// The cell's own variance between growers (or trials) beside the binomial one.
    fn own(&self, cell: &Cell) -> Option<(f64, f64)> {
        let p = cell.sums().rate().filter(|p| *p > 0.0 && *p < 1.0)?;
        let mut groups: BTreeMap<&str, f64> = BTreeMap::new();
        for t in &cell.tallies {
            let key = if self.growers { t.grower } else { t.trial };
            *groups.entry(key).or_default() += t.rooted.unwrap_or(0.0) - t.base * p;
        }
        let n = groups.len() as f64;
        let squares: f64 = groups.values().map(|r| r * r).sum();
        (n > 1.0).then(|| (n / (n - 1.0) * squares / (cell.sums().base * p * (1.0 - p)), n - 1.0))
    }

    fn quantile(&self, df: f64) -> f64 {
        if df <= 0.0 {
            return two_sided_z(CONF);
        }
        let df = df.max(LEAST).round();
        let find = || t_quantile(f64::midpoint(1.0, CONF), df);
        *self.quantiles.borrow_mut().entry(df as u64).or_insert_with(find)
    }

    /// The score interval of a proportion (Wilson 1927) on seeds / design effect, less what open
    /// seeds leave unknown (Louis 1982), at least 1 seed; widened to the looks that bound the rate.
    pub fn interval(&self, cell: &Cell) -> Interval {
        let sums = cell.sums();
        let (design_effect, df) = self.design_effect(cell);
        let p = sums.rate().unwrap_or_else(|| (sums.least + sums.most) / (2.0 * sums.base));
        let n = ((sums.base - missing(cell, p)) / design_effect).max(1.0);
        let z = self.quantile(df);
        let (least, most) = (sums.least / sums.base, sums.most / sums.base);
        let (low, high) = if sums.rooted.is_some() { wilson(p, n, z) } else { (1.0, 0.0) };
        let open = sums.rooted.is_none();
        Interval {
            low: low.min(if open { wilson(least, n, z).0 } else { least }).max(0.0),
            high: high.max(if open { wilson(most, n, z).1 } else { most }).min(1.0),
            design_effect,
            independent: n,
        }
    }
}

/// How many seeds' worth of knowledge the open seeds lack, below 95 % of all.
fn missing(cell: &Cell, p: f64) -> f64 {
    let sum: f64 = cell.tallies.iter().map(|t| t.missing(p)).sum();
    sum.min(0.95 * cell.sums().base)
}

fn wilson(p: f64, n: f64, z: f64) -> (f64, f64) {
    let z2 = z * z;
    let half = z * (p * (1.0 - p) / n + z2 / (4.0 * n * n)).sqrt();
    let (mid, whole) = (p + z2 / (2.0 * n), 1.0 + z2 / n);
    let low = if p <= 0.0 { 0.0 } else { (mid - half) / whole };
    let high = if p >= 1.0 { 1.0 } else { (mid + half) / whole };
    (low.clamp(0.0, 1.0), high.clamp(0.0, 1.0))
}
