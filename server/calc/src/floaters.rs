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
        finding: finding(&common, 1.0 - conf),
    }
}

impl LotFloat {
    fn stratum(&self) -> Stratum {
        Stratum {
            a: self.floated_failed as f64,
            b: self.floated_rooted as f64,
            c: self.sank_failed as f64,
            d: self.sank_rooted as f64,
        }
    }
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
