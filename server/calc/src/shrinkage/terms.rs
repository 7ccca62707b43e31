//! Sums over all seeds of all rows, in few terms.

/// One term of a sum over j of how many values are above j, times a function of j: the function at
/// `j`, taken `c` times.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Term {
    pub j: f64,
    pub c: f64,
}

/// Below this j every whole number is a term of its own.
const SINGLE: u64 = 256;

/// Blocks are at most so much shorter than their distance from 0: for functions such as
/// ln(base + j theta) the error of a block is then below 10^-14 of it.
const BLOCKS: u64 = 64;

/// The terms of the sum over j = 0, 1, 2 ... of f(j) times how many of `values` are above j.
pub fn terms(mut values: Vec<u64>) -> Vec<Term> {
    values.sort_unstable();
    let mut terms = Vec::new();
    let mut start = 0;
    for (i, value) in values.iter().enumerate() {
        let above = (values.len() - i) as f64;
        while start < *value {
            let length = if start < SINGLE { 1 } else { (start / BLOCKS).min(value - start) };
            block(start as f64, length as f64, above, &mut terms);
            start += length;
        }
    }
    terms
}

/// Three terms for `length` whole numbers from `start` on, exact for polynomials to degree 5 (Gauss's
/// quadrature for equal steps, from the second and fourth moments of the steps about their middle).
fn block(start: f64, length: f64, c: f64, terms: &mut Vec<Term>) {
    if length < 4.0 {
        return terms.extend((0..length as u32).map(|k| Term { j: start + f64::from(k), c }));
    }
    let (square, middle) = (length * length, start + (length - 1.0) / 2.0);
    let away = ((3.0 * square - 7.0) / 20.0).sqrt();
    let outer = length * (square - 1.0) / 24.0 / (away * away);
    for (j, weight) in [(middle - away, outer), (middle, length - 2.0 * outer), (middle + away, outer)] {
        terms.push(Term { j, c: c * weight });
    }
}

#[cfg(test)]
mod tests {
    use super::terms;

    fn sum(values: &[u64], f: impl Fn(f64) -> f64) -> f64 {
        terms(values.to_vec()).iter().map(|t| t.c * f(t.j)).sum()
    }

    fn plain(values: &[u64], f: impl Fn(f64) -> f64) -> f64 {
        values.iter().map(|v| (0..*v).map(|j| f(j as f64)).sum::<f64>()).sum()
    }

    #[test]
    fn few_terms_add_up_to_the_sum_over_all_seeds() {
        let cases: [&[u64]; 5] =
            [&[], &[0, 1, 5], &[255, 256, 257, 258, 259, 260], &[100_000, 3, 99_999, 700], &[1_000_000, 7]];
        for values in cases {
            for (base, theta) in [(1e-9, 1.0), (0.3, 1e-7), (0.9, 0.01), (1.0, 20.0)] {
                let functions: [fn(f64, f64) -> f64; 3] =
                    [|u, _| u.ln(), |u, _| 1.0 / u, |u, j| j * j / (u * u)];
                for f in functions {
                    let at = |j: f64| f(base + j * theta, j);
                    let (want, got) = (plain(values, at), sum(values, at));
                    assert!(
                        (got - want).abs() <= 1e-11 * want.abs(),
                        "{values:?} {base} {theta}: {want} {got}"
                    );
                }
            }
        }
        assert!(terms(vec![1_000_000; 3]).len() < 2_500);
    }
}
