//! Maximum of the Laplace approximation: quasi-Newton steps (BFGS) in the fixed effects and the
//! standard deviations, the first metric from the information of both.

use super::dense::{Cholesky, dot};
use super::design::Design;
use super::laplace::{Laplace, Mode};
use super::{Point, Sd, Terms};

/// A maximum: the point and the approximation there.
pub struct Top<'d> {
    pub point: Point,
    pub laplace: Laplace<'d>,
}

const ROUNDS: usize = 200;
const ENOUGH: f64 = 1e-9;

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
        if gain < enough {
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
    let rough = Point { beta: Vec::new(), sd: rough(laplace) }.flat(terms);
    for (k, curve) in rough.iter().enumerate() {
        metric[(width + k) * (size + 1)] = 1.0 / curve;
    }
    metric
}

/// Curvature in each standard deviation if its effects were seen through noise of their own:
/// 2 v^2 for each effect, v its share of shrinkage times 1 / sd.
fn rough(laplace: &Laplace) -> Sd {
    let (design, sd) = (laplace.design, &laplace.sd);
    let weight = design.pair_sums(laplace.mode.states.iter().map(|s| s.outer()));
    let unit = Sd { variety: 1.0, cell: 1.0, grower: 1.0, trial: 1.0 };
    let sums = super::arrow::Effects::gathered(design, &unit, &weight);
    let of = |sd: f64, sums: &mut dyn Iterator<Item = f64>| {
        sums.map(|w| 2.0 * (sd * w / (1.0 + sd * sd * w)).powi(2)).sum::<f64>().max(1.0)
    };
    Sd {
        variety: of(sd.variety, &mut sums.variety.iter().copied()),
        cell: of(sd.cell, &mut sums.cell.iter().copied()),
        grower: of(sd.grower, &mut sums.grower.iter().copied()),
        trial: of(sd.trial, &mut laplace.mode.states.iter().map(|s| s.weight)),
    }
}

/// Information of the fixed effects, the random ones eliminated (width x width, row-major).
pub fn information(laplace: &Laplace) -> Vec<f64> {
    (0..laplace.design.width()).flat_map(|j| lift(laplace, j).1).collect()
}

/// What fixed effect `j` pulls the random effects along by, and its row of the information.
pub fn lift(laplace: &Laplace, j: usize) -> (super::arrow::Effects, Vec<f64>) {
    let (design, sd) = (laplace.design, &laplace.sd);
    let outer = || laplace.mode.states.iter().map(|s| s.outer());
    let weighted: Vec<f64> = design.column(j).iter().zip(outer()).map(|(x, w)| x * w).collect();
    let sums = design.pair_sums(weighted.iter().copied());
    let mut lift = super::arrow::Effects::gathered(design, sd, &sums);
    laplace.arrow.solve(&mut lift);
    let logit = lift.scattered(design, sd);
    let rest: Vec<f64> =
        weighted.iter().zip(outer()).zip(&design.pair).map(|((v, w), p)| v - w * logit[*p]).collect();
    (lift, design.fixed_sums(&rest))
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
