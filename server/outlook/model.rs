//! Three forms fitted to the bags of a variety, and what they say of a seed still on paper.

use super::intervals::Intervals;
use super::pool::{Basis, Pool};
use super::row::Row;
use hilum_calc::event_time::{Chance, Fate, Fit, Removed, Seeds};
use hilum_calc::proportion::wilson;
use hilum_calc::special::{normal_cdf, two_sided_z};
use std::collections::BTreeSet;
use std::sync::Arc;

/// Confidence of every interval, for seeds that are independent witnesses.
pub const CONF: f64 = 0.95;
/// Giving up is supported when fewer seeds than this are still to come.
pub const WORTH: f64 = 0.5;
/// The most times that bags being unlike each other widens an interval.
const WIDEST: f64 = 3.0;
/// Steps of age, by this factor, at which the most that may come is kept.
const STEPS: i32 = 22;
const FACTOR: f64 = 1.1;
/// Chances below this end the steps: no bag has seeds enough for it to matter.
const NEGLIGIBLE: f64 = 0.002;
/// No root is waited for longer, in days.
const LONGEST: f64 = 400.0;
/// Bags that must have been watched for the club's own record to count (our own choice, no source).
const WATCHED_BAGS: usize = 5;

/// The lowest, middle and highest of the three forms.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Span {
    pub low: f64,
    pub mid: f64,
    pub high: f64,
}

impl Span {
    fn of(three: [f64; 3]) -> Self {
        let mut sorted = three;
        sorted.sort_by(f64::total_cmp);
        Self { low: sorted[0], mid: sorted[1], high: sorted[2] }
    }

    pub fn times(self, n: f64) -> Self {
        Self { low: n * self.low, mid: n * self.mid, high: n * self.high }
    }
}

/// Seeds of the club that waited as long as the bag did and were watched on.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Record {
    pub seeds: f64,
    pub rooted: f64,
    pub bags: usize,
    /// Upper end of the interval of the share that rooted after all.
    pub most: f64,
}

/// Why giving up is supported.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Why {
    /// All three forms, fitted to the club's bags.
    Forms,
    /// The club's seeds that waited as long.
    Record(Record),
    /// All three forms, fitted to the bag's own looks.
    Own,
}

/// What the club's bags of a variety, or of a kind, say of seeds on paper. Times in days since the paper.
#[derive(Debug)]
pub struct Outlook {
    pub basis: Basis,
    rows: Arc<[Row]>,
    fits: [Fit; 3],
    /// The same with removed seeds as only lost from sight; where any were removed.
    lost: Option<[Fit; 3]>,
    conf: f64,
    /// Ages, and the most that a seed's chance to root can be from there on.
    limits: Vec<(f64, f64)>,
    intervals: Intervals,
}

impl Outlook {
    /// Fits the rows; `None` where they are too few or do not determine all three forms.
    pub fn of(pool: &Pool) -> Option<Self> {
        if !pool.is_enough() {
            return None;
        }
        let seeds = pool.seeds();
        let fits = Fit::each(&seeds, Removed::Never);
        if fits.iter().any(|f| f.t50().is_none()) {
            return None;
        }
        let any_removed = seeds.iter().any(|s| matches!(s.fate, Fate::Removed { .. }));
        let lost = any_removed.then(|| Fit::each(&seeds, Removed::Censored));
        let conf = widened(&fits, &seeds);
        let limits = limits(&fits, conf);
        let (basis, rows) = (pool.basis.clone(), pool.rows.clone());
        Some(Self { basis, rows, fits, lost, conf, limits, intervals: Intervals::default() })
    }

    /// The chance that a seed not rooted by `age` roots within `horizon` after it.
    pub fn within(&self, age: f64, horizon: f64) -> Span {
        Span::of([0, 1, 2].map(|i| chance(self.fits[i].within(age, horizon))))
    }

    /// The chance that a seed not rooted by `age` ever roots.
    pub fn ever(&self, age: f64) -> Span {
        Span::of([0, 1, 2].map(|i| chance(self.fits[i].ever(age, self.conf))))
    }

    /// [`Outlook::ever`] if removed seeds were only lost from sight; where any were removed.
    pub fn ever_if_lost(&self, age: f64) -> Option<Span> {
        let fits = self.lost.as_ref().filter(|fits| fits.iter().all(|f| f.t50().is_some()))?;
        Some(Span::of([0, 1, 2].map(|i| chance(fits[i].ever(age, self.conf)))))
    }

