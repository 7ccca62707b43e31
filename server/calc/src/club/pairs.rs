//! Two sources of one variety compared: first by the growers who tried both, then by the whole model.

use super::model::{Estimate, Fitted};
use super::within::within_growers;
use crate::mixed::{expit, holm};
use crate::table::{Count, Place};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// One comparison; numbers of sources that no chain of growers links do not exist.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Pair {
    /// Kind.
    pub kind: String,
    /// Variety.
    pub variety: String,
    /// First source by name.
    pub a: String,
    /// Second source.
    pub b: String,
    /// Whether a chain of shared growers links them.
    pub linked: bool,
    /// What the whole model says.
    pub whole: Option<Whole>,
    /// Log odds ratio from the growers who tried both.
    pub within_growers: Option<Estimate>,
}

/// What the whole model says.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Whole {
    /// Above 0: `a` roots better.
    pub log_odds_ratio: Estimate,
    /// Rate of `a` less that of `b`, for a grower of average care, as shares: 0.1 is 10 plants more
    /// of 100 sown. -1 to 1.
    pub difference: Estimate,
    /// 0 to 1.
    pub probability_a_better: f64,
    /// Holm-adjusted over the linked pairs of the variety.
    pub p_holm: f64,
}

/// Every pair of sources of every variety, in alphabetical order.
pub fn pairs<'d>(
    fitted: Option<&Fitted<'d>>,
    trials: &'d [Count<'d>],
    groups: &BTreeMap<Place<'d>, usize>,
) -> Vec<Pair> {
    let places: Vec<Place> = groups.keys().copied().collect();
    let mut by_place: BTreeMap<Place, &[Count]> = BTreeMap::new();
    for of_place in trials.chunk_by(|s, t| s.place == t.place) {
        by_place.insert(of_place[0].place, of_place);
    }
    let none: &[Count] = &[];
    let of = |place: &Place<'d>| by_place.get(place).copied().unwrap_or(none);
    let mut pairs = Vec::new();
    for variety in places.chunk_by(|s, t| (s.0, s.1) == (t.0, t.1)) {
        let from = pairs.len();
        for (i, a) in variety.iter().enumerate() {
            for b in &variety[i + 1..] {
                let linked = groups[a] == groups[b];
                let whole = || whole(fitted?, *a, *b);
                let within = || within_growers(of(a), of(b), fitted?.fit.point.sd.trial);
                pairs.push(Pair {
                    kind: a.0.to_owned(),
                    variety: a.1.to_owned(),
                    a: a.2.to_owned(),
                    b: b.2.to_owned(),
                    linked,
                    whole: linked.then(whole).flatten(),
                    within_growers: linked.then(within).flatten(),
                });
            }
        }
        adjust(&mut pairs[from..]);
    }
    pairs
}

/// `p_holm` holds twice the lesser chance, the plain p-value, until [`adjust`].
fn whole<'d>(fitted: &Fitted<'d>, a: Place<'d>, b: Place<'d>) -> Option<Whole> {
    let ((logits, i), (_, j)) = (fitted.logits(a)?, fitted.logits(b)?);
    let (a, b) = (fitted.logit(a)?.value, fitted.logit(b)?.value);
    let (ratio, rates) = (logits.difference(i, j), logits.rate_difference(i, j));
    let above = 1.0 - ratio.below(0.0);
    Some(Whole {
        log_odds_ratio: Estimate::mixed(a - b, |p| ratio.quantile(p))?,
        difference: Estimate::mixed(expit(a) - expit(b), |p| rates.quantile(p))?,
        probability_a_better: above,
        p_holm: (2.0 * above.min(1.0 - above)).clamp(0.0, 1.0),
    })
}

fn adjust(pairs: &mut [Pair]) {
    let p: Vec<f64> = pairs.iter().filter_map(|p| p.whole.map(|w| w.p_holm)).collect();
    let adjusted = holm(&p);
    let wholes = pairs.iter_mut().filter_map(|p| p.whole.as_mut());
    wholes.zip(adjusted).for_each(|(whole, p)| whole.p_holm = p);
}
