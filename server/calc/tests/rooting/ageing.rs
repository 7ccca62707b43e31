//! Viability by age, and the published equation: what must hold, and worked values.

use crate::support::{Dice, table};
use hilum_calc::ageing::{Aged, Line, Link, Status};
use hilum_calc::viability::{Constants, Store, Untested, half_life, sigma_days, viable_after};

fn aged(rows: &[(f64, f64, f64)]) -> Vec<Aged> {
    rows.iter().map(|&(age, x, n)| Aged { age, x, n }).collect()
}

/// Log-likelihood as the formula has it, without the coefficients.
fn plain(rows: &[Aged], link: Link, intercept: f64, slope: f64) -> f64 {
    let row = |r: &Aged| {
        let line = intercept + slope * r.age;
        let part = |count: f64, line: f64| if count > 0.0 { count * link.rate(line).ln() } else { 0.0 };
        part(r.x, line) + part(r.n - r.x, -line)
    };
    rows.iter().map(row).sum()
}

#[test]
fn random_seeds_get_the_likeliest_line_or_a_reason() {
    let mut dice = Dice(6);
    let mut ends = [0; 4];
    for round in 0..3000 {
        let scale = [1.0, 20.0, 1e5][round % 3];
        let row = |dice: &mut Dice| {
            let n = 1.0 + (scale * dice.below(6) as f64);
            Aged { age: 0.5 * dice.below(8) as f64, x: dice.below(n as u64 + 1) as f64, n }
        };
        let rows: Vec<Aged> = (0..1 + dice.below(6)).map(|_| row(&mut dice)).collect();
        for link in Link::ALL {
            let line = match Line::fit(&rows, link) {
                Ok(line) => line,
                Err(status) => {
                    ends[status as usize] += 1;
                    continue;
                }
            };
            ends[0] += 1;
            let numbers =
                [line.variance.0, line.variance.1, line.variance.2, line.deviance, line.pearson, line.loglik];
            assert!(numbers.iter().all(|x| x.is_finite()), "{line:?} {rows:?}");
            let here = plain(&rows, link, line.intercept, line.slope);
            for k in 0..20 {
                let reach = [1e-3, 0.1, 1.0][k % 3];
                let mut shift = || (dice.even() - 0.5) * reach;
                let there = plain(&rows, link, line.intercept + shift(), line.slope + shift());
                assert!(there <= here + 1e-8 * here.abs(), "round {round}: {there} {here} {line:?} {rows:?}");
            }
            let rate = line.at(3.0, 0.95);
            assert!(
                0.0 <= rate.low && rate.low <= rate.rate && rate.rate <= rate.high && rate.high <= 1.0,
                "{rate:?}"
            );
        }
    }
    assert!(ends.iter().all(|n| *n > 50), "{ends:?}");
}

#[test]
fn the_order_of_rows_does_not_matter() {
    let mut rows =
        aged(&[(0.0, 9.0, 10.0), (1.0, 18.0, 20.0), (1.0, 8.0, 10.0), (3.0, 6.0, 10.0), (6.0, 4.0, 20.0)]);
    let before = Line::fit(&rows, Link::Probit);
    rows.reverse();
    assert_eq!(before, Line::fit(&rows, Link::Probit));
}

#[test]
fn each_reason_by_name() {
    let cases = [
        (aged(&[]), Status::NoVariation),
        (aged(&[(1.0, 0.0, 0.0)]), Status::NoVariation),
        (aged(&[(1.0, 10.0, 10.0), (2.0, 8.0, 8.0)]), Status::NoVariation),
        (aged(&[(1.0, 0.0, 10.0), (2.0, 0.0, 8.0)]), Status::NoVariation),
        (aged(&[(2.0, 5.0, 10.0), (2.0, 3.0, 8.0)]), Status::NoAgeSpread),
        (aged(&[(1.0, 10.0, 10.0), (2.0, 0.0, 8.0)]), Status::Separated),
        (aged(&[(1.0, 10.0, 10.0), (2.0, 4.0, 8.0), (3.0, 0.0, 8.0)]), Status::Separated),
        (aged(&[(1.0, 0.0, 10.0), (2.0, 4.0, 8.0)]), Status::Separated),
    ];
    for (rows, status) in cases {
        for link in Link::ALL {
            assert_eq!(Line::fit(&rows, link).err(), Some(status), "{rows:?}");
        }
    }
}

#[test]
fn viability_that_does_not_fall_has_no_half_age() {
    let rows = aged(&[(0.0, 5.0, 10.0), (2.0, 6.0, 10.0), (4.0, 8.0, 10.0)]);
    let line = Line::fit(&rows, Link::Probit).unwrap();
    assert!(line.slope > 0.0 && line.half_age().is_none() && line.sigma_years().is_none());
}

#[test]
fn the_published_equation_gives_the_worked_values_inside_its_range_only() {
    // viability_worked.csv: Demir et al. 2009 constants, worked by the formula it names.
    let mut inside = 0;
    for row in table("viability_worked") {
        let number = |i: usize| row[i].parse::<f64>().unwrap();
        let store = Store { moisture: number(0), celsius: number(1) };
        let sigma = sigma_days(&Constants::pepper(), store);
        if number(0) < 7.0 {
            assert_eq!(sigma, Err(Untested::Moisture(7.0..=12.1)));
            continue;
        }
        inside += 1;
        assert!((sigma.unwrap() / number(2) - 1.0).abs() < 1e-5);
        let half = half_life(&Constants::pepper(), store, 0.95).unwrap();
        assert!((half / number(3) - 1.0).abs() < 1e-4, "{half}");
        let left = viable_after(&Constants::pepper(), store, 0.95, 365.0).unwrap();
        assert!((100.0 * left - number(4)).abs() < 6e-4, "{left}");
    }
    assert_eq!(inside, 3);
}

#[test]
fn beyond_the_tested_range_there_is_no_answer() {
    let pepper = Constants::pepper();
    let at = |moisture, celsius| Store { moisture, celsius };
    assert_eq!(sigma_days(&pepper, at(12.2, 20.0)), Err(Untested::Moisture(7.0..=12.1)));
    assert_eq!(sigma_days(&pepper, at(f64::NAN, 20.0)), Err(Untested::Moisture(7.0..=12.1)));
    assert_eq!(sigma_days(&pepper, at(8.0, -18.0)), Err(Untested::Celsius(-13.0..=90.0)));
    assert_eq!(viable_after(&pepper, at(8.0, 5.0), 1.0, 365.0), Err(Untested::Start));
    assert_eq!(viable_after(&pepper, at(8.0, 5.0), 0.9, -1.0), Err(Untested::Start));
    assert_eq!(half_life(&pepper, at(8.0, 5.0), 0.0), Err(Untested::Start));
}
