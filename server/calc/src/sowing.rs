//! How many seeds to sow for so many plants at a given certainty; 0 plants is read as 1.

use crate::tails::{AtLeast, binomial_at_least, ln_beta_binomial};

/// Most seeds tried with a rate estimated from a test.
pub const CAP_ESTIMATED: u64 = 100_000;
/// Most seeds tried with two estimated stages.
pub const CAP_TWO_STAGES: u64 = 3_000;
/// Most seeds tried with a known rate.
pub const CAP_KNOWN: u64 = 1_000_000_000;

/// Guards exact ties, such as a probability of exactly 0.5 asked for at 0.5.
const SLACK: f64 = 1e-12;

/// The answer to "how many seeds".
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sowing {
    /// The least number of seeds; `None` where none up to the cap is enough.
    pub seeds: Option<u64>,
    /// The probability of enough plants with that many seeds; without a number, at the cap.
    pub probability: f64,
    /// The same with one seed fewer, below the certainty asked for.
    pub one_fewer: f64,
}

/// A test result that stands for a rate: `x` of `n`, read as Jeffreys' posterior Beta(x+1/2, n-x+1/2).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Tested {
    /// Germinated.
    pub x: u64,
    /// Tested; `n` = 0 stands for knowing nothing.
    pub n: u64,
}

impl Tested {
    fn shapes(self) -> (f64, f64) {
        (self.x as f64 + 0.5, self.n.saturating_sub(self.x) as f64 + 0.5)
    }
}

/// Seeds for at least `plants` with a known rate `p` in [0, 1] and certainty `conf` in (0, 1).
pub fn known_rate(plants: u64, p: f64, conf: f64) -> Sowing {
    let plants = plants.max(1);
    least(plants, CAP_KNOWN, conf, |n| binomial_at_least(plants, n, p))
}

/// Seeds for at least `plants` with a rate from a test: the beta-binomial predictive probability.
/// None for more than 10^5 plants.
pub fn estimated_rate(plants: u64, test: Tested, conf: f64) -> Sowing {
    let plants = plants.max(1);
    let (a, b) = test.shapes();
    let mut fewer = 0.0;
    for (n, probability) in (plants..=CAP_ESTIMATED).zip(AtLeast::new(plants, a, b)) {
        let enough = probability >= conf - SLACK;
        if enough || n == CAP_ESTIMATED {
            return Sowing { seeds: enough.then_some(n), probability, one_fewer: fewer };
        }
        fewer = probability;
    }
    Sowing { seeds: None, probability: 0.0, one_fewer: 0.0 }
}

/// Seeds for at least `plants` when a seed must pass two stages (root, then grow on), each rate from its
/// own test and the same for all seeds.
pub fn two_stages(plants: u64, first: Tested, second: Tested, conf: f64) -> Sowing {
    let plants = plants.max(1);
    let ((a1, b1), (a2, b2)) = (first.shapes(), second.shapes());
    let passing: Vec<f64> =
        (plants..=CAP_TWO_STAGES).zip(AtLeast::new(plants, a2, b2)).map(|(_, p)| p).collect();
    least(plants, CAP_TWO_STAGES, conf, |n| {
        let through = (plants..=n).zip(&passing);
        through.map(|(g, pass)| ln_beta_binomial(g, n, a1, b1).exp() * pass).sum::<f64>().min(1.0)
    })
}

/// The least n in `from`..=`cap` where `probability`, rising with n, reaches `conf`.
fn least(from: u64, cap: u64, conf: f64, probability: impl Fn(u64) -> f64) -> Sowing {
    let enough = |n: u64| n >= from && probability(n) >= conf - SLACK;
    let at = |n: u64| if n < from { 0.0 } else { probability(n) };
    let (mut low, mut high) = (from.saturating_sub(1), from.clamp(1, cap));
    while high < cap && !enough(high) {
        (low, high) = (high, high.saturating_mul(2).min(cap));
    }
    if !enough(high) {
        return Sowing { seeds: None, probability: at(cap), one_fewer: at(cap - 1) };
    }
    while high - low > 1 {
        let middle = low + (high - low) / 2;
        if enough(middle) { high = middle } else { low = middle }
    }
    Sowing { seeds: Some(high), probability: at(high), one_fewer: at(high - 1) }
}
