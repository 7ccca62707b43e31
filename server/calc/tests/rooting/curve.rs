//! The nonparametric curve: what must hold for any looks.

use crate::support::Dice;
use hilum_calc::curve::{Curve, Interval};

fn interval(dice: &mut Dice) -> Interval {
    let l = dice.below(12) as f64;
    let r = (dice.below(4) > 0).then(|| l + 1.0 + dice.below(6) as f64);
    Interval { l, r, count: 1.0 + dice.below(9) as f64 }
}

fn seen(l: f64, r: f64, count: f64) -> Interval {
    Interval { l, r: Some(r), count }
}

fn not_by(l: f64, count: f64) -> Interval {
    Interval { l, r: None, count }
}

/// Log-likelihood per seed of any curve, worked afresh from the looks.
fn loglik(rows: &[Interval], curve: &Curve) -> f64 {
    let inside = |row: &Interval| {
        let within = |s: &&hilum_calc::curve::Support| {
            s.after >= row.l && row.r.is_none_or(|r| s.upto.is_some_and(|upto| upto <= r))
        };
        curve.support().iter().filter(within).map(|s| s.mass).sum::<f64>()
    };
    rows.iter().map(|row| row.count * inside(row).ln()).sum()
}

#[test]
fn every_random_set_of_looks_is_solved_to_the_gradient_condition() {
    let mut dice = Dice(1);
    for round in 0..800 {
        let size = 1 + dice.below(40) as usize;
        let rows: Vec<Interval> = (0..size).map(|_| interval(&mut dice)).collect();
        let curve = Curve::fit(&rows);
        assert!(curve.gap() < 1e-8, "round {round}: gap {}", curve.gap());
        let sum: f64 = curve.support().iter().map(|s| s.mass).sum();
        assert!((sum - 1.0).abs() < 1e-9, "round {round}: masses sum to {sum}");
        let fresh = loglik(&rows, &curve);
        assert!((curve.loglik() - fresh).abs() < 1e-8 * fresh.abs().max(1.0), "round {round}");
        let shares: Vec<f64> = (0..20).map(|t| curve.at(f64::from(t)).low).collect();
        assert!(
            shares.windows(2).all(|w| w[0] <= w[1] + 1e-12 && w[1] <= 1.0 + 1e-12),
            "round {round}: {shares:?}"
        );
        for band in curve.band(0.95) {
            assert!(
                0.0 <= band.low && band.low <= band.share + 1e-12 && band.share <= band.high + 1e-12,
                "{band:?}"
            );
            assert!(band.high <= 1.0 + 1e-12 && band.se.is_none_or(f64::is_finite), "{band:?}");
        }
    }
}

#[test]
fn the_order_of_rows_does_not_matter() {
    let mut dice = Dice(2);
    let mut rows: Vec<Interval> = (0..60).map(|_| interval(&mut dice)).collect();
    let before = Curve::fit(&rows);
    rows.reverse();
    rows.rotate_left(17);
    let after = Curve::fit(&rows);
    assert_eq!(before.support(), after.support());
    assert_eq!(before.loglik().to_bits(), after.loglik().to_bits());
}

#[test]
fn splitting_a_count_over_rows_changes_nothing() {
    let whole = Curve::fit(&[seen(0.0, 2.0, 3.0), seen(1.0, 4.0, 5.0), not_by(3.0, 2.0)]);
    let split = Curve::fit(&[
        seen(0.0, 2.0, 1.0),
        seen(0.0, 2.0, 2.0),
        seen(1.0, 4.0, 5.0),
        not_by(3.0, 1.0),
        not_by(3.0, 1.0),
    ]);
    assert_eq!(whole.support(), split.support());
}

#[test]
fn all_still_on_paper_gives_nothing_rooted() {
    let curve = Curve::fit(&[not_by(3.0, 4.0), not_by(5.0, 6.0)]);
    assert_eq!(curve.at(5.0).low, 0.0);
    assert_eq!(curve.at(5.0).high, 0.0);
    assert_eq!((curve.at(6.0).low, curve.at(6.0).high, curve.at(6.0).mid), (0.0, 1.0, None));
    assert_eq!(curve.rooted(), 0.0);
    assert!(curve.median_of_rooting().is_none());
    assert_eq!(curve.loglik(), 0.0);
}

#[test]
fn no_seeds_gives_no_knowledge() {
    let curve = Curve::fit(&[]);
    assert_eq!((curve.at(3.0).low, curve.at(3.0).high, curve.at(3.0).mid), (0.0, 1.0, None));
    assert!(curve.support().is_empty() && curve.median_of_rooting().is_none() && curve.band(0.95).is_empty());
}

#[test]
fn one_seed_rooted_between_two_looks() {
    let curve = Curve::fit(&[seen(3.0, 5.0, 1.0)]);
    assert_eq!(curve.rooted(), 1.0);
    let half = curve.at(4.0);
    assert_eq!((half.low, half.high, half.mid), (0.0, 1.0, Some(0.5)));
    let median = curve.median_of_rooting().unwrap();
    assert_eq!((median.low, median.high, median.mid), (3.0, 5.0, 4.0));
}

#[test]
fn a_million_seeds_with_shares_that_differ_much() {
    let curve =
        Curve::fit(&[seen(0.0, 2.0, 1.0), seen(2.0, 3.0, 999_990.0), seen(2.5, 4.0, 8.0), not_by(4.0, 1.0)]);
    assert!(curve.gap() < 1e-8);
    assert!((curve.at(2.0).low * 1e6 - 1.0).abs() < 1e-6);
}

#[test]
fn the_band_of_one_bag_is_wilsons_of_its_count() {
    // 17 of 40 by day 4; Wilson 1927 worked by hand: (0.285, 0.578).
    let curve = Curve::fit(&[seen(0.0, 3.0, 5.0), seen(3.0, 4.0, 12.0), not_by(4.0, 23.0)]);
    let band = curve.band(0.95)[1];
    let (n, p, z) = (40.0, 17.0 / 40.0, 1.959_963_984_540_054_f64);
    let (middle, half) = (p + z * z / (2.0 * n), z * (p * (1.0 - p) / n + z * z / (4.0 * n * n)).sqrt());
    assert!((band.low - (middle - half) / (1.0 + z * z / n)).abs() < 1e-9, "{band:?}");
    assert!((band.high - (middle + half) / (1.0 + z * z / n)).abs() < 1e-9, "{band:?}");
}

#[test]
fn standard_errors_with_removed_seeds_are_greenwoods() {
    // R 4.2.2, survival 3.5-3: summary(survfit(Surv(time, event) ~ 1)), 40 seeds, removed dead:
    // 4 at day 5, 3 at day 7.
    let rows = [
        seen(0.0, 3.0, 6.0),
        seen(3.0, 5.0, 10.0),
        not_by(5.0, 4.0),
        seen(5.0, 7.0, 8.0),
        not_by(7.0, 3.0),
        seen(7.0, 10.0, 2.0),
        not_by(10.0, 7.0),
    ];
    let greenwood = [
        (0.15, 0.056_457_948_953_181_1),
        (0.40, 0.077_459_666_924_148_3),
        (0.64, 0.080_498_447_189_992_4),
        (0.72, 0.080_055_536_278_816_4),
    ];
    for (band, (share, se)) in Curve::fit(&rows).band(0.95).iter().zip(greenwood) {
        assert!((band.share - share).abs() < 1e-9 && (band.se.unwrap() - se).abs() < 1e-9, "{band:?}");
    }
}
