//! What is known of a number, put together from several distributions.

use crate::roots::brent;
use crate::special::{normal_cdf, normal_quantile};

/// A mixture of normal distributions: weight, mean, standard deviation; the weights together are 1.
#[derive(Debug, Clone)]
pub struct Mixture(pub(super) Vec<(f64, f64, f64)>);

impl Mixture {
    /// P(X <= x).
    #[must_use]
    pub fn below(&self, x: f64) -> f64 {
        self.0.iter().map(|(weight, mean, sd)| weight * normal_cdf((x - mean) / sd)).sum()
    }

    /// The x with P(X <= x) = `p`, 0 < p < 1, to 1e-6: it lies between those of the parts.
    #[must_use]
    pub fn quantile(&self, p: f64) -> f64 {
        let z = normal_quantile(p);
        let ends = self.0.iter().map(|(_, mean, sd)| mean + z * sd);
        let (low, high) = ends.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), x| (x.min(l), x.max(h)));
        brent(|x| self.below(x) - p, low, high, 1e-6)
    }
}

/// Draws in ascending order, each with the weight of all up to it; the last one's is 1.
#[derive(Debug, Clone)]
pub struct Draws(Vec<(f64, f64)>);

impl Draws {
    /// Of draws in any order, each with its weight.
    pub(super) fn new(mut draws: Vec<(f64, f64)>) -> Self {
        draws.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut sum = 0.0;
        for (_, weight) in &mut draws {
            sum += *weight;
            *weight = sum;
        }
        Self(draws)
    }

    /// The least draw that a share `p` of all, 0 to 1, does not exceed; no number where there is none.
    #[must_use]
    pub fn quantile(&self, p: f64) -> f64 {
        let at = self.0.partition_point(|(_, weight)| *weight < p);
        self.0.get(at).or(self.0.last()).map_or(f64::NAN, |(draw, _)| *draw)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quantiles_of_a_mixture_have_the_chance_they_say() {
        let even = Mixture(vec![(0.5, -1.0, 1.0), (0.5, 1.0, 1.0)]);
        assert!(even.quantile(0.5).abs() < 1e-6);
        let mixed = Mixture(vec![(0.7, 0.3, 0.2), (0.3, 2.0, 1.5)]);
        for p in [0.025, 0.5, 0.975] {
            assert!((mixed.below(mixed.quantile(p)) - p).abs() < 1e-6);
        }
        let one = Mixture(vec![(1.0, 2.0, 0.5)]);
        assert!((one.quantile(0.975) - 2.979_982).abs() < 1e-6);
    }

    #[test]
    fn quantiles_of_draws_count_their_weights() {
        let draws = Draws::new(vec![(3.0, 0.5), (1.0, 0.25), (2.0, 0.25)]);
        assert_eq!([0.1, 0.25, 0.4, 0.6, 1.0].map(|p| draws.quantile(p)), [1.0, 1.0, 2.0, 3.0, 3.0]);
        assert!(Draws::new(Vec::new()).quantile(0.5).is_nan());
    }
}
