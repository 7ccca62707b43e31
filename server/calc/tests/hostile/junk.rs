//! Inputs that are wrong in shape: parts of good ones changed, and JSON by chance.

use crate::dice::Dice;
use crate::numbers::{chance, length, name, odd, pick};
use serde_json::{Map, Value, json};

/// Longest list that is made longer.
const MOST_ITEMS: usize = 300;

/// A good input with each list of more than 8 cut, mostly: few inputs need to be long.
pub fn clipped(input: &Value, dice: &mut Dice) -> Value {
    let keep = if chance(dice, 0.02) { usize::MAX } else { 1 + dice.below(8) };
    let start = dice.below(1000);
    clip(input, start, keep)
}

fn clip(value: &Value, start: usize, keep: usize) -> Value {
    match value {
        Value::Array(items) => {
            let skip = if items.len() > keep { start % (items.len() - keep) } else { 0 };
            items.iter().skip(skip).take(keep).map(|item| clip(item, start, keep)).collect()
        }
        Value::Object(map) => {
            Value::Object(map.iter().map(|(key, item)| (key.clone(), clip(item, start, keep))).collect())
        }
        other => other.clone(),
    }
}

/// One to four parts changed.
pub fn mutated(mut input: Value, dice: &mut Dice) -> Value {
    for _ in 0..=dice.below(4) {
        change(&mut input, dice);
    }
    input
}

fn change(value: &mut Value, dice: &mut Dice) {
    match value {
        Value::Object(map) if !map.is_empty() && chance(dice, 0.9) => {
            let key = map.keys().nth(dice.below(map.len())).unwrap().clone();
            match dice.below(8) {
                0 => drop(map.remove(&key)),
                1 => drop(map.insert(key, random(dice))),
                _ => change(&mut map[&key], dice),
            }
        }
        Value::Array(items) if !items.is_empty() && chance(dice, 0.9) => change_list(items, dice),
        _ => *value = other(value, dice),
    }
}

fn change_list(items: &mut Vec<Value>, dice: &mut Dice) {
    let at = dice.below(items.len());
    match dice.below(9) {
        0 => drop(items.remove(at)),
        1 => items.insert(at, random(dice)),
        2 => items.insert(at, items[at].clone()),
        3 => dice.shuffle(items),
        4 => *items = vec![items[at].clone(); items.len()],
        5 => items.truncate(at),
        6 if chance(dice, 0.05) => items.resize(MOST_ITEMS.max(items.len()), items[at].clone()),
        _ => change(&mut items[at], dice),
    }
}

/// Another value in place of `value`: near it, written otherwise, wrapped, or anything.
fn other(value: &Value, dice: &mut Dice) -> Value {
    let x = value.as_f64().unwrap_or(1.0);
    match dice.below(10) {
        0 => json!(x * pick(dice, &[-1.0, 0.0, 1e-9, 0.5, 2.0, 1e6, 1e300])),
        1 => json!((x + pick(dice, &[-1.0, 1.0, 1e-9, 0.5])).abs()),
        2 => json!(x.to_string()),
        3 => json!([value]),
        4 => json!({ "value": value }),
        5 => json!(name(dice)),
        6 => random(dice),
        _ => odd(dice),
    }
}

/// JSON by chance, now and then deep.
pub fn random(dice: &mut Dice) -> Value {
    if chance(dice, 0.01) {
        let deep = 1 + dice.below(100);
        return (0..deep).fold(odd(dice), |inner, _| {
            if chance(dice, 0.5) { json!([inner]) } else { json!({ "rows": inner }) }
        });
    }
    tree(dice, 3)
}

const KEYS: [&str; 16] = [
    "rows", "x", "n", "kind", "l", "r", "count", "conf", "days", "counts", "sown", "edges", "T", "t50",
    "age", "p1",
];

fn tree(dice: &mut Dice, depth: usize) -> Value {
    match dice.below(if depth == 0 { 3 } else { 6 }) {
        0..=1 => odd(dice),
        2 => json!(name(dice)),
        3 => (0..length(dice, MOST_ITEMS)).map(|_| tree(dice, depth - 1)).collect(),
        _ => {
            let pairs = (0..dice.below(5)).map(|_| ((*pick(dice, &KEYS)).to_owned(), tree(dice, depth - 1)));
            Value::Object(pairs.collect::<Map<_, _>>())
        }
    }
}
