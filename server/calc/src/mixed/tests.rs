use super::laplace::{Laplace, Mode};
use super::*;

const NAMES: [&str; 6] = ["a", "b", "c", "d", "e", "f"];
pub const ALL: Terms = Terms { lot: true, source: true, ..Terms::CLUB };

pub fn club() -> Vec<Trial<'static>> {
    let mut k = 7_usize;
    let mut roll = |n: usize| {
        k = (k * 1103 + 12_345) % 65_536;
        k * n / 65_536
    };
    let cells = ["v/a", "v/b", "w/a", "w/b", "w/c", "z/a"];
    let mut trial = |_| {
        let cell = cells[roll(6)];
        let n = 5.0 + roll(20) as f64;
        let x = (n * (0.3 + 0.1 * roll(7) as f64)).round();
        let grower = roll(4);
        let (lot, club) = (Some(NAMES[roll(2)]), Some(NAMES[grower % 3]));
        Trial { variety: &cell[..1], cell, source: Some(&cell[2..]), lot, grower: NAMES[grower], club, x, n }
    };
    (0..40).map(&mut trial).collect()
}

fn columns(trials: &[Trial]) -> Fixed {
    let values = trials.iter().enumerate().flat_map(|(i, _)| [1.0, (i % 3) as f64 - 1.0]).collect();
    Fixed::Columns { width: 2, values }
}

fn value(design: &Design, point: &Point) -> f64 {
    Laplace::at(design, point, &Mode::start(design)).loglik
}

#[test]
fn gradient_agrees_with_differences_of_the_value() {
    let trials = club();
    let design = Design::new(&trials, &columns(&trials));
    let point = Point {
        beta: vec![0.4, -0.2],
        sd: Sd { variety: 0.5, cell: 0.3, lot: 0.4, grower: 0.7, club: 0.3, source: 0.8, trial: 0.6 },
    };
    let flat = point.flat(ALL);
    let gradient = Laplace::at(&design, &point, &Mode::start(&design)).gradient().flat(ALL);
    for k in 0..flat.len() {
        let shifted = |by: f64| {
            let mut moved = flat.clone();
            moved[k] += by;
            value(&design, &point.with(&moved, ALL))
        };
        let slope = (shifted(1e-4) - shifted(-1e-4)) / 2e-4;
        assert!((slope - gradient[k]).abs() < 1e-5 * (1.0 + slope.abs()), "{k}: {slope} {}", gradient[k]);
    }
}

#[test]
fn order_of_trials_does_not_matter_to_the_last_digit() {
    let mut trials = club();
    let one = Fixed::Columns { width: 1, values: vec![1.0; trials.len()] };
    let point = |trials: &[Trial]| fit(&Design::new(trials, &one), ALL).point.clone();
    let first = point(&trials);
    trials.reverse();
    assert_eq!(first, point(&trials));
}

#[test]
fn clubs_without_news_end_and_stay_finite() {
    let all =
        |x: fn(f64) -> f64| -> Vec<Trial> { club().iter().map(|t| Trial { x: x(t.n), ..*t }).collect() };
    for trials in [all(|_| 0.0), all(|n| n), all(|n| n / 2.0), club()[..1].to_vec(), Vec::new()] {
        let one = Fixed::Columns { width: 1, values: vec![1.0; trials.len()] };
        for fixed in [one, Fixed::Cells] {
            let terms = if matches!(fixed, Fixed::Cells) {
                Terms { variety: false, cell: false, ..ALL }
            } else {
                ALL
            };
            let design = Design::new(&trials, &fixed);
            let fit = fit(&design, terms);
            assert!(
                fit.loglik.is_finite() && fit.point.beta.iter().all(|b| b.is_finite()),
                "{:?}",
                fit.point
            );
        }
    }
}
