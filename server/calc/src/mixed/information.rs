//! How sure the fitted effects are: the inverse of the joint observed information of the fixed
//! effects and the logs of the standard deviations, and what the random effects add.

use super::climb::information;
use super::dense::{Cholesky, dot};
use super::design::Design;
use super::fit::Fit;
use super::laplace::Laplace;
use super::term::Term;

/// A cell's place in the design and the fixed columns of a reference trial.
pub type Reference = (usize, Vec<f64>);

/// Step of the numerical derivative of the gradient.
const STEP: f64 = 1e-3;
/// Up to so many fixed effects their information is differentiated numerically; above, that of the
/// fixed effects among themselves is the one with the random effects eliminated.
const WIDE: usize = 60;

/// Covariances of the parameters, and how the random effects move with them.
pub struct Covariance {
    width: usize,
    size: usize,
    parameters: Vec<f64>,
    slopes: Vec<Vec<f64>>,
}

impl Fit<'_> {
    /// Covariances of the fixed effects; `None` where the information is not positive definite.
    #[must_use]
    pub fn covariance(&self) -> Option<Covariance> {
        let flat = self.point.flat(self.terms);
        let (width, size) = (self.design.width(), flat.len());
        let mut matrix = vec![0.0; size * size];
        let mut slopes = vec![Vec::new(); size];
        let first = if width > WIDE { width } else { 0 };
        for k in first..size {
            let (up, down) = (self.shifted(&flat, k, STEP), self.shifted(&flat, k, -STEP));
            let (rise, fall) = (up.gradient().flat(self.terms), down.gradient().flat(self.terms));
            for i in 0..size {
                matrix[i * size + k] = (fall[i] - rise[i]) / (2.0 * STEP);
            }
            slopes[k] = slope(&up, &down);
        }
        if first > 0 {
            let among = information(&self.laplace);
            for i in 0..width {
                matrix[i * size..i * size + width].copy_from_slice(&among[i * width..(i + 1) * width]);
                for k in width..size {
                    matrix[k * size + i] = matrix[i * size + k];
                }
            }
        }
        for i in 0..size {
            for j in 0..i {
                let mean = f64::midpoint(matrix[i * size + j], matrix[j * size + i]);
                matrix[i * size + j] = mean;
            }
        }
        let factor = Cholesky::factor(matrix, size);
        let found = Covariance { width, size, parameters: factor.inverse(), slopes };
        factor.is_definite().then_some(found)
    }

    fn shifted(&self, flat: &[f64], k: usize, by: f64) -> Laplace<'_> {
        let mut moved = flat.to_vec();
        moved[k] += by;
        Laplace::at(self.design, &self.point.with(&moved, self.terms), &self.laplace.mode)
    }
}

/// Derivative of each random effect.
fn slope(up: &Laplace, down: &Laplace) -> Vec<f64> {
    let (up, down) = (random(up), random(down));
    up.iter().zip(&down).map(|(u, d)| (u - d) / (2.0 * STEP)).collect()
}

fn random(laplace: &Laplace) -> Vec<f64> {
    laplace.mode.effects.iter().zip(&laplace.scale).map(|(u, sd)| u * sd).collect()
}

/// A sum of fixed effects, each times a number, and of random effects.
pub(super) struct Sum<'s> {
    pub fixed: &'s [f64],
    pub random: Vec<usize>,
}

impl<'s> Sum<'s> {
    /// The logit of a cell, for a grower, a lot and a trial of average care.
    pub fn of_cell(design: &Design, (cell, fixed): &'s Reference) -> Self {
        Self { fixed, random: design.seed_effects(*cell) }
    }
}

impl Covariance {
    /// Covariance of two fixed effects.
    #[must_use]
    pub fn fixed(&self, i: usize, j: usize) -> f64 {
        self.parameters[i * self.size + j]
    }

