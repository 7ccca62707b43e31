//! The club's mixed model: partial pooling where there are sources enough to learn from how they
//! differ, otherwise one fixed effect for each source.

use super::care::{Care, Column, columns, within_growers};
use crate::mixed::{
    Covariance, Design, Fit, Fixed, Integrated, MixedLogits, Mixture, Point, Reference, Sd, Terms, Trial,
    expit, fit,
};
use crate::special::two_sided_z;
use crate::table::{Count, Place};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// Fewer sources than this do not tell how sources differ.
const FEW: usize = 6;
/// Up to so many sources each may have a fixed effect where the club's sources seem not to differ.
const MANY: usize = 60;
/// Wide on the logit scale: sources are all but free, yet all-or-nothing bags stay finite.
const WIDE: f64 = 3.0;

/// What was fitted.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Model {
    /// `partial pooling` or `fixed cells`.
    pub fit: String,
    /// `ok`, or `not_estimable` where nothing is known of how sure the numbers are.
    pub status: String,
    /// Logit of the reference; `None` with fixed cells.
    pub intercept: Option<f64>,
    /// Standard deviations; 0 where the data show no such differences.
    pub sd: Sd,
    /// Log-likelihood (Laplace).
    pub loglik: f64,
    /// What differs besides sources and growers; empty where the fit is not `ok`.
    pub effects: Vec<Effect>,
}

/// An effect on the logit: estimate and 95 % interval, and the same from within growers only.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Effect {
    /// `kind: onion`, `routine: Dry`, `warmth_c`, `age_years`.
    pub name: String,
    /// From all growers.
    pub estimate: Estimate,
    /// From growers who varied it; `None` where nobody did, or it is no matter of care.
    pub within_growers: Option<Estimate>,
}

/// A number with its 95 % interval.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Estimate {
    /// The estimate.
    pub value: f64,
    /// Lower end.
    pub low: f64,
    /// Upper end.
    pub high: f64,
}

/// The adjusted rate of one source: of seeds on paper, for a grower of average care, which is
/// 1 / (1 + exp(-logit)) with the effects of grower and trial at 0. It is not the mean rate over growers,
/// which the raw rate estimates and which lies nearer to one half (Zeger, Liang and Albert 1988, Biometrics
/// 44:1049-1060). The interval is integrated over the plausible standard deviations (see [`Integrated`]).
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Adjusted {
    /// Kind.
    pub kind: String,
    /// Variety.
    pub variety: String,
    /// Source.
    pub source: String,
    /// Share, 0 to 1.
    pub rate: f64,
    /// Lower end of the 95 % interval.
    pub low: f64,
    /// Upper end.
    pub high: f64,
}

impl Estimate {
    /// From a standard error; `None` where it is not a number above 0.
    pub fn new(value: f64, error: f64) -> Option<Self> {
        let half = two_sided_z(0.95) * error;
        let known = value.is_finite() && half.is_finite() && half > 0.0;
        known.then_some(Self { value, low: value - half, high: value + half })
    }

    /// The most likely value with the interval of a mixture; its median where that is outside, as where
    /// none or all rooted and nothing is most likely. `None` where an end is no number.
    pub fn mixed(value: f64, mixture: &Mixture) -> Option<Self> {
        let [low, median, high] = [0.025, 0.5, 0.975].map(|p| mixture.quantile(p));
        let value = if low < value && value < high { value } else { median };
        (low.is_finite() && high.is_finite() && low < high).then_some(Self { value, low, high })
    }
}

/// The trials laid out for either model.
pub struct Ready<'t> {
    trials: &'t [Count<'t>],
    columns: Vec<Column>,
    partial: Design,
    fixed: Design,
    /// Sources all but free: drawn with a standard deviation of [`WIDE`].
    free: Design,
}

/// The chosen model.
pub struct Fitted<'d> {
    pub fit: Fit<'d>,
    covariance: Option<Covariance>,
    mixed: Mixed<'d>,
    ready: &'d Ready<'d>,
    places: BTreeMap<Place<'d>, usize>,
}

/// The logits of the sources by variety, integrated over the standard deviations.
#[derive(Default)]
struct Mixed<'d> {
    varieties: Vec<MixedLogits>,
    at: BTreeMap<Place<'d>, (usize, usize)>,
}

