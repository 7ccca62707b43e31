//! How many seeds to sow for so many plants at a given certainty; 0 plants is read as 1.

use crate::tails::{AtLeast, binomial_at_least, binomial_masses, ln_beta_binomial};

/// Most seeds tried with a rate estimated from a test.
pub const CAP_ESTIMATED: u64 = 100_000;
/// Most seeds tried with two stages of which one or both are estimated.
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

/// The rate of one stage.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Rate {
    /// Known, in [0, 1].
    Known(f64),
    /// Estimated from a test.
    Tested(Tested),
    /// Spread as a beta distribution with these shapes, both above 0.
    Beta(f64, f64),
}

/// A beta distribution never tells less than one with shapes that sum to this: Jeffreys' before any seed.
const LEAST_KNOWN: f64 = 1.0;

impl Rate {
    /// A rate `mean` in (0, 1) of which the logit has standard deviation `sd`: the beta distribution of that mean
    /// and of variance (mean (1 - mean) sd)^2 (delta method; moments as in Johnson, Kotz & Balakrishnan 1995,
    /// Continuous Univariate Distributions 2, ch. 25: a + b = mean (1 - mean) / variance - 1).
    #[must_use]
    pub fn spread(mean: f64, sd: f64) -> Self {
        let tells = (1.0 / (mean * (1.0 - mean) * sd * sd) - 1.0).max(LEAST_KNOWN);
        if tells.is_finite() { Self::Beta(mean * tells, (1.0 - mean) * tells) } else { Self::Known(mean) }
    }

    /// The shapes of the beta distribution; `None` of a known rate.
    fn shapes(self) -> Option<(f64, f64)> {
        match self {
            Self::Known(_) => None,
            Self::Tested(test) => Some(test.shapes()),
            Self::Beta(a, b) => Some((a, b)),
        }
    }

    /// The rate itself, or the mean of its distribution: of a test (x + 1/2) / (n + 1).
    #[must_use]
    pub fn mean(self) -> f64 {
        match (self, self.shapes()) {
            (Self::Known(p), _) => p,
            (_, shapes) => shapes.map_or(0.0, |(a, b)| a / (a + b)),
        }
    }

    /// P(exactly g of n pass) for g = `from`..=n.
    fn masses(self, from: u64, n: u64) -> Vec<f64> {
        match (self, self.shapes()) {
            (Self::Known(p), _) => binomial_masses(n, p).split_off(from as usize),
            (_, shapes) => {
                let (a, b) = shapes.unwrap_or((1.0, 1.0));
                (from..=n).map(|g| ln_beta_binomial(g, n, a, b).exp()).collect()
            }
        }
    }

    /// P(at least `plants` of g pass) for g = `plants`..=[`CAP_TWO_STAGES`].
    fn passing(self, plants: u64) -> Vec<f64> {
        let span = plants..=CAP_TWO_STAGES;
        match (self, self.shapes()) {
            (Self::Known(p), _) => span.map(|g| binomial_at_least(plants, g, p)).collect(),
            (_, shapes) => {
                let (a, b) = shapes.unwrap_or((1.0, 1.0));
                span.zip(AtLeast::new(plants, a, b)).map(|(_, p)| p).collect()
            }
        }
    }
}

/// What a seed must pass to become a plant: one stage or two, each with its own rate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stages {
    /// Seeds that root.
    pub first: Rate,
    /// Rooted seeds that become plants; `None` where rooted seeds are what is wanted.
    pub second: Option<Rate>,
}

impl Stages {
    /// Most seeds tried.
    #[must_use]
    pub fn cap(self) -> u64 {
        match (self.first, self.second) {
            (Rate::Known(_), None | Some(Rate::Known(_))) => CAP_KNOWN,
            (_, None) => CAP_ESTIMATED,
            _ => CAP_TWO_STAGES,
        }
    }

    /// Expected plants of one seed, 0 to 1.
    #[must_use]
    pub fn mean(self) -> f64 {
        self.first.mean() * self.second.map_or(1.0, Rate::mean)
    }

    /// Seeds for at least `plants` with certainty `conf` in (0, 1).
    #[must_use]
    pub fn seeds(self, plants: u64, conf: f64) -> Sowing {
        match (self.first, self.second) {
            (Rate::Known(p), None) => known_rate(plants, p, conf),
            (Rate::Known(p), Some(Rate::Known(q))) => known_rate(plants, p * q, conf),
            (Rate::Tested(test), None) => estimated_rate(plants, test, conf),
            (Rate::Beta(a, b), None) => beta_rate(plants, (a, b), conf),
            (first, Some(second)) => staged(plants.max(1), first, second, conf),
        }
    }

