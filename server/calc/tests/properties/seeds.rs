//! Properties of the methods that count seeds: rates, comparisons, sowing, power.

use crate::random::Random;
use hilum_calc::compare::Two;
use hilum_calc::power::Question;
use hilum_calc::proportion::{Interval, clopper_pearson, jeffreys, wilson};
use hilum_calc::sowing::{Tested, estimated_rate, known_rate, two_stages};
use hilum_calc::tails::{AtLeast, Margins, binomial_at_least, binomial_masses, ln_beta_binomial, ln_choose};

const CONFS: [f64; 4] = [0.5, 0.9, 0.95, 0.999_999];
const INTERVALS: [fn(u64, u64, f64) -> Interval; 3] =
    [clopper_pearson, jeffreys, |x, n, conf| wilson(x as f64, n as f64, conf)];

fn some_counts() -> Vec<(u64, u64)> {
    let mut random = Random::new(1);
    let mut counts =
        vec![(0, 1), (1, 1), (0, 1_000_000), (1_000_000, 1_000_000), (1, 1_000_000), (5, 1_000_000_000)];
    for size in [2, 10, 50, 400, 100_000] {
        for _ in 0..40 {
            let n = 1 + random.below(size);
            counts.push((random.below(n + 1), n));
        }
    }
    counts
}

#[test]
fn intervals_hold_the_estimate_and_stay_within_0_and_1() {
    for (x, n) in some_counts() {
        for conf in CONFS {
            for interval in INTERVALS {
                let Interval { low, high } = interval(x, n, conf);
                let share = x as f64 / n as f64;
                assert!(low <= share && share <= high, "{x}/{n} at {conf}: {low} {high}");
                assert!(low >= 0.0 && high <= 1.0 && low < high, "{x}/{n} at {conf}: {low} {high}");
            }
        }
    }
}

#[test]
fn intervals_narrow_with_seeds_and_widen_with_confidence() {
    for (x, n) in some_counts().into_iter().filter(|(_, n)| *n < 1_000_000) {
        for interval in INTERVALS {
            let width = |x, n, conf| {
                let Interval { low, high } = interval(x, n, conf);
                high - low
            };
            assert!(width(4 * x, 4 * n, 0.95) < width(x, n, 0.95), "{x}/{n}");
            assert!(width(x, n, 0.99) > width(x, n, 0.95), "{x}/{n}");
        }
    }
}

#[test]
fn failures_mirror_successes() {
    for (x, n) in some_counts() {
        for interval in INTERVALS {
            let (one, two) = (interval(x, n, 0.95), interval(n - x, n, 0.95));
            assert!((one.low - (1.0 - two.high)).abs() < 1e-12, "{x}/{n}");
        }
    }
}

/// Tables small enough for exact whole numbers: the probability of each count is a ratio of these.
fn ways(two: Two) -> Vec<(u64, u128)> {
    let choose = |n: u64, k: u64| (0..k).fold(1_u128, |c, i| c * u128::from(n - i) / u128::from(i + 1));
    let marked = two.x1 + two.x2;
    let counts = marked.saturating_sub(two.n2)..=two.n1.min(marked);
    counts.map(|x| (x, choose(two.n1, x) * choose(two.n2, marked - x))).collect()
}

#[test]
fn fisher_agrees_with_counting_in_whole_numbers() {
    let mut random = Random::new(2);
    for _ in 0..400 {
        let (n1, n2) = (1 + random.below(25), 1 + random.below(25));
        let two = Two { x1: random.below(n1 + 1), n1, x2: random.below(n2 + 1), n2 };
        let ways = ways(two);
        let all: u128 = ways.iter().map(|w| w.1).sum();
        let observed = ways.iter().find(|w| w.0 == two.x1).unwrap().1;
        let extreme: u128 = ways.iter().map(|w| w.1).filter(|w| *w <= observed).sum();
        let want = extreme as f64 / all as f64;
        let got = two.exact_test();
        assert!((got.fisher - want).abs() < 1e-12, "{two:?}: want {want}, got {}", got.fisher);
        assert!(got.mid_p <= got.fisher && got.mid_p_doubled <= 1.0 && got.mid_p >= 0.0, "{two:?}");
    }
}

