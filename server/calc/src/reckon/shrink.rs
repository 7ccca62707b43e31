use super::{Fault, Fields, number};
use crate::shrinkage::{BetaBinomial, MOST_SEEDS, Status, beta_binomial};
use crate::special::beta_quantile;
use serde_json::{Value, json};

/// `shrink`: rates of many sources drawn towards the club's, by a beta-binomial distribution.
pub fn shrink(input: &Value) -> Result<Value, Fault> {
    let fields = Fields::of(input, "")?;
    let (x, n, conf) = (fields.wholes("x")?, fields.wholes("n")?, fields.conf()?);
    if x.len() != n.len() {
        return Err(Fault::new(
            "n",
            format!("must have as many numbers as x: {} and not {}", x.len(), n.len()),
        ));
    }
    let rows: Vec<(u64, u64)> = x.into_iter().zip(n).collect();
    for (i, (x, n)) in rows.iter().enumerate() {
        check(&format!("[{i}]"), *x, *n)?;
    }
    let fit = beta_binomial(&rows);
    let seeds: u64 = rows.iter().map(|r| r.1).sum();
    let pooled = rows.iter().map(|r| r.0).sum::<u64>() as f64 / seeds as f64;
    let (alpha, beta) = if fit.status == Status::Ok { fit.shapes() } else { (f64::NAN, f64::NAN) };
    let sources: Vec<Value> = rows.iter().map(|row| source(*row, &fit, pooled, conf)).collect();
    Ok(json!({
        "status": name(fit.status),
        "pooled_rate": number(pooled),
        "alpha": number(alpha),
        "beta": number(beta),
        "prior_mean": number(fit.mean),
        "prior_strength": number(alpha + beta),
        "rho": number(fit.rho()),
        "loglik": number(fit.loglik),
        "sources": sources,
    }))
}

/// Checks one pair of counts; `place` is its index, as in `[3]`.
fn check(place: &str, x: u64, n: u64) -> Result<(), Fault> {
    if n > MOST_SEEDS {
        Err(Fault::new(format!("n{place}"), format!("must be {MOST_SEEDS} or less")))
    } else if x > n {
        Err(Fault::new(format!("x{place}"), format!("must not be more than n ({n})")))
    } else {
        Ok(())
    }
}

/// Reads `x` and `n` of one row.
pub fn counts(row: &Fields) -> Result<(u64, u64), Fault> {
    let (x, n) = (row.whole("x")?, row.whole("n")?);
    let place = |fault: Fault| Fault::new(row.at(&fault.field), fault.error);
    check("", x, n).map_err(place)?;
    Ok((x, n))
}

fn name(status: Status) -> &'static str {
    match status {
        Status::Ok => "ok",
        Status::AllOrNothing => "all_or_nothing",
        Status::NoSpread => "no_spread",
        Status::NoVariation => "no_variation",
        Status::NotEstimable => "not_estimable",
    }
}

fn source((x, n): (u64, u64), fit: &BetaBinomial, pooled: f64, conf: f64) -> Value {
    let (seeds, rooted) = (n as f64, x as f64);
    let raw = rooted / seeds;
    let (mean, weight, interval) = match fit.status {
        Status::Ok => {
            let (alpha, beta) = fit.shapes();
            let whole = alpha + beta + seeds;
            let end = |p: f64| number(beta_quantile(p, alpha + rooted, beta + seeds - rooted));
            let tail = (1.0 - conf) / 2.0;
            ((alpha + rooted) / whole, seeds / whole, json!([end(tail), end(1.0 - tail)]))
        }
        Status::NoSpread | Status::NoVariation => (pooled, 0.0, Value::Null),
        Status::AllOrNothing => (raw, 1.0, Value::Null),
        Status::NotEstimable => (f64::NAN, f64::NAN, Value::Null),
    };
    json!({
        "x": x, "n": n, "raw": number(raw), "posterior_mean": number(mean),
        "interval": interval, "weight_on_own_data": number(weight),
    })
}
