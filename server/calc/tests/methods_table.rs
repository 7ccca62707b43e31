//! Writes `tests/reference/methods.md` from the oracle run and compares it with the committed file.
//! `HILUM_WRITE=1 cargo test -p hilum-calc --test methods_table` writes it anew.

#[path = "support/ignored.rs"]
mod ignored;
mod support;

use hilum_calc::reckon;
use ignored::ignored;
use serde_json::Value;
use std::fmt::Write;
use support::{FILES, oracle, reference};

const HEAD: &str = "# How the methods were checked

Written by a test of the calculating crate, from running every case of `oracles/` through `reckon`. The
worst error is the largest relative difference of any number printed, rounded up to a power of ten; each
case also has its own tolerance in the file. Below the table: where the cases come from and how many.

| method | what | cases | numbers | worst relative error |
| --- | --- | --- | --- | --- |
";

#[test]
#[expect(clippy::disallowed_methods, reason = "the library reads no file, its tests do")]
fn methods_md_says_what_the_oracle_run_says() {
    let path = reference().join("methods.md");
    let text = table();
    if std::env::var("HILUM_WRITE").is_ok() {
        std::fs::write(&path, &text).unwrap();
    }
    let committed = std::fs::read_to_string(&path).unwrap_or_default();
    assert!(committed == text, "methods.md is not what the oracle run gives; write it with HILUM_WRITE=1");
}

fn table() -> String {
    let mut text = HEAD.to_owned();
    let mut sources = String::new();
    for (method, file) in FILES.iter().filter(|(method, _)| is_there(method)) {
        let oracle = oracle(file);
        let cases = oracle["cases"].as_array().unwrap();
        let mut errors = Vec::new();
        let mut counts: Vec<(&str, u32)> = Vec::new();
        for case in cases {
            let got = reckon::run(method, &case["input"]).unwrap_or(Value::Null);
            collect(case, &case["expected"], &got, &mut errors);
            let source = case["source"].as_str().unwrap();
            match counts.iter_mut().find(|(s, _)| *s == source) {
                Some((_, n)) => *n += 1,
                None => counts.push((source, 1)),
            }
        }
        let worst = power_of_ten(errors.iter().copied().fold(0.0, f64::max));
        let (title, n, numbers) = (oracle["title"].as_str().unwrap(), cases.len(), errors.len());
        writeln!(text, "| `{method}` | {title} | {n} | {numbers} | {worst} |").unwrap();
        let heading = format!("\n## {method}\n\n");
        if !sources.contains(&heading) {
            sources.push_str(&heading);
        }
        for (source, n) in counts {
            writeln!(sources, "- {source} ({n})").unwrap();
        }
    }
    text + &sources
}

fn is_there(method: &str) -> bool {
    reckon::METHODS.iter().any(|(name, _)| *name == method)
}

/// Relative errors of all numbers of the case that are compared; a missing number counts as infinite.
fn collect(case: &Value, want: &Value, got: &Value, errors: &mut Vec<f64>) {
    match want {
        Value::Object(fields) => {
            for (key, value) in fields.iter().filter(|(key, _)| !ignored(case, key)) {
                collect(case, value, &got[key], errors);
            }
        }
        Value::Array(items) => {
            for (i, item) in items.iter().enumerate() {
                collect(case, item, &got[i], errors);
            }
        }
        Value::Number(n) => {
            let want = n.as_f64().unwrap();
            let away = got.as_f64().map_or(f64::INFINITY, |g| (g - want).abs());
            errors.push(if want == 0.0 { away } else { away / want.abs() });
        }
        _ => {}
    }
}

/// Rounded up, so that another machine's last digits do not change the file.
fn power_of_ten(error: f64) -> String {
    if error <= 1e-12 {
        "at most 1e-12".to_owned()
    } else if error.is_finite() {
        format!("1e{}", error.log10().ceil() as i32)
    } else {
        "missing".to_owned()
    }
}