    /// What the profile intervals of all three forms leave open of [`Outlook::ever`].
    pub fn ever_interval(&self, age: f64) -> (f64, f64) {
        self.intervals.at(age, || self.profiled(age))
    }

    fn profiled(&self, age: f64) -> (f64, f64) {
        let ends = self.fits.iter().map(|f| f.ever_profile(age, self.conf).unwrap_or((0.0, 1.0)));
        ends.reduce(|a, b| (a.0.min(b.0), a.1.max(b.1))).unwrap_or((0.0, 1.0))
    }

    /// When at least one of `left` seeds has rooted as likely as not, by the middle form; `None`: more likely never.
    pub fn next(&self, age: f64, left: f64) -> Option<f64> {
        let never = f64::INFINITY;
        let times = [0, 1, 2].map(|i| self.fits[i].next_look(age, left, 0.5).unwrap_or(never));
        Some(Span::of(times).mid).filter(|t| t.is_finite())
    }

    /// The share of seeds that have rooted by `age`.
    pub fn share(&self, age: f64) -> Span {
        Span::of([0, 1, 2].map(|i| self.fits[i].share(age).unwrap_or(0.0)))
    }

    /// Days from the paper until this share of all seeds has rooted, by the middle form; `None`: never so many.
    pub fn when(&self, share: f64) -> Option<f64> {
        let rooted = |age: f64| self.share(age).mid;
        let mut high = 1.0;
        while rooted(high) < share {
            high *= 2.0;
            if high > LONGEST {
                return None;
            }
        }
        let mut low = 0.0;
        for _ in 0..40 {
            let middle = f64::midpoint(low, high);
            if rooted(middle) < share { low = middle } else { high = middle }
        }
        Some(high)
    }

    /// Why giving up `left` seeds not rooted by `age` is supported, if it is. Only bags of the same variety can say
    /// so. The forms do not speak for a bag that is `unlike` the others.
    pub fn giving_up(&self, age: f64, left: f64, unlike: bool) -> Option<Why> {
        if self.basis.kind_wide {
            return None;
        }
        if !unlike && self.forms_exclude(age, left) {
            return Some(Why::Forms);
        }
        let record = self.record(age);
        let holds = record.bags >= WATCHED_BAGS && left * record.most <= WORTH;
        holds.then_some(Why::Record(record))
    }

    fn forms_exclude(&self, age: f64, left: f64) -> bool {
        let kept = self.limits.iter().rev().find(|(from, _)| *from <= age);
        kept.is_some_and(|(_, most)| left * most <= WORTH)
    }

    /// What became of the club's seeds that were still on paper at `age`, a week on or half as long again. Seeds of
    /// which nobody knows whether they rooted before `age` or after it count as rooted after it.
    pub fn record(&self, age: f64) -> Record {
        let until = age + (0.5 * age).max(7.0);
        let waited = |s: &Seeds| match s.fate {
            Fate::Rooted { r, .. } => r > age,
            Fate::OnPaper { l } => l >= until,
            Fate::Removed { l } => l >= age,
        };
        let waited: Vec<Seeds> = self.rows.iter().map(Seeds::from).filter(waited).collect();
        let seeds: f64 = waited.iter().map(|s| s.count).sum();
        let later = waited.iter().filter(|s| matches!(s.fate, Fate::Rooted { .. }));
        let rooted: f64 = later.map(|s| s.count).sum();
        let bags = waited.iter().map(|s| s.bag).collect::<BTreeSet<_>>().len();
        let most = if seeds > 0.0 { wilson(rooted, seeds, self.conf).high } else { 1.0 };
        Record { seeds, rooted, bags, most }
    }
}

fn chance(of: Option<Chance>) -> f64 {
    of.map_or(0.0, |c| c.chance)
}

/// The confidence whose intervals are as much wider as errors are that allow for bags being unlike each other.
fn widened(fits: &[Fit; 3], seeds: &[Seeds]) -> f64 {
    let wider = |fit: &Fit| {
        let (alone, by_bag) = (fit.errors()?, fit.errors_by_bag(seeds, Removed::Never)?);
        let p = alone.p.zip(by_bag.p).map_or(1.0, |(a, b)| b / a);
        Some((by_bag.t50 / alone.t50).max(p)).filter(|k| k.is_finite())
    };
    let k = fits.iter().filter_map(wider).fold(1.0, f64::max).min(WIDEST);
    2.0 * normal_cdf(k * two_sided_z(CONF)) - 1.0
}

