//! One bag's own looks, for giving up where the club's other bags cannot say.

use super::model::{CONF, WORTH};
use hilum_calc::event_time::{Fate, Fit, Removed, Seeds, giving_up};

/// Fewer roots, or roots found by fewer looks, say nothing of when the others come (our own caution, no source).
const LEAST_ROOTED: f64 = 5.0;
const LEAST_LOOKS: usize = 3;

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
        let fits = Fit::each(&seeds, Removed::Never);
        let most = fits.iter().map(|f| left * f.ever_at_most(age, CONF)).fold(0.0, f64::max);
        Self { seeds, most }
    }

    pub fn gives_up(&self) -> bool {
        self.tells() && self.most <= WORTH
    }

    fn tells(&self) -> bool {
        let rooted = || self.seeds.iter().filter(|s| matches!(s.fate, Fate::Rooted { .. }));
        rooted().count() >= LEAST_LOOKS && rooted().map(|s| s.count).sum::<f64>() >= LEAST_ROOTED
    }

    /// The day from which giving up will be supported if nothing more roots.
    pub fn from(&self) -> Option<f64> {
        if !self.tells() {
            return None;
        }
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
    use super::super::model::tests::Truth;
    use super::*;
    use hilum_calc::dice::Dice;

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
    fn a_few_roots_found_at_once_tell_nothing_of_the_others() {
        assert!(!Own::of(rows(&[(5.0, 1.0), (6.0, 1.0), (7.0, 1.0)], 30.0, 9.0)).gives_up());
        assert!(!Own::of(rows(&[(6.0, 7.0)], 30.0, 3.0)).gives_up());
    }

    /// Bags of 20 of a truth in which 80 % root, looked at daily and given up on as soon as that is supported after
    /// three days without a root: on average less than half a seed roots after all.
    #[test]
    fn seeds_given_up_on_are_fewer_than_promised() {
        let (mut bags, mut lost) = (0.0, 0.0);
        let mut dice = Dice::new(77);
        for _ in 0..30 {
            let days: Vec<f64> = (0..20).map(|_| dice.day().map_or(f64::INFINITY, f64::ceil)).collect();
            let given_up = (6..40).map(f64::from).find(|age| {
                let out: Vec<(f64, f64)> = (1..=*age as i32)
                    .map(f64::from)
                    .map(|d| (d, count(&days, |t| t == d)))
                    .filter(|r| r.1 > 0.0)
                    .collect();
                let quiet = out.last().is_some_and(|r| age - r.0 >= 3.0);
                quiet && Own::of(rows(&out, *age, count(&days, |t| t > *age))).gives_up()
            });
            if let Some(age) = given_up {
                bags += 1.0;
                lost += count(&days, |t| t > age && t.is_finite());
            }
        }
        assert!(bags > 20.0 && lost / bags < WORTH, "{lost} seeds of {bags} bags");
    }

    fn count(days: &[f64], of: impl Fn(f64) -> bool) -> f64 {
        days.iter().filter(|t| of(**t)).count() as f64
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
