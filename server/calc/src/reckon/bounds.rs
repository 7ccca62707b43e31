//! Ranges that several methods ask of their fields, and pieces of their output.

use super::{Fault, Fields, number};
use crate::proportion::{Interval, MAX_SEEDS};
use serde_json::{Value, json};

/// A whole number from `least` to `most`.
pub fn whole(fields: &Fields, name: &str, least: u64, most: u64) -> Result<u64, Fault> {
    let n = fields.whole(name)?;
    if n < least {
        Err(Fault::new(fields.at(name), format!("must be {least} or more")))
    } else if n > most {
        Err(Fault::new(fields.at(name), format!("must be at most {most}")))
    } else {
        Ok(n)
    }
}

/// `x` of `n` seeds: `n` at least 1, `x` at most `n`.
pub fn seeds(fields: &Fields, x: &str, n: &str) -> Result<(u64, u64), Fault> {
    let all = whole(fields, n, 1, MAX_SEEDS)?;
    let some = fields.whole(x)?;
    if some > all {
        return Err(Fault::new(fields.at(x), format!("is more than {n}, {all}")));
    }
    Ok((some, all))
}

/// A number from `least` to `most`.
pub fn between(fields: &Fields, name: &str, least: f64, most: f64) -> Result<f64, Fault> {
    let x = fields.number(name)?;
    if (least..=most).contains(&x) {
        Ok(x)
    } else {
        Err(Fault::new(fields.at(name), format!("must be from {least} to {most}")))
    }
}

/// A number strictly between 0 and 1.
pub fn inside(fields: &Fields, name: &str) -> Result<f64, Fault> {
    let x = fields.number(name)?;
    if x > 0.0 && x < 1.0 {
        Ok(x)
    } else {
        Err(Fault::new(fields.at(name), "must lie strictly between 0 and 1"))
    }
}

/// The method for a `kind` that is none of `known`.
pub fn unknown_kind(fields: &Fields, kind: &str, known: &str) -> Fault {
    Fault::new(fields.at("kind"), format!("there is no kind '{kind}'; there are: {known}"))
}

/// An interval as a list of two.
pub fn pair(interval: Interval) -> Value {
    json!([number(interval.low), number(interval.high)])
}

/// A number, or null where there is none.
pub fn maybe(x: Option<f64>) -> Value {
    x.map_or(Value::Null, number)
}

/// Two ends, or null where there are none.
pub fn ends(ends: Option<(f64, f64)>) -> Value {
    ends.map_or(Value::Null, |(low, high)| json!([number(low), number(high)]))
}
