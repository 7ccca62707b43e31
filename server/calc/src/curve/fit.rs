//! Maximum by an active set: Newton steps on the cells that carry mass, cells that reach 0 dropped,
//! cells towards which the likelihood rises added, until none is left. The end is proved by the
//! gradient condition (Lindsay 1983; Wang 2007, J. R. Statist. Soc. B 69:185-198, for the idea of
//! adding every local maximum of the gradient at once).

use super::cells::{Problem, Row};
use super::information::{information, merged};

/// The maximum: masses by cell, log-likelihood per seed, and what is left to gain.
#[derive(Debug, Clone, Default)]
pub(super) struct Found {
    pub mass: Vec<f64>,
    pub loglik: f64,
    pub gap: f64,
}

const CLOSE: f64 = 1e-12;
const ENOUGH: f64 = 1e-9;
const ROUNDS: usize = 500;
const STEPS: usize = 60;

pub(super) fn maximise(problem: &Problem) -> Found {
    if problem.rows.is_empty() {
        return Found::default();
    }
    let mut active = Active::stabbing(problem);
    let mut last = f64::INFINITY;
    for _ in 0..ROUNDS {
        active.climb(problem);
        let gradient = active.gradient(problem);
        let gap = excess(&gradient);
        if gap <= CLOSE || (gap <= ENOUGH && gap > 0.5 * last) {
            break;
        }
        last = gap;
        active.widen(problem, &gradient);
    }
    active.tidy(problem);
    let gap = excess(&active.gradient(problem));
    let mut mass = vec![0.0; problem.cells.len()];
    for (j, p) in active.cells.iter().zip(&active.mass) {
        mass[*j] = *p;
    }
    Found { mass, loglik: active.loglik(&active.mass), gap }
}

fn excess(gradient: &[f64]) -> f64 {
    gradient.iter().fold(0.0, |most, g| most.max(g - 1.0))
}

/// The cells that carry mass, their masses, and the rows as ranges of these cells.
struct Active {
    cells: Vec<usize>,
    mass: Vec<f64>,
    rows: Vec<Row>,
}

impl Active {
    /// The fewest cells such that every row covers one, with even masses.
    fn stabbing(problem: &Problem) -> Self {
        let mut by_end: Vec<&Row> = problem.rows.iter().collect();
        by_end.sort_by_key(|row| row.to);
        let mut cells: Vec<usize> = Vec::new();
        for row in by_end {
            if cells.last().is_none_or(|last| *last < row.from) {
                cells.push(row.to - 1);
            }
        }
        let mass = vec![1.0 / cells.len() as f64; cells.len()];
        let mut active = Self { cells, mass, rows: Vec::new() };
        active.cover(problem);
        active
    }

    /// Rows as ranges of the active cells; rows that now look alike are merged.
    fn cover(&mut self, problem: &Problem) {
        self.rows = merged(problem, &self.cells);
    }

    fn loglik(&self, mass: &[f64]) -> f64 {
        self.rows.iter().map(|row| row.weight * mass[row.from..row.to].iter().sum::<f64>().ln()).sum()
    }

    /// Derivative towards each cell of the problem; at the maximum at most 1 everywhere.
    fn gradient(&self, problem: &Problem) -> Vec<f64> {
        let mut sums = vec![0.0; problem.cells.len() + 1];
        for row in &problem.rows {
            let from = self.cells.partition_point(|j| *j < row.from);
            let to = self.cells.partition_point(|j| *j < row.to);
            let pull = row.weight / self.mass[from..to].iter().sum::<f64>();
            sums[row.from] += pull;
            sums[row.to] -= pull;
        }
        for j in 1..sums.len() {
            sums[j] += sums[j - 1];
        }
        sums.pop();
        sums
    }

    /// Newton steps on the active cells until none helps.
    fn climb(&mut self, problem: &Problem) {
        let mut here = self.loglik(&self.mass);
        for _ in 0..STEPS {
            let (step, rise) = self.newton();
            let inside = self.mass.iter().zip(&step).all(|(p, d)| p + d > 0.0);
            if rise < 1e-10 && inside {
                // So near that the log-likelihood cannot tell: Newton's step is right by itself.
                self.mass.iter_mut().zip(&step).for_each(|(p, d)| *p += d);
                here = self.loglik(&self.mass);
                if rise < 1e-20 {
                    return;
                }
                continue;
            }
            let Some((mass, there)) = self.clipped(&step, here).or_else(|| self.searched(&step, here)) else {
                return;
            };
            (self.mass, here) = (mass, there);
            if self.mass.contains(&0.0) {
                self.drop_empty(problem);
            }
        }
    }