impl<'d> Mixed<'d> {
    fn at(&self, place: Place<'d>) -> Option<(&MixedLogits, usize)> {
        self.at.get(&place).map(|(variety, i)| (&self.varieties[*variety], *i))
    }
}

impl<'t> Ready<'t> {
    /// `None` where no trial is known, or the club is too large (see [`Design::check`]).
    pub fn new(trials: &'t [Count<'t>], cares: &[Care]) -> Option<Self> {
        if trials.is_empty() {
            return None;
        }
        let columns = columns(trials, cares);
        let partial = design(trials, &with_intercept(&columns, trials.len()));
        partial.check().ok()?;
        let free = design(trials, &with_intercept(&[], trials.len()));
        Some(Self { trials, columns, partial, fixed: design(trials, &Fixed::Cells), free })
    }

    /// Fits the model that suits the club.
    pub fn fit(&self) -> Fitted<'_> {
        let cells = self.partial.cells.len();
        let all = Terms { variety: true, cell: true, grower: true, trial: true };
        let partial = (cells >= FEW).then(|| fit(&self.partial, all));
        let fit = match partial {
            Some(partial) if partial.terms.cell || cells > MANY => partial,
            _ => fit(&self.fixed, Terms { variety: false, cell: false, ..all }),
        };
        let covariance = fit.covariance();
        let places = self.trials.iter().map(|t| t.place);
        let at: BTreeMap<&str, usize> = fit.design.cells.iter().map(String::as_str).zip(0..).collect();
        let places = places.map(|place| (place, at[named(place).as_str()])).collect();
        let mut fitted = Fitted { fit, covariance, mixed: Mixed::default(), ready: self, places };
        if fitted.covariance.is_some() {
            fitted.mixed = self.integrated(&fitted.fit).map(|i| fitted.mixed(&i)).unwrap_or_default();
        }
        fitted
    }

    /// The chosen model, integrated over its standard deviations.
    fn integrated(&self, fit: &Fit) -> Option<Integrated<'_>> {
        let all = Terms { variety: true, cell: true, grower: true, trial: true };
        if std::ptr::eq(fit.design, &raw const self.partial) {
            return Integrated::new(&self.partial, &fit.point, all);
        }
        let sd = Sd { variety: 0.0, cell: WIDE, ..fit.point.sd };
        let terms = Terms { variety: false, cell: false, ..all };
        Integrated::new(&self.free, &Point { beta: vec![0.0], sd }, terms)
    }
}

fn named((kind, variety, source): Place) -> String {
    format!("{kind}\u{0}{variety}\u{0}{source}")
}

fn design(trials: &[Count], fixed: &Fixed) -> Design {
    let variety = |t: &Count| format!("{}\u{0}{}", t.place.0, t.place.1);
    let names: Vec<(String, String)> = trials.iter().map(|t| (variety(t), named(t.place))).collect();
    let rows: Vec<Trial> = trials
        .iter()
        .zip(&names)
        .map(|(t, (variety, cell))| Trial { variety, cell, grower: t.grower, x: t.rooted, n: t.seeds })
        .collect();
    Design::new(&rows, fixed)
}

fn with_intercept(columns: &[Column], trials: usize) -> Fixed {
    let row = |i: usize| std::iter::once(1.0).chain(columns.iter().map(move |c| c.values[i]));
    Fixed::Columns { width: columns.len() + 1, values: (0..trials).flat_map(row).collect() }
}

impl<'d> Fitted<'d> {
    fn is_partial(&self) -> bool {
        std::ptr::eq(self.fit.design, &raw const self.ready.partial)
    }

    /// The fixed columns of a trial of average care of one source.
    fn reference(&self, place: Place, cell: usize) -> Vec<f64> {
        let mut row = vec![0.0; self.fit.design.width()];
        if !self.is_partial() {
            row[cell] = 1.0;
            return row;
        }
        row[0] = 1.0;
        for (x, column) in row[1..].iter_mut().zip(&self.ready.columns) {
            *x = f64::from(u8::from(column.name == format!("kind: {}", place.0)));
        }
        row
    }

