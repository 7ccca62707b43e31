use super::club::{modes, random_terms};
use super::shrink::counts;
use super::{Fault, Fields, number};
use crate::mixed::{Covariance, Design, Fit, Fixed, Term, Terms, Trial, averaged, expit, fit};
use crate::shrinkage::{Status, beta_binomial};
use crate::special::{normal_sf, two_sided_z};
use serde_json::{Map, Value, json};
use std::collections::BTreeMap;

/// `pooled`: fixed cells (or a design of one's own), growers and trials drawn from the club.
pub fn pooled(input: &Value) -> Result<Value, Fault> {
    let fields = Fields::of(input, "")?;
    let conf = fields.conf()?;
    let rows = fields.rows("rows")?;
    let mut trials = Vec::with_capacity(rows.len());
    let mut cells: BTreeMap<&str, Vec<(u64, u64)>> = BTreeMap::new();
    for row in &rows {
        let (cell, grower, (x, n)) = (row.text("cell")?, row.text("grower")?, counts(row)?);
        cells.entry(cell).or_default().push((x, n));
        trials.push(Trial { cell, grower, x: x as f64, n: n as f64, ..Trial::default() });
    }
    let none = Terms { variety: false, cell: false, club: false, ..Terms::CLUB };
    let asked = random_terms(&fields, none, &[Term::Grower, Term::Trial])?;
    let columns = Columns::read(&fields, trials.len())?;
    let design = Design::new(&trials, &columns.fixed);
    design.check().map_err(|error| Fault::new("rows", error))?;
    let fit = fit(&design, asked);
    let names = if columns.names.is_empty() { design.cells.clone() } else { columns.names };
    let fitted = Fitted { fit: &fit, names: &names, covariance: fit.covariance(), z: two_sided_z(conf) };
    let by_cell = cells.iter().map(|(cell, rows)| ((*cell).to_owned(), spread(rows, fitted.z)));
    Ok(json!({
        "laplace": fitted.answer(asked),
        "beta_binomial_by_cell": by_cell.collect::<Map<_, _>>(),
    }))
}

/// The fixed part: a matrix of one's own with its names, or one effect for each cell.
struct Columns {
    fixed: Fixed,
    names: Vec<String>,
}

impl Columns {
    fn read(fields: &Fields, trials: usize) -> Result<Self, Fault> {
        let cells = Self { fixed: Fixed::Cells, names: Vec::new() };
        let Some(design) = fields.maybe("design") else { return Ok(cells) };
        let design = Fields::of(design, "design")?;
        if design.maybe("X").is_none() {
            return Ok(cells);
        }
        let text = |(i, v): (usize, &Value)| {
            let place = || Fault::new(format!("design.columns[{i}]"), "must be text");
            v.as_str().map(str::to_owned).ok_or_else(place)
        };
        let names: Vec<String> =
            design.list("columns")?.iter().enumerate().map(text).collect::<Result<_, _>>()?;
        if names.is_empty() {
            return Err(Fault::new("design.columns", "must name at least one column"));
        }
        let rows = design.list("X")?;
        if rows.len() != trials {
            return Err(Fault::new("design.X", format!("must have one row for each of the {trials} rows")));
        }
        let mut values = Vec::with_capacity(trials * names.len());
        for (i, row) in rows.iter().enumerate() {
            let row = json!({ "row": row });
            let numbers = Fields::of(&row, "")?.numbers("row");
            let numbers = numbers.map_err(|f| Fault::new(format!("design.X[{i}]"), f.error))?;
            if numbers.len() != names.len() {
                let error = format!("must have {} numbers, one for each column", names.len());
                return Err(Fault::new(format!("design.X[{i}]"), error));
            }
            values.extend(numbers);
        }
        Ok(Self { fixed: Fixed::Columns { width: names.len(), values }, names })
    }
}

struct Fitted<'a> {
    fit: &'a Fit<'a>,
    names: &'a [String],
    covariance: Option<Covariance>,
    z: f64,
}

