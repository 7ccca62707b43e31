//! What must hold for any answer of `reckon`, and for any fault.

use hilum_calc::reckon::Fault;
use serde_json::{Map, Value};

/// Each estimate with the interval that must hold it, by their keys in one object, and how far out of
/// its end, as a share of it, the estimate may lie by rounding.
const HELD: [(&str, &str, f64); 23] = [
    ("estimate", "wilson", 1e-9),
    ("estimate", "clopper_pearson", 1e-9),
    ("estimate", "jeffreys", 1e-9),
    ("difference", "newcombe_ci", 1e-9),
    ("odds_ratio", "woolf_ci", 1e-9),
    ("odds_ratio_half_added", "half_added_ci", 1e-9),
    ("odds_ratio_conditional_mle_precise", "odds_ratio_conditional_exact_ci_precise", 1e-9),
    ("common_or", "ci", 1e-9),
    ("rate", "ci", 1e-9),
    ("p", "p_ci_logit", 1e-9),
    ("p", "p_ci_profile", 1e-6),
    ("t50", "t50_ci", 1e-9),
    ("prob_ever", "prob_ever_ci_logit", 1e-9),
    ("prob_ever", "prob_ever_ci_profile", 1e-6),
    ("base_temperature", "base_ci_delta", 1e-9),
    ("base_temperature", "base_ci_fieller", 1e-9),
    ("thermal_time", "thermal_ci_delta", 1e-9),
    ("thermal_time", "thermal_ci_inverse_slope", 1e-9),
    ("rate_mean_grower", "ci", 1e-9),
    ("rate_population", "population_ci", 1e-9),
    ("log_odds_ratio", "ci", 1e-9),
    ("mu", "mu_ci", 1e-9),
    ("posterior_mean", "interval", 1e-9),
];

/// An interval of equal tails need not hold its estimate where it holds less than half.
const LEAST_CONF: f64 = 0.5;
const OUTSIDE: &str = " outside ";

/// Estimates that stand beside `low` and `high`.
const BETWEEN: [&str; 4] = ["mid", "rate", "estimate", "log_odds_ratio"];

/// Chances and shares, 0 to 1.
const SHARES: [&str; 24] = [
    "p",
    "F",
    "mass",
    "rate",
    "mu",
    "posterior_mean",
    "raw",
    "weight_on_own_data",
    "pooled_rate",
    "prior_mean",
    "fisher_p",
    "midp_doubled",
    "midp_fisher_minus_half",
    "cmh_p",
    "cmh_p_corrected",
    "probability",
    "probability_one_fewer",
    "prob_ever",
    "prob_within_horizon",
    "p_holm",
    "mean_rate",
    "prob_greater",
    "rate_population",
    "probability_a_better",
];

/// Keys whose texts are names as they came in.
const NAMES: [&str; 13] = [
    "a",
    "b",
    "cell",
    "name",
    "growers",
    "sources",
    "linking_growers",
    "trial",
    "bag",
    "grower",
    "kind",
    "variety",
    "source",
];

/// Everything wrong with the answer at confidence `conf`, each in few words.
pub fn faults_of(answer: &Value, conf: f64) -> Vec<String> {
    let mut faults = Vec::new();
    if !answer.is_object() {
        faults.push("no object".to_owned());
    }
    look_into("", answer, &mut faults);
    if conf < LEAST_CONF {
        faults.retain(|fault| !fault.contains(OUTSIDE));
    }
    faults.sort();
    faults.dedup();
    faults
}

fn look_into(key: &str, value: &Value, faults: &mut Vec<String>) {
    match value {
        Value::Number(n) if !n.as_f64().is_some_and(f64::is_finite) => {
            faults.push(format!("{key} not finite"))
        }
        Value::String(text) if !NAMES.contains(&key) && key != "groups" && no_number(key, text) => {
            faults.push(format!("{key} is {text}"));
        }
        Value::Array(items) => items.iter().for_each(|item| look_into(key, item, faults)),
        Value::Object(map) => {
            if key != "se_by_bag" {
                look_at(map, faults);
            }
            let ratio = map.contains_key("common_or");
            map.iter().for_each(|(key, item)| look_into(if ratio { "common_or" } else { key }, item, faults));
        }
        _ => {}
    }
}

/// Only an odds ratio may be without end.
fn no_number(key: &str, text: &str) -> bool {
    ["NaN", "-inf", "infinity"].contains(&text)
        || (text == "inf" && !key.contains("odds") && !key.contains("_or"))
}

/// Of none or all rooted: the distribution may run up to its end, and its mean lie outside its middle.
fn leans(map: &Map<String, Value>) -> bool {
    let count = |key: &str| map.get(key).and_then(Value::as_u64);
    map.contains_key("posterior_mean") && (count("x") == Some(0) || count("x") == count("n"))
}

fn look_at(map: &Map<String, Value>, faults: &mut Vec<String>) {
    for (estimate, interval, slack) in HELD {
        let ends =
            map.get(interval).and_then(Value::as_array).and_then(|ends| Some((ends.first()?, ends.get(1)?)));
        if let (Some(at), Some((low, high))) = (map.get(estimate), ends.filter(|_| !leans(map))) {
            held(&format!("{estimate}{OUTSIDE}{interval}"), (low, at, high), slack, faults);
        }
    }
    for estimate in BETWEEN {
        if let (Some(at), Some(low), Some(high)) = (map.get(estimate), map.get("low"), map.get("high")) {
            held(&format!("{estimate} not from low to high"), (low, at, high), 1e-9, faults);
        }
    }
    for key in SHARES {
        let share = map.get(key).and_then(Value::as_f64);
        if share.is_some_and(|share| !(-1e-12..=1.0 + 1e-9).contains(&share)) {
            faults.push(format!("{key} is no share"));
        }
    }
}

fn held(what: &str, (low, at, high): (&Value, &Value, &Value), slack: f64, faults: &mut Vec<String>) {
    let (Some(at), low, high) = (end(at), end(low), end(high)) else { return };
    let slack = slack * at.abs() + 1e-12;
    if low.is_some_and(|low| low > at + slack) || high.is_some_and(|high| high < at - slack) {
        faults.push(what.to_owned());
    }
}

fn end(value: &Value) -> Option<f64> {
    if value == "inf" { Some(f64::INFINITY) } else { value.as_f64() }
}

/// A fault must say what is wrong in plain words, and where: at a place whose parent is in the input.
pub fn faults_of_fault(fault: &Fault, input: &Value) -> Vec<String> {
    let mut faults = Vec::new();
    if fault.error.is_empty() || fault.error.chars().count() > 2_000 {
        faults.push("fault without words, or with too many".to_owned());
    }
    if fault.field.is_empty() {
        faults.push("fault without a field".to_owned());
    } else if input.is_object() && parent(&fault.field, input).is_none() {
        faults.push("fault of a field whose parent is not in the input".to_owned());
    }
    faults
}

/// What holds the field of this path, as in `rows[3].n`.
fn parent<'a>(path: &str, input: &'a Value) -> Option<&'a Value> {
    let steps = path.replace('[', ".[");
    let steps: Vec<&str> = steps.split('.').collect();
    steps[..steps.len() - 1].iter().try_fold(input, |at, step| match step.strip_prefix('[') {
        Some(place) => at.get(place.trim_end_matches(']').parse::<usize>().ok()?),
        None => at.get(step),
    })
}
