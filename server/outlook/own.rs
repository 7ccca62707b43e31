//! One bag's own looks, for giving up where the club's other bags cannot say.

use super::model::{CONF, WORTH, fitted};
use hilum_calc::event_time::{Fate, Removed, Seeds, giving_up};

/// What all three forms, fitted to the bag alone, leave open.
#[derive(Debug, PartialEq)]
pub struct Own {
    pub seeds: Vec<Seeds>,
    /// The most seeds that are still to come.
    pub most: f64,
}

impl Own {
    pub fn of(seeds: Vec<Seeds>) -> Self {
        let (age, left) = last(&seeds);
        let fits = fitted(&seeds, Removed::Never);
        let most = fits.iter().map(|f| left * f.ever_at_most(age, CONF)).fold(0.0, f64::max);
        Self { seeds, most }
    }

    pub fn gives_up(&self) -> bool {
        self.most <= WORTH
    }

    /// The day from which giving up will be supported if nothing more roots.
    pub fn from(&self) -> Option<f64> {
        let (age, left) = last(&self.seeds);
        giving_up(&self.seeds, Removed::Never, (age, left), WORTH, CONF).from
    }
}

/// The last look in days and the seeds it left on paper.
fn last(seeds: &[Seeds]) -> (f64, f64) {
    let on_paper = |s: &Seeds| if let Fate::OnPaper { l } = s.fate { Some((l, s.count)) } else { None };
    seeds.iter().find_map(on_paper).unwrap_or((0.0, 0.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rows(rooted: &[(f64, f64)], age: f64, left: f64) -> Vec<Seeds> {
        let by = |(r, count): &(f64, f64)| Seeds {
            fate: Fate::Rooted { l: r - 1.0, r: *r },
            count: *count,
            bag: 0,
        };
        let mut rows: Vec<Seeds> = rooted.iter().map(by).collect();
        if left > 0.0 {
            rows.push(Seeds { fate: Fate::OnPaper { l: age }, count: left, bag: 0 });
        }
        rows
    }

    const ROOTED: [(f64, f64); 4] = [(5.0, 3.0), (6.0, 6.0), (7.0, 5.0), (8.0, 2.0)];

    #[test]
    fn a_bag_alone_supports_giving_up_late_and_not_early() {
        assert!(!Own::of(rows(&ROOTED, 9.0, 3.0)).gives_up());
        let waited = Own::of(rows(&ROOTED, 9.0, 3.0)).from().unwrap();
        assert!(waited > 10.0, "{waited}");
        assert!(Own::of(rows(&ROOTED, waited + 1.0, 3.0)).gives_up());
    }

    #[test]
    fn nothing_rooted_or_nothing_seen_supports_nothing() {
        for none in [rows(&[], 40.0, 10.0), rows(&[(6.0, 1.0)], 6.0, 9.0)] {
            let own = Own::of(none);
            assert!(!own.gives_up() && own.most.is_finite(), "{}", own.most);
        }
        assert_eq!(Own::of(rows(&[], 40.0, 10.0)).from(), None);
    }
}
