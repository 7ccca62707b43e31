use super::climb::{Top, climb};
use super::design::{Design, Fixed};
use super::laplace::{Laplace, Mode};
use super::term::{Point, Sd, Term, Terms};
use crate::special::ln_gamma;

/// A fitted model.
pub struct Fit<'d> {
    /// The trials it was fitted to.
    pub design: &'d Design,
    /// Fixed effects and standard deviations; 0 where a term ended on the boundary.
    pub point: Point,
    /// The terms that are not on the boundary.
    pub terms: Terms,
    /// Log-likelihood (Laplace), binomial coefficients included.
    pub loglik: f64,
    pub(super) laplace: Laplace<'d>,
}

/// A standard deviation below this may really be 0.
const SMALL: f64 = 0.02;

/// Fits the model with the given random terms, as far as the design has them, by maximum likelihood.
#[must_use]
pub fn fit(design: &Design, terms: Terms) -> Fit<'_> {
    let sd = Sd::each(|term| if terms.has(term) { 0.5 } else { 0.0 });
    fit_from(design, terms, &Point { beta: start(design), sd })
}

/// The same from a point near the maximum; standard deviations not among `terms` stay what they are.
#[must_use]
pub fn fit_from<'d>(design: &'d Design, terms: Terms, start: &Point) -> Fit<'d> {
    let mut terms = design.having(terms);
    let mut top = climb(design, start, terms, &Mode::start(design));
    for _ in 0..2 * Term::ALL.len() {
        let Some(term) = smallest(&top.point.sd, terms) else { break };
        let without = drop_term(&top, terms, term);
        if without.laplace.loglik >= top.laplace.loglik - 1e-6 {
            if let Some(better) = escaped(&without, terms, term) {
                top = better;
                continue;
            }
            terms = terms.with(term, false);
            top = without;
        } else {
            break;
        }
    }
    // The sign of a standard deviation turns its effects: settle once more with all of them positive.
    let sd = Sd::each(|term| top.point.sd.of(term).abs());
    let point = Point { beta: top.point.beta.clone(), sd };
    let laplace = Laplace::at(design, &point, &Mode::start(design));
    let loglik = laplace.loglik + coefficients(design);
    Fit { design, point, terms, loglik, laplace }
}

/// Fits the fixed effects at given standard deviations.
#[must_use]
pub fn fit_at(design: &Design, sd: Sd) -> Fit<'_> {
    fit_from(design, Terms::default(), &Point { beta: start(design), sd })
}

fn smallest(sd: &Sd, terms: Terms) -> Option<Term> {
    let size = |term: &Term| sd.of(*term).abs();
    terms.list().filter(|term| size(term) < SMALL).min_by(|a, b| size(a).total_cmp(&size(b)))
}

fn drop_term<'d>(top: &Top<'d>, terms: Terms, term: Term) -> Top<'d> {
    let start = Point { sd: top.point.sd.with(term, 0.0), ..top.point.clone() };
    climb(top.laplace.design, &start, terms.with(term, false), &top.laplace.mode)
}

/// A higher place away from the boundary, where 0 was only a saddle.
fn escaped<'d>(without: &Top<'d>, terms: Terms, term: Term) -> Option<Top<'d>> {
    let start = Point { sd: without.point.sd.with(term, 0.1), ..without.point.clone() };
    let design = without.laplace.design;
    let there = Laplace::at(design, &start, &without.laplace.mode);
    (there.loglik > without.laplace.loglik).then(|| climb(design, &start, terms, &there.mode))
}

/// Fixed effects to start from: the logit of each cell, or none.
fn start(design: &Design) -> Vec<f64> {
    if !matches!(design.fixed, Fixed::Cells) {
        return vec![0.0; design.width()];
    }
    let (x, n) = (design.fixed_sums(&design.x), design.fixed_sums(&design.n));
    x.iter().zip(&n).map(|(x, n)| ((x + 0.5) / (n - x + 0.5)).ln()).collect()
}

fn coefficients(design: &Design) -> f64 {
    let ln = |(x, n): (&f64, &f64)| ln_gamma(n + 1.0) - ln_gamma(x + 1.0) - ln_gamma(n - x + 1.0);
    design.x.iter().zip(&design.n).map(ln).sum()
}

impl Fit<'_> {
    /// Conditional modes of one term's effects on the logit scale, in the order of their names; empty
    /// for trials and where the design has no such term.
    #[must_use]
    pub fn effects(&self, term: Term) -> Vec<f64> {
        let sd = self.point.sd.of(term);
        self.laplace.mode.effects[self.design.range(term)].iter().map(|u| u * sd).collect()
    }
}
