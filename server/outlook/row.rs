//! Rows as they are kept: of a large club many pools hold the same bags, and all are kept until they change.

use hilum_calc::event_time::{Fate, Seeds};

/// Looks are told apart by this part of a day.
pub const STEP: f64 = 0.25;
const ON_PAPER: u16 = u16::MAX;
/// In steps: no bag is on paper for more than 40 years.
const LAST: u16 = u16::MAX - 2;

/// Seeds of one bag with one fate, in 12 bytes; times in steps.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Row {
    bag: u32,
    count: u32,
    from: u16,
    /// `from` itself: removed; [`ON_PAPER`]: not rooted until `from`.
    to: u16,
}

fn steps(days: f64) -> u16 {
    ((days / STEP).round() as u16).min(LAST)
}

fn days(steps: u16) -> f64 {
    f64::from(steps) * STEP
}

impl From<&Seeds> for Row {
    /// Keeps whole seeds, and times to the step.
    fn from(seeds: &Seeds) -> Self {
        let (from, to) = match seeds.fate {
            Fate::Rooted { l, r } => (steps(l), steps(r).max(steps(l) + 1)),
            Fate::Removed { l } => (steps(l), steps(l)),
            Fate::OnPaper { l } => (steps(l), ON_PAPER),
        };
        let bag = u32::try_from(seeds.bag).unwrap_or(u32::MAX);
        Self { bag, count: seeds.count.round() as u32, from, to }
    }
}

impl From<&Row> for Seeds {
    fn from(row: &Row) -> Self {
        let (l, r) = (days(row.from), days(row.to));
        let fate = match row.to {
            ON_PAPER => Fate::OnPaper { l },
            to if to == row.from => Fate::Removed { l },
            _ => Fate::Rooted { l, r },
        };
        Self { fate, count: f64::from(row.count), bag: row.bag as usize }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_row_gives_back_what_was_kept_in_it() {
        assert_eq!(size_of::<Row>(), 12);
        let fates = [
            Fate::Rooted { l: 0.0, r: 0.25 },
            Fate::Rooted { l: 3.75, r: 11.0 },
            Fate::Removed { l: 0.0 },
            Fate::Removed { l: 5.5 },
            Fate::OnPaper { l: 0.0 },
            Fate::OnPaper { l: 400.25 },
        ];
        for (bag, fate) in fates.into_iter().enumerate() {
            let seeds = Seeds { fate, count: 7.0, bag };
            assert_eq!(Seeds::from(&Row::from(&seeds)), seeds);
        }
    }

    #[test]
    fn times_beyond_any_club_stay_in_order() {
        let far = Seeds { fate: Fate::Rooted { l: 1e6, r: 2e6 }, count: 1.0, bag: 0 };
        assert!(Seeds::from(&Row::from(&far)).is_sound());
    }
}
