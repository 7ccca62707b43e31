//! What looks into a bag say, as the statistics take it: one reading for the club table and for a trial's page.

use hilum_calc::table::Look;

/// What rooted in the soak was there a minute after the paper, in hours.
pub const A_MINUTE: f64 = 0.0167;

/// Whether a bag is in the rates, and why not.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Standing {
    Counts,
    InDoubt,
    Abandoned,
    /// Nobody has looked yet, or no seed is left in it.
    Unseen,
}

impl Standing {
    pub fn of(looks: &[Look], seeds: u32, in_doubt: bool, ending: &str) -> Self {
        if looks.is_empty() || seeds == 0 {
            Self::Unseen
        } else if in_doubt {
            Self::InDoubt
        } else if ending == "abandoned" {
            Self::Abandoned
        } else {
            Self::Counts
        }
    }
}

/// Looks as (hours since paper; rooted, abnormal, dead) in order of time: by hour, those of one moment together. What
/// rooted in the soak was there [`A_MINUTE`] after the paper.
pub fn found(looks: impl Iterator<Item = (f64, [i64; 3])>) -> Vec<Look> {
    let mut out: Vec<Look> = Vec::new();
    for (at, new) in looks {
        let hours = if new.iter().sum::<i64>() > 0 { at.max(A_MINUTE) } else { at };
        if hours <= 0.0 {
            continue;
        }
        let [rooted, abnormal, dead] = new.map(count);
        match out.last_mut().filter(|last| last.hours == hours) {
            Some(last) => {
                last.rooted += rooted;
                last.abnormal += abnormal;
                last.dead += dead;
            }
            None => out.push(Look { hours, rooted, abnormal, dead }),
        }
    }
    out
}

/// The looks of seeds sown unrooted after `left` hours: not rooted at any look until then, not known afterwards.
pub fn until_sown(looks: &[Look], left: f64) -> Vec<Look> {
    let none = |hours| Look { hours, rooted: 0, abnormal: 0, dead: 0 };
    let before = looks.iter().map(|l| l.hours).filter(|h| *h < left);
    before.chain([left]).filter(|h| *h > 0.0).map(none).collect()
}

/// Hours to a third of a second, so that they read well in a file and come back the same.
pub fn hours(exact: f64) -> f64 {
    (exact * 1e4).round() / 1e4
}

/// Seeds as the statistics count them.
pub fn count(n: i64) -> u32 {
    u32::try_from(n.max(0)).unwrap_or(u32::MAX)
}
