//! Base temperature and thermal time: what must hold, and published tables.

use crate::support::{Dice, table};
use hilum_calc::thermal::{Line, Status, Warmth, days};

fn points(rows: &[(f64, f64)]) -> Vec<Warmth> {
    rows.iter().map(|&(celsius, t50)| Warmth { celsius, t50 }).collect()
}

#[test]
fn the_emergence_table_gives_the_thermal_times_worked_from_it() {
    // emergence_by_soil_temperature.csv (Harrington & Minges 1954) and thermal_time_from_hm1954.csv, which
    // names its rule: least squares of 1/days on T, from the first point at 5 degrees or more to the
    // first least number of days.
    let emergence = table("emergence_by_soil_temperature");
    let worked = table("thermal_time_from_hm1954");
    for row in &worked {
        let days = emergence.iter().filter(|e| e[0] == row[0] && !e[3].is_empty());
        let all: Vec<(f64, f64)> =
            days.map(|e| (e[1].parse().unwrap(), e[3].parse().unwrap())).filter(|d| d.0 >= 5.0).collect();
        let least = all.iter().map(|d| d.1).fold(f64::INFINITY, f64::min);
        let upto = all.iter().position(|d| d.1 == least).unwrap();
        let line = Line::fit(&points(&all[..=upto]), 0.95);
        let close = |got: f64, column: usize, half: f64| {
            assert!(
                (got - row[column].parse::<f64>().unwrap()).abs() <= half,
                "{}: {got} {}",
                &row[0],
                &row[column]
            );
        };
        close(line.n as f64, 1, 0.0);
        close(line.base.unwrap().value, 2, 0.005_001);
        close(line.thermal_time.unwrap().value, 3, 0.050_001);
        close(line.r_squared.unwrap(), 4, 0.000_050_1);
    }
    assert!(worked.len() > 20);
}

#[test]
fn onion_on_moist_paper_as_published() {
    // Harrington 1962 in Brewster, Onions and Other Vegetable Alliums: base 2.5 degrees, 80 degree-days.
    assert_eq!(days(2.5, 80.0, 22.5), Some(4.0));
    assert_eq!(days(2.5, 80.0, 7.5), Some(16.0));
    assert_eq!(days(2.5, 80.0, 2.5), None);
}

#[test]
fn each_status_by_name() {
    let cases: [(&[(f64, f64)], Status); 8] = [
        (&[], Status::NoTemperatureSpread),
        (&[(20.0, 5.0)], Status::NoTemperatureSpread),
        (&[(20.0, 5.0), (20.0, 6.0), (20.0, 7.0)], Status::NoTemperatureSpread),
        (&[(15.0, 10.0), (25.0, 4.0)], Status::TwoPointsNoInterval),
        (&[(25.0, 4.0), (35.0, 10.0)], Status::SlopeNotPositive),
        (&[(15.0, 8.0), (20.0, 8.0), (25.0, 8.0)], Status::SlopeNotPositive),
        (&[(15.0, 8.0), (20.0, 4.0), (25.0, 7.0)], Status::SlopeNotSignificant),
        (&[(10.0, 43.0), (15.0, 14.0), (20.0, 8.0), (25.0, 6.0)], Status::Ok),
    ];
    for (rows, status) in cases {
        let line = Line::fit(&points(rows), 0.95);
        assert_eq!(line.status, status, "{rows:?}");
        let rises = !matches!(status, Status::NoTemperatureSpread | Status::SlopeNotPositive);
        assert_eq!(line.base.is_some() && line.thermal_time.is_some(), rises, "{rows:?}");
        assert_eq!(line.base.is_some_and(|b| b.exact.is_some()), status == Status::Ok, "{rows:?}");
    }
}

#[test]
fn random_points_give_finite_numbers_in_any_order() {
    let mut dice = Dice(8);
    for round in 0..3000 {
        let n = dice.below(8) as usize;
        let mut rows: Vec<Warmth> = (0..n)
            .map(|_| Warmth { celsius: dice.below(36) as f64, t50: 0.5 + 40.0 * dice.even() })
            .collect();
        let line = Line::fit(&rows, 0.95);
        rows.reverse();
        assert_eq!(line, Line::fit(&rows, 0.95), "round {round}");
        for estimate in [line.base, line.thermal_time].into_iter().flatten() {
            assert!(estimate.value.is_finite() && estimate.se.is_none_or(f64::is_finite), "{line:?}");
            for (low, high) in [estimate.delta, estimate.exact].into_iter().flatten() {
                assert!(low <= estimate.value && estimate.value <= high && high.is_finite(), "{line:?}");
            }
        }
        let speed = line.r_squared.unwrap_or(0.0);
        assert!((0.0..=1.0).contains(&speed) && line.days(20.0).is_none_or(|d| d > 0.0), "{line:?}");
    }
}
