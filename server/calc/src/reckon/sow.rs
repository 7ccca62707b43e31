use super::bounds::{between, inside, unknown_kind, whole};
use super::{Fault, Fields, number};
use crate::proportion::MAX_SEEDS;
use crate::sowing::{Sowing, Tested, estimated_rate, known_rate, two_stages};
use serde_json::{Value, json};

const KINDS: &str = "known, beta, two_stage, two_stage_known, cells";

/// `{kind, k, conf, ...}`: seeds for at least `k` plants; by a known rate `p` (or `p1` and `p2`), or by
/// tests `x` of `n` (or `x1` of `n1` and `x2` of `n2`).
pub fn run(input: &Value) -> Result<Value, Fault> {
    let fields = Fields::of(input, "")?;
    let kind = fields.text("kind")?;
    let plants = || whole(&fields, "k", 1, MAX_SEEDS);
    let conf = if fields.maybe("conf").is_some() { inside(&fields, "conf")? } else { 0.95 };
    let rate = |name| between(&fields, name, 0.0, 1.0);
    let sowing = match kind {
        "known" => known_rate(plants()?, rate("p")?, conf),
        "two_stage_known" => known_rate(plants()?, rate("p1")? * rate("p2")?, conf),
        "beta" => estimated_rate(plants()?, tested(&fields, "x", "n")?, conf),
        "cells" => {
            let seedlings = if fields.maybe("k").is_some() { plants()? } else { 1 };
            estimated_rate(seedlings, tested(&fields, "x", "n")?, conf)
        }
        "two_stage" => {
            two_stages(plants()?, tested(&fields, "x1", "n1")?, tested(&fields, "x2", "n2")?, conf)
        }
        other => return Err(unknown_kind(&fields, other, KINDS)),
    };
    Ok(printed(sowing, if kind == "cells" { "seeds_per_cell" } else { "n" }))
}

fn tested(fields: &Fields, x: &str, n: &str) -> Result<Tested, Fault> {
    let all = whole(fields, n, 0, MAX_SEEDS)?;
    let some = fields.whole(x)?;
    if some > all {
        return Err(Fault::new(fields.at(x), format!("is more than {n}, {all}")));
    }
    Ok(Tested { x: some, n: all })
}

fn printed(sowing: Sowing, key: &str) -> Value {
    let mut out = json!({
        "probability": number(sowing.probability),
        "probability_one_fewer": number(sowing.one_fewer),
    });
    out[key] = json!(sowing.seeds);
    if sowing.seeds.is_none() {
        out["note"] = json!("no number of seeds that was tried is enough");
    }
    out
}
