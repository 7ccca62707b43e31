//! Binomial mixed models of the club: growers and trials differ, varieties and sources are either
//! fixed cells or drawn from the club (partial pooling).
//!
//! logit p = fixed part + variety + cell + grower + trial, each random effect normal with its own
//! standard deviation, fitted by maximum likelihood in the joint Laplace approximation over all
//! random effects (Breslow and Clayton 1993; Pinheiro and Chao 2006). Trials' effects are eliminated
//! one by one, cells and varieties by hand, so that time and memory grow with the trials.

mod arrow;
mod climb;
mod dense;
mod design;
mod fit;
mod holm;
mod information;
mod integrated;
mod laplace;
mod plausible;
mod rows;
#[cfg(test)]
mod tests;

pub use design::{Design, Fixed, Trial};
pub use fit::{Fit, fit, fit_at};
pub use holm::holm;
pub use information::{Covariance, Logits};
pub use integrated::{Integrated, MixedLogits, Mixture, Reference};
pub use rows::expit;
use serde::{Deserialize, Serialize};

/// Which random terms the model has.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Terms {
    /// Varieties.
    pub variety: bool,
    /// Variety by source.
    pub cell: bool,
    /// Growers.
    pub grower: bool,
    /// Trials.
    pub trial: bool,
}

/// A standard deviation on the logit scale for each random term.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
pub struct Sd {
    /// Of varieties.
    pub variety: f64,
    /// Of variety by source.
    pub cell: f64,
    /// Of growers.
    pub grower: f64,
    /// Of trials.
    pub trial: f64,
}

/// Fixed effects and standard deviations.
#[derive(Debug, Clone, PartialEq)]
pub struct Point {
    /// Fixed effects.
    pub beta: Vec<f64>,
    /// Standard deviations.
    pub sd: Sd,
}

impl Point {
    fn flat(&self, terms: Terms) -> Vec<f64> {
        let mut flat = self.beta.clone();
        let sd = &self.sd;
        let pairs = [
            (terms.variety, sd.variety),
            (terms.cell, sd.cell),
            (terms.grower, sd.grower),
            (terms.trial, sd.trial),
        ];
        flat.extend(pairs.iter().filter(|(on, _)| *on).map(|(_, sd)| *sd));
        flat
    }

    fn with(&self, flat: &[f64], terms: Terms) -> Self {
        let (beta, rest) = flat.split_at(self.beta.len());
        let mut rest = rest.iter().copied();
        let mut next = |on: bool, old: f64| if on { rest.next().unwrap_or(old) } else { old };
        let sd = Sd {
            variety: next(terms.variety, self.sd.variety),
            cell: next(terms.cell, self.sd.cell),
            grower: next(terms.grower, self.sd.grower),
            trial: next(terms.trial, self.sd.trial),
        };
        Self { beta: beta.to_vec(), sd }
    }
}
