//! Discrete distributions: binomial, beta-binomial, hypergeometric.

use crate::special::{beta_cdf, ln_beta};

/// ln of n over k; `k` <= `n`.
pub fn ln_choose(n: u64, k: u64) -> f64 {
    -((n + 1) as f64).ln() - ln_beta((n - k + 1) as f64, (k + 1) as f64)
}

/// P(X >= k) of Binomial(n, p); `n` up to 10^10, `p` in [0, 1].
pub fn binomial_at_least(k: u64, n: u64, p: f64) -> f64 {
    if k == 0 {
        1.0
    } else if k > n {
        0.0
    } else {
        beta_cdf(p, k as f64, (n - k + 1) as f64)
    }
}

/// P(X = k) for k = 0..=n of Binomial(n, p), outward from the mode so that nothing underflows early.
pub fn binomial_masses(n: u64, p: f64) -> Vec<f64> {
    let mut masses = vec![0.0; n as usize + 1];
    let mode = (((n + 1) as f64 * p) as u64).min(n) as usize;
    masses[mode] = 1.0;
    for k in mode..n as usize {
        masses[k + 1] = masses[k] * (n as usize - k) as f64 * p / ((k + 1) as f64 * (1.0 - p));
    }
    for k in (0..mode).rev() {
        masses[k] = masses[k + 1] * (k + 1) as f64 * (1.0 - p) / ((n as usize - k) as f64 * p);
    }
    let total: f64 = masses.iter().sum();
    masses.iter_mut().for_each(|m| *m /= total);
    masses
}

/// ln P(X = k) of the beta-binomial with `n` trials; `k` <= `n`.
pub fn ln_beta_binomial(k: u64, n: u64, a: f64, b: f64) -> f64 {
    ln_choose(n, k) + ln_beta(a + k as f64, b + (n - k) as f64) - ln_beta(a, b)
}

/// P(X_n >= k) of a beta-binomial for n = k, k + 1, ...; one step is a few multiplications (Polya's urn).
pub struct AtLeast {
    k: u64,
    n: u64,
    a: f64,
    b: f64,
    /// ln P(X_n = k - 1)
    ln_one_short: f64,
    tail: f64,
}

impl AtLeast {
    /// Starts before n = k; `k` >= 1, `a`, `b` > 0.
    pub fn new(k: u64, a: f64, b: f64) -> Self {
        Self { k, n: k - 1, a, b, ln_one_short: ln_beta_binomial(k - 1, k - 1, a, b), tail: 0.0 }
    }
}

impl Iterator for AtLeast {
    type Item = f64;

    fn next(&mut self) -> Option<f64> {
        let short = (self.k - 1) as f64;
        let n = self.n as f64;
        let drawn = self.a + self.b + n;
        self.tail = (self.tail + self.ln_one_short.exp() * (self.a + short) / drawn).min(1.0);
        self.ln_one_short += ((n + 1.0) / (n + 1.0 - short)).ln() + ((self.b + n - short) / drawn).ln();
        self.n += 1;
        Some(self.tail)
    }
}

/// The table of two groups with both margins fixed: how many of the `marked` successes fall into the
/// first group, when its odds are `odds` times those of the second (Fisher's noncentral hypergeometric).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Margins {
    /// Seeds in the first group.
    pub first: u64,
    /// Seeds in the second group.
    pub second: u64,
    /// Successes in both together, at most `first + second`.
    pub marked: u64,
}

/// Probabilities of consecutive counts from `start`; what lies outside is below the cut-off asked for.
pub struct Masses {
    /// The count that `p[0]` belongs to.
    pub start: u64,
    /// Probabilities, summing to 1.
    pub p: Vec<f64>,
}

impl Margins {
    /// Least possible count.
    pub fn low(&self) -> u64 {
        self.marked.saturating_sub(self.second)
    }

    /// Greatest possible count.
    pub fn high(&self) -> u64 {
        self.first.min(self.marked)
    }

    /// P(x + 1) / P(x) at odds 1.
    fn ratio(&self, x: u64) -> f64 {
        let up = (self.first - x) as f64 * (self.marked - x) as f64;
        up / ((x + 1) as f64 * (self.second + x + 1 - self.marked) as f64)
    }

    /// The count where the probabilities are greatest: by halving, since their ratio falls throughout.
    fn mode(&self, odds: f64) -> u64 {
        let (mut low, mut high) = (self.low(), self.high());
        while low < high {
            let middle = low + (high - low) / 2;
            if self.ratio(middle) * odds > 1.0 { low = middle + 1 } else { high = middle }
        }
        low
    }

    /// All probabilities above `cutoff` times the greatest one.
    pub fn masses(&self, odds: f64, cutoff: f64) -> Masses {
        let mode = self.mode(odds);
        let (mut down, mut up) = (Vec::new(), vec![1.0]);
        let mut weight = 1.0;
        for x in (self.low()..mode).rev() {
            weight /= self.ratio(x) * odds;
            if weight <= cutoff {
                break;
            }
            down.push(weight);
        }
        weight = 1.0;
        for x in mode..self.high() {
            weight *= self.ratio(x) * odds;
            if weight <= cutoff {
                break;
            }
            up.push(weight);
        }
        let start = mode - down.len() as u64;
        let mut p: Vec<f64> = down.into_iter().rev().chain(up).collect();
        let total: f64 = p.iter().sum();
        p.iter_mut().for_each(|w| *w /= total);
        Masses { start, p }
    }
}

impl Masses {
    /// P(X = x).
    pub fn at(&self, x: u64) -> f64 {
        x.checked_sub(self.start).and_then(|i| self.p.get(i as usize)).copied().unwrap_or(0.0)
    }

    /// P(X <= x), summed from the small end.
    pub fn at_most(&self, x: u64) -> f64 {
        let count = (x + 1).saturating_sub(self.start) as usize;
        self.p.iter().take(count).sum::<f64>().min(1.0)
    }

    /// P(X >= x), summed from the small end.
    pub fn at_least(&self, x: u64) -> f64 {
        let skipped = x.saturating_sub(self.start).min(self.p.len() as u64) as usize;
        self.p[skipped..].iter().rev().sum::<f64>().min(1.0)
    }

    /// The mean count.
    pub fn mean(&self) -> f64 {
        self.p.iter().zip(self.start..).map(|(p, x)| p * x as f64).sum()
    }
}
