use super::climb::{self, Local, Top, climb};
use super::form::Form;
use super::likelihood::Likelihood;
use super::profile::{self, Hold};
use super::{Fate, Removed, Seeds, Status};
use crate::special::two_sided_z;
use std::f64::consts::LN_2;

/// A fitted form. Numbers are `None` where the looks do not determine them.
#[derive(Debug, Clone)]
pub struct Fit {
    /// The form.
    pub form: Form,
    /// How the fit ended.
    pub status: Status,
    /// Sum of count x ln(probability), without a combinatorial constant.
    pub loglik: f64,
    /// logit p (infinite for p = 1), ln t50, ln steepness.
    pub(super) theta: [f64; 3],
    pub(super) covariance: Option<[[f64; 3]; 3]>,
    pub(super) likelihood: Likelihood,
    pub(super) any_rooted: bool,
}

/// Standard errors of p (`None` at p = 1), t50 and shape.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Errors {
    /// Of the capacity.
    pub p: Option<f64>,
    /// Of the median time, in its unit.
    pub t50: f64,
    /// Of the shape.
    pub shape: f64,
}

/// Standard errors of logit p, ln t50 and ln steepness past which the likelihood is called flat.
const FLAT: [f64; 3] = [20.0, 5.0, 5.0];

impl Fit {
    /// Fits `form`. Seeds that are not [sound](Seeds::is_sound) are left out; their order does not
    /// matter. Bounded work for any input.
    pub fn of(seeds: &[Seeds], form: Form, removed: Removed) -> Self {
        let sound: Vec<&Seeds> = seeds.iter().filter(|s| s.is_sound()).collect();
        Self::climbed(&sound, Likelihood::of(sound.iter().copied(), form, removed))
    }

    /// Fits every form, in the order of [`Form::ALL`]; the seeds are held once.
    pub fn each(seeds: &[Seeds], removed: Removed) -> [Self; 3] {
        let sound: Vec<&Seeds> = seeds.iter().filter(|s| s.is_sound()).collect();
        let likelihood = Likelihood::of(sound.iter().copied(), Form::ALL[0], removed);
        Form::ALL.map(|form| Self::climbed(&sound, likelihood.of_form(form)))
    }

    fn climbed(sound: &[&Seeds], likelihood: Likelihood) -> Self {
        let form = likelihood.form;
        let any_rooted = sound.iter().any(|s| matches!(s.fate, Fate::Rooted { .. }));
        let guess = guess(sound, form);
        let top = any_rooted.then(|| highest(&likelihood, guess));
        let (theta, loglik, settled) = top.map_or((guess, 0.0, false), |t| (t.at, t.local.value, t.settled));
        let covariance = top.filter(|_| settled).and_then(|t| covariance(&t));
        let status = match covariance {
            None => Status::NotEstimable,
            Some(_) if theta[0].is_infinite() => Status::BoundaryP1,
            Some(_) => Status::Ok,
        };
        Self { form, status, loglik, theta, covariance, likelihood, any_rooted }
    }

    fn known(&self) -> Option<&[[f64; 3]; 3]> {
        self.covariance.as_ref()
    }

    /// Share of seeds that will ever root, 0..1.
    pub fn p(&self) -> Option<f64> {
        self.known().map(|_| logistic(self.theta[0]))
    }

    /// Median time of the seeds that root.
    pub fn t50(&self) -> Option<f64> {
        self.known().map(|_| self.theta[1].exp())
    }

    /// The shape as [`Form`] states it.
    pub fn shape(&self) -> Option<f64> {
        let sign = if self.form == Form::LogNormal { -1.0 } else { 1.0 };
        self.known().map(|_| (sign * self.theta[2]).exp())
    }

    /// The Weibull form's scale, t50 / (ln 2)^(1/k); `None` for other forms.
    pub fn scale(&self) -> Option<f64> {
        let k = self.shape().filter(|_| self.form == Form::Weibull)?;
        Some(self.t50()? / LN_2.powf(1.0 / k))
    }

    /// Akaike's criterion with three parameters, also at p = 1.
    pub fn aic(&self) -> Option<f64> {
        self.known().map(|_| 6.0 - 2.0 * self.loglik)
    }

    /// The cumulative share rooted by `t`.
    pub fn share(&self, t: f64) -> Option<f64> {
        let share = if t > 0.0 { self.form.at(self.w(t)).ln_cdf.exp() } else { 0.0 };
        self.p().map(|p| p * share)
    }

    pub(super) fn w(&self, t: f64) -> f64 {
        self.theta[2].exp() * (t.ln() - self.theta[1])
    }

    /// Errors from the observed information, for independent seeds.
    pub fn errors(&self) -> Option<Errors> {
        self.known().map(|c| self.errors_of(c))
    }

    fn errors_of(&self, covariance: &[[f64; 3]; 3]) -> Errors {
        let p = logistic(self.theta[0]);
        let inside = self.theta[0].is_finite();
        let se = |i: usize| covariance[i][i].sqrt();
        let steep = self.shape().unwrap_or(f64::NAN) * se(2);
        Errors {
            p: inside.then(|| p * logistic(-self.theta[0]) * se(0)),
            t50: self.theta[1].exp() * se(1),
            shape: steep,
        }
    }

