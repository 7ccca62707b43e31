//! `club`, `pooled` and `shrink`: what must hold for any club, and intervals that hold what they promise.

#[path = "support/dice.rs"]
mod dice;

use dice::Dice;
use hilum_calc::mixed::{Design, Fixed, Terms, Trial, expit, fit};
use hilum_calc::reckon;
use serde_json::{Value, json};

const NAMES: [&str; 5] = ["a", "b", "c", "d", "e"];

fn shrink(x: &[u64], n: &[u64]) -> Value {
    reckon::run("shrink", &json!({ "x": x, "n": n })).unwrap()
}

#[test]
fn shrink_names_what_it_cannot_tell() {
    for (x, n, status) in [
        (&[10, 0, 8, 0][..], &[10, 9, 8, 7][..], "all_or_nothing"),
        (&[5, 5, 5, 5], &[10, 10, 10, 10], "no_spread"),
        (&[0, 0, 0], &[10, 4, 9], "no_variation"),
        (&[10, 4, 9], &[10, 4, 9], "no_variation"),
        (&[7], &[10], "not_estimable"),
        (&[7, 0], &[10, 0], "not_estimable"),
        (&[], &[], "not_estimable"),
        (&[1, 0, 1, 1], &[1, 1, 1, 1], "not_estimable"),
        (&[9, 2, 5, 7], &[10, 10, 10, 10], "ok"),
    ] {
        assert_eq!(shrink(x, n)["status"], status, "{x:?} of {n:?}");
    }
}

#[test]
fn shrunk_rates_lie_between_their_own_and_the_clubs() {
    let mut dice = Dice::new(2);
    for _ in 0..200 {
        let n: Vec<u64> = (0..2 + dice.below(8)).map(|_| dice.below(30) as u64).collect();
        let x: Vec<u64> = n.iter().map(|n| dice.below(*n as usize + 1) as u64).collect();
        let answer = shrink(&x, &n);
        let Some(prior) = answer["prior_mean"].as_f64() else { continue };
        for source in answer["sources"].as_array().unwrap() {
            let Some(mean) = source["posterior_mean"].as_f64() else { continue };
            let raw = source["raw"].as_f64().unwrap_or(prior);
            // Without spread every source has the pooled rate, which is then the prior's mean too.
            assert!(raw.min(prior) - 1e-9 <= mean && mean <= raw.max(prior) + 1e-9, "{answer}");
            if let Some([low, high]) = source["interval"].as_array().map(|i| [&i[0], &i[1]]) {
                assert!(low.as_f64().unwrap() <= high.as_f64().unwrap());
            }
        }
    }
}

fn any_rows(dice: &mut Dice) -> Vec<Value> {
    let easy = dice.below(4);
    let row = |i: usize, dice: &mut Dice| {
        let n = dice.below(25);
        let x = [0, n, dice.below(n + 1), dice.below(n + 1)][easy];
        let [v, s, g] = [(); 3].map(|()| NAMES[dice.below(4)]);
        json!({ "variety": v, "source": s, "cell": format!("{v}/{s}"), "grower": g, "trial": i, "x": x, "n": n })
    };
    (0..dice.below(25)).map(|i| row(i, dice)).collect()
}

fn no_nonsense(value: &Value) {
    match value {
        Value::Array(items) => items.iter().for_each(no_nonsense),
        Value::Object(map) => map.values().for_each(no_nonsense),
        Value::Number(n) => assert!(n.as_f64().unwrap().is_finite()),
        Value::String(text) => assert!(!text.contains("NaN")),
        _ => {}
    }
}

#[test]
fn any_club_ends_with_numbers_whatever_the_order_of_its_rows() {
    let mut dice = Dice::new(9);
    for _ in 0..150 {
        let mut rows = any_rows(&mut dice);
        for method in ["club", "pooled"] {
            let first = reckon::run(method, &json!({ "rows": rows })).unwrap();
            no_nonsense(&first);
            dice.shuffle(&mut rows);
            assert_eq!(first, reckon::run(method, &json!({ "rows": rows })).unwrap(), "{method}");
        }
    }
}

#[test]
fn malformed_rows_are_named() {
    let row = json!({ "variety": "v", "source": "s", "cell": "c", "grower": "g", "x": 3, "n": 2 });
    for (method, input, field) in [
        ("club", json!({ "rows": [row] }), "rows[0].x"),
        ("pooled", json!({ "rows": [row] }), "rows[0].x"),
        ("club", json!({ "rows": [{ "variety": "v" }] }), "rows[0].source"),
        ("club", json!({ "rows": 3 }), "rows"),
        ("pooled", json!({ "rows": [], "random": { "grower": 1 } }), "random.grower"),
        ("pooled", json!({ "rows": [], "design": { "columns": ["a"], "X": [[1]] } }), "design.X"),
        ("shrink", json!({ "x": [1], "n": [1, 2] }), "n"),
        ("shrink", json!({ "x": [3], "n": [2] }), "x[0]"),
        ("shrink", json!({ "x": [3], "n": [99_000_000] }), "n[0]"),
        ("shrink", json!({ "x": [3], "n": [9], "conf": 1 }), "conf"),
    ] {
        assert_eq!(reckon::run(method, &input).unwrap_err().field, field, "{method} {input}");
    }
}

