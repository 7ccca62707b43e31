//! The logits of cells, integrated over the standard deviations that the club leaves plausible.

use super::climb::pulled;
use super::dense::{Cholesky, dot};
use super::design::Design;
use super::information::{Reference, Sum};
use super::mixture::{Draws, Mixture};
use super::plausible::{self, halton};
use super::rows::expit;
use super::term::{Point, Terms};
use crate::special::normal_quantile;

/// So many pairs of rates are drawn, or a few more, for how far apart two rates are.
const DRAWS: usize = 1_024;

/// A model at every plausible set of standard deviations.
pub struct Integrated<'d> {
    nodes: Vec<Node<'d>>,
}

struct Node<'d> {
    inner: plausible::Node<'d>,
    /// Inverse of the information of the fixed effects.
    inverse: Vec<f64>,
    /// The random effects that each fixed effect pulls along.
    pulled: Vec<Vec<f64>>,
}

impl<'d> Integrated<'d> {
    /// Of the model with these random `terms`, integrated around `start`, where the likelihood is
    /// highest; standard deviations of other terms stay as they are there. `None` where nothing is known.
    #[must_use]
    pub fn new(design: &'d Design, start: &Point, terms: Terms) -> Option<Self> {
        let nodes = plausible::nodes(design, start, terms);
        let nodes: Vec<Node> = nodes.into_iter().map(Node::new).collect::<Option<_>>()?;
        (!nodes.is_empty()).then_some(Self { nodes })
    }

    /// The logits of `cells`, for a grower, a lot and a trial of average care.
    #[must_use]
    pub fn logits(&self, cells: &[Reference]) -> MixedLogits {
        MixedLogits(self.nodes.iter().map(|node| node.logits(cells)).collect())
    }
}

impl<'d> Node<'d> {
    fn new(inner: plausible::Node<'d>) -> Option<Self> {
        let laplace = &inner.top.laplace;
        let width = laplace.design.width();
        let (mut along, mut information) = (Vec::new(), Vec::new());
        for j in 0..width {
            let (effects, row) = pulled(laplace, j);
            along.push(effects);
            information.extend(row);
        }
        let factor = Cholesky::factor(information, width);
        factor.is_definite().then(|| Self { inverse: factor.inverse(), pulled: along, inner })
    }

    /// Means and covariances: those of the random effects given the fixed ones, and what the fixed ones add.
    fn logits(&self, cells: &[Reference]) -> Given {
        let laplace = &self.inner.top.laplace;
        let sums: Vec<Sum> = cells.iter().map(|cell| Sum::of_cell(laplace.design, cell)).collect();
        let contrasts: Vec<Vec<f64>> = sums.iter().map(|sum| laplace.contrast(&sum.random)).collect();
        let slope = |(sum, contrast): (&Sum, &Vec<f64>)| -> Vec<f64> {
            sum.fixed.iter().zip(&self.pulled).map(|(x, pulled)| x - dot(contrast, pulled)).collect()
        };
        let slopes: Vec<Vec<f64>> = sums.iter().zip(&contrasts).map(slope).collect();
        let (beta, effects) = (&self.inner.top.point.beta, &laplace.mode.effects);
        let mean = |(sum, c): (&Sum, &Vec<f64>)| dot(sum.fixed, beta) + dot(c, effects);
        let mut covariance = Vec::with_capacity(cells.len() * cells.len());
        for (contrast, slope) in contrasts.iter().zip(&slopes) {
            let mut lift = contrast.clone();
            laplace.arrow.solve(&mut lift);
            let turned: Vec<f64> =
                self.inverse.chunks(slope.len().max(1)).map(|row| dot(row, slope)).collect();
            covariance.extend(contrasts.iter().zip(&slopes).map(|(c, s)| dot(&lift, c) + dot(&turned, s)));
        }
        let mean = sums.iter().zip(&contrasts).map(mean).collect();
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
        let part = |g: &Given| (g.weight, g.mean[i], g.covariance(i, i).max(0.0).sqrt());
        Mixture(self.0.iter().map(part).collect())
    }

    /// Of the logit at place `i` less that at place `j`.
    #[must_use]
    pub fn difference(&self, i: usize, j: usize) -> Mixture {
        Mixture(self.0.iter().map(|g| (g.weight, g.mean[i] - g.mean[j], g.apart(i, j))).collect())
    }

    /// Of the rate at place `i` less that at place `j`, above 0 where the logits' difference is.
    #[must_use]
    pub fn rate_difference(&self, i: usize, j: usize) -> Draws {
        let each = DRAWS.div_ceil(self.0.len());
        let drawn = |(n, g): (usize, &Given)| {
            let draw = g.rate_difference(i, j);
            let z = |k: usize, base: usize| normal_quantile(halton(n * each + k + 1, base));
            let draws = (0..each).map(|k| (draw(z(k, 2), z(k, 3)), g.weight / each as f64));
            draws.collect::<Vec<_>>()
        };
        Draws::new(self.0.iter().enumerate().flat_map(drawn).collect())
    }
}

impl Given {
    fn covariance(&self, i: usize, j: usize) -> f64 {
        self.covariance[i * self.mean.len() + j]
    }

    /// Standard deviation of the difference of the logits at places `i` and `j`.
    fn apart(&self, i: usize, j: usize) -> f64 {
        let at = |i, j| self.covariance(i, j);
        (at(i, i) + at(j, j) - 2.0 * at(i, j)).max(0.0).sqrt()
    }