    /// Errors that allow for bags being unlike each other (sandwich, with m / (m - 1) for m bags);
    /// `None` for one bag. Needs some ten bags to be trusted.
    pub fn errors_by_bag(&self, seeds: &[Seeds], removed: Removed) -> Option<Errors> {
        let bread = self.known()?;
        let mut sorted: Vec<&Seeds> = seeds.iter().filter(|s| s.is_sound()).collect();
        sorted.sort_by_key(|s| s.bag);
        let bags: Vec<&[&Seeds]> = sorted.chunk_by(|a, b| a.bag == b.bag).collect();
        if bags.len() < 2 {
            return None;
        }
        let mut sandwich = [[0.0; 3]; 3];
        for bag in &bags {
            let own = Likelihood::of(bag.iter().copied(), self.form, removed);
            let score = own.at(&self.theta).gradient;
            let moved: [f64; 3] = std::array::from_fn(|i| climb::dot(&bread[i], &score));
            for i in 0..3 {
                for j in 0..3 {
                    sandwich[i][j] += moved[i] * moved[j];
                }
            }
        }
        let m = bags.len() as f64;
        Some(self.errors_of(&sandwich.map(|row| row.map(|x| x * m / (m - 1.0)))))
    }

    /// Interval of p on the logit scale; `None` at p = 1.
    pub fn p_interval(&self, conf: f64) -> Option<(f64, f64)> {
        let half = two_sided_z(conf) * self.known()?[0][0].sqrt();
        let ends = (logistic(self.theta[0] - half), logistic(self.theta[0] + half));
        self.theta[0].is_finite().then_some(ends)
    }

    /// Interval of t50 on the log scale.
    pub fn t50_interval(&self, conf: f64) -> Option<(f64, f64)> {
        let half = two_sided_z(conf) * self.known()?[1][1].sqrt();
        Some(((self.theta[1] - half).exp(), (self.theta[1] + half).exp()))
    }

    /// Interval of p by the profile likelihood; the upper end is 1 where the looks do not exclude it.
    pub fn p_profile(&self, conf: f64) -> Option<(f64, f64)> {
        self.known()?;
        let end = |which: profile::End| logistic(which(self, Hold::Capacity, self.theta[0], conf));
        Some((end(profile::lower), end(profile::upper)))
    }
}

pub(super) fn logistic(x: f64) -> f64 {
    1.0 / (1.0 + (-x).exp())
}

/// First guess: share rooted so far, and moments of ln time at the middle of the looks.
fn guess(seeds: &[&Seeds], form: Form) -> [f64; 3] {
    let middle = |s: &&Seeds| match s.fate {
        Fate::Rooted { l, r } => Some((0.5 * (l.max(0.3 * r) + r), (r / l.max(0.3 * r)).ln(), s.count)),
        _ => None,
    };
    let mut rooted: Vec<(f64, f64, f64)> = seeds.iter().filter_map(middle).collect();
    rooted.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)).then(a.2.total_cmp(&b.2)));
    let n: f64 = rooted.iter().map(|r| r.2).sum();
    let all: f64 = seeds.iter().map(|s| s.count).sum();
    if n <= 0.0 {
        return [0.0, 0.0, 0.0];
    }
    let mean = rooted.iter().map(|r| r.2 * r.0.ln()).sum::<f64>() / n;
    let square = |r: &(f64, f64, f64)| r.2 * ((r.0.ln() - mean).powi(2) + r.1 * r.1 / 12.0);
    let sd = (rooted.iter().map(square).sum::<f64>() / n).sqrt().max(1e-3);
    let p = (n / all).clamp(0.02, 0.98);
    [(p / (1.0 - p)).ln(), mean, (form.spread() / sd).ln()]
}

/// The highest point found: inside, from a second start too where p = 1 is near or the first did not
/// settle, and at p = 1 where that is not lower.
fn highest(likelihood: &Likelihood, guess: [f64; 3]) -> Top<3> {
    let full = |theta: &[f64; 3]| likelihood.at(theta);
    let edge = climb([guess[1], guess[2]], |at| last_two(likelihood.at(&[f64::INFINITY, at[0], at[1]])));
    let mut inside = climb(guess, full);
    let lower = edge.local.value < inside.local.value - 2.0;
    if edge.local.value.is_finite() && !(inside.settled && lower) {
        let second = climb([2.0, edge.at[0], edge.at[1]], full);
        if second.local.value > inside.local.value {
            inside = second;
        }
    }
    let slack = 1e-10 * (1.0 + inside.local.value.abs());
    if !edge.local.value.is_finite() || edge.local.value < inside.local.value - slack {
        return inside;
    }
    // As likely well inside as at the edge: a level ridge, not an edge.
    let ridge = inside.at[0] < 12.0 && inside.settled && edge.local.value < inside.local.value + slack;
    let at = [f64::INFINITY, edge.at[0], edge.at[1]];
    Top { at, local: likelihood.at(&at), settled: edge.settled && !ridge }
}

fn last_two(local: Local<3>) -> Local<2> {
    let Local { value, gradient: [_, g1, g2], hessian: [_, [_, a, b], [_, c, d]] } = local;
    Local { value, gradient: [g1, g2], hessian: [[a, b], [c, d]] }
}

/// Inverse of the observed information; `None` where the likelihood is flat in some direction.
fn covariance(top: &Top<3>) -> Option<[[f64; 3]; 3]> {
    let out = if top.at[0].is_finite() {
        climb::inverse(&top.local.hessian.map(|row| row.map(|x| -x)))?
    } else {
        let [[a, b], [c, d]] = climb::inverse(&last_two(top.local).hessian.map(|row| row.map(|x| -x)))?;
        [[0.0; 3], [0.0, a, b], [0.0, c, d]]
    };
    let sharp = (0..3).all(|i| out[i][i].is_finite() && out[i][i] < FLAT[i] * FLAT[i]);
    sharp.then_some(out)
}
