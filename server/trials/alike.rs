//! Whether the bags of one trial that were treated alike are too unlike each other.

use super::rooting::Seen;
use hilum_calc::replicates::{MAX_REPLICATE, NoTest, Printed, likeness, published_range, range_limit};
use hilum_calc::units::rounded_ratio;

/// How seldom chance may be blamed: the level of the published table.
const LEVEL: f64 = 0.025;
/// Below so many expected seeds the test of unequal bags says nothing (common practice, no source).
const LEAST_EXPECTED: f64 = 5.0;

/// What a comparison rests on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Rule {
    /// The published limit in percentage points, for bags of 100.
    Published(u64, Printed),
    /// Bags of one size: the most seeds apart that chance alone explains.
    Range(u64),
    /// Bags of several sizes: how often chance alone sets them so far apart.
    Dispersion(f64),
}

/// Why nothing can be said.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unsaid {
    Warmth,
    NothingRooted,
    AllRooted,
    FewSeeds,
    /// Some bag was not looked at within a day of the last look into another.
    Apart,
}

/// The bags, and what was found by the hour of the last look into all that still hold seeds.
#[derive(Debug, Clone, PartialEq)]
pub struct Alike {
    pub hours: f64,
    /// Rooted, of so many seeds, in each bag.
    pub bags: Vec<(u64, u64)>,
    pub verdict: Result<(bool, Rule), Unsaid>,
}

/// Compares the bags that count, without floaters; `None` for fewer than two.
pub fn alike(all: &[Seen]) -> Option<Alike> {
    let bags: Vec<&Seen> = all.iter().filter(|b| b.counts() && !b.floaters).collect();
    let (first, others) = bags.split_first().filter(|(_, others)| !others.is_empty())?;
    let same_warmth = others.iter().all(|b| b.warmth_c == first.warmth_c);
    let open = bags.iter().filter(|b| b.left() > 0).map(|b| b.last());
    let all_last = bags.iter().map(|b| b.last()).fold(0.0, f64::max);
    let hours = open.reduce(f64::min).unwrap_or(all_last);
    let near = |b: &&Seen| Some((u64::from(b.rooted_near(hours)?), u64::from(b.seeds)));
    let counts: Option<Vec<(u64, u64)>> = bags.iter().map(near).collect();
    let verdict = match &counts {
        _ if !same_warmth => Err(Unsaid::Warmth),
        None => Err(Unsaid::Apart),
        Some(counts) => judged(counts),
    };
    let counts = counts.unwrap_or_default();
    Some(Alike { hours, bags: counts, verdict })
}

/// Whether bags of x rooted of n are alike, and by which rule.
fn judged(bags: &[(u64, u64)]) -> Result<(bool, Rule), Unsaid> {
    let like = likeness(bags).ok_or(Unsaid::FewSeeds)?;
    let test = like.test.map_err(|no| match no {
        NoTest::OneReplicate => Unsaid::FewSeeds,
        NoTest::NoVariation if like.mean_rate > 0.0 => Unsaid::AllRooted,
        NoTest::NoVariation => Unsaid::NothingRooted,
    })?;
    let rooted: u64 = bags.iter().map(|b| b.0).sum();
    let size = bags[0].1;
    let one_size = bags.iter().all(|b| b.1 == size);
    let mean = rounded_ratio(rooted, bags.len() as u64);
    let published = published_range(mean, bags.len()).filter(|_| one_size && size == 100);
    if let Some((limit, printed)) = published {
        return Ok((like.range_percent <= limit as f64, Rule::Published(limit, printed)));
    }
    if one_size && size <= MAX_REPLICATE {
        let replicates = u32::try_from(bags.len()).unwrap_or(u32::MAX);
        let limit = range_limit(like.mean_rate, replicates, size, LEVEL).range;
        return Ok((apart(bags) <= limit, Rule::Range(limit)));
    }
    if test.min_expected < LEAST_EXPECTED {
        return Err(Unsaid::FewSeeds);
    }
    Ok((test.p >= LEVEL, Rule::Dispersion(test.p)))
}

/// Most less fewest rooted seeds.
fn apart(bags: &[(u64, u64)]) -> u64 {
    let rooted = || bags.iter().map(|b| b.0);
    rooted().max().unwrap_or(0) - rooted().min().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 7 CFR 201.55(a), as in tests/reference/standards/checks.json C01 and C02; m11_replicates.json for k = 2, n = 50.
    #[test]
    fn the_published_table_and_the_exact_limit_decide() {
        let of = |n: u64, x: &[u64]| x.iter().map(|x| (*x, n)).collect::<Vec<_>>();
        let law = Rule::Published(13, Printed::SeedLaw);
        assert_eq!(judged(&of(100, &[82, 88, 87, 95])), Ok((true, law)));
        assert_eq!(judged(&of(100, &[81, 88, 88, 95])), Ok((false, law)));
        assert_eq!(judged(&of(50, &[42, 48])), Ok((true, Rule::Range(7))));
        assert_eq!(judged(&of(50, &[41, 49])), Ok((false, Rule::Range(7))));
    }

    #[test]
    fn bags_of_several_sizes_need_enough_seeds() {
        assert_eq!(judged(&[(3, 6), (5, 7)]), Err(Unsaid::FewSeeds));
        assert!(matches!(judged(&[(20, 40), (30, 60)]), Ok((true, Rule::Dispersion(_)))));
        assert!(matches!(judged(&[(10, 40), (50, 60)]), Ok((false, Rule::Dispersion(_)))));
        assert_eq!(judged(&[(0, 6), (0, 7)]), Err(Unsaid::NothingRooted));
        assert_eq!(judged(&[(6, 6), (7, 7)]), Err(Unsaid::AllRooted));
    }
}
