//! The standard deviations that a club leaves plausible, each set with its weight.
//!
//! The weight is the posterior density: the Laplace approximation, the fixed effects integrated out
//! (restricted likelihood), times a half-Cauchy prior of scale [`SCALE`] on each standard deviation
//! (Gelman 2006, Bayesian Analysis 1:515-534), which matters only where few growers or sources speak.
//! It is integrated in the logs of the standard deviations by adaptive importance sampling (Cappe,
//! Guillin, Marin and Robert 2004, J. Comput. Graph. Statist. 13:907-929) over Halton's points (1960).

use super::climb::{Top, climb_until, information};
use super::dense::{Cholesky, dot};
use super::design::Design;
use super::laplace::{Laplace, Mode};
use super::term::{Point, Term, Terms};
use crate::special::normal_quantile;

const SCALE: f64 = 0.5;
/// A standard deviation known within this share of itself is taken as known.
const KNOWN: f64 = 0.1;
/// Spread of a log standard deviation to look in first, at most.
const WIDEST: f64 = 0.8;
/// Points to integrate over, by how many trials they cost: many trials leave little to integrate. Half
/// as many tell first where they should lie.
const POINTS: std::ops::RangeInclusive<usize> = 12..=64;
const COST: usize = 64_000;
/// A step that promises less log-likelihood than this is not worth its time.
const ENOUGH: f64 = 1e-4;
/// Points of less weight than this share of an equal one are left out.
const SLIGHT: f64 = 0.01;
const PRIMES: [usize; Term::ALL.len()] = [2, 3, 5, 7, 11, 13, 17];

/// One set of standard deviations, the fixed effects and the mode at them.
pub struct Node<'d> {
    /// All weights together are 1.
    pub weight: f64,
    pub top: Top<'d>,
}

/// The nodes around `start`, a maximum of the likelihood in the `terms`; other standard deviations stay.
/// Empty where no point has a likelihood.
pub fn nodes<'d>(design: &'d Design, start: &Point, terms: Terms) -> Vec<Node<'d>> {
    let laplace = Laplace::at(design, start, &Mode::start(design));
    let (unsure, first) = unsure(&laplace, design.having(terms));
    let from = Start { design, point: start, mode: &laplace.mode, unsure };
    if first.mean.is_empty() {
        return from.nodes(&first, 1);
    }
    let points = (COST / design.n.len().max(1)).clamp(*POINTS.start(), *POINTS.end());
    let second = first.towards(&from.nodes(&first, points / 2), unsure);
    second.map(|second| from.nodes(&second, points)).unwrap_or_default()
}

struct Start<'s, 'd> {
    design: &'d Design,
    point: &'s Point,
    mode: &'s Mode,
    unsure: Terms,
}

impl<'d> Start<'_, 'd> {
    fn nodes(&self, proposal: &Proposal, points: usize) -> Vec<Node<'d>> {
        let found = |i: usize| {
            let (logs, density) = proposal.point(i + 1);
            let sds: Vec<f64> = logs.iter().map(|x| x.exp()).collect();
            let sd = Point { beta: Vec::new(), sd: self.point.sd }.with(&sds, self.unsure).sd;
            let point = Point { beta: self.point.beta.clone(), sd };
            let top = climb_until(ENOUGH, self.design, &point, Terms::default(), self.mode);
            let prior = |sd: &f64| sd.ln() - (sd / SCALE).powi(2).ln_1p();
            let prior: f64 = sds.iter().map(prior).sum();
            (restricted(&top) + prior - density, top)
        };
        let all: Vec<(f64, Top)> = (0..points).map(found).filter(|n| n.0.is_finite()).collect();
        let highest = all.iter().map(|n| n.0).fold(f64::NEG_INFINITY, f64::max);
        let mut nodes: Vec<Node> =
            all.into_iter().map(|(log, top)| Node { weight: (log - highest).exp(), top }).collect();
        let least = SLIGHT * nodes.iter().map(|n| n.weight).sum::<f64>() / points as f64;
        nodes.retain(|n| n.weight >= least);
        let sum: f64 = nodes.iter().map(|n| n.weight).sum();
        nodes.iter_mut().for_each(|n| n.weight /= sum);
        nodes
    }
}

/// Log-likelihood with the fixed effects integrated out.
fn restricted(top: &Top) -> f64 {
    let width = top.laplace.design.width();
    top.laplace.loglik - 0.5 * Cholesky::factor(information(&top.laplace), width).log_det()
}

/// A normal distribution of the logs of the standard deviations.
struct Proposal {
    mean: Vec<f64>,
    factor: Cholesky,
}

impl Proposal {
    /// The point at place `i`, from 1, and the log density there up to a constant.
    fn point(&self, i: usize) -> (Vec<f64>, f64) {
        let z: Vec<f64> = PRIMES[..self.mean.len()].iter().map(|p| normal_quantile(halton(i, *p))).collect();
        let moved = self.factor.spread(&z);
        (self.mean.iter().zip(&moved).map(|(m, x)| m + x).collect(), -0.5 * dot(&z, &z))
    }

