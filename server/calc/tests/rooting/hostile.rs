use crate::support::Dice;
use hilum_calc::reckon;
use serde_json::{Value, json};

/// Numbers no grower would enter, and some they would.
const TIMES: [f64; 10] = [0.0, 1e-9, 0.001, 0.5, 1.0, 1.000_000_1, 2.0, 14.0, 1000.0, 1e9];
const COUNTS: [f64; 7] = [0.0, 1.0, 2.0, 7.0, 100.0, 1e6, 1e9];

fn pick(dice: &mut Dice, from: &[f64]) -> f64 {
    from[dice.below(from.len() as u64) as usize]
}

fn row(dice: &mut Dice) -> Value {
    let (l, r) = (pick(dice, &TIMES), pick(dice, &TIMES));
    let count = pick(dice, &COUNTS);
    match dice.below(4) {
        0 => json!({ "l": l, "r": null, "count": count, "kind": "ungerminated" }),
        1 => json!({ "l": l, "r": null, "count": count, "kind": "removed_dead" }),
        _ => {
            json!({ "l": l.min(r), "r": if l == r { l * 2.0 + 1.0 } else { l.max(r) }, "count": count, "kind": "germinated" })
        }
    }
}

fn list(dice: &mut Dice, n: u64, from: &[f64]) -> Vec<f64> {
    (0..n).map(|_| pick(dice, from)).collect()
}

fn input(method: &str, dice: &mut Dice) -> Value {
    let n = dice.below(7);
    let conf = pick(dice, &[0.5, 0.95, 0.999_999]);
    match method {
        "warmth" => {
            json!({ "T": list(dice, n, &[-200.0, -5.0, 0.0, 20.0, 20.000_001, 25.0, 200.0]), "t50": list(dice, n, &TIMES[2..9]), "conf": conf })
        }
        "ageing" => {
            let tried = list(dice, n, &COUNTS);
            let rooted: Vec<f64> = tried.iter().map(|t| (t * pick(dice, &[0.0, 0.5, 1.0])).floor()).collect();
            json!({ "age": list(dice, n, &TIMES[..9]), "x": rooted, "n": tried, "predict_at": TIMES[..9], "conf": conf })
        }
        _ => {
            let rows: Vec<Value> = (0..n).map(|_| row(dice)).collect();
            json!({ "rows": rows, "now": pick(dice, &TIMES), "horizon": pick(dice, &TIMES), "conf": conf })
        }
    }
}

fn infinite(value: &Value) -> bool {
    match value {
        Value::String(s) => s.contains("inf"),
        Value::Array(items) => items.iter().any(infinite),
        Value::Object(map) => map.values().any(infinite),
        _ => false,
    }
}

#[test]
fn any_numbers_end_in_an_answer_or_a_fault_with_its_field() {
    let mut dice = Dice(9);
    for (method, rounds) in [("ageing", 600), ("curve", 1500), ("event-time", 60), ("warmth", 600)] {
        let mut answers = 0;
        for _ in 0..rounds {
            let input = input(method, &mut dice);
            match reckon::run(method, &input) {
                Ok(answer) => {
                    answers += 1;
                    assert!(!infinite(&answer), "{method} {input}: {answer}");
                    assert!(answer["gap"].as_f64().unwrap_or(0.0) < 1e-8, "{input}: {answer}");
                }
                Err(fault) => assert!(!fault.field.is_empty(), "{method} {input}: {fault:?}"),
            }
        }
        assert!(answers > rounds / 3, "{method}: {answers}");
    }
}

#[test]
fn malformed_rows_name_their_field() {
    let cases = [
        ("curve", json!({}), "rows"),
        ("curve", json!({ "rows": [] }), "rows"),
        ("curve", json!({ "rows": [{ "l": 3, "r": 3, "count": 1 }] }), "rows[0].r"),
        ("curve", json!({ "rows": [{ "l": -1, "r": 3, "count": 1 }] }), "rows[0].l"),
        ("curve", json!({ "rows": [{ "l": 0, "r": 3, "count": 1.5 }] }), "rows[0].count"),
        ("event-time", json!({ "rows": [{ "l": 0, "count": 1, "kind": "germinated" }] }), "rows[0].r"),
        (
            "event-time",
            json!({ "rows": [{ "l": 0, "r": 2, "count": 1, "kind": "ungerminated" }] }),
            "rows[0].r",
        ),
        ("event-time", json!({ "rows": [{ "l": 0, "r": 2, "count": 1, "kind": "rotten" }] }), "rows[0].kind"),
        ("event-time", json!({ "rows": [{ "l": 2, "count": 1, "kind": "ungerminated" }], "now": -1 }), "now"),
        ("warmth", json!({ "T": [10, 20], "t50": [5] }), "t50"),
        ("warmth", json!({ "T": [10], "t50": [0] }), "t50[0]"),
        ("ageing", json!({ "age": [1], "x": [3], "n": [2] }), "x[0]"),
        ("ageing", json!({ "age": [1, 2], "x": [3], "n": [4, 4] }), "x"),
        ("curve", json!({ "rows": [{ "l": 0, "r": 1e300, "count": 1 }] }), "rows[0].r"),
        ("warmth", json!({ "T": [1e300], "t50": [5] }), "T[0]"),
        ("ageing", json!({ "age": [1, -1], "x": [1, 1], "n": [2, 2] }), "age[1]"),
        ("ageing", json!({ "age": [1], "x": [1], "n": [2], "conf": 1 }), "conf"),
    ];
    for (method, input, field) in cases {
        assert_eq!(reckon::run(method, &input).unwrap_err().field, field, "{method} {input}");
    }
}
