//! Newton's method to the top of a smooth function of two or three numbers, damped where the function
//! is not concave (Levenberg 1944, Marquardt 1963). Always ends.

/// Value, gradient and second derivatives at a point.
#[derive(Debug, Clone, Copy)]
pub(super) struct Local<const N: usize> {
    pub value: f64,
    pub gradient: [f64; N],
    pub hessian: [[f64; N]; N],
}

/// Where the climb ended; `settled` if by the gradient, not by the number of steps.
#[derive(Debug, Clone, Copy)]
pub(super) struct Top<const N: usize> {
    pub at: [f64; N],
    pub local: Local<N>,
    pub settled: bool,
}

const STEPS: usize = 150;
const LONGEST: f64 = 2.0;

pub(super) fn climb<const N: usize>(start: [f64; N], f: impl Fn(&[f64; N]) -> Local<N>) -> Top<N> {
    let mut top = Top { at: start, local: f(&start), settled: false };
    if !top.local.value.is_finite() {
        return top;
    }
    let mut damp = 0.0_f64;
    for _ in 0..STEPS {
        let Some(step) = step(&top.local, damp) else {
            damp = (10.0 * damp).max(1e-3);
            continue;
        };
        let rise = dot(&top.local.gradient, &step);
        let near = rise < 1e-9 * (1.0 + top.local.value.abs());
        let at = std::array::from_fn(|i| top.at[i] + step[i]);
        let there = f(&at);
        let slack = if near { 1e-12 * (1.0 + top.local.value.abs()) } else { 0.0 };
        if there.value.is_finite() && there.value >= top.local.value - slack {
            (top.at, top.local) = (at, there);
            if rise <= 1e-18 * (1.0 + there.value.abs()) {
                top.settled = true;
                return top;
            }
            damp = if damp < 1e-6 { 0.0 } else { 0.1 * damp };
        } else {
            damp = (10.0 * damp).max(1e-4);
        }
    }
    top
}

/// Solves (-hessian + damping) step = gradient, no part longer than `LONGEST`.
fn step<const N: usize>(local: &Local<N>, damp: f64) -> Option<[f64; N]> {
    let size = (0..N).map(|i| local.hessian[i][i].abs()).fold(1e-9, f64::max);
    let mut matrix = local.hessian.map(|row| row.map(|x| -x));
    for (i, row) in matrix.iter_mut().enumerate() {
        row[i] += damp * (row[i].abs() + 1e-3 * size);
    }
    let mut step = solve(&matrix, &local.gradient)?;
    let longest = step.iter().fold(0.0_f64, |m, d| m.max(d.abs()));
    if longest > LONGEST {
        step.iter_mut().for_each(|d| *d *= LONGEST / longest);
    }
    step.iter().all(|d| d.is_finite()).then_some(step)
}

/// Solves a x = b for a symmetric positive definite a; `None` where it is not.
pub(super) fn solve<const N: usize>(a: &[[f64; N]; N], b: &[f64; N]) -> Option<[f64; N]> {
    let mut l = [[0.0; N]; N];
    for i in 0..N {
        for j in 0..=i {
            let sum = a[i][j] - (0..j).map(|k| l[i][k] * l[j][k]).sum::<f64>();
            if i > j {
                l[i][j] = sum / l[j][j];
            } else if sum > 1e-14 * a[i][i].abs() && sum.is_finite() {
                l[i][i] = sum.sqrt();
            } else {
                return None;
            }
        }
    }
    let mut x = *b;
    for i in 0..N {
        x[i] = (x[i] - (0..i).map(|k| l[i][k] * x[k]).sum::<f64>()) / l[i][i];
    }
    for i in (0..N).rev() {
        x[i] = (x[i] - (i + 1..N).map(|k| l[k][i] * x[k]).sum::<f64>()) / l[i][i];
    }
    Some(x)
}

/// Inverse of a symmetric positive definite matrix; `None` where it is not.
pub(super) fn inverse<const N: usize>(a: &[[f64; N]; N]) -> Option<[[f64; N]; N]> {
    let mut out = [[0.0; N]; N];
    for (i, row) in out.iter_mut().enumerate() {
        let unit = std::array::from_fn(|k| f64::from(u8::from(k == i)));
        *row = solve(a, &unit)?;
    }
    Some(out)
}

pub(super) fn dot<const N: usize>(a: &[f64; N], b: &[f64; N]) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}