    /// The normal distribution with the mean of `nodes` and a little more than their covariance.
    fn towards(&self, nodes: &[Node], unsure: Terms) -> Option<Self> {
        let size = self.mean.len();
        let logs = |n: &Node| -> Vec<f64> {
            let sd = Point { beta: Vec::new(), sd: n.top.point.sd };
            sd.flat(unsure).iter().map(|sd| sd.ln()).collect()
        };
        let (mut mean, mut matrix) = (vec![0.0; size], vec![0.0; size * size]);
        for node in nodes {
            mean.iter_mut().zip(logs(node)).for_each(|(m, x)| *m += node.weight * x);
        }
        for node in nodes {
            let off: Vec<f64> = logs(node).iter().zip(&mean).map(|(x, m)| x - m).collect();
            for i in 0..size {
                (0..size).for_each(|j| matrix[i * size + j] += 1.3 * node.weight * off[i] * off[j]);
            }
        }
        (0..size).for_each(|i| matrix[i * size + i] += 0.01);
        (!nodes.is_empty()).then(|| Self { mean, factor: Cholesky::factor(matrix, size) })
    }
}

/// The van der Corput sequence: the digits of `i` mirrored at the point.
pub fn halton(mut i: usize, base: usize) -> f64 {
    let (mut x, mut part) = (0.0, 1.0);
    while i > 0 {
        part /= base as f64;
        x += part * (i % base) as f64;
        i /= base;
    }
    x
}

/// The terms whose standard deviations are not known well, and where their logs are to be looked for.
fn unsure(laplace: &Laplace, terms: Terms) -> (Terms, Proposal) {
    let of = |term: Term| (term, vague(laplace.sd.of(term), &laplace.weights(term)));
    let all: Vec<(Term, (f64, f64))> =
        terms.list().map(of).filter(|(_, (_, share))| *share > KNOWN).collect();
    let size = all.len();
    let mut matrix = vec![0.0; size * size];
    for (i, (_, (_, share))) in all.iter().enumerate() {
        matrix[i * size + i] = (2.0 * share).min(WIDEST).powi(2);
    }
    let unsure = all.iter().fold(Terms::default(), |terms, (term, _)| terms.with(*term, true));
    let mean = all.iter().map(|(_, (centre, _))| centre.ln()).collect();
    (unsure, Proposal { mean, factor: Cholesky::factor(matrix, size) })
}

/// The standard deviation, or the least one that could be told from 0, and how large its standard error
/// is beside it, were each effect seen through noise of its own variance 1 / weight.
fn vague(sd: f64, weights: &[f64]) -> (f64, f64) {
    let share = |sd: f64| {
        let information = |w: &f64| 2.0 * (sd * sd * w / (1.0 + sd * sd * w)).powi(2);
        1.0 / weights.iter().map(information).sum::<f64>().sqrt()
    };
    if share(sd) < 1.0 {
        return (sd, share(sd));
    }
    let told = (0..40).map(|k| 0.05 * 1.1_f64.powi(k)).find(|sd| share(*sd) < 1.0);
    (told.unwrap_or(1.0), 1.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mixed::{Fixed, Sd, Trial, fit};

    #[test]
    fn points_of_the_first_bases() {
        let first = |base| -> Vec<f64> { (1..5).map(|i| halton(i, base)).collect() };
        assert_eq!(first(2), [0.5, 0.25, 0.75, 0.125]);
        let thirds = [1.0 / 3.0, 2.0 / 3.0, 1.0 / 9.0, 4.0 / 9.0];
        first(3).iter().zip(thirds).for_each(|(got, want)| assert!((got - want).abs() < 1e-15));
    }

    /// The mean of a growers' standard deviation beside the trapezoidal rule over a fine grid of its log.
    #[test]
    fn nodes_integrate_as_a_fine_grid_does() {
        let counts = [("a", 8.0), ("a", 9.0), ("b", 3.0), ("b", 5.0), ("c", 7.0), ("c", 6.0)];
        let trials: Vec<Trial> = counts
            .iter()
            .map(|(grower, x)| Trial {
                variety: "v",
                cell: "v/s",
                grower,
                x: *x,
                n: 12.0,
                ..Trial::default()
            })
            .collect();
        let design = Design::new(&trials, &Fixed::Columns { width: 1, values: vec![1.0; trials.len()] });
        let terms = Terms { grower: true, ..Terms::default() };
        let fit = fit(&design, terms);
        let nodes = nodes(&design, &fit.point, terms);
        let found: f64 = nodes.iter().map(|n| n.weight * n.top.point.sd.grower).sum();
        let (mut sum, mut weights) = (0.0, 0.0);
        for log in (-600..300).map(|i| 0.01 * f64::from(i)) {
            let sd = Sd { grower: f64::exp(log), ..Sd::default() };
            let point = Point { beta: fit.point.beta.clone(), sd };
            let top = climb_until(1e-9, &design, &point, Terms::default(), &Mode::start(&design));
            let weight = restricted(&top).exp() * sd.grower / (1.0 + (sd.grower / SCALE).powi(2));
            (sum, weights) = (sum + weight * sd.grower, weights + weight);
        }
        let want = sum / weights;
        assert!((found / want - 1.0).abs() < 0.05, "want {want}, got {found}");
    }
}
