//! How many seeds a ring trial takes, what fewer of them can show, and its differences in plants.

use crate::mixed::expit;
use crate::power::{Question, design_effect};
use crate::replicates::likeness;
use crate::special::normal_quantile;

/// Two-sided level shared by all pairs of lots (Bonferroni).
const ALPHA: f64 = 0.05;
/// Rates are kept this far from 0 and 1.
const EDGE: f64 = 0.005;

/// What a ring trial is to find.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Aim {
    /// The rate about which the lots lie, 0 to 1.
    pub rate: f64,
    /// The difference worth finding, above 0 and below 0.95, as a share of the seeds.
    pub difference: f64,
    /// Probability of finding it, above 0.05 and below 1.
    pub certainty: f64,
    /// Lots, 2 or more; every pair of them is compared.
    pub lots: u64,
    /// Seeds of one bag, 1 or more.
    pub bag: u64,
    /// Intraclass correlation of seeds in one bag, 0 to 1.
    pub rho: f64,
    /// Average efficiency factor of the design, above 0 and at most 1.
    pub efficiency: f64,
}

impl Aim {
    fn question(&self) -> Question {
        let low = (self.rate - self.difference / 2.0).clamp(EDGE, 1.0 - EDGE - self.difference);
        let pairs = (self.lots * (self.lots - 1) / 2).max(1) as f64;
        Question { p1: low + self.difference, p2: low, alpha: ALPHA / pairs, power: self.certainty }
    }

    /// Seeds that count for as much as one independent seed of complete blocks.
    #[must_use]
    pub fn cost(&self) -> f64 {
        design_effect(self.bag as f64, self.rho) / self.efficiency
    }

    /// Seeds of each lot over all growers (Fleiss, Tytun and Ury 1980, times [`Aim::cost`]).
    #[must_use]
    pub fn seeds(&self) -> f64 {
        self.question().corrected() * self.cost()
    }

    /// How probably `seeds` of each lot, above 0, find the difference; 0.05 or less is said as 0.05, and at
    /// most 0.999.
    #[must_use]
    pub fn certainty_of(&self, seeds: f64) -> f64 {
        let enough = |certainty: f64| Self { certainty, ..*self }.seeds() <= seeds;
        bisected(0.05, 0.999, enough)
    }

    /// The least difference that `seeds` of each lot, above 0, find with the same certainty; at most 0.94.
    #[must_use]
    pub fn difference_of(&self, seeds: f64) -> f64 {
        let too_few = |difference: f64| Self { difference, ..*self }.seeds() > seeds;
        bisected(0.005, 0.94, too_few)
    }
}

/// The highest number between `low` and `high` for which `holds`, which fails from some point on.
fn bisected(mut low: f64, mut high: f64, holds: impl Fn(f64) -> bool) -> f64 {
    for _ in 0..50 {
        let middle = f64::midpoint(low, high);
        if holds(middle) { low = middle } else { high = middle }
    }
    f64::midpoint(low, high)
}

/// How alike the seeds of one bag are beyond their lot, grower and routine.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Alike {
    /// Intraclass correlation, 0 to 0.9.
    pub rho: f64,
    /// Degrees of freedom behind it: bags less groups.
    pub df: u64,
}

/// From groups of like bags as (rooted, seeds), rooted <= seeds, seeds >= 1: Pearson's indexes of dispersion
/// added up, each bag taken as of the mean size. `None` where no group tells anything.
#[must_use]
pub fn alike(groups: &[Vec<(u64, u64)>]) -> Option<Alike> {
    let (mut chi2, mut df, mut seeds, mut bags) = (0.0, 0, 0, 0);
    for group in groups {
        let Some(likeness) = likeness(group) else { continue };
        let Ok(test) = likeness.test else { continue };
        chi2 += test.chi2;
        df += likeness.df;
        seeds += group.iter().map(|b| b.1).sum::<u64>();
        bags += group.len() as u64;
    }
    let mean = seeds as f64 / bags as f64;
    let inflated = chi2 / df as f64;
    (df > 0 && mean > 1.0).then(|| Alike { rho: ((inflated - 1.0) / (mean - 1.0)).clamp(0.0, 0.9), df })
}

/// Seeds of each lot, over proportionally more growers, that would show a difference: those counted times the
/// square of the standard error they gave over the one that is needed. `error` of the log odds ratio above 0;
/// `difference` as a share in (0, 0.95), about the middle `rate`; `certainty` in (0.05, 1); `pairs` 1 or more.
#[must_use]
pub fn seeds_to_show(
    (seeds, error): (f64, f64),
    (difference, rate): (f64, f64),
    certainty: f64,
    pairs: f64,
) -> f64 {
    let low = (rate - difference / 2.0).clamp(EDGE, 1.0 - EDGE - difference);
    let logit = |p: f64| (p / (1.0 - p)).ln();
    let size = logit(low + difference) - logit(low);
    let needed = size / (normal_quantile(certainty) - normal_quantile(ALPHA / pairs / 2.0));
    seeds * (error / needed).powi(2)
}

/// A log odds ratio as a difference in plants of 100, about the middle `rate` (kept within 0.005 of 0 and 1).
#[must_use]
pub fn plants_of_100(log_odds_ratio: f64, rate: f64) -> f64 {
    let rate = rate.clamp(EDGE, 1.0 - EDGE);
    let middle = (rate / (1.0 - rate)).ln();
    100.0 * (expit(middle + log_odds_ratio / 2.0) - expit(middle - log_odds_ratio / 2.0))
}
