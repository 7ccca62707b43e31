use super::bounds::maybe;
use super::{Fault, Fields, number};
use crate::ageing::{Aged, Line, Link, Status};
use serde_json::{Map, Value, json};

/// `age` in years, `x` rooted of `n`: viability by age, `predict_at` ages.
pub fn ageing(input: &Value) -> Result<Value, Fault> {
    let fields = Fields::of(input, "")?;
    let (age, x, n) = (fields.numbers("age")?, fields.wholes("x")?, fields.wholes("n")?);
    for (name, len) in [("x", x.len()), ("n", n.len())] {
        if len != age.len() {
            return Err(Fault::new(name, "must have one value for each age"));
        }
    }
    if let Some(i) = (0..x.len()).find(|&i| x[i] > n[i]) {
        return Err(Fault::new(format!("x[{i}]"), "must not be more than n"));
    }
    within(&age, "age")?;
    let ages = if fields.maybe("predict_at").is_some() { fields.numbers("predict_at")? } else { Vec::new() };
    within(&ages, "predict_at")?;
    let conf = fields.conf()?;
    let row = |i: usize| Aged { age: age[i], x: x[i] as f64, n: n[i] as f64 };
    let rows: Vec<Aged> = (0..age.len()).map(row).collect();
    let links = Link::ALL.map(|link| (link.name().to_owned(), fitted(Line::fit(&rows, link), &ages, conf)));
    Ok(Value::Object(links.into_iter().collect()))
}

fn within(years: &[f64], name: &str) -> Result<(), Fault> {
    match years.iter().position(|a| !(0.0..=1000.0).contains(a)) {
        Some(i) => Err(Fault::new(format!("{name}[{i}]"), "must be 0 to 1000 years")),
        None => Ok(()),
    }
}

const NUMBERS: [&str; 12] = [
    "intercept",
    "slope",
    "se_intercept",
    "se_slope",
    "covariance",
    "deviance",
    "pearson_chi2",
    "df",
    "loglik",
    "p50",
    "se_p50",
    "sigma_years",
];

fn fitted(line: Result<Line, Status>, ages: &[f64], conf: f64) -> Value {
    let mut out = Map::new();
    let status = line.err().unwrap_or(Status::Ok);
    out.insert("status".into(), json!(status.name()));
    for (key, value) in NUMBERS.into_iter().zip(line.map_or(vec![Value::Null; NUMBERS.len()], numbers)) {
        out.insert(key.into(), value);
    }
    let predict = |&age: &f64| {
        let rate = line.ok().map(|line| line.at(age, conf));
        json!({
            "age": age,
            "rate": rate.map(|r| number(r.rate)),
            "ci": rate.map(|r| json!([number(r.low), number(r.high)])),
            "se_link": rate.map(|r| number(r.se_link)),
        })
    };
    out.insert("predictions".into(), ages.iter().map(predict).collect());
    Value::Object(out)
}

fn numbers(line: Line) -> Vec<Value> {
    let (v0, v1, covariance) = line.variance;
    let half = line.half_age();
    vec![
        number(line.intercept),
        number(line.slope),
        number(v0.max(0.0).sqrt()),
        number(v1.max(0.0).sqrt()),
        number(covariance),
        number(line.deviance),
        maybe(Some(line.pearson).filter(|x| x.is_finite())),
        json!(line.df),
        number(line.loglik),
        maybe(half.map(|h| h.0)),
        maybe(half.map(|h| h.1)),
        maybe(line.sigma_years()),
    ]
}
