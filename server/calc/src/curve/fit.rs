//! Maximum by an active set: Newton steps on the cells that carry mass, cells that reach 0 dropped,
//! cells towards which the likelihood rises added, until none is left. The end is proved by the
//! gradient condition (Lindsay 1983; Wang 2007, J. R. Statist. Soc. B 69:185-198, for the idea of
//! adding every local maximum of the gradient at once).

use super::cells::{Problem, Row};
use super::skyline::Skyline;

/// The maximum: masses by cell, log-likelihood per seed, gradient by cell and what is left to gain.
#[derive(Debug, Clone, Default)]
pub(super) struct Found {
    pub mass: Vec<f64>,
    pub gradient: Vec<f64>,
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
        let gap = gradient.iter().fold(0.0_f64, |m, g| m.max(g - 1.0));
        if gap <= CLOSE || (gap <= ENOUGH && gap > 0.5 * last) {
            break;
        }
        last = gap;
        active.widen(problem, &gradient);
    }
    active.tidy(problem);
    let gradient = active.gradient(problem);
    let gap = gradient.iter().fold(0.0_f64, |m, g| m.max(g - 1.0));
    let mut mass = vec![0.0; problem.cells.len()];
    for (j, p) in active.cells.iter().zip(&active.mass) {
        mass[*j] = *p;
    }
    Found { mass, gradient, loglik: active.loglik(&active.mass), gap }
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
        let mut place = vec![0; problem.cells.len() + 1];
        for j in &self.cells {
            place[j + 1] = 1;
        }
        for j in 1..place.len() {
            place[j] += place[j - 1];
        }
        let narrow = |row: &Row| Row { from: place[row.from], to: place[row.to], weight: row.weight };
        let mut rows: Vec<Row> = problem.rows.iter().map(narrow).collect();
        rows.sort_by_key(|row| (row.from, row.to));
        rows.dedup_by(|row, kept| {
            let same = (row.from, row.to) == (kept.from, kept.to);
            if same {
                kept.weight += row.weight;
            }
            same
        });
        self.rows = rows;
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
            let step = self.newton();
            let Some((mass, there)) = self.clipped(&step, here).or_else(|| self.searched(&step, here)) else {
                return;
            };
            let gain = there - here;
            (self.mass, here) = (mass, there);
            if self.mass.contains(&0.0) {
                self.drop_empty(problem);
            } else if gain <= 1e-15 {
                return;
            }
        }
    }

    fn drop_empty(&mut self, problem: &Problem) {
        let kept = |(j, p): (&usize, &f64)| (*p > 0.0).then_some((*j, *p));
        (self.cells, self.mass) = self.cells.iter().zip(&self.mass).filter_map(kept).unzip();
        self.cover(problem);
    }

    /// The Newton step in the masses, of sum 0. Worked in the cumulative shares between cells,
    /// where each row touches two.
    fn newton(&self) -> Vec<f64> {
        let k = self.cells.len();
        let mut first: Vec<usize> = (0..k.saturating_sub(1)).collect();
        let inner = |row: &&Row| row.from > 0 && row.to < k;
        for row in self.rows.iter().filter(inner) {
            first[row.to - 1] = first[row.to - 1].min(row.from - 1);
        }
        let mut matrix = Skyline::zeros(first);
        let mut push = vec![0.0; k.saturating_sub(1)];
        for row in &self.rows {
            let share: f64 = self.mass[row.from..row.to].iter().sum();
            let (pull, bend) = (row.weight / share, row.weight / (share * share));
            if row.to < k {
                push[row.to - 1] += pull;
                matrix.add(row.to - 1, row.to - 1, bend);
            }
            if row.from > 0 {
                push[row.from - 1] -= pull;
                matrix.add(row.from - 1, row.from - 1, bend);
            }
            if inner(&row) {
                matrix.add(row.to - 1, row.from - 1, -bend);
            }
        }
        matrix.factor();
        matrix.solve(&mut push);
        let moved = |i: usize| if i == 0 || i == k { 0.0 } else { push[i - 1] };
        (0..k).map(|i| moved(i + 1) - moved(i)).collect()
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
        for _ in 0..40 {
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