    /// The difference of the rates, of two independent standard normal numbers: the first is that of the
    /// logits' difference.
    fn rate_difference(&self, i: usize, j: usize) -> impl Fn(f64, f64) -> f64 {
        let apart = self.apart(i, j);
        let along = if apart > 0.0 { (self.covariance(i, i) - self.covariance(i, j)) / apart } else { 0.0 };
        let rest = (self.covariance(i, i) - along * along).max(0.0).sqrt();
        let (mean, difference) = (self.mean[i], self.mean[i] - self.mean[j]);
        move |u, v| {
            let logit = mean + along * u + rest * v;
            expit(logit) - expit(logit - difference - apart * u)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mixed::tests::{ALL, club};
    use crate::mixed::{Fixed, Sd, Trial, fit, fit_at};

    /// Beside a grid of both logits.
    #[test]
    fn draws_of_a_difference_of_rates_have_the_chance_they_say() {
        let given = |weight, mean: [f64; 2], covariance: [f64; 3]| {
            let [own, both, other] = covariance;
            Given { weight, mean: mean.to_vec(), covariance: vec![own, both, both, other] }
        };
        let mixed = MixedLogits(vec![
            given(0.7, [2.0, 0.5], [0.6, 0.2, 0.4]),
            given(0.3, [4.0, 0.0], [4.0, 1.0, 2.0]),
        ]);
        let below = |x: f64| {
            let (mut sum, mut whole) = (0.0, 0.0);
            for (u, v) in
                (-60..=60).flat_map(|u| (-60..=60).map(move |v| (0.1 * f64::from(u), 0.1 * f64::from(v))))
            {
                let density = (-0.5 * (u * u + v * v)).exp();
                whole += density;
                for g in &mixed.0 {
                    // The factor of the covariances, by hand.
                    let own = g.covariance(0, 0).sqrt();
                    let both = g.covariance(0, 1) / own;
                    let a = g.mean[0] + own * u;
                    let b = g.mean[1] + both * u + (g.covariance(1, 1) - both * both).sqrt() * v;
                    sum += if expit(a) - expit(b) <= x { g.weight * density } else { 0.0 };
                }
            }
            sum / whole
        };
        let draws = mixed.rate_difference(0, 1);
        for (p, within) in [(0.025, 0.005), (0.5, 0.01), (0.975, 0.005)] {
            let got = below(draws.quantile(p));
            assert!((got - p).abs() < within, "{p}: {got}");
        }
        let above = 1.0 - mixed.difference(0, 1).below(0.0);
        assert!(draws.quantile(0.99 - above) < 0.0 && draws.quantile(1.01 - above) > 0.0);
    }

    /// Beside the joint information at the same standard deviations; lots and sources are among the terms.
    #[test]
    fn one_node_says_what_the_information_says() {
        let trials = club();
        let design = Design::new(&trials, &Fixed::Columns { width: 1, values: vec![1.0; trials.len()] });
        let sd = Sd { variety: 0.4, cell: 0.3, lot: 0.5, grower: 0.6, club: 0.0, source: 0.7, trial: 0.5 };
        let fit = fit_at(&design, sd);
        let cells: Vec<Reference> = (0..design.cells.len()).map(|cell| (cell, vec![1.0])).collect();
        let want = fit.logits(&fit.covariance().unwrap(), &cells);
        let found = Integrated::new(&design, &fit.point, Terms::default()).unwrap().logits(&cells);
        for i in 0..cells.len() {
            let Mixture(parts) = found.one(i);
            let [(weight, mean, error)] = parts[..] else { panic!("{parts:?}") };
            assert!(weight == 1.0 && (mean - want.estimate[i]).abs() < 1e-3, "{mean} {}", want.estimate[i]);
            assert!((error / want.error(i) - 1.0).abs() < 0.03, "{error} {}", want.error(i));
        }
    }

    #[test]
    fn every_term_is_integrated_over_where_little_is_known() {
        let trials = club();
        let design = Design::new(&trials, &Fixed::Columns { width: 1, values: vec![1.0; trials.len()] });
        let nodes = Integrated::new(&design, &fit(&design, ALL).point, ALL).unwrap().nodes;
        for term in ALL.list() {
            let sds = nodes.iter().map(|n| n.inner.top.point.sd.of(term));
            let (low, high) = sds.fold((f64::INFINITY, 0.0_f64), |(l, h), sd| (l.min(sd), h.max(sd)));
            assert!(low > 0.0 && high > 2.0 * low, "{term:?}: {low} to {high}");
        }
    }

    /// All growers found the same: their standard deviation is estimated at 0, yet is not taken for 0.
    #[test]
    fn a_standard_deviation_at_zero_is_not_certain() {
        let trials = ["a", "b", "c"].map(|g| Trial {
            variety: "v",
            cell: "v/s",
            grower: g,
            x: 70.0,
            n: 100.0,
            ..Trial::default()
        });
        let design = Design::new(&trials, &Fixed::Columns { width: 1, values: vec![1.0; 3] });
        let terms = Terms { variety: false, cell: false, ..Terms::CLUB };
        let fit = fit(&design, terms);
        assert_eq!((fit.point.sd.grower, fit.point.sd.trial), (0.0, 0.0));
        let logit = Integrated::new(&design, &fit.point, terms).unwrap().logits(&[(0, vec![1.0])]).one(0);
        let binomial = 1.96 / (300.0_f64 * 0.7 * 0.3).sqrt();
        let half = 0.5 * (logit.quantile(0.975) - logit.quantile(0.025));
        assert!(half > 1.2 * binomial && half < 6.0 * binomial, "{half} {binomial}");
    }
}