    fn drop_empty(&mut self, problem: &Problem) {
        let kept = |(j, p): (&usize, &f64)| (*p > 0.0).then_some((*j, *p));
        (self.cells, self.mass) = self.cells.iter().zip(&self.mass).filter_map(kept).unzip();
        self.cover(problem);
    }

    /// The Newton step in the masses, of sum 0. Worked in the cumulative shares between cells,
    /// where each row touches two. Also the rise it promises, twice over.
    fn newton(&self) -> (Vec<f64>, f64) {
        let k = self.cells.len();
        let (mut matrix, push) = information(&self.rows, &self.mass);
        let mut shift = push.clone();
        matrix.factor();
        matrix.solve(&mut shift);
        let rise = push.iter().zip(&shift).map(|(g, d)| g * d).sum();
        let moved = |i: usize| if i == 0 || i == k { 0.0 } else { shift[i - 1] };
        ((0..k).map(|i| moved(i + 1) - moved(i)).collect(), rise)
    }

    /// The full step with masses below 0 cut to 0, where it gains.
    fn clipped(&self, step: &[f64], here: f64) -> Option<(Vec<f64>, f64)> {
        let mut mass: Vec<f64> = self.mass.iter().zip(step).map(|(p, d)| (p + d).max(0.0)).collect();
        let sum: f64 = mass.iter().sum();
        mass.iter_mut().for_each(|p| *p /= sum);
        let there = self.loglik(&mass);
        (there > here).then_some((mass, there))
    }

    /// The longest of ever halved steps that gains, none past the first mass to reach 0.
    fn searched(&self, step: &[f64], here: f64) -> Option<(Vec<f64>, f64)> {
        let room = self.mass.iter().zip(step).filter(|(_, d)| **d < 0.0).map(|(p, d)| -p / d);
        let mut length = room.fold(1.0, f64::min);
        for _ in 0..60 {
            let moved = |(p, d): (&f64, &f64)| {
                let q = p + length * d;
                if q <= 1e-15 * p { 0.0 } else { q }
            };
            let mass: Vec<f64> = self.mass.iter().zip(step).map(moved).collect();
            let there = self.loglik(&mass);
            if there > here {
                return Some((mass, there));
            }
            length *= 0.5;
        }
        None
    }

    /// Moves towards every local maximum of the gradient between active cells, as far as it gains.
    fn widen(&mut self, problem: &Problem, gradient: &[f64]) {
        let mut best: Vec<Option<usize>> = vec![None; self.cells.len() + 1];
        for (j, g) in gradient.iter().enumerate().filter(|(_, g)| **g > 1.0) {
            let slot = &mut best[self.cells.partition_point(|c| *c <= j)];
            if slot.is_none_or(|i| gradient[i] < *g) {
                *slot = Some(j);
            }
        }
        let added: Vec<usize> = best.into_iter().flatten().collect();
        let pull: f64 = added.iter().map(|j| gradient[*j] - 1.0).sum();
        let share = |j: &usize| if added.contains(j) { (gradient[*j] - 1.0) / pull } else { 0.0 };
        let mut joined: Vec<(usize, f64)> =
            self.cells.iter().copied().zip(self.mass.iter().copied()).collect();
        joined.extend(added.iter().filter(|j| self.cells.binary_search(j).is_err()).map(|j| (*j, 0.0)));
        joined.sort_by_key(|(j, _)| *j);
        let here = self.loglik(&self.mass);
        let step: Vec<f64> = joined.iter().map(|(j, p)| share(j) - p).collect();
        (self.cells, self.mass) = joined.into_iter().unzip();
        self.cover(problem);
        match self.searched(&step, here) {
            Some((mass, _)) => self.mass = mass,
            None => self.drop_empty(problem),
        }
    }

    /// Drops masses of less than a ten-thousandth of a seed that rounding left behind.
    fn tidy(&mut self, problem: &Problem) {
        let small = (1e-4 / problem.seeds).min(1e-9);
        let lone = |k: usize| self.rows.iter().any(|row| row.from == k && row.to == k + 1);
        let kept: Vec<bool> = (0..self.mass.len()).map(|k| self.mass[k] > small || lone(k)).collect();
        if kept.contains(&false) {
            self.mass.iter_mut().zip(kept).filter(|(_, keep)| !keep).for_each(|(p, _)| *p = 0.0);
            self.drop_empty(problem);
            let sum: f64 = self.mass.iter().sum();
            self.mass.iter_mut().for_each(|p| *p /= sum);
            self.climb(problem);
        }
    }
}
