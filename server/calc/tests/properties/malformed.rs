//! Whatever JSON comes in, the answer is an object or a fault that names a field: never a panic, never
//! an endless run, never a number that is not one.

#[path = "../support/mod.rs"]
mod support;

use hilum_calc::reckon::{self, Fault};
use serde_json::{Value, json};

const METHODS: [&str; 8] = ["linked", "mix", "power", "rate", "replicates", "sow", "times", "two-rates"];

fn inputs(method: &str) -> Vec<Value> {
    let file = support::FILES.iter().find(|(name, _)| *name == method).unwrap().1;
    let cases = support::oracle(file)["cases"].as_array().unwrap().clone();
    cases.into_iter().map(|mut case| case["input"].take()).collect()
}

fn junk() -> Vec<Value> {
    let numbers =
        [json!(-1), json!(0), json!(0.5), json!(1), json!(1e6), json!(1e300), json!(5e-324), json!(u64::MAX)];
    let others =
        [Value::Null, json!(true), json!("x"), json!(""), json!("NaN"), json!("1e999"), json!([]), json!({})];
    let nested = [json!([[]]), json!([1, "x"]), json!({ "a": 1 }), json!([{}])];
    numbers.into_iter().chain(others).chain(nested).collect()
}

fn is_named(fault: &Fault, field: &str) -> bool {
    fault.field.starts_with(field) && !fault.error.is_empty()
}

#[test]
fn any_junk_in_any_field() {
    for method in METHODS {
        for input in inputs(method) {
            for key in input.as_object().unwrap().keys() {
                for value in junk() {
                    let mut broken = input.clone();
                    broken[key] = value;
                    if let Err(fault) = reckon::run(method, &broken) {
                        assert!(
                            !fault.field.is_empty() && !fault.error.is_empty(),
                            "{method} {broken}: {fault:?}"
                        );
                    }
                }
            }
        }
    }
}

#[test]
fn a_field_of_the_wrong_type_is_named() {
    for method in METHODS {
        for input in inputs(method) {
            for key in input.as_object().unwrap().keys() {
                let mut broken = input.clone();
                broken[key] = json!({ "not": "this" });
                let fault = reckon::run(method, &broken).unwrap_err();
                assert!(is_named(&fault, key), "{method} {key}: {fault:?}");
            }
        }
    }
}

#[test]
fn a_missing_field_is_named_or_has_a_default() {
    let optional = ["conf", "level", "alpha", "power", "bag", "rho", "k", "purity_percent"];
    for method in METHODS {
        for input in inputs(method) {
            for key in input.as_object().unwrap().keys() {
                let mut broken = input.clone();
                broken.as_object_mut().unwrap().remove(key);
                match reckon::run(method, &broken) {
                    Ok(_) => assert!(optional.contains(&key.as_str()), "{method} went on without {key}"),
                    Err(fault) => assert!(is_named(&fault, key), "{method} {key}: {fault:?}"),
                }
            }
        }
    }
}

#[test]
fn what_is_no_object_is_refused() {
    for method in METHODS {
        for value in [Value::Null, json!([]), json!(3), json!("x"), json!({})] {
            assert!(reckon::run(method, &value).is_err(), "{method} {value}");
        }
    }
    assert_eq!(reckon::run("rates", &json!({})).unwrap_err().field, "method");
}

