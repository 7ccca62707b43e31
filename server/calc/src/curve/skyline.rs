/// A symmetric positive semidefinite matrix that keeps, of each row, the part from its first
/// non-zero to the diagonal. Looks that overlap little make it narrow.
pub(super) struct Skyline {
    first: Vec<usize>,
    rows: Vec<Vec<f64>>,
}

impl Skyline {
    /// Zeros of size n where row i reaches left to `first[i]`.
    pub(super) fn zeros(first: Vec<usize>) -> Self {
        let rows = first.iter().enumerate().map(|(i, f)| vec![0.0; i + 1 - f]).collect();
        Self { first, rows }
    }

    /// Adds `x` at row `i`, column `j <= i`.
    pub(super) fn add(&mut self, i: usize, j: usize, x: f64) {
        self.rows[i][j - self.first[i]] += x;
    }

    /// Replaces the matrix by its Cholesky factor. A pivot lost to rounding (a direction the
    /// likelihood does not depend on) becomes infinite, so the solution does not move along it.
    pub(super) fn factor(&mut self) {
        for i in 0..self.rows.len() {
            let (above, here) = self.rows.split_at_mut(i);
            let (row, start) = (&mut here[0], self.first[i]);
            let diagonal = row[i - start];
            for j in start..i {
                let from = start.max(self.first[j]);
                let other = &above[j];
                let dot = dot(&row[from - start..j - start], &other[from - self.first[j]..j - self.first[j]]);
                row[j - start] = (row[j - start] - dot) / other[j - self.first[j]];
            }
            let rest = diagonal - dot(&row[..i - start], &row[..i - start]);
            row[i - start] = if rest > 1e-12 * diagonal { rest.sqrt() } else { f64::INFINITY };
        }
    }

    /// Solves for `b` in place, after [`Skyline::factor`].
    pub(super) fn solve(&self, b: &mut [f64]) {
        for i in 0..b.len() {
            let (row, start) = (&self.rows[i], self.first[i]);
            let sum = b[i] - dot(&row[..i - start], &b[start..i]);
            b[i] = sum / row[i - start];
        }
        for i in (0..b.len()).rev() {
            let (row, start) = (&self.rows[i], self.first[i]);
            b[i] /= row[i - start];
            let x = b[i];
            for (into, factor) in b[start..i].iter_mut().zip(row) {
                *into -= x * factor;
            }
        }
    }
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}