#[test]
fn a_club_too_large_is_refused_in_words() {
    let rows: Vec<Value> = (0..2_100)
        .map(|i| json!({ "cell": format!("c{i}"), "grower": format!("g{i}"), "x": 1, "n": 2 }))
        .collect();
    let fault = reckon::run("pooled", &json!({ "rows": rows })).unwrap_err();
    assert_eq!(fault.error, "has 2100 growers, the model takes up to 1000");
}

#[test]
fn a_term_without_any_spread_ends_on_the_boundary() {
    let rows: Vec<Value> = (0..40)
        .map(|i| {
            let (v, g) = (NAMES[i % 3], NAMES[i % 5]);
            json!({ "variety": v, "source": NAMES[i % 4], "grower": g, "x": 7, "n": 10 })
        })
        .collect();
    let answer = reckon::run("club", &json!({ "rows": rows })).unwrap();
    for sd in ["sd_variety", "sd_cell", "sd_grower", "sd_trial"] {
        assert_eq!(answer[sd], 0.0);
    }
    assert_eq!(answer["singular"], true);
    assert!((answer["intercept"].as_f64().unwrap() - (7.0_f64 / 3.0).ln()).abs() < 1e-6);
}

fn normal(dice: &mut Dice) -> f64 {
    let (u, v) = (1.0 - dice.unit(), dice.unit());
    (-2.0 * u.ln()).sqrt() * (std::f64::consts::TAU * v).cos()
}

/// Clubs made by the model itself: 95 % intervals of sources and of differences hold the truth that often
/// on average over sources.
#[test]
fn intervals_hold_the_truth_as_often_as_they_say() {
    let mut dice = Dice::new(12);
    let (mut rates, mut ratios, mut all, mut pairs) = (0, 0, 0, 0);
    for _ in 0..25 {
        let names: Vec<(String, String)> =
            (0..24).map(|c| (format!("v{}", c / 3), format!("v{}/{}", c / 3, c % 3))).collect();
        let varieties: Vec<f64> = (0..8).map(|_| 0.6 * normal(&mut dice)).collect();
        let truth: Vec<f64> = (0..24).map(|c| 0.9 + varieties[c / 3] + 0.5 * normal(&mut dice)).collect();
        let growers: Vec<f64> = NAMES.iter().chain(&NAMES).map(|_| 0.5 * normal(&mut dice)).collect();
        let growers_names: Vec<String> = (0..10).map(|g| format!("g{g}")).collect();
        let mut trials = Vec::new();
        for _ in 0..150 {
            let (c, g, n) = (dice.below(24), dice.below(10), 8 + dice.below(30));
            let p = expit(truth[c] + growers[g] + 0.5 * normal(&mut dice));
            let x = (0..n).filter(|_| dice.unit() < p).count() as f64;
            let (variety, cell) = (&names[c].0, &names[c].1);
            trials.push(Trial {
                variety,
                cell,
                grower: &growers_names[g],
                x,
                n: n as f64,
                ..Trial::default()
            });
        }
        let design = Design::new(&trials, &Fixed::Columns { width: 1, values: vec![1.0; trials.len()] });
        let fit = fit(&design, Terms::CLUB);
        let covariance = fit.covariance().unwrap();
        let cells: Vec<(usize, Vec<f64>)> = (0..design.cells.len()).map(|c| (c, vec![1.0])).collect();
        let logits = fit.logits(&covariance, &cells);
        let true_of = |c: usize| truth[names.iter().position(|n| n.1 == design.cells[c]).unwrap()];
        // The club's own growers are the average that "average care" means.
        let care = growers.iter().sum::<f64>() / 10.0;
        for c in 0..design.cells.len() {
            all += 1;
            let off = (logits.estimate[c] - true_of(c) - care).abs();
            rates += usize::from(off < 1.96 * logits.error(c));
            if c > 0 && design.cells[c].starts_with(&design.cells[c - 1][..2]) {
                let (d, se) = logits.difference(c, c - 1);
                pairs += 1;
                ratios += usize::from((d - true_of(c) + true_of(c - 1)).abs() < 1.96 * se);
            }
        }
    }
    let share = |n: usize, all: usize| n as f64 / f64::from(all as u32);
    let (rates, ratios) = (share(rates, all), share(ratios, pairs));
    assert!((0.91..0.985).contains(&rates), "rates {rates}");
    assert!((0.91..0.985).contains(&ratios), "ratios {ratios}");
    println!("held: rates {rates:.3}, ratios {ratios:.3}");
}
