use super::model::Estimate;
use crate::mixed::{Design, Fixed, Sd, Trial, fit_at};
use crate::table::Count;
use std::collections::BTreeSet;

/// Wide on the logit scale: growers and sources are all but free, yet all-or-nothing bags stay finite.
pub const WIDE: f64 = 3.0;

/// Log odds ratio of sources `a` and `b` from the growers who tried both, each compared with
/// themselves; trials differ by `sd_trial`. `None` where no grower tried both.
pub fn within_growers(a: &[Count], b: &[Count], sd_trial: f64) -> Option<Estimate> {
    let tried: BTreeSet<&str> = a.iter().map(|t| t.grower).collect();
    let both: BTreeSet<&str> = b.iter().map(|t| t.grower).filter(|g| tried.contains(g)).collect();
    if both.is_empty() {
        return None;
    }
    let named = a.iter().map(|t| ("a", t)).chain(b.iter().map(|t| ("b", t)));
    let shared = named.filter(|(_, t)| both.contains(t.grower));
    let trials: Vec<Trial> = shared
        .map(|(cell, t)| Trial { cell, grower: t.grower, x: t.rooted, n: t.seeds, ..Trial::default() })
        .collect();
    let design = Design::new(&trials, &Fixed::Columns { width: 1, values: vec![1.0; trials.len()] });
    let fit = fit_at(&design, Sd { cell: WIDE, grower: WIDE, trial: sd_trial, ..Sd::default() });
    let covariance = fit.covariance()?;
    let (value, error) = fit.logits(&covariance, &[(0, vec![1.0]), (1, vec![1.0])]).difference(0, 1);
    Estimate::new(value, error)
}
