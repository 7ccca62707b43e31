//! Numbers and words at the edges.

use crate::dice::Dice;
use serde_json::{Value, json};

pub fn pick<'a, T>(dice: &mut Dice, from: &'a [T]) -> &'a T {
    &from[dice.below(from.len())]
}

pub fn chance(dice: &mut Dice, share: f64) -> bool {
    dice.unit() < share
}

/// A whole number from 0 to `most`, all sizes alike.
pub fn whole(dice: &mut Dice, most: f64) -> f64 {
    match dice.below(8) {
        0 => 0.0,
        1 => 1.0_f64.min(most),
        2 => most,
        3 => 100.0_f64.min(most),
        _ => (most + 1.0).powf(dice.unit()).floor() - 1.0,
    }
}

/// A whole number from 0 to one of `mosts`.
pub fn whole_to(dice: &mut Dice, mosts: &[f64]) -> f64 {
    let most = *pick(dice, mosts);
    whole(dice, most)
}

/// A length: mostly 0 to 6, now and then up to `most`.
pub fn length(dice: &mut Dice, most: usize) -> usize {
    if chance(dice, 0.98) { dice.below(7.min(most + 1)) } else { whole(dice, most as f64) as usize }
}

/// A time or another number above 0, from 1e-9 to 1e9.
pub fn time(dice: &mut Dice) -> f64 {
    let edges = [1e-9, 1e-6, 0.5, 1.0, 1.000_000_1, 2.0, 7.0, 14.0, 14.000_000_000_000_002, 1e6, 1e9];
    if chance(dice, 0.4) { *pick(dice, &edges) } else { 10_f64.powf(dice.unit() * 18.0 - 9.0) }
}

/// A share from 0 to 1, both ends often.
pub fn share(dice: &mut Dice) -> f64 {
    let edges = [0.0, 1.0, 0.5, 1e-300, 1e-12, 1e-6, 1.0 - 1e-6, 1.0 - f64::EPSILON / 2.0, 0.05, 0.8];
    if chance(dice, 0.5) { *pick(dice, &edges) } else { dice.unit() }
}

/// A confidence level, strictly between 0 and 1.
pub fn conf(dice: &mut Dice) -> f64 {
    let edges = [0.95, 0.95, 0.9, 0.5, 0.999_999, 1e-12, 1.0 - 1e-12];
    if chance(dice, 0.8) { *pick(dice, &edges) } else { dice.unit().max(1e-9) }
}

/// A name of a grower or a source.
pub fn name(dice: &mut Dice) -> String {
    let odd =
        ["", "a/b", "b", "NaN", "=1+1", "'=1", "ä\u{301}", "\u{0}", "x,y", "\"", "\u{202e}Ines", " Ines "];
    match dice.below(12) {
        0 => (*pick(dice, &odd)).to_owned(),
        1 => "n".repeat(300),
        _ => format!("s{}", whole(dice, 30.0)),
    }
}

/// Anything that may stand where a number is wanted.
pub fn odd(dice: &mut Dice) -> Value {
    let numbers = [
        0.0,
        -0.0,
        1.0,
        -1.0,
        0.5,
        2.0,
        5e-324,
        1e-300,
        1e-9,
        1e9,
        1e12,
        1e15,
        1e300,
        -1e300,
        0.1 + 0.2,
        f64::MAX,
        9_007_199_254_740_993.0,
    ];
    let words = ["NaN", "nan", "inf", "-inf", "1e999", "-0", " 3 ", "0x10", "1,5", "", "٣", "null", "1e-400"];
    match dice.below(8) {
        0 => Value::Null,
        1 => json!(dice.below(2) == 0),
        2 => json!(u64::MAX),
        3 => json!(i64::MIN),
        4 | 5 => json!(pick(dice, &words)),
        _ => json!(pick(dice, &numbers)),
    }
}
