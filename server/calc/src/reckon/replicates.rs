use super::bounds::{between, inside, unknown_kind, whole};
use super::{Fault, Fields, number};
use crate::proportion::MAX_SEEDS;
use crate::replicates::{Likeness, MAX_REPLICATE, NoTest, Printed, likeness, published_range, range_limit};
use crate::units::rounded_ratio;
use serde_json::{Value, json};

/// `{kind: "index", x, n}`, `{kind: "range_limit", percent, replicates, n, level}` or `{kind: "range_table"}`.
pub fn run(input: &Value) -> Result<Value, Fault> {
    let fields = Fields::of(input, "")?;
    match fields.text("kind")? {
        "index" => index(&fields),
        "range_limit" => limit(&fields),
        "range_table" => Ok(table()),
        other => Err(unknown_kind(&fields, other, "index, range_limit, range_table")),
    }
}

fn index(fields: &Fields) -> Result<Value, Fault> {
    let bags = bags(fields)?;
    let like = likeness(&bags).ok_or_else(|| Fault::new(fields.at("x"), "must hold at least one bag"))?;
    let (status, test) = match like.test {
        Ok(test) => ("ok", Some(test)),
        Err(NoTest::OneReplicate) => ("one_replicate", None),
        Err(NoTest::NoVariation) => ("no_variation", None),
    };
    Ok(json!({
        "status": status,
        "mean_rate": number(like.mean_rate),
        "df": like.df,
        "range_percent": number(like.range_percent),
        "chi2": test.map(|t| number(t.chi2)),
        "p": test.map(|t| number(t.p)),
        "min_expected": test.map(|t| number(t.min_expected)),
        "published": published(&bags, &like),
    }))
}

/// The retest rule holds for replicates of 100; for others there is no published limit.
fn published(bags: &[(u64, u64)], like: &Likeness) -> Value {
    if bags.iter().any(|bag| bag.1 != 100) {
        return Value::Null;
    }
    let germinated: u64 = bags.iter().map(|bag| bag.0).sum();
    let mean = rounded_ratio(germinated, bags.len() as u64);
    published_range(mean, bags.len()).map_or(Value::Null, |(range, printed)| {
        json!({
            "max_range_percent": range,
            "within": like.range_percent <= range as f64,
            "source": match printed {
                Printed::SeedLaw => "7 CFR 201.55(a)",
                Printed::FromMemory => "ISTA table 5B part 1, from memory",
            },
        })
    })
}

fn bags(fields: &Fields) -> Result<Vec<(u64, u64)>, Fault> {
    let (x, n) = (fields.wholes("x")?, fields.wholes("n")?);
    if x.len() != n.len() {
        return Err(Fault::new(fields.at("n"), "must be as many as x"));
    }
    let place = |name: &str, i: usize| format!("{}[{i}]", fields.at(name));
    if let Some(i) = n.iter().position(|n| !(1..=MAX_SEEDS).contains(n)) {
        return Err(Fault::new(place("n", i), format!("must be from 1 to {MAX_SEEDS}")));
    }
    if let Some(i) = (0..x.len()).find(|i| x[*i] > n[*i]) {
        return Err(Fault::new(place("x", i), format!("is more than n, {}", n[i])));
    }
    Ok(x.into_iter().zip(n).collect())
}

fn limit(fields: &Fields) -> Result<Value, Fault> {
    let percent = between(fields, "percent", 0.0, 100.0)?;
    let replicates = whole(fields, "replicates", 2, 1000)?;
    let n = whole(fields, "n", 1, MAX_REPLICATE)?;
    let level = if fields.maybe("level").is_some() { inside(fields, "level")? } else { 0.025 };
    let limit = range_limit(percent / 100.0, replicates as u32, n, level);
    Ok(json!({
        "max_tolerated_range": limit.range,
        "prob_greater": number(limit.greater),
        "prob_greater_one_less": number(limit.greater_one_less),
    }))
}

/// Four replicates of 100 at 2.5 %, for means of 99 down to 50 %.
fn table() -> Value {
    let row = |percent: u32| {
        let limit = range_limit(f64::from(percent) / 100.0, 4, 100, 0.025);
        json!({
            "percent": percent,
            "max_tolerated_range": limit.range,
            "prob_greater": number(limit.greater),
            "published": published_range(u64::from(percent), 4).map(|(range, _)| range),
        })
    };
    json!({ "table": (50..=99).rev().map(row).collect::<Vec<_>>() })
}
