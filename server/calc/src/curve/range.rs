//! How far the looks determine the curve: the likelihood fixes the share of every row, each a
//! difference of two cumulative shares; shares linked to neither end may move.

use super::cells::Problem;
use super::fit::Found;

/// Cumulative shares before, between and after the cells that may carry mass.
#[derive(Debug, Clone)]
pub(super) struct Nodes {
    pub cells: Vec<usize>,
    pub mass: Vec<f64>,
    pub value: Vec<f64>,
    pub low: Vec<f64>,
    pub high: Vec<f64>,
}

impl Nodes {
    pub(super) fn of(problem: &Problem, found: &Found) -> Self {
        let may = |j: &usize| found.mass[*j] > 0.0 || found.gradient[*j] > 1.0 - 1e-7;
        let cells: Vec<usize> = (0..problem.cells.len()).filter(may).collect();
        let mass: Vec<f64> = cells.iter().map(|j| found.mass[*j]).collect();
        let mut value = vec![0.0];
        value.extend(mass.iter().scan(0.0, |sum, p| {
            *sum += p;
            Some(*sum)
        }));
        let total = value[cells.len()];
        value.iter_mut().for_each(|f| *f /= if total > 0.0 { total } else { 1.0 });
        let group = linked(problem, &cells);
        let (low, high) = spread(&value, &group);
        Self { cells, mass, value, low, high }
    }
}

/// Group of each node; group 0 is what is linked to either end.
fn linked(problem: &Problem, cells: &[usize]) -> Vec<usize> {
    let place = |j: usize| cells.partition_point(|c| *c < j);
    let mut group: Vec<usize> = (0..=cells.len()).collect();
    let mut join = |a: usize, b: usize| {
        let (a, b) = (root(&mut group, a), root(&mut group, b));
        group[a.max(b)] = a.min(b);
    };
    join(0, cells.len());
    for row in &problem.rows {
        join(place(row.from), place(row.to));
    }
    (0..=cells.len()).map(|k| root(&mut group, k)).collect()
}

fn root(group: &mut [usize], mut k: usize) -> usize {
    while group[k] != k {
        group[k] = group[group[k]];
        k = group[k];
    }
    k
}

/// Lowest and highest value of each node: groups move as one, and the curve never falls.
fn spread(value: &[f64], group: &[usize]) -> (Vec<f64>, Vec<f64>) {
    let open = |k: &usize| group[*k] != 0;
    let mut low = value.to_vec();
    let mut high = value.to_vec();
    (0..value.len()).filter(open).for_each(|k| (low[k], high[k]) = (0.0, 1.0));
    for _ in 0..value.len() {
        let before = (low.clone(), high.clone());
        for k in (1..value.len()).filter(open) {
            low[k] = low[k].max(low[k - 1]);
        }
        for k in (0..value.len() - 1).rev().filter(open) {
            high[k] = high[k].min(high[k + 1]);
        }
        let mut rise = vec![f64::NEG_INFINITY; value.len()];
        let mut fall = vec![f64::INFINITY; value.len()];
        for k in (0..value.len()).filter(open) {
            rise[group[k]] = rise[group[k]].max(low[k] - value[k]);
            fall[group[k]] = fall[group[k]].min(high[k] - value[k]);
        }
        for k in (0..value.len()).filter(open) {
            (low[k], high[k]) = (value[k] + rise[group[k]], value[k] + fall[group[k]]);
        }
        let moved = |a: &[f64], b: &[f64]| a.iter().zip(b).any(|(x, y)| (x - y).abs() > 1e-12);
        if !moved(&before.0, &low) && !moved(&before.1, &high) {
            break;
        }
    }
    (low, high)
}
