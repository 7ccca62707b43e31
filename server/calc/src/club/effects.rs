//! What care does to the rate: routines, warmth, age of seed, floating.

use super::care::{Column, varied, within_growers};
use super::model::{Estimate, Fitted};
use super::within::WIDE;
use crate::mixed::{Covariance, Design, Fit, Fixed, Point, Sd, Term, Terms, Trial, fit, fit_from};
use crate::table::Count;
use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, BTreeSet};

/// From fewer trials than this how they differ is taken from the club's model.
const FEW: usize = 6;

/// An effect on the logit: estimate and 95 % interval, and the same from within growers only.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Effect {
    /// `kind: onion`, `routine: Dry`, `warmth_c`, `age_years`, `floated`.
    pub name: String,
    /// From all growers; for `floated` from trials of which floated and sunk seeds were on paper.
    pub estimate: Estimate,
    /// From growers who varied it; `None` where nobody did, or it is no matter of care.
    pub within_growers: Option<Estimate>,
    /// How many growers varied it.
    pub growers: usize,
    /// How many trials these growers made; for `floated`, that had both.
    pub trials: usize,
}

/// The effects of the model's columns. With fixed cells, whose model has no columns, those of care
/// beside cells left all but free.
pub fn effects(fitted: &Fitted) -> Vec<Effect> {
    if fitted.covariance.is_none() {
        return Vec::new();
    }
    if fitted.is_partial() {
        return named(fitted, &fitted.fit, fitted.covariance.as_ref());
    }
    if !fitted.ready.columns.iter().any(|column| column.is_care) {
        return Vec::new();
    }
    let fit = beside_cells(fitted, &fitted.ready.partial);
    let mut effects = named(fitted, &fit, fit.covariance().as_ref());
    effects.retain(|effect| fitted.ready.columns.iter().any(|c| c.is_care && c.name == effect.name));
    effects
}

fn named(fitted: &Fitted, fit: &Fit, covariance: Option<&Covariance>) -> Vec<Effect> {
    let within = within(fitted);
    let effect = |(i, column): (usize, &Column)| {
        let estimate = estimate(fit, covariance?, i + 1)?;
        let (growers, trials) = if column.is_care { varied(column, fitted.ready.trials) } else { (0, 0) };
        let within_growers = within.get(&column.name).copied().filter(|_| growers > 0);
        Some(Effect { name: column.name.clone(), estimate, within_growers, growers, trials })
    };
    fitted.ready.columns.iter().enumerate().filter_map(effect).collect()
}

/// The effects of care from what differs within growers.
fn within(fitted: &Fitted) -> BTreeMap<String, Estimate> {
    let ready = fitted.ready;
    if !ready.columns.iter().any(|c| c.is_care) {
        return BTreeMap::new();
    }
    let split = within_growers(&ready.columns, ready.trials);
    let design = ready.with_columns(&split);
    let fit =
        if fitted.is_partial() { fit(&design, fitted.fit.terms) } else { beside_cells(fitted, &design) };
    let Some(covariance) = fit.covariance() else { return BTreeMap::new() };
    let care = split.iter().enumerate().filter(|(_, c)| c.is_care);
    let effect = |(i, c): (usize, &Column)| Some((c.name.clone(), estimate(&fit, &covariance, i + 1)?));
    care.filter_map(effect).collect()
}

fn beside_cells<'d>(fitted: &Fitted, design: &'d Design) -> Fit<'d> {
    let sd = Sd { variety: 0.0, cell: WIDE, ..fitted.fit.point.sd };
    fit_from(design, fitted.fit.terms, &Point { beta: vec![0.0; design.width()], sd })
}

fn estimate(fit: &Fit, covariance: &Covariance, i: usize) -> Option<Estimate> {
    Estimate::new(fit.point.beta[i], covariance.fixed(i, i).sqrt())
}

/// Whether floating foretells failure: floated against sunk seeds of the same trial. `None` where no
/// trial had both on paper. Trials and both sorts of seed are left all but free, so that a sort of
/// which none or all rooted stays finite.
pub fn floated(floated: &[Count], sunk: &[Count], sd_trial: f64) -> Option<Effect> {
    let names = |of: &[Count<'_>]| of.iter().map(|t| t.trial.to_owned()).collect::<BTreeSet<_>>();
    let both: BTreeSet<String> = names(floated).intersection(&names(sunk)).cloned().collect();
    let sorts = [("floated", floated), ("sunk", sunk)];
    let rows: Vec<Trial> = sorts
        .iter()
        .flat_map(|(sort, of)| of.iter().map(move |t| (*sort, t)))
        .filter(|(_, t)| both.contains(t.trial))
        .map(|(sort, t)| Trial { cell: t.trial, grower: sort, x: t.rooted, n: t.seeds, ..Trial::default() })
        .collect();
    let design = Design::new(&rows, &Fixed::Columns { width: 1, values: vec![1.0; rows.len()] });
    let terms = Terms { trial: both.len() >= FEW, ..Terms::default() };
    let sd = Sd { cell: WIDE, grower: WIDE, trial: sd_trial, ..Sd::default() };
    let start = Point { beta: vec![0.0], sd };
    if both.is_empty() {
        return None;
    }
    let fit = fit_from(&design, terms, &start);
    let (value, error) = fit.named(&fit.covariance()?, Term::Grower).difference(0, 1);
    let estimate = Estimate::new(value, error)?;
    let growers: BTreeSet<&str> =
        floated.iter().filter(|t| both.contains(t.trial)).map(|t| t.grower).collect();
    Some(Effect {
        name: "floated".to_owned(),
        estimate,
        within_growers: Some(estimate),
        growers: growers.len(),
        trials: both.len(),
    })
}
