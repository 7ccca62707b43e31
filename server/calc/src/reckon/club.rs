use super::shrink::counts;
use super::{Fault, Fields, number};
use crate::mixed::{Design, Fit, Fixed, Term, Terms, Trial, fit};
use serde_json::{Map, Value, json};
use std::collections::BTreeMap;

/// `club`: varieties, sources within them, growers and trials all drawn from the club; sources across
/// varieties, lots (`lot` of each row) and clubs (`club` of each row) too where `random` says so.
pub fn club(input: &Value) -> Result<Value, Fault> {
    let fields = Fields::of(input, "")?;
    let rows = fields.rows("rows")?;
    let usual = Terms { club: false, ..Terms::CLUB };
    let terms = random_terms(&fields, usual, &[Term::Lot, Term::Club, Term::Source])?;
    let cells = cells(&rows)?;
    let mut trials = Vec::with_capacity(rows.len());
    for (row, cell) in rows.iter().zip(&cells) {
        let (x, n) = counts(row)?;
        trials.push(Trial {
            variety: row.text("variety")?,
            cell,
            source: if terms.source { Some(row.text("source")?) } else { None },
            lot: if terms.lot { Some(row.text("lot")?) } else { None },
            grower: row.text("grower")?,
            club: if terms.club { Some(row.text("club")?) } else { None },
            x: x as f64,
            n: n as f64,
        });
    }
    let design = Design::new(&trials, &Fixed::Columns { width: 1, values: vec![1.0; trials.len()] });
    design.check().map_err(|error| Fault::new("rows", error))?;
    Ok(answer(&fit(&design, terms), terms))
}

/// The random terms asked for: `usual`, with those of `choice` in or out where `random` says so.
pub fn random_terms(fields: &Fields, usual: Terms, choice: &[Term]) -> Result<Terms, Fault> {
    let Some(random) = fields.maybe("random") else { return Ok(usual) };
    let random = Fields::of(random, "random")?;
    choice.iter().try_fold(usual, |terms, term| match random.maybe(name(*term)) {
        None => Ok(terms),
        Some(Value::Bool(on)) => Ok(terms.with(*term, *on)),
        Some(_) => Err(Fault::new(random.at(name(*term)), "must be true or false")),
    })
}

fn name(term: Term) -> &'static str {
    match term {
        Term::Lot => "lot",
        Term::Cell => "cell",
        Term::Variety => "variety",
        Term::Grower => "grower",
        Term::Club => "club",
        Term::Source => "source",
        Term::Trial => "trial",
    }
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
    let design = fit.design;
    let none = design.cells.is_empty();
    let maybe = |value: Value| if none { Value::Null } else { value };
    let mut map = Map::new();
    let mut put = |key: String, value: Value| {
        map.insert(key, value);
    };
    put("status".to_owned(), json!(if none { "not_estimable" } else { "ok" }));
    put("intercept".to_owned(), maybe(number(fit.point.beta[0])));
    put("loglik".to_owned(), maybe(number(fit.loglik)));
    put("singular".to_owned(), maybe(json!(fit.terms != asked)));
    for term in Term::ALL.into_iter().filter(|term| asked.has(*term)) {
        put(format!("sd_{}", name(term)), maybe(number(fit.point.sd.of(term))));
        if let Some(names) = names(design, term) {
            put(format!("mode_{}", name(term)), modes(names, &fit.effects(term)));
        }
    }
    Value::Object(map)
}

/// Lots and trials have no name of their own.
fn names(design: &Design, term: Term) -> Option<&[String]> {
    match term {
        Term::Cell => Some(&design.cells),
        Term::Variety => Some(&design.varieties),
        Term::Grower => Some(&design.growers),
        Term::Club => Some(&design.clubs),
        Term::Source => Some(&design.sources),
        Term::Lot | Term::Trial => None,
    }
}

/// Effects by name.
pub fn modes(names: &[String], effects: &[f64]) -> Value {
    let pairs = names.iter().zip(effects).map(|(name, x)| (name.clone(), number(*x)));
    Value::Object(pairs.collect::<Map<_, _>>())
}
