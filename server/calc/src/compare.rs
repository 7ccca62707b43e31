//! Two proportions: difference, exact tests, odds ratios.

use crate::proportion::{Interval, wilson};
use crate::roots::brent;
use crate::special::two_sided_z;
use crate::tails::{Margins, Masses};

/// Below this share of the greatest probability a table is left out of an exact sum.
const NEGLIGIBLE: f64 = 1e-300;
/// The same where only a tail of the size of 1 - confidence is wanted.
const ROOT_CUTOFF: f64 = 1e-30;

/// `x1` of `n1` seeds against `x2` of `n2`; `x` <= `n`, 1 <= `n` <= 10^9.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Two {
    /// Germinated of the first group.
    pub x1: u64,
    /// Seeds of the first group.
    pub n1: u64,
    /// Germinated of the second group.
    pub x2: u64,
    /// Seeds of the second group.
    pub n2: u64,
}

/// p-values of Fisher's exact test, two-sided.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ExactTest {
    /// All tables at most as probable as the observed one.
    pub fisher: f64,
    /// The same less half the probability of the observed table.
    pub mid_p: f64,
    /// Twice the smaller one-sided mid-P, at most 1.
    pub mid_p_doubled: f64,
}

/// An odds ratio estimated given the margins, with its exact interval; ends may be infinite.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ConditionalOdds {
    /// Conditional maximum likelihood; 0 where the margins leave only one table.
    pub estimate: f64,
    /// Exact interval, by inverting the two one-sided tests.
    pub interval: Interval,
}

impl Two {
    /// The four cells: a, b (first group germinated, not), c, d (second group).
    pub fn cells(&self) -> [f64; 4] {
        [self.x1, self.n1.saturating_sub(self.x1), self.x2, self.n2.saturating_sub(self.x2)]
            .map(|cell| cell as f64)
    }

    /// p1 - p2.
    pub fn difference(&self) -> f64 {
        self.x1 as f64 / self.n1 as f64 - self.x2 as f64 / self.n2 as f64
    }

    /// Newcombe's interval of the difference from two Wilson intervals (1998, method 10).
    pub fn newcombe(&self, conf: f64) -> Interval {
        let (p1, p2) = (self.x1 as f64 / self.n1 as f64, self.x2 as f64 / self.n2 as f64);
        let one = wilson(self.x1 as f64, self.n1 as f64, conf);
        let two = wilson(self.x2 as f64, self.n2 as f64, conf);
        let difference = self.difference();
        Interval {
            low: (difference - (p1 - one.low).hypot(two.high - p2)).max(-1.0),
            high: (difference + (one.high - p1).hypot(p2 - two.low)).min(1.0),
        }
    }

    fn margins(&self) -> Margins {
        Margins { first: self.n1, second: self.n2, marked: self.x1 + self.x2 }
    }

    /// Fisher's exact test and its mid-P variants.
    pub fn exact_test(&self) -> ExactTest {
        let masses = self.margins().masses(1.0, NEGLIGIBLE);
        let observed = masses.at(self.x1);
        let fisher = as_extreme(&masses, observed);
        let one_sided = masses.at_most(self.x1).min(masses.at_least(self.x1));
        ExactTest {
            fisher,
            mid_p: fisher - observed / 2.0,
            mid_p_doubled: (2.0 * (one_sided - observed / 2.0)).min(1.0),
        }
    }

    /// a d / (b c); `None` for 0/0, infinite where only b c is 0.
    pub fn odds_ratio(&self) -> Option<f64> {
        let [a, b, c, d] = self.cells();
        let ratio = (a * d) / (b * c);
        (!ratio.is_nan()).then_some(ratio)
    }

    /// Woolf's interval of the odds ratio, normal on the log scale (1955); `None` with an empty cell.
    pub fn woolf(&self, conf: f64) -> Option<Interval> {
        let cells = self.cells();
        cells.iter().all(|&cell| cell > 0.0).then(|| woolf_of(cells, conf).1)
    }

    /// Odds ratio and Woolf's interval after adding 1/2 to each cell (Haldane, Anscombe).
    pub fn half_added(&self, conf: f64) -> (f64, Interval) {
        woolf_of(self.cells().map(|cell| cell + 0.5), conf)
    }

    /// Conditional maximum likelihood odds ratio and exact interval (as Cornfield 1956), to full precision.
    pub fn conditional_odds(&self, conf: f64) -> ConditionalOdds {
        self.conditional(conf, &full_precision)
    }

    /// The same as R's `fisher.test` prints them: there the odds, or 1 over the odds where above 1, are
    /// found to within 1.2e-4 only, so that a large odds ratio can be off by a percent.
    pub fn conditional_odds_as_in_r(&self, conf: f64) -> ConditionalOdds {
        self.conditional(conf, &as_in_r)
    }

    /// `odds` finds where a function that rises with the odds is 0.
    fn conditional(&self, conf: f64, odds: &dyn Fn(Margins, &Rising) -> f64) -> ConditionalOdds {
        let margins = self.margins();
        let tail = (1.0 - conf) / 2.0;
        let (x, least, most) = (self.x1, margins.low(), margins.high());
        let estimate = if x == least {
            0.0
        } else if x == most {
            f64::INFINITY
        } else {
            odds(margins, &|m: &Masses| m.mean() - x as f64)
        };
        let low = if x == least { 0.0 } else { odds(margins, &|m: &Masses| m.at_least(x) - tail) };
        let high = if x == most { f64::INFINITY } else { odds(margins, &|m: &Masses| tail - m.at_most(x)) };
        ConditionalOdds { estimate, interval: Interval { low, high } }
    }
}

type Rising<'a> = dyn Fn(&Masses) -> f64 + 'a;

/// Sum of the probabilities at most as great as `observed`, with the relative slack of 10^-7 that keeps
/// equally probable tables together.
pub fn as_extreme(masses: &Masses, observed: f64) -> f64 {
    let limit = observed * (1.0 + 1e-7);
    let tail = |p: &mut dyn Iterator<Item = &f64>| p.take_while(|p| **p <= limit).sum::<f64>();
    if masses.p.iter().all(|p| *p <= limit) {
        return 1.0;
    }
    tail(&mut masses.p.iter()) + tail(&mut masses.p.iter().rev())
}

fn woolf_of(cells: [f64; 4], conf: f64) -> (f64, Interval) {
    let [a, b, c, d] = cells;
    let ratio = (a * d) / (b * c);
    let spread = two_sided_z(conf) * cells.iter().map(|cell| 1.0 / cell).sum::<f64>().sqrt();
    (ratio, Interval { low: ratio * (-spread).exp(), high: ratio * spread.exp() })
}

fn full_precision(margins: Margins, f: &Rising) -> f64 {
    brent(|ln_odds| f(&margins.masses(ln_odds.exp(), ROOT_CUTOFF)), -690.0, 690.0, 1e-14).exp()
}

fn as_in_r(margins: Margins, f: &Rising) -> f64 {
    let at = |odds: f64| f(&margins.masses(odds, ROOT_CUTOFF));
    let tolerance = f64::EPSILON.powf(0.25);
    let even = at(1.0);
    if even > 0.0 {
        brent(at, 0.0, 1.0, tolerance)
    } else if even < 0.0 {
        1.0 / brent(|t| at(1.0 / t), f64::EPSILON, 1.0, tolerance)
    } else {
        1.0
    }
}
