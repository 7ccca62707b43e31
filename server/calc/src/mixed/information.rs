//! How sure the fitted effects are: the inverse of the joint observed information of the fixed
//! effects and the logs of the standard deviations, and what the random effects add.

use super::arrow::Effects;
use super::climb::information;
use super::dense::{Cholesky, dot};
use super::fit::Fit;
use super::laplace::Laplace;

/// Step of the numerical derivative of the gradient.
const STEP: f64 = 1e-3;
/// Up to so many fixed effects their information is differentiated numerically; above, that of the
/// fixed effects among themselves is the one with the random effects eliminated.
const WIDE: usize = 60;

/// Covariances of the parameters, and of each cell's logit for a grower of average care.
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

/// Derivative of each cell's random part (variety and cell).
fn slope(up: &Laplace, down: &Laplace) -> Vec<f64> {
    let (up, down) = (random_part(up), random_part(down));
    up.iter().zip(&down).map(|(u, d)| (u - d) / (2.0 * STEP)).collect()
}

fn random_part(laplace: &Laplace) -> Vec<f64> {
    let (effects, sd) = (&laplace.mode.effects, &laplace.sd);
    let of = |(c, v): (usize, &usize)| sd.cell * effects.cell[c] + sd.variety * effects.variety[*v];
    laplace.design.variety_of.iter().enumerate().map(of).collect()
}

impl Covariance {
    /// Covariance of two fixed effects.
    #[must_use]
    pub fn fixed(&self, i: usize, j: usize) -> f64 {
        self.parameters[i * self.size + j]
    }

    /// Derivative of one cell's logit in each parameter.
    fn slopes(&self, cell: usize, fixed: &[f64]) -> Vec<f64> {
        let of = |k: usize| {
            let own = if k < self.width { fixed[k] } else { 0.0 };
            own + self.slopes[k].get(cell).copied().unwrap_or(0.0)
        };
        (0..self.size).map(of).collect()
    }
}

/// The logit of some cells for a grower and a trial of average care, with covariances.
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

    /// Difference of the estimates at places `i` and `j`, and its standard error.
    #[must_use]
    pub fn difference(&self, i: usize, j: usize) -> (f64, f64) {
        let at = |i: usize, j: usize| self.covariance[i * self.estimate.len() + j];
        let variance = at(i, i) + at(j, j) - 2.0 * at(i, j);
        (self.estimate[i] - self.estimate[j], variance.max(0.0).sqrt())
    }
}

impl Fit<'_> {
    /// The most likely logit of a cell, a place in the design, with the fixed columns of a reference trial.
    #[must_use]
    pub fn logit(&self, cell: usize, fixed: &[f64]) -> f64 {
        dot(fixed, &self.point.beta) + self.laplace.contrast(cell).dot(&self.laplace.mode.effects)
    }

    /// The logits of `cells`, each a place in the design and the fixed columns of a reference trial:
    /// their conditional covariance given the parameters, and what the parameters add.
    #[must_use]
    pub fn logits(&self, covariance: &Covariance, cells: &[(usize, Vec<f64>)]) -> Logits {
        let contrasts: Vec<Effects> = cells.iter().map(|(c, _)| self.laplace.contrast(*c)).collect();
        let slopes: Vec<Vec<f64>> = cells.iter().map(|(c, fixed)| covariance.slopes(*c, fixed)).collect();
        let mut matrix = Vec::with_capacity(cells.len() * cells.len());
        for (contrast, slope) in contrasts.iter().zip(&slopes) {
            let mut lift = contrast.clone();
            self.laplace.arrow.solve(&mut lift);
            let turned: Vec<f64> =
                covariance.parameters.chunks(covariance.size.max(1)).map(|row| dot(row, slope)).collect();
            matrix.extend(contrasts.iter().zip(&slopes).map(|(c, s)| lift.dot(c) + dot(&turned, s)));
        }
        Logits {
            estimate: cells.iter().map(|(c, fixed)| self.logit(*c, fixed)).collect(),
            covariance: matrix,
        }
    }
}

impl Laplace<'_> {
    /// What a cell's logit takes of each effect.
    pub(super) fn contrast(&self, cell: usize) -> Effects {
        let mut contrast = Effects::zeros(self.design);
        contrast.cell[cell] = self.sd.cell;
        contrast.variety[self.design.variety_of[cell]] = self.sd.variety;
        contrast
    }
}
