use super::cells::{Problem, Row};
use super::skyline::Skyline;

/// Rows as ranges of the cells `kept`; rows that now look alike are merged.
pub(super) fn merged(problem: &Problem, kept: &[usize]) -> Vec<Row> {
    let mut place = vec![0; problem.cells.len() + 1];
    for j in kept {
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
    rows
}

/// Observed information and gradient per seed, in the cumulative shares between cells: there each
/// row touches two of them.
pub(super) fn information(rows: &[Row], mass: &[f64]) -> (Skyline, Vec<f64>) {
    let k = mass.len();
    let mut first: Vec<usize> = (0..k.saturating_sub(1)).collect();
    let inner = |row: &&Row| row.from > 0 && row.to < k;
    for row in rows.iter().filter(inner) {
        first[row.to - 1] = first[row.to - 1].min(row.from - 1);
    }
    let mut matrix = Skyline::zeros(first);
    let mut push = vec![0.0; k.saturating_sub(1)];
    for row in rows {
        let share: f64 = mass[row.from..row.to].iter().sum();
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
    (matrix, push)
}
