//! The curve of rooting over time from looks at intervals, without assuming a form
//! (nonparametric maximum likelihood; Turnbull 1976, J. R. Statist. Soc. B 38:290-295).

mod band;
mod cells;
mod fit;
mod range;
mod skyline;

pub use band::Band;
use cells::Problem;
use range::Nodes;

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
    /// Cumulative share; `None` where the looks do not determine it.
    pub share: Option<f64>,
}

/// A fitted curve.
#[derive(Debug, Clone)]
pub struct Curve {
    problem: Problem,
    cells: Vec<Support>,
    nodes: Nodes,
    loglik: f64,
    gap: f64,
}

/// Shares closer than this are the same.
const SAME: f64 = 1e-7;

impl Curve {
    /// Fits the curve. Intervals that are not [sound](Interval::is_sound) are left out; the order of
    /// rows does not matter. Terms: EM-free active set with Newton steps (see `fit`), ended by the
    /// gradient condition, so [`Curve::gap`] proves how near the maximum is.
    pub fn fit(rows: &[Interval]) -> Self {
        let problem = Problem::of(rows);
        let found = fit::maximise(&problem);
        let nodes = Nodes::of(&problem, &found);
        let support = |(k, &j): (usize, &usize)| {
            let (after, upto) = problem.cells[j];
            Support { after, upto, mass: nodes.value[k + 1] - nodes.value[k] }
        };
        let mut cells: Vec<Support> = nodes.cells.iter().enumerate().map(support).collect();
        for (cell, mass) in cells.iter_mut().zip(&nodes.mass) {
            cell.mass = *mass;
        }
        let loglik = problem.seeds * found.loglik;
        Self { cells, nodes, loglik, gap: found.gap, problem }
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
    /// stretch of time. The log-likelihood is within `gap * seeds` of its maximum. Below 1e-8.
    pub fn gap(&self) -> f64 {
        self.gap
    }

    /// Whether the looks determine every mass.
    pub fn is_unique(&self) -> bool {
        self.nodes.low.iter().zip(&self.nodes.high).all(|(l, h)| h - l <= SAME)
    }

    /// The stretches that carry mass, in order of time.
    pub fn support(&self) -> Vec<Support> {
        self.cells.iter().copied().filter(|c| c.mass > 0.0).collect()
    }

    /// The curve at every end point later than 0, in order of time: the steps for a figure.
    pub fn points(&self) -> Vec<Point> {
        let ends = self.problem.ends.iter().filter(|t| **t > 0.0);
        ends.map(|&t| {
            let at = self.at(t);
            Point { t, share: (at.high - at.low <= SAME).then_some(at.low) }
        })
        .collect()
    }

    /// The cumulative share rooted by time `t`, with its bounds. Without seeds: 0 to 1.
    pub fn at(&self, t: f64) -> Share {
        if self.cells.is_empty() {
            return Share { low: 0.0, high: 1.0, mid: None };
        }
        let done = self.cells.partition_point(|c| c.upto.is_some_and(|u| u <= t));
        let begun = self.cells.partition_point(|c| c.after < t);
        let before = self.nodes.value[done];
        let mid = match self.cells.get(done).filter(|c| c.after < t && c.mass > 0.0) {
            None => Some(before),
            Some(c) => c.upto.map(|u| before + c.mass * (t - c.after) / (u - c.after)),
        };
        Share { low: self.nodes.low[done], high: self.nodes.high[begun], mid }
    }

    /// Share of all seeds seen to root by the last look that can tell, 0..1.
    pub fn rooted(&self) -> f64 {
        match self.cells.last() {
            None => 0.0,
            Some(c) if c.upto.is_some() => 1.0,
            Some(_) => self.nodes.value[self.cells.len() - 1],
        }
    }

    /// Median time of the seeds that root; `None` where none did.
    pub fn median_of_rooting(&self) -> Option<Span> {
        self.time_of_rooting(0.5)
    }

    /// The first time by which `share` (0..1) of the seeds that root have rooted.
    pub fn time_of_rooting(&self, share: f64) -> Option<Span> {
        let wanted = share * self.rooted();
        let finite = self.cells.iter().zip(&self.nodes.value);
        for (cell, before) in finite.filter(|(c, _)| c.mass > 0.0) {
            let upto = cell.upto?;
            if before + cell.mass >= wanted * (1.0 - 1e-12) {
                let part = ((wanted - before) / cell.mass).clamp(0.0, 1.0);
                return Some(Span {
                    low: cell.after,
                    high: upto,
                    mid: cell.after + part * (upto - cell.after),
                });
            }
        }
        None
    }
}