fn limits(fits: &[Fit; 3], conf: f64) -> Vec<(f64, f64)> {
    let start = fits.iter().filter_map(Fit::t50).fold(0.0, f64::max);
    let mut out: Vec<(f64, f64)> = Vec::new();
    for step in 0..STEPS {
        let age = start * FACTOR.powi(step);
        let most = fits.iter().map(|f| f.ever_at_most(age, conf)).fold(0.0, f64::max);
        out.push((age, most));
        if most < NEGLIGIBLE {
            break;
        }
    }
    out
}

#[cfg(test)]
pub mod tests {
    use super::*;
    use hilum_calc::dice::Dice;
    use hilum_calc::event_time::Form;

    /// What is drawn of the simulated truth.
    pub trait Truth {
        /// The day a seed roots: 80 % do, log-logistic with median 7 and shape 6.
        fn day(&mut self) -> Option<f64>;

        /// A bag of 10 looked at daily until `until`.
        fn bag(&mut self, until: f64, bag: usize) -> Vec<Seeds>;
    }

    impl Truth for Dice {
        fn day(&mut self) -> Option<f64> {
            let (capable, u) = (self.happens(0.8), self.share());
            capable.then(|| 7.0 * (u / (1.0 - u)).powf(1.0 / 6.0))
        }

        fn bag(&mut self, until: f64, bag: usize) -> Vec<Seeds> {
            let fate = |day: Option<f64>| match day {
                Some(t) if t <= until => Fate::Rooted { l: t.ceil() - 1.0, r: t.ceil() },
                _ => Fate::OnPaper { l: until },
            };
            (0..10).map(|_| Seeds { fate: fate(self.day()), count: 1.0, bag }).collect()
        }
    }

    pub fn pool(bags: usize, seeds: Vec<Seeds>) -> Pool {
        let rooted = seeds.iter().filter(|s| matches!(s.fate, Fate::Rooted { .. })).count() as f64;
        let basis = Basis {
            of: "Kestrel".into(),
            bags,
            growers: 4,
            rooted,
            warmth_c: Some((27.0, 29.0)),
            ..Basis::default()
        };
        Pool { basis, rows: seeds.iter().map(Row::from).collect() }
    }

    /// `bags` bags of the simulated truth, watched for `until` days.
    pub fn club(bags: usize, until: f64, seed: u64) -> Option<Outlook> {
        let mut dice = Dice::new(seed);
        Outlook::of(&pool(bags, (0..bags).flat_map(|b| dice.bag(until, b)).collect()))
    }

    #[test]
    fn numbers_are_those_of_the_three_fits() {
        let mut dice = Dice::new(1);
        let seeds: Vec<Seeds> = (0..14).flat_map(|b| dice.bag(21.0, b)).collect();
        let outlook = Outlook::of(&pool(14, seeds.clone())).unwrap();
        let mut each: Vec<f64> = Form::ALL
            .iter()
            .map(|f| Fit::of(&seeds, *f, Removed::Never).within(6.0, 3.0).unwrap().chance)
            .collect();
        each.sort_by(f64::total_cmp);
        let span = outlook.within(6.0, 3.0);
        assert_eq!([span.low, span.mid, span.high], each[..]);
        assert!((outlook.ever(0.0).mid - 0.8).abs() < 0.1, "{:?}", outlook.ever(0.0));
        let (low, high) = outlook.ever_interval(8.0);
        assert!(low < outlook.ever(8.0).low && outlook.ever(8.0).high < high);
    }

    /// 200 bags from the simulated truth, aged 7 days, from clubs of 12 bags: the number said for four days later is
    /// right on average, and misses by no more than chance has it.
    #[test]
    fn about_so_many_more_is_about_right() {
        let mut dice = Dice::new(7);
        let (mut said, mut came, mut squares, mut spread) = (0.0, 0.0, 0.0, 0.0);
        for club_number in 0..20 {
            let outlook = club(12, 21.0, 1000 + club_number).unwrap();
            for _ in 0..10 {
                let days: Vec<Option<f64>> = (0..10).map(|_| dice.day()).collect();
                let left = days.iter().filter(|d| d.is_none_or(|t| t > 7.0)).count() as f64;
                let more = days.iter().flatten().filter(|t| **t > 7.0 && **t <= 11.0).count() as f64;
                let q = outlook.within(7.0, 4.0).mid;
                said += left * q;
                came += more;
                squares += (more - left * q).powi(2);
                spread += left * q * (1.0 - q);
            }
        }
        assert!((said / came - 1.0).abs() < 0.06, "said {said}, came {came}");
        assert!((squares / spread - 1.0).abs() < 0.3, "squares {squares}, by chance {spread}");
    }

