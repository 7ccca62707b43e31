use super::bounds::{pair, seeds, unknown_kind};
use super::{Fault, Fields, number};
use crate::compare::Two;
use crate::proportion::MAX_SEEDS;
use crate::strata::{Stratum, combine};
use serde_json::{Value, json};

/// `{kind: "two", x1, n1, x2, n2, conf}`: the conditional odds ratio as R prints it and, under `precise`
/// names, to full precision; or `{kind: "stratified", strata: [{a, b, c, d}], conf}`.
pub fn run(input: &Value) -> Result<Value, Fault> {
    let fields = Fields::of(input, "")?;
    match fields.text("kind")? {
        "two" => two(&fields),
        "stratified" => stratified(&fields),
        other => Err(unknown_kind(&fields, other, "two, stratified")),
    }
}

fn two(fields: &Fields) -> Result<Value, Fault> {
    let (x1, n1) = seeds(fields, "x1", "n1")?;
    let (x2, n2) = seeds(fields, "x2", "n2")?;
    let conf = fields.conf()?;
    let two = Two { x1, n1, x2, n2 };
    let exact = two.exact_test();
    let (half_added, half_added_ci) = two.half_added(conf);
    let (conditional, precise) = (two.conditional_odds_as_in_r(conf), two.conditional_odds(conf));
    Ok(json!({
        "p1": number(x1 as f64 / n1 as f64),
        "p2": number(x2 as f64 / n2 as f64),
        "difference": number(two.difference()),
        "newcombe_ci": pair(two.newcombe(conf)),
        "fisher_p": number(exact.fisher),
        "midp_fisher_minus_half": number(exact.mid_p),
        "midp_doubled": number(exact.mid_p_doubled),
        "odds_ratio": two.odds_ratio().map(number),
        "woolf_ci": two.woolf(conf).map(pair),
        "odds_ratio_half_added": number(half_added),
        "half_added_ci": pair(half_added_ci),
        "odds_ratio_conditional_mle": number(conditional.estimate),
        "odds_ratio_conditional_exact_ci": pair(conditional.interval),
        "odds_ratio_conditional_mle_precise": number(precise.estimate),
        "odds_ratio_conditional_exact_ci_precise": pair(precise.interval),
    }))
}

fn stratified(fields: &Fields) -> Result<Value, Fault> {
    let strata = fields.rows("strata")?.iter().map(stratum).collect::<Result<Vec<_>, _>>()?;
    let common = combine(&strata, fields.conf()?);
    let test = common.test;
    Ok(json!({
        "common_or": common.odds_ratio.map(number),
        "rbg_var_log_or": common.variance.map(number),
        "ci": common.interval.map(pair),
        "cmh_chi2": test.map(|t| number(t.chi2)),
        "cmh_p": test.map(|t| number(t.p)),
        "cmh_chi2_corrected": test.map(|t| number(t.chi2_corrected)),
        "cmh_p_corrected": test.map(|t| number(t.p_corrected)),
    }))
}

fn stratum(row: &Fields) -> Result<Stratum, Fault> {
    let cell = |name| super::bounds::whole(row, name, 0, MAX_SEEDS).map(|n| n as f64);
    Ok(Stratum { a: cell("a")?, b: cell("b")?, c: cell("c")?, d: cell("d")? })
}
