//! The logits of cells, integrated over the standard deviations that the club leaves plausible.

use super::arrow::Effects;
use super::climb::lift;
use super::dense::{Cholesky, dot};
use super::design::Design;
use super::plausible;
use super::{Point, Terms};
use crate::roots::brent;
use crate::special::{normal_cdf, normal_quantile};

/// A model at every plausible set of standard deviations.
pub struct Integrated<'d> {
    nodes: Vec<Node<'d>>,
}

struct Node<'d> {
    inner: plausible::Node<'d>,
    /// Inverse of the information of the fixed effects.
    inverse: Vec<f64>,
    /// What each fixed effect pulls the random effects along by.
    lifts: Vec<Effects>,
}

/// A cell's place in the design and the fixed columns of a reference trial.
pub type Reference = (usize, Vec<f64>);

/// A mixture of normal distributions: weight, mean, standard deviation.
#[derive(Debug, Clone)]
pub struct Mixture(Vec<(f64, f64, f64)>);

impl<'d> Integrated<'d> {
    /// Of the model with these random `terms`, integrated around `start`, where the likelihood is
    /// highest; standard deviations of other terms stay as they are there. `None` where nothing is known.
    #[must_use]
    pub fn new(design: &'d Design, start: &Point, terms: Terms) -> Option<Self> {
        let nodes = plausible::nodes(design, start, terms);
        let nodes: Vec<Node> = nodes.into_iter().map(Node::new).collect::<Option<_>>()?;
        (!nodes.is_empty()).then_some(Self { nodes })
    }

    /// The logits of `cells`, for a grower and a trial of average care.
    #[must_use]
    pub fn logits(&self, cells: &[Reference]) -> MixedLogits {
        MixedLogits(self.nodes.iter().map(|node| node.logits(cells)).collect())
    }
}

impl<'d> Node<'d> {
    fn new(inner: plausible::Node<'d>) -> Option<Self> {
        let laplace = &inner.top.laplace;
        let width = laplace.design.width();
        let (mut lifts, mut information) = (Vec::new(), Vec::new());
        for j in 0..width {
            let (effects, column) = lift(laplace, j);
            lifts.push(effects);
            information.extend(column);
        }
        let factor = Cholesky::factor(information, width);
        factor.is_definite().then(|| Self { inverse: factor.inverse(), lifts, inner })
    }

    /// Means and covariances: those of the random effects given the fixed ones, and what the fixed ones add.
    fn logits(&self, cells: &[Reference]) -> Given {
        let laplace = &self.inner.top.laplace;
        let contrasts: Vec<Effects> = cells.iter().map(|(c, _)| laplace.contrast(*c)).collect();
        let slope = |((_, fixed), contrast): (&Reference, &Effects)| -> Vec<f64> {
            fixed.iter().zip(&self.lifts).map(|(x, lift)| x - contrast.dot(lift)).collect()
        };
        let slopes: Vec<Vec<f64>> = cells.iter().zip(&contrasts).map(slope).collect();
        let (beta, effects) = (&self.inner.top.point.beta, &laplace.mode.effects);
        let mean = |((_, fixed), c): (&Reference, &Effects)| dot(fixed, beta) + c.dot(effects);
        let mut covariance = Vec::with_capacity(cells.len() * cells.len());
        for (contrast, slope) in contrasts.iter().zip(&slopes) {
            let mut lift = contrast.clone();
            laplace.arrow.solve(&mut lift);
            let turned: Vec<f64> =
                self.inverse.chunks(slope.len().max(1)).map(|row| dot(row, slope)).collect();
            covariance.extend(contrasts.iter().zip(&slopes).map(|(c, s)| lift.dot(c) + dot(&turned, s)));
        }
        let mean = cells.iter().zip(&contrasts).map(mean).collect();
        Given { weight: self.inner.weight, mean, covariance }
    }
}

/// Means and covariances of some logits at one set of standard deviations.
struct Given {
    weight: f64,
    mean: Vec<f64>,
    covariance: Vec<f64>,
}

/// The logits of some cells.
pub struct MixedLogits(Vec<Given>);

impl MixedLogits {
    /// Of the logit at place `i`.
    #[must_use]
    pub fn one(&self, i: usize) -> Mixture {
        let part = |g: &Given| (g.weight, g.mean[i], g.covariance[i * g.mean.len() + i].max(0.0).sqrt());
        Mixture(self.0.iter().map(part).collect())
    }

    /// Of the logit at place `i` less that at place `j`.
    #[must_use]
    pub fn difference(&self, i: usize, j: usize) -> Mixture {
        let part = |g: &Given| {
            let at = |i: usize, j: usize| g.covariance[i * g.mean.len() + j];
            let variance = at(i, i) + at(j, j) - 2.0 * at(i, j);
            (g.weight, g.mean[i] - g.mean[j], variance.max(0.0).sqrt())
        };
        Mixture(self.0.iter().map(part).collect())
    }
}

impl Mixture {
    /// P(X <= x).
    #[must_use]
    pub fn below(&self, x: f64) -> f64 {
        self.0.iter().map(|(weight, mean, sd)| weight * normal_cdf((x - mean) / sd)).sum()
    }

    /// The x with P(X <= x) = `p`, 0 < p < 1, to 1e-6: it lies between those of the parts.
    #[must_use]
    pub fn quantile(&self, p: f64) -> f64 {
        let z = normal_quantile(p);
        let ends = self.0.iter().map(|(_, mean, sd)| mean + z * sd);
        let (low, high) = ends.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), x| (x.min(l), x.max(h)));
        brent(|x| self.below(x) - p, low, high, 1e-6)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mixed::{Fixed, Trial, fit};

    #[test]
    fn quantiles_of_a_mixture_have_the_chance_they_say() {
        let even = Mixture(vec![(0.5, -1.0, 1.0), (0.5, 1.0, 1.0)]);
        assert!(even.quantile(0.5).abs() < 1e-6);
        let mixed = Mixture(vec![(0.7, 0.3, 0.2), (0.3, 2.0, 1.5)]);
        for p in [0.025, 0.5, 0.975] {
            assert!((mixed.below(mixed.quantile(p)) - p).abs() < 1e-6);
        }
        let one = Mixture(vec![(1.0, 2.0, 0.5)]);
        assert!((one.quantile(0.975) - 2.979_982).abs() < 1e-6);
    }

    /// All growers found the same: their standard deviation is estimated at 0, yet is not taken for 0.
    #[test]
    fn a_standard_deviation_at_zero_is_not_certain() {
        let trials =
            ["a", "b", "c"].map(|g| Trial { variety: "v", cell: "v/s", grower: g, x: 70.0, n: 100.0 });
        let design = Design::new(&trials, &Fixed::Columns { width: 1, values: vec![1.0; 3] });
        let terms = Terms { variety: false, cell: false, grower: true, trial: true };
        let fit = fit(&design, terms);
        assert_eq!((fit.point.sd.grower, fit.point.sd.trial), (0.0, 0.0));
        let logit = Integrated::new(&design, &fit.point, terms).unwrap().logits(&[(0, vec![1.0])]).one(0);
        let binomial = 1.96 / (300.0_f64 * 0.7 * 0.3).sqrt();
        let half = 0.5 * (logit.quantile(0.975) - logit.quantile(0.025));
        assert!(half > 1.2 * binomial && half < 6.0 * binomial, "{half} {binomial}");
    }
}
