//! One JSON object in, one JSON object out, for each published method.

mod ageing;
mod bounds;
mod club;
mod curve;
mod event_time;
mod linked;
mod mix;
mod pooled;
mod power;
mod rate;
mod read;
mod replicates;
mod shrink;
mod sow;
mod times;
mod two_rates;
mod warmth;

pub use read::{Fault, Fields};
use serde_json::Value;
pub use times::answer as times;

type Method = fn(&Value) -> Result<Value, Fault>;

/// Every method by the name `hilum reckon` takes.
pub const METHODS: &[(&str, Method)] = &[
    ("ageing", ageing::ageing),
    ("club", club::club),
    ("curve", curve::curve),
    ("event-time", event_time::event_time),
    ("linked", linked::run),
    ("mix", mix::run),
    ("pooled", pooled::pooled),
    ("power", power::run),
    ("rate", rate::run),
    ("replicates", replicates::run),
    ("shrink", shrink::shrink),
    ("sow", sow::run),
    ("times", times::run),
    ("two-rates", two_rates::run),
    ("warmth", warmth::warmth),
];

/// Runs `method` on `input`. Unknown method or malformed input is a [`Fault`] in plain words.
pub fn run(method: &str, input: &Value) -> Result<Value, Fault> {
    let Some((_, f)) = METHODS.iter().find(|(name, _)| *name == method) else {
        let known: Vec<&str> = METHODS.iter().map(|(name, _)| *name).collect();
        return Err(Fault::new(
            "method",
            format!("there is no method '{method}'; there are: {}", known.join(", ")),
        ));
    };
    f(input)
}

/// A number for JSON: `null` where it does not exist, `"inf"` for an infinite end of an interval.
pub fn number(x: f64) -> Value {
    if x.is_infinite() {
        Value::from(if x > 0.0 { "inf" } else { "-inf" })
    } else {
        serde_json::Number::from_f64(x).map_or(Value::Null, Value::Number)
    }
}
