//! The club's mixed model: partial pooling where there are sources enough to learn from how they
//! differ, otherwise one fixed effect for each source.

use super::effects::{Effect, effects};
use super::layout::Ready;
use crate::mixed::{Covariance, Fit, Logits, Sd, Terms, expit, fit};
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
/// average quality.
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
}

/// The chosen model.
pub struct Fitted<'d> {
    pub fit: Fit<'d>,
    pub covariance: Option<Covariance>,
    pub ready: &'d Ready<'d>,
    places: BTreeMap<Place<'d>, usize>,
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
        Self { fit, covariance, ready, places: ready.cells() }
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

    /// The logits of some sources; `None` where one is not in the model or nothing is known of how
    /// sure they are.
    pub fn logits(&self, places: &[Place<'d>]) -> Option<Logits> {
        let cell = |place: &Place<'d>| {
            let cell = *self.places.get(place)?;
            Some((cell, self.reference(*place, cell)))
        };
        let cells: Vec<(usize, Vec<f64>)> = places.iter().map(cell).collect::<Option<_>>()?;
        Some(self.fit.logits(self.covariance.as_ref()?, &cells))
    }

    /// The adjusted rate of every source in the model.
    pub fn adjusted(&self) -> Vec<Adjusted> {
        let adjusted = |place: Place<'d>| {
            let logits = self.logits(&[place])?;
            let logit = Estimate::new(logits.estimate[0], logits.error(0))?;
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
            loglik: self.fit.loglik,
            effects: effects(self),
        }
    }
}
