//! Inputs of the right shape for each method, with numbers at the edges.

use crate::dice::Dice;
use crate::numbers::{chance, conf, length, name, pick, share, time, whole, whole_to};
use hilum_calc::units::UNITS;
use serde_json::{Value, json};

/// How many of the seeds of one input rooted.
#[derive(Clone, Copy)]
enum Rooted {
    None,
    All,
    Any,
}

impl Rooted {
    fn pick(dice: &mut Dice) -> Self {
        *pick(dice, &[Self::None, Self::All, Self::Any, Self::Any, Self::Any])
    }

    fn of(self, n: f64, dice: &mut Dice) -> f64 {
        match self {
            Self::None => 0.0,
            Self::All => n,
            Self::Any => match dice.below(6) {
                0 => 0.0,
                1 => n,
                2 => n.min(1.0),
                3 => (n - 1.0).max(0.0),
                _ => (dice.unit() * n).round(),
            },
        }
    }
}

/// An input of `method` that is right in shape, though its numbers need not go together.
pub fn input(method: &str, dice: &mut Dice) -> Value {
    let mut input = match method {
        "ageing" => ageing(dice),
        "club" => json!({ "rows": trials(dice, 150) }),
        "curve" => json!({ "rows": looks(dice, 500) }),
        "event-time" => json!({ "rows": looks(dice, 60), "now": time(dice), "horizon": time(dice) }),
        "linked" => edges(dice),
        "mix" => mix(dice),
        "pooled" => pooled(dice),
        "power" => power(dice),
        "rate" => two_of(dice, "x", "n", 1e9),
        "replicates" => replicates(dice),
        "shrink" => tested(dice, 1e6, 300),
        "sow" => sow(dice),
        "times" => times(dice),
        "two-rates" => two_rates(dice),
        "warmth" => warmth(dice),
        other => unreachable!("no inputs for {other}"),
    };
    if chance(dice, 0.8) && !matches!(method, "club" | "linked" | "mix" | "power" | "replicates" | "times") {
        input["conf"] = json!(conf(dice));
    }
    input
}

/// A list of up to `most`; now and then one item over and over.
fn many(dice: &mut Dice, most: usize, mut item: impl FnMut(&mut Dice) -> Value) -> Vec<Value> {
    let n = length(dice, most);
    if chance(dice, 0.15) { vec![item(dice); n] } else { (0..n).map(|_| item(dice)).collect() }
}

fn two_of(dice: &mut Dice, x: &str, n: &str, most: f64) -> Value {
    let all = whole(dice, most);
    json!({ x: Rooted::Any.of(all, dice), n: all })
}

/// `x` of `n` many times.
fn tested(dice: &mut Dice, most: f64, rows: usize) -> Value {
    let rooted = Rooted::pick(dice);
    let same = chance(dice, 0.2).then(|| whole(dice, most));
    let n: Vec<f64> = (0..length(dice, rows)).map(|_| same.unwrap_or_else(|| whole(dice, most))).collect();
    let x: Vec<f64> = n.iter().map(|n| rooted.of(*n, dice)).collect();
    json!({ "x": x, "n": n })
}

fn ageing(dice: &mut Dice) -> Value {
    let most = *pick(dice, &[20.0, 100.0, 1e12]);
    let mut input = tested(dice, most, 200);
    let rows = input["x"].as_array().unwrap().len();
    let same = chance(dice, 0.1);
    let ages = [0.0, 1.0, 2.0, time(dice).min(1000.0), time(dice).min(1000.0)];
    let age = |dice: &mut Dice| if same { ages[4] } else { *pick(dice, &ages) };
    input["age"] = (0..rows).map(|_| age(dice)).collect();
    input["predict_at"] = json!([0.0, 1.0, time(dice).min(1000.0)]);
    input
}

