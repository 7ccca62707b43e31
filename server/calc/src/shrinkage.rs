//! Many small rates that come from one club: the beta-binomial distribution by maximum likelihood,
//! and each source's rate drawn towards the club's (empirical Bayes).
//!
//! The distribution is written in its mean and theta = 1 / (alpha + beta) as sums over seeds
//! (Griffiths 1973, Biometrics 29:637-648), which stay exact where theta goes to 0.

mod terms;

use crate::mixed::expit;
use crate::tails::ln_choose;
use terms::{Term, terms};

/// Most seeds of one row that are taken.
pub const MOST_SEEDS: u64 = 1_000_000;

/// What a set of counts says about its spread.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Status {
    /// Inside: mean and spread are estimated.
    Ok,
    /// Every row is all or none, both occur: the likelihood is highest for a prior on the two ends.
    AllOrNothing,
    /// The rows differ no more than by chance: the likelihood is highest without spread.
    NoSpread,
    /// All rooted or none, everywhere.
    NoVariation,
    /// Fewer than two rows with seeds, or one seed each.
    NotEstimable,
}

/// A fitted beta-binomial distribution.
#[derive(Debug, Clone, Copy)]
pub struct BetaBinomial {
    /// Whether `theta` is inside.
    pub status: Status,
    /// Mean share; NaN without seeds.
    pub mean: f64,
    /// 1 / (alpha + beta); 0 without spread, infinite for all or nothing, NaN where not estimable.
    pub theta: f64,
    /// Log-likelihood with binomial coefficients.
    pub loglik: f64,
    /// Standard error of the logit of the mean from the joint observed information; NaN where none.
    pub error: f64,
}

impl BetaBinomial {
    /// Intraclass correlation 1 / (alpha + beta + 1).
    #[must_use]
    pub fn rho(&self) -> f64 {
        if self.theta.is_infinite() { 1.0 } else { self.theta / (1.0 + self.theta) }
    }

    /// Shape parameters alpha and beta.
    #[must_use]
    pub fn shapes(&self) -> (f64, f64) {
        (self.mean / self.theta, (1.0 - self.mean) / self.theta)
    }
}

/// Fits the distribution to rows of (rooted, seeds); rows without seeds say nothing, the
/// order of the others does not matter.
#[must_use]
pub fn beta_binomial(rows: &[(u64, u64)]) -> BetaBinomial {
    let mut rows: Vec<(u64, u64)> = rows.iter().copied().filter(|r| r.1 > 0).collect();
    rows.sort_unstable();
    let (x, n) = rows.iter().fold((0, 0), |sum, r| (sum.0 + r.0, sum.1 + r.1));
    let pooled = x as f64 / n as f64;
    let constant: f64 = rows.iter().map(|(x, n)| ln_choose(*n, *x)).sum();
    let sums = Sums::of(&rows);
    let plain = BetaBinomial {
        status: Status::NoSpread,
        mean: pooled,
        theta: 0.0,
        loglik: constant + sums.loglik(pooled, 0.0),
        error: if x == 0 || x == n { f64::NAN } else { 1.0 / (n as f64 * pooled * (1.0 - pooled)).sqrt() },
    };
    if n == 0 || rows.len() < 2 || rows.iter().all(|r| r.1 == 1) {
        return BetaBinomial { status: Status::NotEstimable, theta: f64::NAN, ..plain };
    }
    if x == 0 || x == n {
        return BetaBinomial { status: Status::NoVariation, theta: f64::NAN, ..plain };
    }
    if rows.iter().all(|(x, n)| *x == 0 || x == n) {
        return ends(&rows);
    }
    let best = sums.climb(pooled);
    if best.2 <= plain.loglik - constant + 1e-9 {
        return plain;
    }
    BetaBinomial {
        status: Status::Ok,
        mean: expit(best.0),
        theta: best.1.exp(),
        loglik: constant + best.2,
        error: sums.error(best.0, best.1),
    }
}

/// Rows of all or none: the two ends, each with its share of the rows.
fn ends(rows: &[(u64, u64)]) -> BetaBinomial {
    let whole = rows.iter().filter(|r| r.0 > 0).count() as f64;
    let none = rows.len() as f64 - whole;
    let mean = whole / rows.len() as f64;
    BetaBinomial {
        status: Status::AllOrNothing,
        mean,
        theta: f64::INFINITY,
        loglik: whole * mean.ln() + none * (1.0 - mean).ln(),
        error: 1.0 / (rows.len() as f64 * mean * (1.0 - mean)).sqrt(),
    }
}

