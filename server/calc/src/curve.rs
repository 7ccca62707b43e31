//! The curve of rooting over time from looks at intervals, without assuming a form
//! (nonparametric maximum likelihood; Turnbull 1976, J. R. Statist. Soc. B 38:290-295).

mod band;
mod cells;
mod fit;
mod information;
mod skyline;

pub use band::Band;
use cells::Problem;

/// Seeds that rooted after look `l` and by look `r`: times in (l, r].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Interval {
    /// The last look that found them not rooted; 0 is the start. Any unit of time.
    pub l: f64,
    /// The look that found them rooted; `None`: not rooted when last seen at `l` (still on paper,
    /// or taken out dead).
    pub r: Option<f64>,
    /// How many seeds, 0 or more.
    pub count: f64,
}

impl Interval {
    /// Whether the interval holds some seeds and some time.
    pub fn is_sound(&self) -> bool {
        let order = self.r.is_none_or(|r| r.is_finite() && r > self.l);
        self.l.is_finite() && order && self.count.is_finite() && self.count > 0.0
    }
}

/// A stretch of time (after, upto] that carries a share of all seeds. Where inside it the seeds
/// rooted, the looks cannot tell.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Support {
    /// Open start.
    pub after: f64,
    /// Closed end; `None`: later than any look, or never.
    pub upto: Option<f64>,
    /// Share of all seeds, 0..1.
    pub mass: f64,
}

/// The cumulative share rooted at one time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Share {
    /// At least this share.
    pub low: f64,
    /// At most this share.
    pub high: f64,
    /// The value with rooting spread evenly between the looks; `None` later than the looks reach.
    pub mid: Option<f64>,
}

/// A time known to lie in (low, high]; `mid` with rooting spread evenly between them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Span {
    /// Open start.
    pub low: f64,
    /// Closed end.
    pub high: f64,
    /// Linear interpolation.
    pub mid: f64,
}

/// One end point of the looks and the curve there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// Time.
    pub t: f64,
    /// Cumulative share, 0..1.
    pub share: f64,
}

/// A fitted curve.
#[derive(Debug, Clone)]
pub struct Curve {
    problem: Problem,
    support: Vec<Support>,
    /// Which cells of the problem these are.
    cells: Vec<usize>,
    /// Cumulative shares before, between and after the support.
    shares: Vec<f64>,
    loglik: f64,
    gap: f64,
}

impl Curve {
    /// Fits the curve. Intervals that are not [sound](Interval::is_sound) are left out; the order of
    /// rows does not matter. Active set with Newton steps, ended by the gradient
    /// condition: [`Curve::gap`] proves how near the maximum is.
    pub fn fit(rows: &[Interval]) -> Self {
        let problem = Problem::of(rows);
        let found = fit::maximise(&problem);
        let cells: Vec<usize> = (0..found.mass.len()).filter(|j| found.mass[*j] > 0.0).collect();
        let support = |&j: &usize| {
            let (after, upto) = problem.cells[j];
            Support { after, upto, mass: found.mass[j] }
        };
        let support: Vec<Support> = cells.iter().map(support).collect();
        let mut shares = vec![0.0];
        shares.extend(support.iter().scan(0.0, |sum, s| {
            *sum = f64::min(*sum + s.mass, 1.0);
            Some(*sum)
        }));
        if let Some(all) = shares.last_mut().filter(|_| !support.is_empty()) {
            *all = 1.0;
        }
        let loglik = problem.seeds * found.loglik;
        Self { support, cells, shares, loglik, gap: found.gap, problem }
    }

    /// Number of seeds.
    pub fn seeds(&self) -> f64 {
        self.problem.seeds
    }

    /// Sum of count x ln(probability of its interval), without a combinatorial constant.
    pub fn loglik(&self) -> f64 {
        self.loglik
    }

    /// The largest directional derivative of the log-likelihood per seed, towards any single
    /// stretch of time. The log-likelihood is within `gap * seeds` of its maximum. Below 1e-8 for up to
    /// 10^9 seeds.
    pub fn gap(&self) -> f64 {
        self.gap
    }

    /// The stretches that carry mass, in order of time. Their masses are always determined: each
    /// stretch ends where some interval ends, so its share is that interval's less shares before it.
    pub fn support(&self) -> &[Support] {
        &self.support
    }

    /// The curve at every end point later than 0, in order of time: the steps for a figure.
    pub fn points(&self) -> Vec<Point> {
        let ends = self.problem.ends.iter().filter(|t| **t > 0.0);
        ends.map(|&t| Point { t, share: self.at(t).low }).collect()
    }

    /// The cumulative share rooted by time `t`, with its bounds. Without seeds: 0 to 1.
    pub fn at(&self, t: f64) -> Share {
        if self.support.is_empty() {
            return Share { low: 0.0, high: 1.0, mid: None };
        }
        let done = self.support.partition_point(|s| s.upto.is_some_and(|upto| upto <= t));
        let begun = self.support.partition_point(|s| s.after < t);
        let low = self.shares[done];
        let mid = match self.support.get(done).filter(|s| s.after < t) {
            None => Some(low),
            Some(s) => s.upto.map(|upto| low + s.mass * (t - s.after) / (upto - s.after)),
        };
        Share { low, high: self.shares[begun], mid }
    }

    /// Share of all seeds seen to root by the last look that can tell, 0..1.
    pub fn rooted(&self) -> f64 {
        let finite = self.support.partition_point(|s| s.upto.is_some());
        self.shares[finite]
    }

    /// Median time of the seeds that root; `None` where none did.
    pub fn median_of_rooting(&self) -> Option<Span> {
        self.time_of_rooting(0.5)
    }

    /// The first time by which `share` (0..1) of the seeds that root have rooted.
    pub fn time_of_rooting(&self, share: f64) -> Option<Span> {
        let wanted = share * self.rooted();
        for (s, before) in self.support.iter().zip(&self.shares) {
            let high = s.upto?;
            if before + s.mass >= wanted * (1.0 - 1e-12) {
                let part = ((wanted - before) / s.mass).clamp(0.0, 1.0);
                return Some(Span { low: s.after, high, mid: s.after + part * (high - s.after) });
            }
        }
        None
    }
}