impl Fitted<'_> {
    fn error(&self, i: usize) -> f64 {
        self.covariance.as_ref().map_or(f64::NAN, |c| c.fixed(i, i).sqrt())
    }

    fn answer(&self, asked: Terms) -> Value {
        let point = &self.fit.point;
        let estimate = |(i, name): (usize, &String)| json!({ "name": name, "estimate": number(point.beta[i]), "se": number(self.error(i)) });
        let sd = |on: bool, sd: f64| if on { number(sd) } else { Value::Null };
        let mut answer = json!({
            "fixed": self.names.iter().enumerate().map(estimate).collect::<Vec<_>>(),
            "sd_grower": sd(asked.grower, point.sd.grower),
            "sd_trial": sd(asked.trial, point.sd.trial),
            "loglik": number(self.fit.loglik),
            "mode_grower": modes(&self.fit.design.growers, &self.fit.effects(Term::Grower)),
        });
        if self.names == self.fit.design.cells {
            let rates: Vec<Value> = (0..self.names.len()).map(|i| self.rate(i)).collect();
            answer["rates"] = Value::Array(rates);
            answer["pairs"] = Value::Array(self.pairs());
        }
        answer
    }

    fn rate(&self, i: usize) -> Value {
        let (at, half) = (self.fit.point.beta[i], self.z * self.error(i));
        let ends = [at - half, at + half];
        let sd = &self.fit.point.sd;
        let population = |x: f64| number(averaged(x, sd.grower.hypot(sd.trial)).0);
        json!({
            "cell": self.names[i],
            "rate_mean_grower": number(expit(at)),
            "ci": ends.map(|x| number(expit(x))),
            "rate_population": population(at),
            "population_ci": ends.map(population),
        })
    }

    fn pairs(&self) -> Vec<Value> {
        let cells = self.names.len();
        let places: Vec<(usize, usize)> =
            (0..cells).flat_map(|a| (a + 1..cells).map(move |b| (a, b))).collect();
        let beta = &self.fit.point.beta;
        let error = |&(a, b): &(usize, usize)| {
            let variance = |c: &Covariance| c.fixed(a, a) + c.fixed(b, b) - 2.0 * c.fixed(a, b);
            self.covariance.as_ref().map_or(f64::NAN, |c| variance(c).sqrt())
        };
        let found: Vec<(f64, f64)> = places.iter().map(|p| (beta[p.0] - beta[p.1], error(p))).collect();
        let p: Vec<f64> = found.iter().map(|(d, se)| 2.0 * normal_sf((d / se).abs())).collect();
        let holm = crate::mixed::holm(&p);
        let row = |i: usize| {
            let ((a, b), (d, se)) = (places[i], found[i]);
            json!({
                "a": self.names[a], "b": self.names[b],
                "log_odds_ratio": number(d), "se": number(se),
                "ci": [number(d - self.z * se), number(d + self.z * se)],
                "p": number(p[i]), "p_holm": number(holm[i]),
            })
        };
        (0..places.len()).map(row).collect()
    }
}

/// How unlike each other the trials of one cell are.
fn spread(rows: &[(u64, u64)], z: f64) -> Value {
    let fit = beta_binomial(rows);
    let status = match fit.status {
        Status::Ok => "ok",
        Status::NoSpread => "boundary_rho_0",
        Status::AllOrNothing | Status::NoVariation | Status::NotEstimable => "rho_not_estimable",
    };
    let rho = if status == "rho_not_estimable" { f64::NAN } else { fit.rho() };
    let logit = (fit.mean / (1.0 - fit.mean)).ln();
    let end = |by: f64| number(expit(logit + by * fit.error));
    json!({
        "status": status, "mu": number(fit.mean), "rho": number(rho), "loglik": number(fit.loglik),
        "se_logit_mu": number(fit.error), "mu_ci": [end(-z), end(z)],
    })
}
