/// Holm's adjustment of p-values (Holm 1979, Scand. J. Statist. 6:65-70), in their order; NaN stays
/// NaN and does not count.
#[must_use]
pub fn holm(p: &[f64]) -> Vec<f64> {
    let mut order: Vec<usize> = (0..p.len()).filter(|i| !p[*i].is_nan()).collect();
    order.sort_by(|a, b| p[*a].total_cmp(&p[*b]).then(a.cmp(b)));
    let mut adjusted = vec![f64::NAN; p.len()];
    let mut least = 0.0_f64;
    for (rank, i) in order.iter().enumerate() {
        least = least.max(p[*i] * (order.len() - rank) as f64).min(1.0);
        adjusted[*i] = least;
    }
    adjusted
}

#[cfg(test)]
mod tests {
    use super::holm;

    #[test]
    fn steps_down_and_never_falls() {
        // R 4.2: p.adjust(c(.01, .04, .03, .005), "holm") gives .03 .06 .06 .02 (by hand).
        let got = holm(&[0.01, 0.04, 0.03, 0.005]);
        for (got, want) in got.iter().zip([0.03, 0.06, 0.06, 0.02]) {
            assert!((got - want).abs() < 1e-15);
        }
        assert!(holm(&[f64::NAN])[0].is_nan());
    }
}
