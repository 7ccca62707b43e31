use super::shrink::counts;
use super::{Fault, Fields, number};
use crate::mixed::{Design, Fit, Fixed, Terms, Trial, fit};
use serde_json::{Map, Value, json};
use std::collections::BTreeMap;

/// `club`: varieties, sources within them, growers and trials all drawn from the club.
pub fn club(input: &Value) -> Result<Value, Fault> {
    let rows = Fields::of(input, "")?.rows("rows")?;
    let cells = cells(&rows)?;
    let mut trials = Vec::with_capacity(rows.len());
    for (row, cell) in rows.iter().zip(&cells) {
        let (x, n) = counts(row)?;
        let (x, n) = (x as f64, n as f64);
        trials.push(Trial { variety: row.text("variety")?, cell, grower: row.text("grower")?, x, n });
    }
    let design = Design::new(&trials, &Fixed::Columns { width: 1, values: vec![1.0; trials.len()] });
    design.check().map_err(|error| Fault::new("rows", error))?;
    let terms = Terms { variety: true, cell: true, grower: true, trial: true };
    Ok(answer(&fit(&design, terms), terms))
}

/// The name of each row's cell, which must say which variety and which source is meant.
fn cells(rows: &[Fields]) -> Result<Vec<String>, Fault> {
    let mut meant = BTreeMap::new();
    let cell = |row: &Fields| {
        let (variety, source) = (row.text("variety")?, row.text("source")?);
        let name = format!("{variety}/{source}");
        if *meant.entry(name.clone()).or_insert_with(|| variety.to_owned()) == variety {
            Ok(name)
        } else {
            let error = format!("and source read '{name}', as another variety and source do");
            Err(Fault::new(row.at("variety"), error))
        }
    };
    rows.iter().map(cell).collect()
}

fn answer(fit: &Fit, asked: Terms) -> Value {
    let (sd, design) = (&fit.point.sd, fit.design);
    if design.cells.is_empty() {
        return nothing();
    }
    json!({
        "status": "ok",
        "intercept": number(fit.point.beta[0]),
        "loglik": number(fit.loglik),
        "sd_variety": number(sd.variety),
        "sd_cell": number(sd.cell),
        "sd_grower": number(sd.grower),
        "sd_trial": number(sd.trial),
        "mode_variety": modes(&design.varieties, &fit.variety_effects()),
        "mode_cell": modes(&design.cells, &fit.cell_effects()),
        "mode_grower": modes(&design.growers, &fit.grower_effects()),
        "singular": fit.terms != asked,
    })
}

fn modes(names: &[String], effects: &[f64]) -> Value {
    let pairs = names.iter().zip(effects).map(|(name, x)| (name.clone(), number(*x)));
    Value::Object(pairs.collect::<Map<_, _>>())
}

/// Without a single seed there is nothing to fit.
fn nothing() -> Value {
    let mut map = Map::new();
    for key in ["intercept", "loglik", "sd_variety", "sd_cell", "sd_grower", "sd_trial", "singular"] {
        map.insert(key.to_owned(), Value::Null);
    }
    for key in ["mode_variety", "mode_cell", "mode_grower"] {
        map.insert(key.to_owned(), json!({}));
    }
    map.insert("status".to_owned(), json!("not_estimable"));
    Value::Object(map)
}