    /// Derivative of one sum in each parameter.
    fn slopes(&self, sum: &Sum) -> Vec<f64> {
        let random = |k: usize| -> f64 {
            let slope = &self.slopes[k];
            sum.random.iter().map(|effect| slope.get(*effect).copied().unwrap_or(0.0)).sum()
        };
        let own = |k: usize| if k < self.width { sum.fixed.get(k).copied().unwrap_or(0.0) } else { 0.0 };
        (0..self.size).map(|k| own(k) + random(k)).collect()
    }
}

/// Some logits, or parts of them, with covariances.
pub struct Logits {
    /// Estimates, in the order asked for.
    pub estimate: Vec<f64>,
    covariance: Vec<f64>,
}

impl Logits {
    /// Standard error of the estimate at place `i`.
    #[must_use]
    pub fn error(&self, i: usize) -> f64 {
        self.covariance[i * self.estimate.len() + i].max(0.0).sqrt()
    }

    /// The estimate at place `i` less the mean of those at the places `among`, and its standard error.
    #[must_use]
    pub fn from_mean(&self, i: usize, among: &[usize]) -> (f64, f64) {
        let n = self.estimate.len();
        let mean = |of: &[f64]| among.iter().map(|j| of[*j]).sum::<f64>() / among.len() as f64;
        let row = |i: usize| &self.covariance[i * n..(i + 1) * n];
        let whole = among.iter().map(|j| mean(row(*j))).sum::<f64>() / among.len() as f64;
        let variance = row(i)[i] - 2.0 * mean(row(i)) + whole;
        (self.estimate[i] - mean(&self.estimate), variance.max(0.0).sqrt())
    }

    /// Difference of the estimates at places `i` and `j`, and its standard error.
    #[must_use]
    pub fn difference(&self, i: usize, j: usize) -> (f64, f64) {
        let at = |i: usize, j: usize| self.covariance[i * self.estimate.len() + j];
        let variance = at(i, i) + at(j, j) - 2.0 * at(i, j);
        (self.estimate[i] - self.estimate[j], variance.max(0.0).sqrt())
    }
}

impl Fit<'_> {
    /// The most likely logit of a cell.
    #[must_use]
    pub fn logit(&self, cell: &Reference) -> f64 {
        self.estimate(&Sum::of_cell(self.design, cell))
    }

    /// The logits of `cells` for a grower, a lot and a trial of average care: their conditional
    /// covariance given the parameters, and what the parameters add.
    #[must_use]
    pub fn logits(&self, covariance: &Covariance, cells: &[Reference]) -> Logits {
        let sums = cells.iter().map(|cell| Sum::of_cell(self.design, cell));
        self.sums(covariance, &sums.collect::<Vec<_>>())
    }

    /// The effects of one term, in the order of their names.
    #[must_use]
    pub fn named(&self, covariance: &Covariance, term: Term) -> Logits {
        let sums = self.design.range(term).map(|effect| Sum { fixed: &[], random: vec![effect] });
        self.sums(covariance, &sums.collect::<Vec<_>>())
    }

    fn estimate(&self, sum: &Sum) -> f64 {
        let fixed: f64 = sum.fixed.iter().zip(&self.point.beta).map(|(x, b)| x * b).sum();
        fixed + dot(&self.laplace.contrast(&sum.random), &self.laplace.mode.effects)
    }

    fn sums(&self, covariance: &Covariance, sums: &[Sum]) -> Logits {
        let contrasts: Vec<Vec<f64>> = sums.iter().map(|sum| self.laplace.contrast(&sum.random)).collect();
        let slopes: Vec<Vec<f64>> = sums.iter().map(|sum| covariance.slopes(sum)).collect();
        let mut matrix = Vec::with_capacity(sums.len() * sums.len());
        for (contrast, slope) in contrasts.iter().zip(&slopes) {
            let mut lift = contrast.clone();
            self.laplace.arrow.solve(&mut lift);
            let turned: Vec<f64> =
                covariance.parameters.chunks(covariance.size.max(1)).map(|row| dot(row, slope)).collect();
            matrix.extend(contrasts.iter().zip(&slopes).map(|(c, s)| dot(&lift, c) + dot(&turned, s)));
        }
        Logits { estimate: sums.iter().map(|sum| self.estimate(sum)).collect(), covariance: matrix }
    }
}