fn trials(dice: &mut Dice, most: usize) -> Vec<Value> {
    let (rooted, seeds) = (Rooted::pick(dice), *pick(dice, &[1.0, 20.0, 100.0, 1e6]));
    many(dice, most, |dice| {
        let mut row = two_of(dice, "x", "n", seeds);
        row["x"] = json!(rooted.of(row["n"].as_f64().unwrap(), dice));
        row["variety"] = json!(name(dice));
        row["cell"] = json!(name(dice));
        row["source"] = json!(name(dice));
        row["grower"] = json!(name(dice));
        row
    })
}

fn pooled(dice: &mut Dice) -> Value {
    let rows = trials(dice, 100);
    let mut input = json!({ "random": { "grower": chance(dice, 0.7), "trial": chance(dice, 0.7) } });
    if chance(dice, 0.3) {
        let width = dice.below(4);
        let row = |dice: &mut Dice| -> Vec<f64> {
            (0..width).map(|_| *pick(dice, &[0.0, 1.0, -1.0, 1e-9, 1e9])).collect()
        };
        let matrix: Vec<Vec<f64>> = rows.iter().map(|_| row(dice)).collect();
        input["design"] = json!({ "X": matrix, "columns": vec!["c"; width] });
    }
    input["rows"] = json!(rows);
    input
}

/// Rows of interval-censored looks, with the `kind` that event times ask for.
fn looks(dice: &mut Dice, most: usize) -> Vec<Value> {
    let (rooted, seeds, bags) = (Rooted::pick(dice), *pick(dice, &[5.0, 100.0, 1e12]), chance(dice, 0.3));
    let hourly = chance(dice, 0.5);
    many(dice, most, |dice| {
        let at = |dice: &mut Dice| if hourly { whole(dice, 30.0) } else { time(dice) };
        let (one, two) = (at(dice), at(dice));
        let seen = match rooted {
            Rooted::None => false,
            Rooted::All => true,
            Rooted::Any => chance(dice, 0.6),
        };
        let (l, r) = if one == two { (one, 2.0 * one + 1.0) } else { (one.min(two), one.max(two)) };
        let mut row = if seen {
            json!({ "l": if chance(dice, 0.2) { 0.0 } else { l }, "r": r, "kind": "germinated" })
        } else {
            json!({ "l": l, "r": null, "kind": pick(dice, &["ungerminated", "ungerminated", "removed_dead"]) })
        };
        row["count"] = json!(whole(dice, seeds));
        if bags {
            row["bag"] = json!(name(dice));
        }
        row
    })
}

fn edges(dice: &mut Dice) -> Value {
    json!({ "edges": many(dice, 700, |dice| json!({ "grower": name(dice), "source": name(dice) })) })
}

fn mix(dice: &mut Dice) -> Value {
    let amount = |dice: &mut Dice| match dice.below(3) {
        0 => json!(time(dice)),
        1 => json!(format!("{}", time(dice))),
        _ => json!(pick(dice, &[0.0, 3.0, 100.0, 35.0, 5e-324])),
    };
    let kinds = ["dilute_to_volume", "add_stock_to_water", "final_strength", "ratio", "powder", "convert"];
    let mut input = json!({ "kind": pick(dice, &kinds) });
    for key in ["volume", "water", "stock_amount", "parts_stock", "parts_water", "ppm", "amount"] {
        input[key] = amount(dice);
    }
    for key in ["stock", "wanted", "purity_percent"] {
        input[key] = json!(100.0 * share(dice));
    }
    for key in ["unit", "stock_unit", "water_unit", "from", "to"] {
        input[key] = json!(if chance(dice, 0.6) { "ml" } else { pick(dice, UNITS).name });
    }
    input
}

fn power(dice: &mut Dice) -> Value {
    let p1 = share(dice);
    let p2 = if chance(dice, 0.5) { share(dice) } else { p1 + *pick(dice, &[1.1e-6, 1e-3, 0.02, 0.3]) };
    let (alpha, power) =
        (*pick(dice, &[0.05, 0.01, 1e-12, 0.5]), *pick(dice, &[0.8, 0.9, 0.99, 1.0 - 1e-12, 0.5]));
    let mut input = json!({ "p1": p1, "p2": p2, "alpha": alpha, "power": power });
    if chance(dice, 0.3) {
        input["bag"] = json!(whole(dice, 1e6));
        input["rho"] = json!(share(dice));
    }
    input
}

