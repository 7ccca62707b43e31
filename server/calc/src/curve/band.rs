use super::information::{information, merged};
use super::{Curve, Point};
use crate::proportion::wilson;

/// An interval for the cumulative share at one end point of the looks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band {
    /// Time.
    pub t: f64,
    /// The share rooted by then, 0..1.
    pub share: f64,
    /// Standard error; `None` where the share is 0 or 1.
    pub se: Option<f64>,
    /// Lower end, 0..1.
    pub low: f64,
    /// Upper end, 0..1.
    pub high: f64,
}

impl Curve {
    /// Intervals of confidence `conf` at each end point.
    ///
    /// The standard error is from the observed information with the stretches that carry mass taken
    /// as given: with one schedule of looks this is Greenwood's (Kalbfleisch & Prentice, The
    /// Statistical Analysis of Failure Time Data, ch. 1), without losses the binomial one. The ends
    /// are Wilson's for the number of seeds that has this standard error; at 0 and 1 for the seeds
    /// whose interval says which side of the time they are. Point by point, for independent seeds;
    /// fair where many seeds share their looks, too narrow where every seed has looks of its own.
    pub fn band(&self, conf: f64) -> Vec<Band> {
        let errors = self.errors();
        let band = |Point { t, share }| {
            let done = self.support.partition_point(|c| c.upto.is_some_and(|u| u <= t));
            let se = errors[done];
            let seeds =
                se.map_or_else(|| self.told(t), |se| (share * (1.0 - share) / (se * se)).min(self.seeds()));
            let ends = wilson(share * seeds, seeds, conf);
            Band { t, share, se, low: ends.low.min(share), high: ends.high.max(share) }
        };
        self.points().into_iter().map(band).collect()
    }

    /// Standard error of the cumulative share before, between and after the cells of mass.
    fn errors(&self) -> Vec<Option<f64>> {
        let mass: Vec<f64> = self.support.iter().map(|s| s.mass).collect();
        let (mut matrix, zeros) = information(&merged(&self.problem, &self.cells), &mass);
        matrix.factor();
        let error = |i: usize| {
            let mut column = vec![0.0; zeros.len()];
            column[i] = 1.0;
            matrix.solve(&mut column);
            (column[i] / self.seeds()).sqrt()
        };
        let inner = (0..zeros.len()).map(|i| Some(error(i)).filter(|se| *se > 0.0));
        std::iter::once(None).chain(inner).chain([None]).collect()
    }

    /// Seeds known to have rooted by `t`, or known not to have.
    fn told(&self, t: f64) -> f64 {
        let done = self.problem.cells.partition_point(|c| c.1.is_some_and(|upto| upto <= t));
        let tells = self.problem.rows.iter().filter(|row| row.to <= done || row.from >= done);
        tells.map(|row| row.weight).sum::<f64>() * self.seeds()
    }
}
