//! Seeds per source to tell two rates apart.

use crate::mixed::averaged;
use crate::special::{ln_gamma, normal_quantile};
use crate::tails::binomial_masses;

/// Largest [`Question::corrected`] up to which the least n of Fisher's test is looked for.
pub const MAX_SCANNED: f64 = 2_000.0;
/// Largest group for which the power of Fisher's test is computed at all.
pub const MAX_EXACT: u64 = 50_000;

/// What is asked: two different rates in [0, 1], `alpha` two-sided and `power` in (0, 1), `power` > `alpha`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Question {
    /// First rate.
    pub p1: f64,
    /// Second rate.
    pub p2: f64,
    /// Two-sided level of the test.
    pub alpha: f64,
    /// Probability of seeing the difference.
    pub power: f64,
}

/// Trials of so many seeds, for each source.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Trials {
    /// Trials of each source.
    pub trials: u64,
    /// Seeds of each source: trials times seeds of one.
    pub seeds: u64,
}

/// More trials than this are no plan.
const MOST_TRIALS: f64 = 1e6;

/// Least n of Fisher's exact test.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Exact {
    /// Smallest n per group whose exact power reaches the target.
    pub first: u64,
    /// The power there.
    pub power_first: f64,
    /// Smallest n from which the power stays at or above the target.
    pub stays: u64,
}

impl Question {
    /// Seeds per group by the normal approximation, without continuity correction; not rounded.
    pub fn normal(&self) -> f64 {
        let middle = f64::midpoint(self.p1, self.p2);
        let spread = |p: f64| p * (1.0 - p);
        let same = -normal_quantile(self.alpha / 2.0) * (2.0 * spread(middle)).sqrt();
        let different = normal_quantile(self.power) * (spread(self.p1) + spread(self.p2)).sqrt();
        ((same + different) / (self.p1 - self.p2)).powi(2)
    }

    /// The same with continuity correction (Fleiss, Tytun and Ury 1980).
    pub fn corrected(&self) -> f64 {
        let n = self.normal();
        n / 4.0 * (1.0 + (1.0 + 4.0 / (n * (self.p1 - self.p2).abs())).sqrt()).powi(2)
    }

    /// Trials of `seeds` seeds each that each source needs where trials differ by `sd_trial` on the logit.
    /// `p1` and `p2` are the rates of a trial of average care, strictly between 0 and 1; each grower
    /// tries both sources, so that growers cancel. `None` where the rates are alike or at an end, a
    /// number is out of its range, or a million trials would not do.
    ///
    /// Hayes and Bennett (1999, Int. J. Epidemiol. 28:319-326; formula from memory): 1 + (z of `alpha` / 2 +
    /// z of `power`)^2 (v1 + v2) / (P1 - P2)^2 with P the mean of a trial's rate and v the variance of
    /// its observed share, P (1 - P) / seeds x (1 + (seeds - 1) rho), the binomial one times the
    /// inflation (Kish 1965) for rho = variance of a trial's rate / (P (1 - P)), see [`design_effect`].
    #[must_use]
    pub fn trials(&self, sd_trial: f64, seeds: u32) -> Option<Trials> {
        let inside = |p: f64| p > 0.0 && p < 1.0;
        let sound = inside(self.p1) && inside(self.p2) && seeds > 0 && sd_trial >= 0.0;
        if !sound || self.p1 == self.p2 {
            return None;
        }
        let bag = f64::from(seeds);
        let share = |p: f64| {
            let (mean, variance) = averaged((p / (1.0 - p)).ln(), sd_trial);
            let binomial = mean * (1.0 - mean);
            (mean, binomial / bag * design_effect(bag, variance / binomial))
        };
        let ((one, spread_one), (two, spread_two)) = (share(self.p1), share(self.p2));
        let z = normal_quantile(self.power) - normal_quantile(self.alpha / 2.0);
        let trials = (1.0 + z * z * (spread_one + spread_two) / (one - two).powi(2)).ceil();
        let trials = Some(trials).filter(|n| *n <= MOST_TRIALS)? as u64;
        Some(Trials { trials, seeds: trials * u64::from(seeds) })
    }