    /// P(at least `plants` from `seeds`); `None` for more seeds than [`Stages::cap`].
    #[must_use]
    pub fn probability(self, plants: u64, seeds: u64) -> Option<f64> {
        let plants = plants.max(1);
        if seeds > self.cap() {
            return None;
        }
        if seeds < plants {
            return Some(0.0);
        }
        Some(match (self.first, self.second) {
            (Rate::Known(p), None) => binomial_at_least(plants, seeds, p),
            (Rate::Known(p), Some(Rate::Known(q))) => binomial_at_least(plants, seeds, p * q),
            (first, None) => {
                let (a, b) = first.shapes()?;
                AtLeast::new(plants, a, b).nth((seeds - plants) as usize)?
            }
            (first, Some(second)) => through(first, &second.passing(plants), plants, seeds),
        })
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
    beta_rate(plants, test.shapes(), conf)
}

fn beta_rate(plants: u64, (a, b): (f64, f64), conf: f64) -> Sowing {
    let plants = plants.max(1);
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
/// own test and the same for all seeds: P = sum over g of P(g of n root) P(at least `plants` of g grow on), both
/// beta-binomial, since plants given both rates are binomial with n and their product.
pub fn two_stages(plants: u64, first: Tested, second: Tested, conf: f64) -> Sowing {
    staged(plants.max(1), Rate::Tested(first), Rate::Tested(second), conf)
}

fn staged(plants: u64, first: Rate, second: Rate, conf: f64) -> Sowing {
    let passing = second.passing(plants);
    least(plants, CAP_TWO_STAGES, conf, |n| through(first, &passing, plants, n))
}

/// P(at least `plants` pass both stages) from `n` seeds, over how many may pass the first.
fn through(first: Rate, passing: &[f64], plants: u64, n: u64) -> f64 {
    first.masses(plants, n).iter().zip(passing).map(|(mass, pass)| mass * pass).sum::<f64>().min(1.0)
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

#[cfg(test)]
mod tests {
    use super::*;

    /// A known rate with an estimated one: scipy 1.17.1, sums of `binom.pmf` x `betabinom.sf` and of
    /// `betabinom.pmf` x `binom.sf`; both estimated: `tests/reference/oracles/m7_sowing.json`.
    #[test]
    fn known_and_tested_stages_mix() {
        let (rooting, growing) = (Tested { x: 42, n: 50 }, Tested { x: 27, n: 30 });
        let cases = [
            (Rate::Known(0.84), Rate::Tested(growing), 20, 0.9346342851652848, 0.8932830934214473),
            (Rate::Tested(rooting), Rate::Known(0.9), 19, 0.9015150538082759, 0.840476062913484),
            (Rate::Tested(rooting), Rate::Tested(growing), 20, 0.9114412308978603, 0.8655240869076051),
            (Rate::Known(0.84), Rate::Known(0.9), 19, 0.9315236901063249, 0.8744093588370322),
        ];
        for (first, second, seeds, probability, fewer) in cases {
            let stages = Stages { first, second: Some(second) };
            let got = stages.seeds(12, 0.9);
            assert_eq!(got.seeds, Some(seeds), "{stages:?}");
            assert!((got.probability - probability).abs() < 1e-9 && (got.one_fewer - fewer).abs() < 1e-9);
            assert_eq!(stages.probability(12, seeds), Some(got.probability));
            assert_eq!(stages.probability(12, 11), Some(0.0));
            assert_eq!(stages.probability(12, stages.cap() + 1), None);
        }
        let alone = Stages { first: Rate::Tested(Tested { x: 16, n: 20 }), second: None };
        assert!((alone.probability(10, 13).unwrap() - 0.68230720905982).abs() < 1e-9);
    }

    fn rate(of: &serde_json::Value) -> Rate {
        let shapes: Vec<f64> = of.as_array().unwrap().iter().map(|x| x.as_f64().unwrap()).collect();
        if let [p] = shapes[..] { Rate::Known(p) } else { Rate::Beta(shapes[0], shapes[1]) }
    }

    /// tests/reference/plan/two_stages.json: exact sums of fractions (Python 3.11.7), by the script
    /// tests/reference/scripts/plan_two_stages.py. Its first case is one of m7_sowing.json (scipy 1.17.1) as well.
    #[test]
    fn rates_spread_as_beta_distributions_pass_two_stages() {
        let text = include_str!("../../../tests/reference/plan/two_stages.json");
        let file: serde_json::Value = serde_json::from_str(text).unwrap();
        let cases = file["cases"].as_array().unwrap();
        assert_eq!(cases.len(), 5);
        for case in cases {
            let stages = Stages { first: rate(&case["first"]), second: Some(rate(&case["second"])) };
            let (plants, conf) = (case["plants"].as_u64().unwrap(), case["conf"].as_f64().unwrap());
            let got = stages.seeds(plants, conf);
            assert_eq!(got.seeds, case["seeds"].as_u64(), "{case}");
            assert!((got.probability - case["probability"].as_f64().unwrap()).abs() < 1e-10, "{case}");
            assert!((got.one_fewer - case["one_fewer"].as_f64().unwrap()).abs() < 1e-10, "{case}");
        }
    }

    /// Mean and variance of a beta distribution: a / (a + b) and a b / ((a + b)^2 (a + b + 1)).
    #[test]
    fn a_spread_rate_keeps_its_mean_and_variance() {
        let Rate::Beta(a, b) = Rate::spread(0.8, 0.5) else { panic!("a spread rate is a distribution") };
        let n = a + b;
        assert!((a / n - 0.8).abs() < 1e-12);
        assert!((a * b / (n * n * (n + 1.0)) - (0.8_f64 * 0.2 * 0.5).powi(2)).abs() < 1e-12);
        assert_eq!(Rate::spread(0.8, 0.0), Rate::Known(0.8));
        assert_eq!(Rate::spread(0.5, 99.0), Rate::Beta(0.5, 0.5));
        let alone = Stages { first: Rate::Beta(16.5, 4.5), second: None };
        let tested = Stages { first: Rate::Tested(Tested { x: 16, n: 20 }), second: None };
        assert_eq!(alone.seeds(10, 0.9), tested.seeds(10, 0.9));
    }

    #[test]
    fn sure_and_hopeless_stages_do_not_break() {
        let sure = Stages { first: Rate::Known(1.0), second: Some(Rate::Tested(Tested { x: 5, n: 5 })) };
        assert!(sure.seeds(3, 0.9).seeds.is_some());
        let hopeless = Stages { first: Rate::Known(0.0), second: Some(Rate::Tested(Tested { x: 5, n: 5 })) };
        assert_eq!(hopeless.seeds(3, 0.9).seeds, None);
    }
}
