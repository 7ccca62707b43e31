use super::bounds::{pair, seeds};
use super::{Fault, Fields, number};
use crate::proportion::{clopper_pearson, jeffreys, jeffreys_unmodified, wilson};
use serde_json::{Value, json};

/// `{x, n, conf}`: one proportion with its intervals.
pub fn run(input: &Value) -> Result<Value, Fault> {
    let fields = Fields::of(input, "")?;
    let (x, n) = seeds(&fields, "x", "n")?;
    let conf = fields.conf()?;
    Ok(json!({
        "estimate": number(x as f64 / n as f64),
        "wilson": pair(wilson(x as f64, n as f64, conf)),
        "clopper_pearson": pair(clopper_pearson(x, n, conf)),
        "jeffreys": pair(jeffreys(x, n, conf)),
        "jeffreys_unmodified": pair(jeffreys_unmodified(x, n, conf)),
    }))
}
