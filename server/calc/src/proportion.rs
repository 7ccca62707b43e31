//! One proportion: `x` of `n` seeds, with three intervals.

use crate::special::{beta_quantile, two_sided_z};

/// A two-sided interval.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Interval {
    /// Lower end.
    pub low: f64,
    /// Upper end.
    pub high: f64,
}

/// The most seeds any method takes: above it the exact intervals would no longer be quick.
pub const MAX_SEEDS: u64 = 1_000_000_000;

/// Wilson's score interval (1927), without continuity correction. Shares may be fractional: `x` in
/// [0, n], `n` > 0 (effective seeds); `conf` in (0, 1). At 0 and at `n` the outer end is exactly 0 or 1.
pub fn wilson(x: f64, n: f64, conf: f64) -> Interval {
    let z = two_sided_z(conf);
    let share = x / n;
    let middle = x + z * z / 2.0;
    let spread = z * (n * share * (1.0 - share) + z * z / 4.0).sqrt();
    let whole = n + z * z;
    Interval {
        low: if x <= 0.0 { 0.0 } else { ((middle - spread) / whole).max(0.0) },
        high: if x >= n { 1.0 } else { ((middle + spread) / whole).min(1.0) },
    }
}

/// Clopper and Pearson's interval (1934), whose coverage is never below `conf`.
/// `x` <= `n`, 1 <= `n` <= 10^9.
pub fn clopper_pearson(x: u64, n: u64, conf: f64) -> Interval {
    let tail = (1.0 - conf) / 2.0;
    let (successes, failures) = (x as f64, n.saturating_sub(x) as f64);
    Interval {
        low: if x == 0 { 0.0 } else { beta_quantile(tail, successes, failures + 1.0) },
        high: if x == n { 1.0 } else { 1.0 - beta_quantile(tail, failures, successes + 1.0) },
    }
}

/// Equal-tailed quantiles of Beta(x + 1/2, n - x + 1/2), Jeffreys' posterior.
pub fn jeffreys_unmodified(x: u64, n: u64, conf: f64) -> Interval {
    let tail = (1.0 - conf) / 2.0;
    let (a, b) = (x as f64 + 0.5, n.saturating_sub(x) as f64 + 0.5);
    Interval { low: beta_quantile(tail, a, b), high: 1.0 - beta_quantile(tail, b, a) }
}

/// Jeffreys' interval with its lower end 0 at `x` = 0 and its upper end 1 at `x` = `n`
/// (Brown, Cai and DasGupta 2001).
pub fn jeffreys(x: u64, n: u64, conf: f64) -> Interval {
    let Interval { low, high } = jeffreys_unmodified(x, n, conf);
    Interval { low: if x == 0 { 0.0 } else { low }, high: if x == n { 1.0 } else { high } }
}