    /// In the truth a tenth of the seeds that root do so after day 10. Giving up six seeds is never supported while
    /// a seed waiting has a chance above one in twelve.
    #[test]
    fn giving_up_is_never_supported_while_seeds_are_worth_waiting_for() {
        let truth = |t: f64| {
            let late = 1.0 - 1.0 / (1.0 + (t / 7.0).powi(-6));
            0.8 * late / (0.2 + 0.8 * late)
        };
        let (mut early, mut asked) = (0, 0);
        for seed in 0..40 {
            let outlook = club(6 + seed % 3 * 6, 30.0, 50 + seed as u64).unwrap();
            for age in 6..30 {
                let age = f64::from(age);
                if 6.0 * truth(age) > WORTH {
                    asked += 1;
                    early += usize::from(outlook.giving_up(age, 6.0, false).is_some());
                }
            }
        }
        // each club may be wrong for one of the last days; 2.5 % of one-sided 95 % intervals are
        assert!(asked > 200 && early * 40 <= asked, "{early} of {asked}");
        let outlook = club(30, 30.0, 9).unwrap();
        assert!(outlook.giving_up(28.0, 2.0, false).is_some());
    }

    #[test]
    fn bags_that_were_only_watched_early_support_no_giving_up() {
        for seed in 0..10 {
            let Some(outlook) = club(8, 6.0, 300 + seed) else { continue };
            for age in [7.0, 9.0, 12.0] {
                assert_eq!(outlook.giving_up(age, 3.0, false), None, "{seed} {age}");
            }
        }
    }

    #[test]
    fn another_variety_of_the_kind_never_supports_giving_up() {
        let mut dice = Dice::new(3);
        let mut of = pool(30, (0..30).flat_map(|b| dice.bag(40.0, b)).collect());
        assert!(Outlook::of(&of).unwrap().giving_up(30.0, 1.0, false).is_some());
        of.basis.kind_wide = true;
        assert_eq!(Outlook::of(&of).unwrap().giving_up(30.0, 1.0, false), None);
    }

    #[test]
    fn extremes_make_no_outlook_or_sound_numbers() {
        let all = |fate: Fate| -> Vec<Seeds> { (0..8).map(|bag| Seeds { fate, count: 10.0, bag }).collect() };
        let none = pool(8, all(Fate::OnPaper { l: 12.0 }));
        let removed = pool(8, all(Fate::Removed { l: 4.0 }));
        let one_look = pool(8, all(Fate::Rooted { l: 0.0, r: 6.0 }));
        for empty in [Pool::default(), none, removed, one_look] {
            assert!(Outlook::of(&empty).is_none(), "{:?}", empty.basis);
        }
        let mut dice = Dice::new(11);
        let rooted = |dice: &mut Dice| dice.day().unwrap_or(8.0).ceil();
        let seeds: Vec<Seeds> = (0..80)
            .map(|i| {
                let r = rooted(&mut dice);
                Seeds { fate: Fate::Rooted { l: r - 1.0, r }, count: 1.0, bag: i / 10 }
            })
            .collect();
        let outlook = Outlook::of(&pool(8, seeds)).unwrap();
        for age in [0.0, 0.1, 7.0, 400.0] {
            for span in [outlook.ever(age), outlook.within(age, 3.0), outlook.share(age)] {
                assert!(0.0 <= span.low && span.low <= span.mid && span.mid <= span.high && span.high <= 1.0);
            }
            let (low, high) = outlook.ever_interval(age);
            assert!(0.0 <= low && low <= high && high <= 1.0, "{low} {high}");
        }
    }

    #[test]
    fn removed_seeds_as_lost_from_sight_raise_the_chance() {
        let mut dice = Dice::new(5);
        let mut seeds: Vec<Seeds> = (0..10).flat_map(|b| dice.bag(21.0, b)).collect();
        seeds.push(Seeds { fate: Fate::Removed { l: 5.0 }, count: 12.0, bag: 2 });
        let outlook = Outlook::of(&pool(10, seeds)).unwrap();
        assert!(outlook.ever_if_lost(6.0).unwrap().mid > outlook.ever(6.0).mid);
        assert!(club(10, 21.0, 4).unwrap().ever_if_lost(6.0).is_none());
    }
}
