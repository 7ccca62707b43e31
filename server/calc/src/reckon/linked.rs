use super::{Fault, Fields};
use crate::linked::Links;
use serde_json::{Value, json};

/// Above so many sources the pairs are no longer listed.
const MAX_LISTED: usize = 500;

/// `{edges: [{grower, source}]}`: groups of sources that shared growers link.
pub fn run(input: &Value) -> Result<Value, Fault> {
    let fields = Fields::of(input, "")?;
    let rows = fields.rows("edges")?;
    let edges = rows.iter().map(|row| Ok((row.text("grower")?, row.text("source")?)));
    let links = Links::new(edges.collect::<Result<Vec<_>, Fault>>()?);
    let groups = links.groups();
    let pairs = |n: usize| n * n.saturating_sub(1) / 2;
    let listed = links.sources().len() <= MAX_LISTED;
    let mut out = json!({
        "components": groups.iter().map(|g| json!({ "growers": g.growers, "sources": g.sources })).collect::<Vec<_>>(),
        "n_components": groups.len(),
        "comparable_pairs": groups.iter().map(|g| pairs(g.sources.len())).sum::<usize>(),
        "total_pairs": pairs(links.sources().len()),
        "pairs": listed.then(|| all_pairs(&links)),
        "linking_growers": links.linking_growers(),
    });
    if !listed {
        out["note"] = json!(format!("pairs are listed up to {MAX_LISTED} sources; the groups hold for all"));
    }
    Ok(out)
}

fn all_pairs(links: &Links) -> Vec<Value> {
    let sources = links.sources();
    let mut pairs = Vec::new();
    for a in 0..sources.len() {
        let steps = links.steps(a);
        for b in a + 1..sources.len() {
            pairs.push(json!({
                "a": sources[a],
                "b": sources[b],
                "comparable": steps[b].is_some(),
                "steps": steps[b],
                "shared_growers": links.shared_growers(a, b),
            }));
        }
    }
    pairs
}
