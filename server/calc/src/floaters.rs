//! Does floating foretell failure here? Floated and sunk seeds of each lot, rooted or not.

use crate::proportion::{Interval, wilson};
use crate::strata::{Common, Stratum, combine};

/// The float check of one lot and what became of its seeds, all counted on paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LotFloat {
    /// Floated and did not root.
    pub floated_failed: u64,
    /// Floated and rooted all the same.
    pub floated_rooted: u64,
    /// Sank and did not root.
    pub sank_failed: u64,
    /// Sank and rooted.
    pub sank_rooted: u64,
}

/// A share of seeds with Wilson's interval; `None` of no seeds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Share {
    /// Seeds the share counts.
    pub x: u64,
    /// Of so many.
    pub n: u64,
    /// Rate and interval.
    pub rate: Option<(f64, Interval)>,
}

/// What the club's own float checks say.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Finding {
    /// Floaters failed more often than sunk seeds of the same lot.
    Foretells,
    /// Floaters failed less often.
    Contrary,
    /// The interval of the odds ratio holds 1.
    NotShown,
    /// No lot has both floated and sunk seeds with both ends.
    NoComparison,
}

/// All lots together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Judgement {
    /// Of the floated, those that failed: what throwing floaters out rests on.
    pub floated_failed: Share,
    /// Of the sunk, those that rooted.
    pub sank_rooted: Share,
    /// Of the failed, those that had floated.
    pub failed_floated: Share,
    /// Of the rooted, those that had sunk.
    pub rooted_sank: Share,
    /// Odds of failing, floated against sunk, within lots (Mantel and Haenszel).
    pub common: Common,
    /// How many times as often floated seeds failed as sunk seeds of their lot: Mantel and Haenszel's common
    /// risk ratio (Tarone 1981, from memory); infinite where no sunk seed of such a lot failed, `None` without a comparison.
    pub times_as_often: Option<f64>,
    /// In one word.
    pub finding: Finding,
}

/// Judges `lots`; the order does not matter. `conf` in (0, 1).
pub fn judge(lots: &[LotFloat], conf: f64) -> Judgement {
    let sum = |f: fn(&LotFloat) -> u64| lots.iter().map(f).sum::<u64>();
    let (ff, fr) = (sum(|l| l.floated_failed), sum(|l| l.floated_rooted));
    let (sf, sr) = (sum(|l| l.sank_failed), sum(|l| l.sank_rooted));
    let share = |x: u64, other: u64| {
        let n = x + other;
        let rate = || (x as f64 / n as f64, wilson(x as f64, n as f64, conf));
        Share { x, n, rate: (n > 0).then(rate) }
    };
    let strata: Vec<Stratum> = lots.iter().map(LotFloat::stratum).collect();
    let common = combine(&strata, conf);
    Judgement {
        floated_failed: share(ff, fr),
        sank_rooted: share(sr, sf),
        failed_floated: share(ff, sf),
        rooted_sank: share(sr, fr),
        common,
        times_as_often: times_as_often(lots),
        finding: finding(&common, 1.0 - conf),
    }
}

impl LotFloat {
    /// Seeds that floated.
    #[must_use]
    pub fn floated(&self) -> u64 {
        self.floated_failed + self.floated_rooted
    }

    /// Seeds that sank.
    #[must_use]
    pub fn sank(&self) -> u64 {
        self.sank_failed + self.sank_rooted
    }

    fn seeds(&self) -> u64 {
        self.floated() + self.sank()
    }

    fn stratum(&self) -> Stratum {
        Stratum {
            a: self.floated_failed as f64,
            b: self.floated_rooted as f64,
            c: self.sank_failed as f64,
            d: self.sank_rooted as f64,
        }
    }
}

fn times_as_often(lots: &[LotFloat]) -> Option<f64> {
    let sum = |f: fn(&LotFloat) -> f64| {
        let mut terms: Vec<f64> = lots.iter().filter(|l| l.seeds() > 0).map(f).collect();
        terms.sort_by(f64::total_cmp);
        terms.iter().sum::<f64>()
    };
    let floated = sum(|l| (l.floated_failed * l.sank()) as f64 / l.seeds() as f64);
    let sank = sum(|l| (l.sank_failed * l.floated()) as f64 / l.seeds() as f64);
    Some(floated / sank).filter(|ratio| !ratio.is_nan())
}

fn finding(common: &Common, level: f64) -> Finding {
    match (common.interval, common.test) {
        (Some(i), _) if i.low > 1.0 => Finding::Foretells,
        (Some(i), _) if i.high < 1.0 => Finding::Contrary,
        (Some(_), _) => Finding::NotShown,
        (None, Some(test)) if test.p_corrected < level => match common.odds_ratio {
            Some(ratio) if ratio > 1.0 => Finding::Foretells,
            _ => Finding::Contrary,
        },
        (None, Some(_)) => Finding::NotShown,
        (None, None) => Finding::NoComparison,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// statsmodels 0.15.0, `StratifiedTable.riskratio_pooled`; invented counts.
    #[test]
    fn the_common_risk_ratio_is_mantel_and_haenszels() {
        let lot = |[a, b, c, d]: [u64; 4]| LotFloat {
            floated_failed: a,
            floated_rooted: b,
            sank_failed: c,
            sank_rooted: d,
        };
        let lots = [[12, 4, 6, 22], [9, 3, 4, 20], [5, 5, 5, 25]].map(lot);
        let judged = judge(&lots, 0.95);
        assert!((judged.times_as_often.unwrap() - 3.648_648_648_648_649).abs() < 1e-12);
        assert!((judged.common.odds_ratio.unwrap() - 9.392_947_103_274_56).abs() < 1e-12);
        let apart = judge(&[lot([3, 1, 0, 0]), lot([0, 0, 2, 9])], 0.95);
        assert_eq!((apart.times_as_often, apart.finding), (None, Finding::NoComparison));
        assert_eq!(judge(&[lot([3, 1, 0, 9])], 0.95).times_as_often, Some(f64::INFINITY));
    }
}
