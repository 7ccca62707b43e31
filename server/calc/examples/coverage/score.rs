//! How often the intervals of made clubs held what is true.

use super::made::Made;
use hilum_calc::club::Club;

/// One interval against both truths.
#[derive(Debug, Clone, Copy)]
pub struct Held {
    pub average_grower: bool,
    pub grower_averaged: bool,
    pub width: f64,
}

/// One source of one made club.
#[derive(Debug, Clone, Copy)]
pub struct Found {
    pub tenth: usize,
    pub tenth_within: usize,
    pub growers: usize,
    pub trials: usize,
    pub all_or_nothing: bool,
    /// `None` where the model gave no number.
    pub adjusted: Option<Held>,
    pub raw: Held,
}

/// One made club.
pub struct Outcome {
    pub sources: Vec<Found>,
    /// Of each pair of sources, whether the intervals of the log odds ratio and of the difference of the
    /// rates with a grower and a trial of average care held the truth.
    pub pairs: Vec<[bool; 2]>,
    /// The model has no numbers.
    pub failed: bool,
    /// The standard deviation of growers or of trials was estimated at 0.
    pub at_zero: bool,
    /// Each source has a fixed effect: there are few, or they were not seen to differ.
    pub fixed: bool,
}

/// Computes a club as the app does and compares it with the truth.
pub fn outcome(made: &Made) -> Outcome {
    let club = made.club();
    let model = club.standing.model.as_ref();
    let sds = model.map_or([0.0; 2], |m| [m.sd.grower, m.sd.trial]);
    Outcome {
        sources: found(made, &club),
        pairs: pairs(made, &club),
        failed: model.is_none_or(|m| m.status != "ok"),
        at_zero: sds.contains(&0.0),
        fixed: model.is_some_and(|m| m.fit == "fixed cells"),
    }
}

fn found(made: &Made, club: &Club) -> Vec<Found> {
    let rows = club.rows.iter();
    let of = |row: &hilum_calc::table::Row| {
        let at = made.source(&row.variety, &row.source)?;
        let held = |low: f64, high: f64| {
            let holds = |truth: f64| low <= truth && truth <= high;
            let (average_grower, grower_averaged) =
                (holds(made.average_grower(at)), holds(made.grower_averaged(at)));
            Held { average_grower, grower_averaged, width: high - low }
        };
        let adjusted = club.standing.adjusted((&row.kind, &row.variety, &row.source));
        Some(Found {
            tenth: made.sources[at].tenth,
            tenth_within: made.sources[at].tenth_within,
            growers: row.growers,
            trials: row.trials,
            all_or_nothing: row.rooted == 0 || row.rooted == row.seeds,
            adjusted: adjusted.map(|a| held(a.low, a.high)),
            raw: held(row.low, row.high),
        })
    };
    rows.filter_map(of).collect()
}

fn pairs(made: &Made, club: &Club) -> Vec<[bool; 2]> {
    let held = |pair: &hilum_calc::club::Pair| {
        let at = |name: &str| made.source(&pair.variety, name);
        let (a, b, whole) = (at(&pair.a)?, at(&pair.b)?, pair.whole?);
        let logit = made.sources[a].logit - made.sources[b].logit;
        let rate = made.average_grower(a) - made.average_grower(b);
        let of = [(whole.log_odds_ratio, logit), (whole.difference, rate)];
        Some(of.map(|(found, truth)| found.low <= truth && truth <= found.high))
    };
    club.standing.pairs.iter().filter_map(held).collect()
}

/// Of `pairs`, the share of which each interval held.
pub fn held(pairs: &[[bool; 2]]) -> [f64; 2] {
    [0, 1].map(|of| pairs.iter().filter(|held| held[of]).count() as f64 / pairs.len() as f64)
}

/// Sums over sources.
#[derive(Debug, Clone, Copy, Default)]
pub struct Tally {
    pub sources: f64,
    pub lone: f64,
    pub all_or_nothing: f64,
    pub adjusted: Column,
    pub raw: Column,
}

/// Sums over the intervals of one column.
#[derive(Debug, Clone, Copy, Default)]
pub struct Column {
    pub intervals: f64,
    average_grower: f64,
    grower_averaged: f64,
    width: f64,
}

impl Tally {
    pub fn of<'f>(found: impl IntoIterator<Item = &'f Found>) -> Self {
        found.into_iter().fold(Self::default(), |mut tally, found| {
            tally.sources += 1.0;
            tally.lone += yes(found.growers == 1);
            tally.all_or_nothing += yes(found.all_or_nothing);
            if let Some(held) = &found.adjusted {
                tally.adjusted.add(held);
            }
            tally.raw.add(&found.raw);
            tally
        })
    }
}

fn yes(it: bool) -> f64 {
    f64::from(u8::from(it))
}

impl Column {
    fn add(&mut self, held: &Held) {
        self.intervals += 1.0;
        self.average_grower += yes(held.average_grower);
        self.grower_averaged += yes(held.grower_averaged);
        self.width += held.width;
    }

    /// Share of intervals that held the rate of a grower of average care.
    pub fn average_grower(&self) -> f64 {
        self.average_grower / self.intervals
    }

    /// Share of intervals that held the grower-averaged rate.
    pub fn grower_averaged(&self) -> f64 {
        self.grower_averaged / self.intervals
    }

    /// Mean width.
    pub fn width(&self) -> f64 {
        self.width / self.intervals
    }
}