#[test]
fn faults_stand_at_their_field_in_plain_words() {
    let cases = [
        ("rate", json!({ "x": 5, "n": 4 }), "x"),
        ("rate", json!({ "x": 0, "n": 0 }), "n"),
        ("rate", json!({ "x": 1, "n": 4, "conf": 1 }), "conf"),
        ("rate", json!({ "x": 1.5, "n": 4 }), "x"),
        ("two-rates", json!({ "kind": "two", "x1": 1, "n1": 2, "x2": 3, "n2": 2 }), "x2"),
        (
            "two-rates",
            json!({ "kind": "stratified", "strata": [{ "a": 1, "b": 1, "c": 1, "d": -1 }] }),
            "strata[0].d",
        ),
        ("times", json!({ "sown": 5, "days": [1, 1], "counts": [1, 1] }), "days[1]"),
        ("times", json!({ "sown": 5, "days": [0], "counts": [1] }), "days[0]"),
        ("times", json!({ "sown": 5, "days": [1], "counts": [6] }), "counts"),
        ("times", json!({ "sown": 5, "days": [1], "counts": [1, 2] }), "counts"),
        ("sow", json!({ "kind": "known", "k": 0, "p": 0.5 }), "k"),
        ("sow", json!({ "kind": "known", "k": 1, "p": 1.5 }), "p"),
        ("power", json!({ "p1": 0.5, "p2": 0.5 }), "p2"),
        ("replicates", json!({ "kind": "index", "x": [1, 9], "n": [4, 8] }), "x[1]"),
        ("replicates", json!({ "kind": "index", "x": [], "n": [] }), "x"),
        ("mix", json!({ "kind": "convert", "amount": 1, "from": "spoon", "to": "ml" }), "from"),
        ("mix", json!({ "kind": "ratio", "stock": 120, "parts_stock": 1, "parts_water": 1 }), "stock"),
        ("linked", json!({ "edges": [{ "grower": "Ines" }] }), "edges[0].source"),
    ];
    for (method, input, field) in cases {
        assert_eq!(reckon::run(method, &input).unwrap_err().field, field, "{method} {input}");
    }
}

/// Only these may be null, and each for a reason.
#[test]
fn numbers_are_there_at_the_extremes() {
    for n in [1_u64, 2, 1_000_000, 1_000_000_000] {
        for x in [0, 1, n / 2, n] {
            assert_no_null(&reckon::run("rate", &json!({ "x": x, "n": n })).unwrap(), &[]);
            let two = json!({ "kind": "two", "x1": x, "n1": n, "x2": 1, "n2": 3 });
            assert_no_null(&reckon::run("two-rates", &two).unwrap(), &["odds_ratio", "woolf_ci"]);
            let sow = json!({ "kind": "beta", "k": 3, "x": x, "n": n, "conf": 0.9 });
            assert_no_null(&reckon::run("sow", &sow).unwrap(), &["n"]);
        }
    }
    let even = json!({ "kind": "two", "x1": 500_000_000, "n1": 1_000_000_000, "x2": 499_999_000, "n2": 1_000_000_000 });
    assert_no_null(&reckon::run("two-rates", &even).unwrap(), &[]);
}

fn assert_no_null(out: &Value, allowed: &[&str]) {
    for (key, value) in out.as_object().unwrap() {
        let numbers = value.as_array().cloned().unwrap_or_else(|| vec![value.clone()]);
        assert!(
            allowed.contains(&key.as_str()) || numbers.iter().all(|v| !v.is_null()),
            "{key} is null in {out}"
        );
    }
}

#[test]
fn what_does_not_exist_is_null_and_says_why() {
    let run = |method: &str, input: Value| reckon::run(method, &input).unwrap();
    let none = run("times", json!({ "sown": 5, "days": [1], "counts": [0] }));
    assert_eq!((&none["mgt"], &none["undefined"]["mgt"]), (&Value::Null, &json!("nothing germinated")));
    let one = run("replicates", json!({ "kind": "index", "x": [3], "n": [9] }));
    assert_eq!((&one["status"], &one["chi2"]), (&json!("one_replicate"), &Value::Null));
    let same = run("replicates", json!({ "kind": "index", "x": [9, 9], "n": [9, 9] }));
    assert_eq!((&same["status"], &same["p"]), (&json!("no_variation"), &Value::Null));
    let close = run("power", json!({ "p1": 0.5, "p2": 0.501, "alpha": 0.05, "power": 0.8 }));
    assert!(
        close["n_fisher_first"].is_null() && close["note"].is_string() && close["n_corrected"].is_number()
    );
    let dilute = |stock: &str, wanted: &str, volume: &str| {
        let ask = json!({ "kind": "dilute_to_volume", "stock": stock, "wanted": wanted, "volume": volume, "unit": "ml" });
        run("mix", ask)["status"].as_str().unwrap().to_owned()
    };
    assert_eq!(dilute("3", "5", "100"), "stronger_than_stock");
    assert_eq!(dilute("0", "1", "100"), "stock_is_zero");
    assert_eq!(dilute("3", "1", "0"), "no_volume");
    let add = json!({ "kind": "add_stock_to_water", "stock": 3, "wanted": 3, "water": 1, "unit": "l" });
    assert_eq!(run("mix", add)["status"], "not_reachable");
}