#[test]
fn comparisons_hold_their_estimates_and_turn_round_with_the_groups() {
    let mut random = Random::new(3);
    for size in [3, 30, 1000, 1_000_000] {
        for _ in 0..10 {
            let (n1, n2) = (1 + random.below(size), 1 + random.below(size));
            let two = Two { x1: random.below(n1 + 1), n1, x2: random.below(n2 + 1), n2 };
            let turned = Two { x1: two.x2, n1: two.n2, x2: two.x1, n2: two.n1 };
            let newcombe = two.newcombe(0.95);
            assert!(newcombe.low <= two.difference() && two.difference() <= newcombe.high, "{two:?}");
            assert!((newcombe.low + turned.newcombe(0.95).high).abs() < 1e-12, "{two:?}");
            let (one, other) = (two.exact_test().fisher, turned.exact_test().fisher);
            assert!((one - other).abs() <= 1e-9 * one, "{two:?}: {one} {other}");
            let odds = two.conditional_odds(0.95);
            assert!(
                odds.interval.low <= odds.estimate && odds.estimate <= odds.interval.high,
                "{two:?}: {odds:?}"
            );
            let (estimate, interval) = two.half_added(0.95);
            assert!(interval.low < estimate && estimate < interval.high, "{two:?}");
        }
    }
}

#[test]
fn conditional_odds_ratio_is_where_the_mean_is_the_count() {
    let mut random = Random::new(4);
    for _ in 0..200 {
        let (n1, n2) = (2 + random.below(500), 2 + random.below(500));
        let two = Two { x1: random.below(n1 + 1), n1, x2: random.below(n2 + 1), n2 };
        let margins = Margins { first: n1, second: n2, marked: two.x1 + two.x2 };
        let odds = two.conditional_odds(0.95);
        if odds.estimate > 0.0 && odds.estimate.is_finite() {
            let mean = margins.masses(odds.estimate, 0.0).mean();
            assert!((mean - two.x1 as f64).abs() < 1e-8 * mean.max(1.0), "{two:?}: {mean}");
            let tail = margins.masses(odds.interval.low, 0.0).at_least(two.x1);
            assert!((tail - 0.025).abs() < 1e-9, "{two:?}: {tail}");
        }
    }
}

#[test]
fn binomial_tails_are_sums_of_their_parts() {
    let mut random = Random::new(5);
    for _ in 0..100 {
        let (n, p) = (1 + random.below(300), random.share());
        let masses = binomial_masses(n, p);
        let k = random.below(n + 2);
        let want: f64 = masses.iter().skip(k as usize).rev().sum();
        assert!((binomial_at_least(k, n, p) - want).abs() < 1e-12, "{k} {n} {p}");
        let one =
            (ln_choose(n, k.min(n)) + k.min(n) as f64 * p.ln() + (n - k.min(n)) as f64 * (-p).ln_1p()).exp();
        assert!((masses[k.min(n) as usize] - one).abs() < 1e-12, "{k} {n} {p}");
    }
}

#[test]
fn the_urn_agrees_with_the_sum() {
    let mut random = Random::new(6);
    for _ in 0..60 {
        let (k, a, b) = (1 + random.below(40), 0.5 + random.below(30) as f64, 0.5 + random.below(30) as f64);
        let n = k + random.below(100);
        let got = AtLeast::new(k, a, b).nth((n - k) as usize).unwrap();
        let want: f64 = (k..=n).map(|x| ln_beta_binomial(x, n, a, b).exp()).sum();
        assert!((got - want).abs() < 1e-12, "{k} of {n}, {a} {b}: want {want}, got {got}");
    }
}

