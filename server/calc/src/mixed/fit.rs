use super::climb::{Top, climb};
use super::design::{Design, Fixed};
use super::laplace::{Laplace, Mode};
use super::{Point, Sd, Terms};
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

/// Fits the model with the given random terms by maximum likelihood.
#[must_use]
pub fn fit(design: &Design, terms: Terms) -> Fit<'_> {
    let start = Point { beta: start(design), sd: each(terms, 0.5) };
    let mut top = climb(design, &start, terms, &Mode::start(design));
    let mut terms = terms;
    for _ in 0..8 {
        let Some(term) = smallest(&top.point.sd, terms) else { break };
        let without = drop_term(&top, terms, term);
        if without.laplace.loglik >= top.laplace.loglik - 1e-6 {
            if let Some(better) = escaped(&without, terms, term) {
                top = better;
                continue;
            }
            terms = term.off(terms);
            top = without;
        } else {
            break;
        }
    }
    let sd = top.point.sd;
    let sd =
        Sd { variety: sd.variety.abs(), cell: sd.cell.abs(), grower: sd.grower.abs(), trial: sd.trial.abs() };
    // The sign of a standard deviation turns its effects: settle once more with all of them positive.
    let point = Point { beta: top.point.beta.clone(), sd };
    let laplace = Laplace::at(design, &point, &Mode::start(design));
    let loglik = laplace.loglik + coefficients(design);
    Fit { design, point, terms, loglik, laplace }
}

/// Fits the fixed effects at given standard deviations.
#[must_use]
pub fn fit_at(design: &Design, sd: Sd) -> Fit<'_> {
    let terms = Terms { variety: false, cell: false, grower: false, trial: false };
    let start = Point { beta: start(design), sd };
    let top = climb(design, &start, terms, &Mode::start(design));
    let loglik = top.laplace.loglik + coefficients(design);
    Fit { design, point: top.point, terms, loglik, laplace: top.laplace }
}

/// One random term.
#[derive(Debug, Clone, Copy)]
enum Term {
    Variety,
    Cell,
    Grower,
    Trial,
}

impl Term {
    const ALL: [Self; 4] = [Self::Variety, Self::Cell, Self::Grower, Self::Trial];

    fn is_on(self, terms: Terms) -> bool {
        match self {
            Self::Variety => terms.variety,
            Self::Cell => terms.cell,
            Self::Grower => terms.grower,
            Self::Trial => terms.trial,
        }
    }

    fn off(self, mut terms: Terms) -> Terms {
        match self {
            Self::Variety => terms.variety = false,
            Self::Cell => terms.cell = false,
            Self::Grower => terms.grower = false,
            Self::Trial => terms.trial = false,
        }
        terms
    }

    fn of(self, sd: &mut Sd) -> &mut f64 {
        match self {
            Self::Variety => &mut sd.variety,
            Self::Cell => &mut sd.cell,
            Self::Grower => &mut sd.grower,
            Self::Trial => &mut sd.trial,
        }
    }
}

fn each(terms: Terms, value: f64) -> Sd {
    let mut sd = Sd::default();
    Term::ALL.iter().filter(|t| t.is_on(terms)).for_each(|t| *t.of(&mut sd) = value);
    sd
}

fn smallest(sd: &Sd, terms: Terms) -> Option<Term> {
    let size = |t: &Term| t.of(&mut sd.clone()).abs();
    let small = Term::ALL.into_iter().filter(|t| t.is_on(terms) && size(t) < SMALL);
    small.min_by(|a, b| size(a).total_cmp(&size(b)))
}

fn drop_term<'d>(top: &Top<'d>, terms: Terms, term: Term) -> Top<'d> {
    let mut start = top.point.clone();
    *term.of(&mut start.sd) = 0.0;
    climb(top.laplace.design, &start, term.off(terms), &top.laplace.mode)
}

/// A higher place away from the boundary, where 0 was only a saddle.
fn escaped<'d>(without: &Top<'d>, terms: Terms, term: Term) -> Option<Top<'d>> {
    let mut start = without.point.clone();
    *term.of(&mut start.sd) = 0.1;
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
    /// Conditional modes of the varieties' effects on the logit scale, in the order of their names.
    #[must_use]
    pub fn variety_effects(&self) -> Vec<f64> {
        scaled(&self.laplace.mode.effects.variety, self.point.sd.variety)
    }

    /// Conditional modes of the cells' effects.
    #[must_use]
    pub fn cell_effects(&self) -> Vec<f64> {
        scaled(&self.laplace.mode.effects.cell, self.point.sd.cell)
    }

    /// Conditional modes of the growers' effects.
    #[must_use]
    pub fn grower_effects(&self) -> Vec<f64> {
        scaled(&self.laplace.mode.effects.grower, self.point.sd.grower)
    }
}

fn scaled(effects: &[f64], sd: f64) -> Vec<f64> {
    effects.iter().map(|u| u * sd).collect()
}
