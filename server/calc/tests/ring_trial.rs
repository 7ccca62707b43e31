//! Sizes of ring trials.

use hilum_calc::ring_trial::{Aim, alike, plants_of_100, seeds_to_show};

fn aim() -> Aim {
    Aim { rate: 0.8, difference: 0.1, certainty: 0.8, lots: 2, bag: 10, rho: 0.0, efficiency: 1.0 }
}

#[test]
fn independent_seeds_are_those_of_the_published_formula() {
    // Fleiss, Tytun and Ury 1980 with p 0.85 and 0.75, alpha 0.05, power 0.8: 250 without, 269.6 with
    // the correction (worked by hand from the formula in `power`).
    let n = aim().seeds();
    assert!((n - 269.6).abs() < 1.0, "{n}");
}

#[test]
fn unlike_bags_and_incomplete_blocks_cost_seeds() {
    let plain = aim().seeds();
    // Kish 1965: 1 + (10 - 1) 0.1
    assert!((Aim { rho: 0.1, ..aim() }.seeds() / plain - 1.9).abs() < 1e-12);
    assert!((Aim { efficiency: 0.8, ..aim() }.seeds() / plain - 1.25).abs() < 1e-12);
    assert!(Aim { lots: 4, ..aim() }.seeds() > plain, "six pairs share the level");
}

#[test]
fn what_fewer_seeds_can_do_is_the_way_back() {
    for lots in [2, 3, 6] {
        for difference in [0.05, 0.1, 0.3] {
            for rate in [0.0, 0.3, 0.9, 1.0] {
                let aim = Aim { lots, difference, rate, rho: 0.05, ..aim() };
                let n = aim.seeds();
                assert!((aim.certainty_of(n) - 0.8).abs() < 1e-6, "{aim:?}");
                assert!((aim.difference_of(n) - difference).abs() < 1e-6, "{aim:?}");
                assert!(aim.certainty_of(n / 3.0) < 0.5 && aim.difference_of(n / 3.0) > difference);
            }
        }
    }
    assert!(aim().certainty_of(0.5) < 0.06 && aim().difference_of(0.5) > 0.9);
}

#[test]
fn likeness_is_pooled_over_groups() {
    // By hand: 9 of 10 and 5 of 10, p 0.7: (2^2 + 2^2) / 2.1 = 3.8095; 6 and 8 of 10: 2 / 2.1 = 0.9524;
    // together 4.7619 on 2 degrees of freedom, so 2.381 times as unlike; (2.381 - 1) / 9 = 0.15344.
    let found = alike(&[vec![(9, 10), (5, 10)], vec![(6, 10), (8, 10)], vec![(3, 10)], vec![]]).unwrap();
    assert!((found.rho - 0.153_439).abs() < 1e-5 && found.df == 2, "{found:?}");
    assert_eq!(alike(&[vec![(5, 10), (5, 10)]]).unwrap().rho, 0.0);
    assert_eq!(alike(&[vec![(5, 10)], vec![(10, 10), (10, 10)]]), None);
    assert_eq!(alike(&[vec![(1, 1), (0, 1)]]), None, "single seeds have no likes");
}

#[test]
fn what_would_show_it_follows_from_what_was_found() {
    // independent seeds: the standard error of a log odds ratio is sqrt(2 / (n p q)) (Woolf 1955), and the answer is
    // then near the seeds of the published formula, 270 for 85 and 75 of 100
    let (n, pq) = (100.0, 0.8 * 0.2);
    let error = (2.0_f64 / (n * pq)).sqrt();
    let seeds = seeds_to_show((n, error), (0.1, 0.8), 0.8, 1.0);
    assert!((seeds - 250.0).abs() < 10.0, "{seeds}");
    let twice = seeds_to_show((n, 2.0 * error), (0.1, 0.8), 0.8, 1.0);
    assert!((twice / seeds - 4.0).abs() < 1e-9, "unlike growers cost seed");
    assert!(seeds_to_show((n, error), (0.1, 0.8), 0.8, 6.0) > seeds);
    assert!(seeds_to_show((n, error), (0.5, 1.0), 0.8, 1.0).is_finite());
}

#[test]
fn plants_follow_the_odds() {
    // 60 and 40 of 100: odds ratio 2.25 about the middle 0.5
    assert!((plants_of_100(2.25_f64.ln(), 0.5) - 20.0).abs() < 1e-12);
    assert_eq!(plants_of_100(0.0, 1.0), 0.0);
    assert!(plants_of_100(-1.0, 0.9) < 0.0);
}
