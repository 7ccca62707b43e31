//! Maximum of the Laplace approximation: quasi-Newton steps (BFGS) in the fixed effects and the
//! standard deviations, the first metric from the information of both.

use super::dense::{Cholesky, dot};
use super::design::{Design, Fixed};
use super::laplace::{Laplace, Mode};
use super::term::{Point, Terms};

/// A maximum: the point and the approximation there.
pub struct Top<'d> {
    pub point: Point,
    pub laplace: Laplace<'d>,
}

const ROUNDS: usize = 200;
/// A step that gains no more than this, or than the last digits of the log-likelihood, is the last.
const ENOUGH: f64 = 1e-9;
const DIGITS: f64 = 1e-13;

/// Climbs from `point`; standard deviations not among `terms` stay where they are.
pub fn climb<'d>(design: &'d Design, start: &Point, terms: Terms, mode: &Mode) -> Top<'d> {
    climb_until(ENOUGH, design, start, terms, mode)
}

/// Climbs until a step promises to gain less than `enough`.
pub fn climb_until<'d>(enough: f64, design: &'d Design, start: &Point, terms: Terms, mode: &Mode) -> Top<'d> {
    let mut here = start.flat(terms);
    let mut laplace = Laplace::at(design, start, mode);
    let mut slope = laplace.gradient().flat(terms);
    let mut metric = first_metric(&laplace, terms, here.len());
    for _ in 0..ROUNDS {
        let mut step = times(&metric, &slope);
        limit(&mut step);
        let gain = dot(&step, &slope);
        if gain < enough.max(DIGITS * laplace.loglik.abs()) {
            break;
        }
        let Some((there, next)) = longer(design, start, terms, (&here, &step, gain), &laplace) else { break };
        let next_slope = next.gradient().flat(terms);
        let moved: Vec<f64> = there.iter().zip(&here).map(|(a, b)| a - b).collect();
        let bent: Vec<f64> = slope.iter().zip(&next_slope).map(|(a, b)| a - b).collect();
        update(&mut metric, &moved, &bent);
        (here, laplace, slope) = (there, next, next_slope);
    }
    Top { point: start.with(&here, terms), laplace }
}

/// No parameter of a logit moves far in one step: the approximation is only trusted nearby.
fn limit(step: &mut [f64]) {
    let longest = step.iter().fold(0.0_f64, |m, s| m.max(s.abs()));
    if longest > 2.0 {
        step.iter_mut().for_each(|s| *s *= 2.0 / longest);
    }
}

fn longer<'d>(
    design: &'d Design,
    start: &Point,
    terms: Terms,
    (here, step, gain): (&[f64], &[f64], f64),
    from: &Laplace<'d>,
) -> Option<(Vec<f64>, Laplace<'d>)> {
    let mut length = 1.0;
    for _ in 0..25 {
        let there: Vec<f64> = here.iter().zip(step).map(|(x, s)| x + length * s).collect();
        let next = Laplace::at(design, &start.with(&there, terms), &from.mode);
        if next.loglik >= from.loglik + 1e-4 * length * gain {
            return Some((there, next));
        }
        length *= 0.4;
    }
    None
}

/// Inverse of the information of the fixed effects, and of a rough one of each standard deviation.
fn first_metric(laplace: &Laplace, terms: Terms, size: usize) -> Vec<f64> {
    let width = laplace.design.width();
    let fixed = Cholesky::factor(information(laplace), width).inverse();
    let mut metric = vec![0.0; size * size];
    for i in 0..width {
        metric[i * size..i * size + width].copy_from_slice(&fixed[i * width..(i + 1) * width]);
    }
    for (k, term) in terms.list().enumerate() {
        metric[(width + k) * (size + 1)] = 1.0 / rough(laplace.sd.of(term), &laplace.weights(term));
    }
    metric
}

/// Curvature in a standard deviation if its effects were seen through noise of their own:
/// 2 v^2 for each effect, v its share of shrinkage times 1 / sd.
fn rough(sd: f64, weights: &[f64]) -> f64 {
    let of = |w: &f64| 2.0 * (sd * w / (1.0 + sd * sd * w)).powi(2);
    weights.iter().map(of).sum::<f64>().max(1.0)
}

/// Information of the fixed effects, the random ones eliminated (width x width, row-major).
pub fn information(laplace: &Laplace) -> Vec<f64> {
    let (design, states) = (laplace.design, &laplace.mode.states);
    if matches!(design.fixed, Fixed::Cells) {
        return information_of_cells(laplace, &design.pair_sums(states.iter().map(|s| s.outer())));
    }
    (0..design.width()).flat_map(|j| pulled(laplace, j).1).collect()
}

/// The random effects that fixed effect `j` pulls along, and its row of the information.
pub fn pulled(laplace: &Laplace, j: usize) -> (Vec<f64>, Vec<f64>) {
    let (design, scale) = (laplace.design, &laplace.scale);
    let outer = || laplace.mode.states.iter().map(|s| s.outer());
    let weighted: Vec<f64> = design.column(j).iter().zip(outer()).map(|(x, w)| x * w).collect();
    let effects = taken_up(laplace, &design.pair_sums(weighted.iter().copied()));
    let logit = design.scattered(scale, &effects);
    let rest: Vec<f64> =
        weighted.iter().zip(outer()).zip(&design.pair).map(|((v, w), p)| v - w * logit[*p]).collect();
    (effects, design.fixed_sums(&rest))
}

/// The same where each cell has one: by pair, not by trial.
fn information_of_cells(laplace: &Laplace, weight: &[f64]) -> Vec<f64> {
    let (cell_of, width) = (&laplace.design.cell_of, laplace.design.width());
    let mut matrix = vec![0.0; width * width];
    for (j, row) in matrix.chunks_mut(width.max(1)).enumerate() {
        let own: Vec<f64> =
            weight.iter().zip(cell_of).map(|(w, cell)| if *cell == j { *w } else { 0.0 }).collect();
        let logit = laplace.design.scattered(&laplace.scale, &taken_up(laplace, &own));
        for (p, cell) in cell_of.iter().enumerate() {
            row[*cell] += own[p] - weight[p] * logit[p];
        }
    }
    matrix
}

/// What the random effects take up of `by`, given by pair.
fn taken_up(laplace: &Laplace, by: &[f64]) -> Vec<f64> {
    let mut effects = laplace.design.gathered(&laplace.scale, by);
    laplace.arrow.solve(&mut effects);
    effects
}

fn times(matrix: &[f64], v: &[f64]) -> Vec<f64> {
    matrix.chunks(v.len().max(1)).map(|row| dot(row, v)).collect()
}

/// BFGS update of the inverse metric (Nocedal and Wright 2006, eq. 6.17); skipped where the slope
/// does not fall along the move.
fn update(metric: &mut [f64], moved: &[f64], bent: &[f64]) {
    let along = dot(moved, bent);
    if along <= 1e-12 * dot(moved, moved).sqrt() * dot(bent, bent).sqrt() {
        return;
    }
    let turned = times(metric, bent);
    let scale = (1.0 + dot(bent, &turned) / along) / along;
    for (i, row) in metric.chunks_mut(moved.len()).enumerate() {
        for (j, m) in row.iter_mut().enumerate() {
            *m += scale * moved[i] * moved[j] - (turned[i] * moved[j] + moved[i] * turned[j]) / along;
        }
    }
}
