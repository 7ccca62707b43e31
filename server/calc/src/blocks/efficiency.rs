/// The mean variance of a difference between two lots in complete blocks of as many bags, over that in this
/// design: (t - 1) / (mean bags of a lot x trace of the inverse of the information matrix). For balanced
/// blocks this is lambda t / (r k) (Yates 1936).
pub fn average(lots: usize, blocks: &[Vec<usize>]) -> f64 {
    let mut information = vec![vec![1.0 / lots as f64; lots]; lots];
    for block in blocks {
        let share = 1.0 / block.len() as f64;
        for a in block {
            information[*a][*a] += 1.0;
            block.iter().for_each(|b| information[*a][*b] -= share);
        }
    }
    let bags: usize = blocks.iter().map(Vec::len).sum();
    let each = bags as f64 / lots as f64;
    match trace_of_inverse(information) {
        Some(trace) => (lots as f64 - 1.0) / (each * (trace - 1.0)),
        None => 0.0,
    }
}

/// By Gauss and Jordan's elimination; `None` of a singular matrix. The matrix is symmetric and not negative,
/// so the pivots need no search.
fn trace_of_inverse(mut m: Vec<Vec<f64>>) -> Option<f64> {
    let n = m.len();
    for p in 0..n {
        let pivot = m[p][p];
        if pivot < 1e-9 {
            return None;
        }
        m[p][p] = 1.0;
        m[p].iter_mut().for_each(|x| *x /= pivot);
        let row = m[p].clone();
        for i in (0..n).filter(|i| *i != p) {
            let factor = std::mem::replace(&mut m[i][p], 0.0);
            m[i].iter_mut().zip(&row).for_each(|(x, r)| *x -= factor * r);
        }
    }
    Some((0..n).map(|i| m[i][i]).sum())
}
