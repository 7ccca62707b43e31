//! How each source stands across its varieties.

use super::layout::{FEW_SOURCES, Ready, varieties};
use super::model::{Estimate, Fitted};
use crate::linked::Links;
use crate::mixed::{Logits, Point, Term, Terms, fit, fit_from};
use crate::special::normal_cdf;
use crate::table::Count;
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;

/// One source across all its varieties.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct SourceStanding {
    /// Source.
    pub source: String,
    /// Varieties of it that were tried.
    pub varieties: usize,
    /// Growers who tried them.
    pub growers: usize,
    /// Seeds on paper, those not yet known left out.
    pub seeds: u64,
    /// How much its seed roots better than the club's average source does, on the logit, its varieties
    /// and growers allowed for. The average is of the sources that a chain of shared growers links to
    /// it. `None` where fewer than two of its varieties tell, fewer than three sources are so linked,
    /// or the club's sources show no difference across varieties at all.
    pub effect: Option<Estimate>,
    /// That it is better than that average, 0 to 1; `None` where `effect` is.
    pub probability_better: Option<f64>,
}

/// Every source of the club, sorted by name; none where fewer than three sources were tried with at
/// least two varieties, or the club is too large for the model.
///
/// The model is the club's with one more random term, sources across varieties, fitted for this alone:
/// logit = kind + variety + variety by source + source + grower + trial.
pub fn sources(fitted: &Fitted) -> Vec<SourceStanding> {
    let ready = fitted.ready;
    let across = varieties(ready.trials);
    if across.values().filter(|of| of.len() >= 2).count() < FEW_SOURCES {
        return Vec::new();
    }
    let design = ready.with_sources();
    if design.check().is_err() {
        return Vec::new();
    }
    let terms = Terms { lot: ready.has_lots(), source: true, ..Terms::CLUB };
    let fit = if fitted.is_partial() {
        let start = &fitted.fit.point;
        let sd = Term::ALL.into_iter().filter(|term| terms.has(*term)).fold(start.sd, |sd, term| {
            let least = if term == Term::Source { 0.3 } else { 0.1 };
            sd.with(term, sd.of(term).max(least))
        });
        fit_from(&design, terms, &Point { beta: start.beta.clone(), sd })
    } else {
        fit(&design, terms)
    };
    let logits = fit.covariance().map(|covariance| fit.named(&covariance, Term::Source));
    let linked = linked(ready, &design.sources);
    let standing = |(i, source): (usize, &String)| {
        let of = |t: &&Count| t.place.2 == source;
        let growers: BTreeSet<&str> = ready.trials.iter().filter(of).map(|t| t.grower).collect();
        let varieties = across.get(source.as_str()).map_or(0, BTreeSet::len);
        let found = logits.as_ref().filter(|_| varieties >= 2).and_then(|all| better(all, i, &linked[i]));
        SourceStanding {
            source: source.clone(),
            varieties,
            growers: growers.len(),
            seeds: ready.trials.iter().filter(of).map(|t| t.seeds).sum::<f64>().round() as u64,
            effect: found.map(|(effect, _)| effect),
            probability_better: found.map(|(_, probability)| probability),
        }
    };
    design.sources.iter().enumerate().map(standing).collect()
}

/// Of each source by its place in `names`, the places of all that shared growers link to it.
fn linked(ready: &Ready, names: &[String]) -> Vec<Vec<usize>> {
    let groups = Links::new(ready.trials.iter().map(|t| (t.grower, t.place.2))).groups();
    let place = |source: &String| names.binary_search(source).ok();
    let of = |source: &String| groups.iter().find(|group| group.sources.binary_search(source).is_ok());
    names
        .iter()
        .map(|source| of(source).into_iter().flat_map(|group| group.sources.iter().filter_map(place)))
        .map(Iterator::collect)
        .collect()
}

fn better(logits: &Logits, source: usize, among: &[usize]) -> Option<(Estimate, f64)> {
    let (value, error) = logits.from_mean(source, among);
    let effect = Estimate::new(value, error).filter(|_| among.len() >= FEW_SOURCES)?;
    Some((effect, normal_cdf(value / error)))
}