    fn mixed(&self, integrated: &Integrated) -> Mixed<'d> {
        let reference = |(place, cell): (&Place<'d>, &usize)| {
            (*cell, if self.is_partial() { self.reference(*place, *cell) } else { vec![1.0] })
        };
        let mut mixed = Mixed::default();
        let all: Vec<(&Place, &usize)> = self.places.iter().collect();
        for variety in all.chunk_by(|(a, _), (b, _)| (a.0, a.1) == (b.0, b.1)) {
            let cells: Vec<Reference> = variety.iter().copied().map(reference).collect();
            let places =
                variety.iter().enumerate().map(|(i, (place, _))| (**place, (mixed.varieties.len(), i)));
            mixed.at.extend(places);
            mixed.varieties.push(integrated.logits(&cells));
        }
        mixed
    }

    /// The most likely logit of one source.
    fn logit(&self, place: Place<'d>) -> Option<f64> {
        let cell = *self.places.get(&place)?;
        Some(self.fit.logit(cell, &self.reference(place, cell)))
    }

    /// The logit of one source; `None` where it is not in the model or nothing is known of how sure it is.
    fn rate(&self, place: Place<'d>) -> Option<Estimate> {
        let (variety, i) = self.mixed.at(place)?;
        Estimate::mixed(self.logit(place)?, &variety.one(i))
    }

    /// The log odds ratio of two sources of one variety, and the chance that it is above 0.
    pub fn difference(&self, a: Place<'d>, b: Place<'d>) -> Option<(Estimate, f64)> {
        let ((variety, i), (_, j)) = (self.mixed.at(a)?, self.mixed.at(b)?);
        let difference = variety.difference(i, j);
        let value = self.logit(a)? - self.logit(b)?;
        Some((Estimate::mixed(value, &difference)?, 1.0 - difference.below(0.0)))
    }

    /// The adjusted rate of every source in the model.
    pub fn adjusted(&self) -> Vec<Adjusted> {
        let adjusted = |place: Place<'d>| {
            let logit = self.rate(place)?;
            let (kind, variety, source) = (place.0.to_owned(), place.1.to_owned(), place.2.to_owned());
            let (rate, low, high) = (expit(logit.value), expit(logit.low), expit(logit.high));
            Some(Adjusted { kind, variety, source, rate, low, high })
        };
        self.places.keys().filter_map(|place| adjusted(*place)).collect()
    }

    /// What was fitted.
    pub fn model(&self) -> Model {
        let partial = self.is_partial();
        Model {
            fit: if partial { "partial pooling" } else { "fixed cells" }.to_owned(),
            status: if self.covariance.is_some() { "ok" } else { "not_estimable" }.to_owned(),
            intercept: partial.then(|| self.fit.point.beta[0]),
            sd: self.fit.point.sd,
            loglik: self.fit.loglik,
            effects: if partial { self.effects() } else { Vec::new() },
        }
    }

    fn effects(&self) -> Vec<Effect> {
        let within = self.within();
        let effect = |(i, column): (usize, &Column)| {
            let estimate = estimate(&self.fit, self.covariance.as_ref()?, i + 1)?;
            let within_growers = within.get(&column.name).copied();
            Some(Effect { name: column.name.clone(), estimate, within_growers })
        };
        self.ready.columns.iter().enumerate().filter_map(effect).collect()
    }

    /// The effects of care from what differs within growers.
    fn within(&self) -> BTreeMap<String, Estimate> {
        if !self.ready.columns.iter().any(|c| c.is_care) {
            return BTreeMap::new();
        }
        let split = within_growers(&self.ready.columns, self.ready.trials);
        let design = design(self.ready.trials, &with_intercept(&split, self.ready.trials.len()));
        let fit = fit(&design, self.fit.terms);
        let Some(covariance) = fit.covariance() else { return BTreeMap::new() };
        let care = split.iter().enumerate().filter(|(_, c)| c.is_care);
        let effect = |(i, c): (usize, &Column)| Some((c.name.clone(), estimate(&fit, &covariance, i + 1)?));
        care.filter_map(effect).collect()
    }
}

fn estimate(fit: &Fit, covariance: &Covariance, i: usize) -> Option<Estimate> {
    Estimate::new(fit.point.beta[i], covariance.fixed(i, i).sqrt())
}
