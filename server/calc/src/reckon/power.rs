use super::bounds::between;
use super::{Fault, Fields, number};
use crate::power::{Question, design_effect};
use serde_json::{Map, Value, json};

/// The least level and the least doubt about the power that are taken.
const LEAST: f64 = 1e-12;

/// `{p1, p2, alpha, power, bag?, rho?}`: seeds per source to tell two rates apart.
pub fn run(input: &Value) -> Result<Value, Fault> {
    let fields = Fields::of(input, "")?;
    let question = question(&fields)?;
    let bags = bags(&fields)?;
    let (normal, corrected) = (question.normal(), question.corrected());
    let exact = question.exact();
    let at_corrected = question.fisher_power(corrected.ceil() as u64);
    let mut out = Map::new();
    let mut put = |key: &str, value: Value| out.insert(key.to_owned(), value);
    put("n_normal", number(normal));
    put("n_normal_ceil", json!(normal.ceil() as u64));
    put("n_corrected", number(corrected));
    put("n_corrected_ceil", json!(corrected.ceil() as u64));
    put("n_fisher_first", json!(exact.map(|e| e.first)));
    put("power_fisher_first", json!(exact.map(|e| e.power_first)));
    put("n_fisher_stays", json!(exact.map(|e| e.stays)));
    put("power_fisher_at_corrected", json!(at_corrected));
    if let Some((bag, rho)) = bags {
        let effect = design_effect(bag as f64, rho);
        put("design_effect", number(effect));
        put("n_with_design_effect", json!((corrected * effect).ceil() as u64));
        put("bags_per_group", json!((corrected * effect / bag as f64).ceil() as u64));
    }
    if exact.is_none() {
        put("note", json!("too many seeds to go through every table of Fisher's test; n_corrected stands"));
    }
    Ok(Value::Object(out))
}

fn question(fields: &Fields) -> Result<Question, Fault> {
    let rate = |name| between(fields, name, 0.0, 1.0);
    let level = |name, default| {
        if fields.maybe(name).is_some() { between(fields, name, LEAST, 1.0 - LEAST) } else { Ok(default) }
    };
    let question = Question {
        p1: rate("p1")?,
        p2: rate("p2")?,
        alpha: level("alpha", 0.05)?,
        power: level("power", 0.8)?,
    };
    if (question.p1 - question.p2).abs() < 1e-6 {
        Err(Fault::new(fields.at("p2"), "must differ from p1"))
    } else if question.power <= question.alpha {
        Err(Fault::new(fields.at("power"), "must be above alpha"))
    } else {
        Ok(question)
    }
}

fn bags(fields: &Fields) -> Result<Option<(u64, f64)>, Fault> {
    if fields.maybe("bag").is_none() {
        return Ok(None);
    }
    let bag = super::bounds::whole(fields, "bag", 1, 1_000_000)?;
    let rho = if fields.maybe("rho").is_some() { between(fields, "rho", 0.0, 1.0)? } else { 0.0 };
    Ok(Some((bag, rho)))
}
