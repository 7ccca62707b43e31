//! What the made inputs found, kept: each once was a panic, a wait, or a number that does not exist.

use hilum_calc::reckon;
use serde_json::{Value, json};

#[test]
fn faults_name_their_field() {
    let rows = json!([{ "cell": "a", "grower": "Ines", "x": 1, "n": 2 }]);
    let alike = [("a/b", "c"), ("a", "b/c")];
    let alike = alike.map(|(v, s)| json!({ "variety": v, "source": s, "grower": "Ines", "x": 1, "n": 2 }));
    let cases = [
        ("club", json!({ "rows": alike }), "rows[1].variety"),
        ("rate", json!([]), "input"),
        ("times", json!("s1"), "input"),
        ("pooled", json!({ "rows": rows, "design": { "columns": [], "X": [[]] } }), "design.columns"),
        ("power", json!({ "p1": 0.5, "p2": 0.52, "alpha": 5e-324 }), "alpha"),
        (
            "mix",
            json!({ "kind": "powder", "ppm": 500, "volume": 1e9, "unit": "ml", "purity_percent": 1e-298 }),
            "purity_percent",
        ),
    ];
    for (method, input, field) in cases {
        assert_eq!(reckon::run(method, &input).unwrap_err().field, field, "{method} {input}");
    }
}

#[test]
fn a_column_without_a_name_has_its_number() {
    let text = "kind,variety,source,grower,trial,bag,seeds,hours,rooted,abnormal,dead,\npepper,Dusk\n\"";
    let faults = hilum_calc::analyse::run(text, Default::default()).err().unwrap();
    let columns: Vec<&str> = faults.iter().map(|fault| fault.column.as_str()).collect();
    assert_eq!(columns, ["source", "12"], "{faults:?}");
}

#[test]
fn one_trial_of_all_rooted_has_no_standard_error() {
    let rows = json!([{ "cell": "a", "grower": "Ines", "x": 29, "n": 29 }]);
    let answer = reckon::run("pooled", &json!({ "rows": rows })).unwrap();
    let cell = &answer["beta_binomial_by_cell"]["a"];
    assert_eq!((&cell["se_logit_mu"], &cell["mu"]), (&Value::Null, &json!(1.0)));
}

#[test]
fn ages_a_moment_apart_are_one_age() {
    let input = json!({ "age": [0, 1e-300], "x": [48, 47], "n": [50, 50] });
    let answer = reckon::run("ageing", &input).unwrap();
    assert_eq!(
        (&answer["probit"]["status"], &answer["logit"]["slope"]),
        (&json!("no_age_spread"), &Value::Null)
    );
}

#[test]
fn a_million_seeds_are_shrunk_at_once() {
    let input =
        json!({ "x": [999_999, 0, 1, 44, 1132, 139_126], "n": [1_000_000, 671, 15, 45, 1133, 1_000_000] });
    let clock = crate::watch::Stopwatch::start();
    let answer = reckon::run("shrink", &input).unwrap();
    // mpmath 1.3, 40 digits: the log-likelihood at alpha 0.15825667903879653, beta 0.13183871163319855;
    // sums of 1.4e7 cancel in ours
    let loglik = answer["loglik"].as_f64().unwrap();
    assert!((loglik + 30.762_536_585_333_554).abs() < 1e-7, "{loglik}");
    assert!(clock.elapsed() < crate::LONGEST, "{:?}", clock.elapsed());
}
