//! Binomial mixed models of the club: growers and trials differ, varieties and sources are either
//! fixed cells or drawn from the club (partial pooling).
//!
//! logit p = fixed part + variety + cell + lot + grower + club + source + trial, each random effect normal with
//! its own standard deviation, fitted by maximum likelihood in the joint Laplace approximation over all
//! random effects (Breslow and Clayton 1993; Pinheiro and Chao 2006). Lots lie in cells and cells in
//! varieties; growers, clubs and sources are crossed with them. Trials' effects are eliminated one by one, the
//! nested ones by hand, so that time and memory grow with the trials.

mod arrow;
mod climb;
mod dense;
mod design;
mod fit;
mod holm;
mod information;
mod integrated;
mod laplace;
mod mixture;
mod places;
mod plausible;
mod rows;
mod term;
#[cfg(test)]
mod tests;

pub use design::{Design, Fixed, Trial};
pub use fit::{Fit, fit, fit_at, fit_from};
pub use holm::holm;
pub use information::{Covariance, Logits, Reference};
pub use integrated::{Integrated, MixedLogits};
pub use mixture::{Draws, Mixture};
pub use rows::{averaged, expit};
pub use term::{Point, Sd, Term, Terms};