/// How many rows have more than j rooted, not rooted, and seeds, for j = 0, 1, 2 ...
struct Sums {
    rooted: Vec<Term>,
    rest: Vec<Term>,
    seeds: Vec<Term>,
}

/// First and second derivatives in (logit mean, ln theta).
struct Slopes {
    a: f64,
    t: f64,
    aa: f64,
    at: f64,
    tt: f64,
}

impl Sums {
    fn of(rows: &[(u64, u64)]) -> Self {
        let tails = |value: fn(&(u64, u64)) -> u64| terms(rows.iter().map(value).collect());
        Self { rooted: tails(|r| r.0), rest: tails(|r| r.1 - r.0), seeds: tails(|r| r.1) }
    }

    fn loglik(&self, mean: f64, theta: f64) -> f64 {
        let sum = |of: &[Term], base: f64| -> f64 {
            of.iter().map(|Term { j, c }| c * (base + j * theta).ln()).sum()
        };
        sum(&self.rooted, mean) + sum(&self.rest, 1.0 - mean) - sum(&self.seeds, 1.0)
    }

    fn slopes(&self, a: f64, t: f64) -> Slopes {
        let (mean, theta) = (expit(a), t.exp());
        let powers = |of: &[Term], base: f64| {
            of.iter().fold([0.0; 5], |s, Term { j, c }| {
                let v = 1.0 / (base + j * theta);
                [
                    s[0] + c * v,
                    s[1] + c * j * v,
                    s[2] + c * v * v,
                    s[3] + c * j * v * v,
                    s[4] + c * j * j * v * v,
                ]
            })
        };
        let (x, y, n) =
            (powers(&self.rooted, mean), powers(&self.rest, 1.0 - mean), powers(&self.seeds, 1.0));
        let (dm, dt) = (x[0] - y[0], x[1] + y[1] - n[1]);
        let (mm, mt, tt) = (-x[2] - y[2], y[3] - x[3], n[4] - x[4] - y[4]);
        let v = mean * (1.0 - mean);
        Slopes {
            a: dm * v,
            t: dt * theta,
            aa: mm * v * v + dm * v * (1.0 - 2.0 * mean),
            at: mt * v * theta,
            tt: tt * theta * theta + dt * theta,
        }
    }

    /// The highest (logit mean, ln theta, log-likelihood): Newton from the best of a grid.
    fn climb(&self, pooled: f64) -> (f64, f64, f64) {
        let logit = (pooled / (1.0 - pooled)).ln();
        let at = |a: f64, t: f64| self.loglik(expit(a), t.exp());
        let grid = (-24..=10).map(|k| f64::from(k) * 0.5);
        let mut best = (logit, 0.0, f64::NEG_INFINITY);
        for t in grid {
            let height = at(logit, t);
            if height > best.2 {
                best = (logit, t, height);
            }
        }
        for _ in 0..200 {
            let s = self.slopes(best.0, best.1);
            let det = s.aa * s.tt - s.at * s.at;
            let concave = s.aa < 0.0 && det > 0.0;
            let (da, dt) = if concave {
                ((s.at * s.t - s.tt * s.a) / det, (s.at * s.a - s.aa * s.t) / det)
            } else {
                (s.a / s.aa.abs().max(1.0), s.t / s.tt.abs().max(1.0))
            };
            let mut length = 1.0 / (da.abs().max(dt.abs()) / 2.0).max(1.0);
            let from = best;
            while length > 1e-9 {
                let (a, t) = (from.0 + length * da, (from.1 + length * dt).clamp(-30.0, 30.0));
                let height = at(a, t);
                if height > from.2 {
                    best = (a, t, height);
                    break;
                }
                length *= 0.5;
            }
            if best.2 - from.2 <= 0.0 || (da * s.a + dt * s.t).abs() < 1e-14 {
                break;
            }
        }
        best
    }

    fn error(&self, a: f64, t: f64) -> f64 {
        let s = self.slopes(a, t);
        (-s.tt / (s.aa * s.tt - s.at * s.at)).sqrt()
    }
}