fn replicates(dice: &mut Dice) -> Value {
    let mut input = match dice.below(20) {
        0 => return json!({ "kind": "range_table" }),
        1..=5 => json!({
            "kind": "range_limit", "percent": 100.0 * share(dice), "replicates": 2.0 + whole(dice, 998.0),
            "n": whole_to(dice, &[100.0, 400.0, 100_000.0]), "level": conf(dice),
        }),
        6..=9 => {
            let x: Vec<f64> = (0..dice.below(9)).map(|_| whole(dice, 100.0)).collect();
            json!({ "n": vec![100; x.len()], "x": x })
        }
        _ => tested(dice, 1e9, 300),
    };
    if input["kind"].is_null() {
        input["kind"] = json!("index");
    }
    input
}

fn sow(dice: &mut Dice) -> Value {
    let most = *pick(dice, &[10.0, 1000.0, 1e9]);
    let (one, two) = (two_of(dice, "x", "n", most), two_of(dice, "x", "n", most));
    json!({
        "kind": pick(dice, &["known", "beta", "two_stage", "two_stage_known", "cells"]),
        "k": whole_to(dice, &[10.0, 500.0, 1e9]),
        "p": share(dice), "p1": share(dice), "p2": share(dice), "x": one["x"], "n": one["n"],
        "x1": one["x"], "n1": one["n"], "x2": two["x"], "n2": two["n"],
    })
}

fn times(dice: &mut Dice) -> Value {
    let (rooted, seeds) = (Rooted::pick(dice), *pick(dice, &[5.0, 100.0, 1e9]));
    let mut days: Vec<f64> = (0..length(dice, 1000)).map(|_| time(dice)).collect();
    days.sort_by(f64::total_cmp);
    if chance(dice, 0.95) {
        days.dedup();
    }
    let counts: Vec<f64> = days.iter().map(|_| rooted.of(whole(dice, seeds), dice)).collect();
    let total: f64 = counts.iter().sum();
    json!({ "sown": if chance(dice, 0.8) { total.max(1.0) } else { whole(dice, 1e9) }, "days": days, "counts": counts })
}

fn two_rates(dice: &mut Dice) -> Value {
    let most = *pick(dice, &[3.0, 100.0, 10_000.0, 1e9]);
    if chance(dice, 0.3) {
        let strata = many(
            dice,
            300,
            |dice| json!({ "a": whole(dice, most), "b": whole(dice, most), "c": whole(dice, most), "d": whole(dice, most) }),
        );
        return json!({ "kind": "stratified", "strata": strata });
    }
    let (one, two) = (two_of(dice, "x", "n", most), two_of(dice, "x", "n", most));
    json!({ "kind": "two", "x1": one["x"], "n1": one["n"], "x2": two["x"], "n2": two["n"] })
}

fn warmth(dice: &mut Dice) -> Value {
    let warm = [-200.0, -5.0, 0.0, 10.0, 15.0, 20.0, 20.000_000_1, 25.0, 200.0];
    let n = length(dice, 500);
    let line = chance(dice, 0.3).then(|| 200.0 * dice.unit());
    let celsius: Vec<f64> = (0..n)
        .map(|_| if chance(dice, 0.6) { *pick(dice, &warm) } else { 400.0 * dice.unit() - 200.0 })
        .collect();
    let t50: Vec<f64> = celsius
        .iter()
        .map(|t| line.map_or_else(|| time(dice).clamp(1e-6, 1e6), |sum| (sum / (t + 210.0)).max(1e-6)))
        .collect();
    json!({ "T": celsius, "t50": t50 })
}
