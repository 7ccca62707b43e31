//! Are the bags of one trial too unlike each other: index of dispersion and tolerated ranges.

use crate::special::chi2_sf;
use crate::tails::binomial_masses;

/// Bags of one trial compared.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Likeness {
    /// Germinated in all bags, of all seeds.
    pub mean_rate: f64,
    /// Bags less one.
    pub df: u64,
    /// Highest less lowest rate, in percentage points.
    pub range_percent: f64,
    /// The test, or why there is none.
    pub test: Result<Dispersion, NoTest>,
}

/// Pearson's index of dispersion.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Dispersion {
    /// Sum of (x - n p)^2 / (n p (1 - p)) with the pooled rate p.
    pub chi2: f64,
    /// Its p-value; rough where `min_expected` is small.
    pub p: f64,
    /// The smallest expected count of germinated or of not germinated.
    pub min_expected: f64,
}

/// Why the bags cannot be compared.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoTest {
    /// There is one bag.
    OneReplicate,
    /// All seeds germinated, or none.
    NoVariation,
}

/// Compares bags of `x` germinated out of `n` seeds, `x` <= `n`, `n` >= 1; `None` for no bags.
pub fn likeness(bags: &[(u64, u64)]) -> Option<Likeness> {
    let germinated: u64 = bags.iter().map(|b| b.0).sum();
    let seeds: u64 = bags.iter().map(|b| b.1).sum();
    let mean_rate = germinated as f64 / seeds as f64;
    let rates = || bags.iter().map(|&(x, n)| 100.0 * x as f64 / n as f64);
    let range_percent = rates().reduce(f64::max)? - rates().reduce(f64::min)?;
    let df = bags.len() as u64 - 1;
    let test = if df == 0 {
        Err(NoTest::OneReplicate)
    } else if germinated == 0 || germinated == seeds {
        Err(NoTest::NoVariation)
    } else {
        Ok(dispersion(bags, mean_rate, df))
    };
    Some(Likeness { mean_rate, df, range_percent, test })
}

fn dispersion(bags: &[(u64, u64)], rate: f64, df: u64) -> Dispersion {
    let term = |&(x, n): &(u64, u64)| {
        let n = n as f64;
        (x as f64 - n * rate).powi(2) / (n * rate * (1.0 - rate))
    };
    let mut terms: Vec<f64> = bags.iter().map(term).collect();
    terms.sort_by(f64::total_cmp);
    let chi2 = terms.iter().sum();
    let smallest = bags.iter().map(|b| b.1).min().unwrap_or(0) as f64;
    Dispersion { chi2, p: chi2_sf(chi2, df as f64), min_expected: smallest * rate.min(1.0 - rate) }
}

/// The largest range between replicates that chance alone explains.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RangeLimit {
    /// In seeds.
    pub range: u64,
    /// P(range above it).
    pub greater: f64,
    /// P(range above one seed less), which is above the level.
    pub greater_one_less: f64,
}

/// Most seeds per replicate for [`range_limit`].
pub const MAX_REPLICATE: u64 = 100_000;

/// The smallest range r with P(range > r) <= `level` for `replicates` independent Binomial(n, rate):
/// exact sum over the minimum. `n` <= 10^5, `rate` in [0, 1], `level` in (0, 1).
pub fn range_limit(rate: f64, replicates: u32, n: u64, level: f64) -> RangeLimit {
    let masses = binomial_masses(n, rate);
    let mut sums = vec![0.0; masses.len() + 1];
    for (i, mass) in masses.iter().enumerate() {
        sums[i + 1] = sums[i] + mass;
    }
    let (mut low, mut high) = (0, n);
    while low < high {
        let middle = low + (high - low) / 2;
        if greater(&sums, replicates, middle) <= level { high = middle } else { low = middle + 1 }
    }
    let one_less = if low == 0 { 1.0 } else { greater(&sums, replicates, low - 1) };
    RangeLimit { range: low, greater: greater(&sums, replicates, low), greater_one_less: one_less }
}

/// P(range > `range`), from the sums of the probabilities below each count.
fn greater(sums: &[f64], replicates: u32, range: u64) -> f64 {
    let n = sums.len() - 1;
    let powers = f64::from(replicates);
    let within: f64 = (0..n)
        .map(|least| {
            let top = (least + range as usize + 1).min(n);
            let all = sums[top] - sums[least];
            all.powf(powers) - (sums[top] - sums[least + 1]).max(0.0).powf(powers)
        })
        .sum();
    (1.0 - within).clamp(0.0, 1.0)
}

/// Where a row of the published table was read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Printed {
    /// 7 CFR 201.55(a), read.
    SeedLaw,
    /// ISTA table 5B part 1, quoted from memory.
    FromMemory,
}

/// The published tolerated range in percentage points between replicates of 100 seeds, for a mean of
/// `percent`; 4 or 2 replicates. Means `percent` and 101 - `percent` share a row. `None` where no limit
/// is given (means of 0, 1, 100; other numbers of replicates; for two replicates also 2, 3, 98, 99 and
/// 31 to 70).
pub fn published_range(percent: u64, replicates: usize) -> Option<(u64, Printed)> {
    let row = if percent > 50 { 99_u64.checked_sub(percent)? } else { percent.checked_sub(2)? } as usize;
    match replicates {
        4 if row < FOUR.len() => Some((FOUR[row], Printed::SeedLaw)),
        4 => FOUR_FROM_MEMORY.get(row - FOUR.len()).map(|limit| (*limit, Printed::FromMemory)),
        2 => TWO.get(row.checked_sub(2)?).map(|limit| (*limit, Printed::SeedLaw)),
        _ => None,
    }
}

/// 7 CFR 201.55(a), means 99 down to 71, four replicates.
const FOUR: [u64; 29] = [
    5, 6, 7, 8, 9, 10, 10, 11, 11, 12, 12, 13, 13, 14, 14, 14, 15, 15, 15, 16, 16, 16, 17, 17, 17, 17, 17,
    18, 18,
];
/// 7 CFR 201.55(a), means 97 down to 71, two replicates.
const TWO: [u64; 27] =
    [6, 6, 7, 8, 8, 9, 9, 9, 10, 10, 11, 11, 11, 11, 12, 12, 12, 13, 13, 13, 13, 13, 14, 14, 14, 14, 14];
/// ISTA table 5B part 1, means 70 down to 51, four replicates.
const FOUR_FROM_MEMORY: [u64; 20] =
    [18, 18, 18, 18, 19, 19, 19, 19, 19, 19, 19, 19, 19, 19, 19, 20, 20, 20, 20, 20];
