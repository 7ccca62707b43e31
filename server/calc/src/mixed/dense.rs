/// The lower Cholesky factor of a symmetric positive definite matrix, row-major.
#[derive(Debug, Clone)]
pub struct Cholesky {
    size: usize,
    lower: Vec<f64>,
}

impl Cholesky {
    /// Factors the lower triangle of `matrix` (size x size, row-major). A pivot lost to rounding
    /// becomes infinite: the solution then does not move along its direction.
    pub fn factor(mut matrix: Vec<f64>, size: usize) -> Self {
        for i in 0..size {
            let (above, here) = matrix.split_at_mut(i * size);
            let diagonal = here[i];
            for j in 0..i {
                let other = &above[j * size..=j * size + j];
                here[j] = (here[j] - dot(&here[..j], &other[..j])) / other[j];
            }
            let rest = diagonal - dot(&here[..i], &here[..i]);
            here[i] = if rest > 1e-13 * diagonal.abs() { rest.sqrt() } else { f64::INFINITY };
        }
        Self { size, lower: matrix }
    }

    fn row(&self, i: usize) -> &[f64] {
        &self.lower[i * self.size..=i * self.size + i]
    }

    /// Whether every pivot was positive.
    pub fn is_definite(&self) -> bool {
        (0..self.size).all(|i| self.row(i)[i].is_finite())
    }

    /// ln of the determinant of the matrix.
    pub fn log_det(&self) -> f64 {
        (0..self.size).map(|i| 2.0 * self.row(i)[i].ln()).sum()
    }

    /// The factor times `z`: of independent `z`, numbers with the matrix as their covariance.
    pub fn spread(&self, z: &[f64]) -> Vec<f64> {
        (0..self.size).map(|i| dot(self.row(i), &z[..=i])).collect()
    }

    /// Solves in place.
    pub fn solve(&self, b: &mut [f64]) {
        self.forward(b, 0);
        self.backward(b);
    }

    /// `b` is zero before `from`.
    fn forward(&self, b: &mut [f64], from: usize) {
        for i in from..self.size {
            let row = self.row(i);
            b[i] = (b[i] - dot(&row[from..i], &b[from..i])) / row[i];
        }
    }

    fn backward(&self, b: &mut [f64]) {
        for i in (0..self.size).rev() {
            let row = self.row(i);
            b[i] /= row[i];
            let x = b[i];
            for (into, factor) in b[..i].iter_mut().zip(row) {
                *into -= x * factor;
            }
        }
    }

    /// The inverse of the matrix, all of it, row-major.
    pub fn inverse(&self) -> Vec<f64> {
        let n = self.size;
        let mut columns = vec![0.0; n * n];
        for (i, column) in columns.chunks_mut(n.max(1)).enumerate() {
            column[i] = 1.0;
            self.forward(column, i);
        }
        // Row i of `columns` holds column i of the inverse factor, zero before i.
        let mut inverse = vec![0.0; n * n];
        for i in 0..n {
            for j in 0..=i {
                let x = dot(&columns[i * n + i..(i + 1) * n], &columns[j * n + i..(j + 1) * n]);
                inverse[i * n + j] = x;
                inverse[j * n + i] = x;
            }
        }
        inverse
    }
}

/// Scalar product; four sums side by side, so that the compiler can use vector registers.
pub fn dot(a: &[f64], b: &[f64]) -> f64 {
    let mut sums = [0.0; 4];
    let (left, right) = (a.chunks_exact(4), b.chunks_exact(4));
    let rest: f64 = left.remainder().iter().zip(right.remainder()).map(|(x, y)| x * y).sum();
    for (x, y) in left.zip(right) {
        for k in 0..4 {
            sums[k] += x[k] * y[k];
        }
    }
    (sums[0] + sums[1]) + (sums[2] + sums[3]) + rest
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn factor_solves_and_inverts() {
        let matrix = vec![4.0, 1.0, 0.5, 1.0, 3.0, -0.2, 0.5, -0.2, 2.0];
        let factor = Cholesky::factor(matrix.clone(), 3);
        let mut b = vec![1.0, 2.0, 3.0];
        factor.solve(&mut b);
        for i in 0..3 {
            assert!((dot(&matrix[3 * i..3 * i + 3], &b) - (i as f64 + 1.0)).abs() < 1e-12);
        }
        let inverse = factor.inverse();
        for i in 0..3 {
            for j in 0..3 {
                let unit: f64 = (0..3).map(|k| matrix[3 * i + k] * inverse[3 * k + j]).sum();
                assert!((unit - f64::from(u8::from(i == j))).abs() < 1e-12);
            }
        }
        // By cofactors: 4(6 - 0.04) - 1(2 + 0.1) + 0.5(-0.2 - 1.5)
        assert!((factor.log_det() - 20.89_f64.ln()).abs() < 1e-12);
        assert!(!Cholesky::factor(vec![1.0, 1.0, 1.0, 1.0], 2).is_definite());
    }
}