#[test]
fn sowing_gives_the_least_number_that_is_enough() {
    let mut random = Random::new(7);
    for _ in 0..60 {
        let (plants, conf) = (1 + random.below(80), 0.5 + random.share() * 0.49);
        let n = random.below(60);
        let test = Tested { x: random.below(n + 1), n };
        let sure = Tested { x: 100_000_000, n: 100_000_000 };
        let estimated = estimated_rate(plants, test, conf);
        for sowing in [known_rate(plants, 0.01 + random.share() * 0.98, conf), estimated] {
            match sowing.seeds {
                Some(seeds) => assert!(seeds >= plants && sowing.probability >= conf - 1e-12, "{sowing:?}"),
                None => assert!(sowing.probability < conf, "{sowing:?}"),
            }
            assert!(sowing.one_fewer < conf, "{sowing:?}");
        }
        let two = two_stages(plants, test, sure, conf);
        if let (Some(one), Some(both)) = (estimated.seeds, two.seeds) {
            assert_eq!(
                one, both,
                "a second stage that never fails changes nothing: {plants} {test:?} {conf}"
            );
        }
        let later = two_stages(plants, test, Tested { x: 7, n: 10 }, conf);
        if let (Some(one), Some(both)) = (estimated.seeds, later.seeds) {
            assert!(both >= one, "{plants} {test:?} {conf}");
        }
    }
}

#[test]
fn sowing_ends_where_no_number_is_enough() {
    let never = known_rate(3, 0.0, 0.9);
    assert_eq!((never.seeds, never.probability), (None, 0.0));
    assert_eq!(known_rate(3, 1.0, 0.9).seeds, Some(3));
    assert_eq!(known_rate(1, 0.5, 0.5).seeds, Some(1), "an exact tie is enough");
    assert_eq!(estimated_rate(10, Tested { x: 0, n: 1_000_000 }, 0.9).seeds, None);
    assert_eq!(two_stages(10, Tested { x: 0, n: 100 }, Tested { x: 5, n: 5 }, 0.9).seeds, None);
    assert_eq!(two_stages(1_000_000, Tested { x: 5, n: 5 }, Tested { x: 5, n: 5 }, 0.9).probability, 0.0);
}

#[test]
fn fisher_power_agrees_with_going_through_all_tables() {
    let mut random = Random::new(8);
    for _ in 0..40 {
        let n = 1 + random.below(14);
        let question = Question { p1: random.share(), p2: random.share(), alpha: 0.05, power: 0.8 };
        let (one, two) = (binomial_masses(n, question.p1), binomial_masses(n, question.p2));
        let mut want = 0.0;
        for x1 in 0..=n {
            for x2 in 0..=n {
                let found = Two { x1, n1: n, x2, n2: n }.exact_test().fisher <= 0.05;
                want += if found { one[x1 as usize] * two[x2 as usize] } else { 0.0 };
            }
        }
        let got = question.fisher_power(n).unwrap();
        assert!((got - want).abs() < 1e-12, "{question:?} {n}: want {want}, got {got}");
    }
}

#[test]
fn the_least_n_is_the_least_of_all() {
    for (p1, p2, power) in [
        (0.5, 0.75, 0.9),
        (0.02, 0.12, 0.8),
        (0.9, 0.99, 0.7),
        (0.1, 0.9, 0.95),
        (0.3, 0.5, 0.2),
        (0.0, 0.05, 0.9),
    ] {
        let question = Question { p1, p2, alpha: 0.05, power };
        let reaches = |n: &u64| question.fisher_power(*n).unwrap() >= power;
        let exact = question.exact().unwrap();
        assert_eq!((1..).find(reaches), Some(exact.first), "{question:?}");
        assert!(exact.stays >= exact.first && !reaches(&(exact.stays - 1)), "{question:?}");
    }
}

#[test]
fn closer_rates_and_more_power_need_more_seeds() {
    let n = |p2: f64, power: f64| Question { p1: 0.5, p2, alpha: 0.05, power }.corrected();
    assert!(n(0.6, 0.8) > n(0.7, 0.8) && n(0.6, 0.9) > n(0.6, 0.8));
    let close = Question { p1: 0.5, p2: 0.51, alpha: 0.05, power: 0.8 };
    assert_eq!(close.exact(), None, "too much to go through");
    assert!(close.fisher_power(20_000).is_some_and(|p| (0.4..0.6).contains(&p)));
}
