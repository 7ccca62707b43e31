//! The club's mixed model: partial pooling where there are sources enough to learn from how they
//! differ, otherwise one fixed effect for each source.

use super::effects::{Effect, effects};
use super::layout::Ready;
use super::within::WIDE;
use crate::mixed::{Covariance, Fit, Integrated, MixedLogits, Point, Reference, Sd, Terms, expit, fit};
use crate::special::two_sided_z;
use crate::table::Place;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// Fewer sources than this do not tell how sources differ.
const FEW: usize = 6;
/// Up to so many sources each may have a fixed effect where the club's sources seem not to differ.
const MANY: usize = 60;

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
    /// Lots of one source and variety are told apart.
    pub lots: bool,
    /// Clubs are told apart: results of other clubs are among the trials.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub clubs: bool,
    /// Log-likelihood (Laplace).
    pub loglik: f64,
    /// What differs besides sources and growers; empty where the fit is not `ok`.
    pub effects: Vec<Effect>,
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

/// The adjusted rate of one source: of seeds on paper, for a grower of average care and a lot of
/// average quality, which is 1 / (1 + exp(-logit)) with the effects of grower, club, lot and trial at 0. It is
/// not the mean rate over growers, which the raw rate estimates and which lies nearer to one half (Zeger,
/// Liang and Albert 1988, Biometrics 44:1049-1060). The interval is integrated over the plausible standard
/// deviations (see [`Integrated`]).
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
    /// Upper end of the 95 % interval.
    pub high: f64,
}

impl Estimate {
    /// From a standard error; `None` where it is not a number above 0.
    pub fn new(value: f64, error: f64) -> Option<Self> {
        let half = two_sided_z(0.95) * error;
        let known = value.is_finite() && half.is_finite() && half > 0.0;
        known.then_some(Self { value, low: value - half, high: value + half })
    }

    /// The most likely value with the interval of a mixture, given by its quantiles; its median where the
    /// value is outside, as where none or all rooted and nothing is most likely. `None` where an end is no
    /// number.
    pub fn mixed(value: f64, quantile: impl Fn(f64) -> f64) -> Option<Self> {
        let [low, median, high] = [0.025, 0.5, 0.975].map(quantile);
        let value = if low < value && value < high { value } else { median };
        (low.is_finite() && high.is_finite() && low < high).then_some(Self { value, low, high })
    }
}

/// The chosen model.
pub struct Fitted<'d> {
    pub fit: Fit<'d>,
    pub covariance: Option<Covariance>,
    pub ready: &'d Ready<'d>,
    places: BTreeMap<Place<'d>, usize>,
    mixed: Mixed<'d>,
}

/// The logits of the sources by variety, integrated over the standard deviations.
#[derive(Default)]
struct Mixed<'d> {
    varieties: Vec<MixedLogits>,
    at: BTreeMap<Place<'d>, (usize, usize)>,
}

impl<'d> Fitted<'d> {
    /// Fits the model that suits the club.
    pub fn new(ready: &'d Ready<'d>) -> Self {
        let cells = ready.partial.cells.len();
        let all = Terms { lot: ready.has_lots(), ..Terms::CLUB };
        let partial = (cells >= FEW).then(|| fit(&ready.partial, all));
        let fit = match partial {
            Some(partial) if partial.terms.cell || cells > MANY => partial,
            _ => fit(&ready.fixed, Terms { variety: false, cell: false, ..all }),
        };
        let covariance = fit.covariance();
        let mixed = Mixed::default();
        let mut fitted = Self { fit, covariance, ready, places: ready.cells(), mixed };
        if fitted.covariance.is_some() {
            fitted.mixed = fitted.integrated(all);
        }
        fitted
    }

    pub fn is_partial(&self) -> bool {
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

    /// The chosen model with these `terms`, integrated over its standard deviations; with fixed cells
    /// these are left all but free instead.
    fn integrated(&self, terms: Terms) -> Mixed<'d> {
        if self.is_partial() {
            let integrated = Integrated::new(self.fit.design, &self.fit.point, terms);
            return integrated
                .map(|i| self.mixed(&i, |place, cell| self.reference(place, cell)))
                .unwrap_or_default();
        }
        let free = self.ready.with_columns(&[]);
        let start = Point { beta: vec![0.0], sd: Sd { variety: 0.0, cell: WIDE, ..self.fit.point.sd } };
        let terms = Terms { variety: false, cell: false, ..terms };
        Integrated::new(&free, &start, terms).map(|i| self.mixed(&i, |_, _| vec![1.0])).unwrap_or_default()
    }

    fn mixed(&self, integrated: &Integrated, reference: impl Fn(Place, usize) -> Vec<f64>) -> Mixed<'d> {
        let mut mixed = Mixed::default();
        let all: Vec<(&Place, &usize)> = self.places.iter().collect();
        for variety in all.chunk_by(|(a, _), (b, _)| (a.0, a.1) == (b.0, b.1)) {
            let cells: Vec<Reference> =
                variety.iter().map(|(place, cell)| (**cell, reference(**place, **cell))).collect();
            let places = variety.iter().enumerate();
            mixed.at.extend(places.map(|(i, (place, _))| (**place, (mixed.varieties.len(), i))));
            mixed.varieties.push(integrated.logits(&cells));
        }
        mixed
    }

    /// The logits of a variety's sources and the place of one of them; `None` where it is not in the model
    /// or nothing is known of how sure it is.
    pub fn logits(&self, place: Place<'d>) -> Option<(&MixedLogits, usize)> {
        let (variety, i) = self.mixed.at.get(&place)?;
        Some((&self.mixed.varieties[*variety], *i))
    }

    /// The logit of one source; `None` where [`Fitted::logits`] is.
    pub fn logit(&self, place: Place<'d>) -> Option<Estimate> {
        let (logits, i) = self.logits(place)?;
        let cell = *self.places.get(&place)?;
        let mixture = logits.one(i);
        Estimate::mixed(self.fit.logit(&(cell, self.reference(place, cell))), |p| mixture.quantile(p))
    }

    /// The adjusted rate of every source in the model.
    pub fn adjusted(&self) -> Vec<Adjusted> {
        let adjusted = |place: Place<'d>| {
            let logit = self.logit(place)?;
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
            lots: self.ready.has_lots(),
            clubs: self.ready.has_clubs(),
            loglik: self.fit.loglik,
            effects: effects(self),
        }
    }
}