    /// Exact power of Fisher's two-sided test with `n` seeds in each group; `None` above 50,000.
    pub fn fisher_power(&self, n: u64) -> Option<f64> {
        (1..=MAX_EXACT).contains(&n).then(|| self.power_with(n, &ln_factorials(2 * n)))
    }

    fn power_with(&self, n: u64, ln_factorials: &[f64]) -> f64 {
        let critical = Critical { n, alpha: self.alpha, ln_factorials };
        let (one, two) = (binomial_masses(n, self.p1), binomial_masses(n, self.p2));
        (critical.probability(&one, &two) + critical.probability(&two, &one)).min(1.0)
    }

    /// Least n of Fisher's test, by going through every n up to 1.35 times [`Question::corrected`] and 25
    /// (from far below the normal approximation, which this test is never more powerful than by so much);
    /// `None` where that is too much work.
    pub fn exact(&self) -> Option<Exact> {
        if self.corrected() > MAX_SCANNED {
            return None;
        }
        let end = (1.35 * self.corrected()).ceil() as u64 + 25;
        let start = (0.7 * self.normal() - 20.0).max(1.0) as u64;
        let ln_factorials = ln_factorials(2 * end);
        let (mut first, mut stays) = (None, None);
        for n in start..=end {
            let power = self.power_with(n, &ln_factorials);
            if power < self.power {
                stays = None;
            } else {
                first = first.or(Some((n, power)));
                stays = stays.or(Some(n));
            }
        }
        let (first, power_first) = first?;
        Some(Exact { first, power_first, stays: stays? })
    }
}

/// Seeds that count as one when bags of `bag` seeds are alike by `rho` (intraclass correlation, 0 to 1).
pub fn design_effect(bag: f64, rho: f64) -> f64 {
    1.0 + (bag - 1.0) * rho
}

/// For one group size the least `y` > `x` of the other group that Fisher's test tells apart from `x`.
struct Critical<'a> {
    n: u64,
    alpha: f64,
    ln_factorials: &'a [f64],
}

fn ln_factorials(most: u64) -> Vec<f64> {
    (0..=most).map(|k| ln_gamma(k as f64 + 1.0)).collect()
}

impl Critical<'_> {
    fn ln_choose(&self, n: u64, k: u64) -> f64 {
        let f = self.ln_factorials;
        f[n as usize] - f[k as usize] - f[(n - k) as usize]
    }

    /// P(the second group is found higher), over the tables that matter.
    fn probability(&self, lower: &[f64], higher: &[f64]) -> f64 {
        let mut beyond = higher.to_vec();
        for y in (0..self.n as usize).rev() {
            beyond[y] += beyond[y + 1];
        }
        let mut y = 0;
        let mut total = 0.0;
        for x in 0..=self.n {
            let weight = lower[x as usize];
            if weight < 1e-15 {
                continue;
            }
            y = y.max(x + 1);
            while y <= self.n && !self.rejects(x, y) {
                y += 1;
            }
            if y > self.n {
                break;
            }
            total += weight * beyond[y as usize];
        }
        total
    }

    /// With equal groups the distribution given the margin is symmetric, so p is twice one tail.
    fn rejects(&self, x: u64, y: u64) -> bool {
        let marked = x + y;
        let (n, limit) = (self.n, self.alpha * (1.0 + 1e-12));
        let ln_first = self.ln_choose(n, x) + self.ln_choose(n, y) - self.ln_choose(2 * n, marked);
        let mut term = ln_first.exp();
        let mut tail = 0.0;
        let mut at = x;
        while term > tail * 1e-17 {
            tail += term;
            if at == 0 || n + at == marked || 2.0 * tail > limit {
                break;
            }
            let back = at as f64 * (n + at - marked) as f64;
            let ratio = back / ((n - at + 1) as f64 * (marked - at + 1) as f64);
            term *= ratio;
            // Further ratios are smaller still: a geometric series bounds what is to come.
            if ratio < 1.0 && 2.0 * (tail + term / (1.0 - ratio)) <= self.alpha {
                return true;
            }
            at -= 1;
        }
        2.0 * tail <= limit
    }
}
