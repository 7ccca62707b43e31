//! How unlike each other bags and trials are, and the interval that allows for it.
//!
//! Two intraclass correlations, of seeds in one bag and of bags in one trial, are estimated over the
//! whole club by moments of the ratio estimator's residuals. They give each cell a design effect
//! (Kish 1965: 1 + sum of pairs x correlation / seeds). A cell's own between-trial variance counts
//! with its degrees of freedom, the club's with up to [`PRIOR`]. Never below 1. A cell of one trial
//! has the club's; where no cell has two trials it is 1.

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

    /// Sums of squared residuals and of their binomial scale; `None` for one trial or no variance.
    fn moments(&self) -> Option<Moments> {
        let trials = self.trials().count() as f64;
        let p = self.sums().rate().filter(|p| *p > 0.0 && *p < 1.0)?;
        if trials < 2.0 {
            return None;
        }
        let mut m = Moments { df: trials - 1.0, ..Moments::default() };
        let (scale, pq) = (trials / (trials - 1.0), p * (1.0 - p));
        for trial in self.trials() {
            let residual = |t: &Tally| t.rooted.unwrap_or(0.0) - t.base * p;
            let square: f64 = trial.iter().map(|t| residual(t).powi(2)).sum();
            let whole = trial.iter().map(residual).sum::<f64>().powi(2);
            let seeds: f64 = trial.iter().map(|t| t.base).sum();
            let pairs = Pairs::of(trial);
            m.bags += scale * square - seeds * pq;
            m.bag_pairs += pairs.in_bags * pq;
            m.trials += scale * (whole - square);
            m.trial_pairs += pairs.across_bags * pq;
            m.own += scale * whole;
            m.binomial += seeds * pq;
        }
        Some(m)
    }
}

/// Ordered pairs of seeds that share a bag, and that share a trial only.
#[derive(Default)]
struct Pairs {
    in_bags: f64,
    across_bags: f64,
}

impl Pairs {
    fn of(trial: &[Tally]) -> Self {
        let seeds: f64 = trial.iter().map(|t| t.base).sum();
        let squares: f64 = trial.iter().map(|t| t.base * t.base).sum();
        Self { in_bags: squares - seeds, across_bags: seeds * seeds - squares }
    }
}

#[derive(Default)]
struct Moments {
    df: f64,
    bags: f64,
    bag_pairs: f64,
    trials: f64,
    trial_pairs: f64,
    own: f64,
    binomial: f64,
}

/// The club's correlations of seeds in one bag and of seeds in two bags of one trial.
pub struct Spread {
    in_bag: f64,
    in_trial: f64,
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

impl Spread {
    /// From all cells with two trials or more. Sorted cells give the same sums in the last digit.
    pub fn of_club<'c, 'a: 'c>(cells: impl Iterator<Item = &'c Cell<'a>>) -> Self {
        let mut all = Moments::default();
        for m in cells.filter_map(Cell::moments) {
            all.df += m.df;
            all.bags += m.bags;
            all.bag_pairs += m.bag_pairs;
            all.trials += m.trials;
            all.trial_pairs += m.trial_pairs;
        }
        let ratio = |a: f64, b: f64| if b > 0.0 { (a / b).clamp(0.0, 1.0) } else { 0.0 };
        let in_bag = ratio(all.bags, all.bag_pairs);
        let in_trial = if all.trial_pairs > 0.0 { ratio(all.trials, all.trial_pairs) } else { in_bag };
        Self { in_bag, in_trial: in_trial.min(in_bag), df: all.df, quantiles: RefCell::default() }
    }

    pub fn alike(&self) -> Alike {
        Alike { in_bag: self.in_bag, df: self.df }
    }

    fn design_effect(&self, cell: &Cell) -> (f64, f64) {
        let pairs = cell.trials().map(Pairs::of).fold(Pairs::default(), |sum, p| Pairs {
            in_bags: sum.in_bags + p.in_bags,
            across_bags: sum.across_bags + p.across_bags,
        });
        let base = cell.sums().base;
        let club = 1.0 + (self.in_bag * pairs.in_bags + self.in_trial * pairs.across_bags) / base;
        let (own, df) = cell.moments().map_or((1.0, 0.0), |m| (m.own / m.binomial, m.df));
        let prior = PRIOR.min(self.df - df);
        let mixed = if df + prior > 0.0 { (df * own + prior * club) / (df + prior) } else { club };
        (mixed.max(1.0), df + prior)
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
