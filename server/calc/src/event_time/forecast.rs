//! What is still to come of seeds on paper.

use super::climb::dot;
use super::fit::{Fit, logistic};
use super::profile::{self, Hold};
use super::{Fate, Form, Removed, Seeds};
use crate::special::two_sided_z;

/// A chance for one seed that has not rooted, 0..1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Chance {
    /// The estimate.
    pub chance: f64,
    /// Its standard error by the delta method; `None` where p = 1 fixes the chance.
    pub se: Option<f64>,
    /// Interval on the logit scale; `None` likewise, and for chances below 1e-16, where it says
    /// nothing (0 to 1).
    pub interval: Option<(f64, f64)>,
}

/// Logit of a chance of 1e-16.
const NEGLIGIBLE: f64 = -36.84;

impl Fit {
    /// The chance that a seed not rooted by `now` will ever root: p(1-G) / (1-pG).
    pub fn ever(&self, now: f64, conf: f64) -> Option<Chance> {
        let covariance = self.covariance.as_ref()?;
        let logit = self.logit_ever(now);
        let chance = logistic(logit);
        if self.theta[0].is_infinite() {
            return Some(Chance { chance: 1.0, se: None, interval: None });
        }
        let [slope_mu, slope_a] = self.slopes(now, |s| -(s.ln_pdf - s.ln_sf).exp());
        let slope = [1.0, slope_mu, slope_a];
        let se = spread(covariance, &slope);
        let half = two_sided_z(conf) * se;
        let ends = (logistic(logit - half), logistic(logit + half));
        let interval = (logit > NEGLIGIBLE).then_some(ends);
        Some(Chance { chance, se: Some(chance * logistic(-logit) * se), interval })
    }

    /// Profile interval of [`Fit::ever`]'s chance; also where the numbers themselves are not
    /// determined (all seeds rooted between two looks), as long as some rooted.
    pub fn ever_profile(&self, now: f64, conf: f64) -> Option<(f64, f64)> {
        let end = |which: profile::End| {
            logistic(which(self, Hold::EverAfter(now.ln()), self.logit_ever(now), conf))
        };
        self.any_rooted.then(|| (end(profile::lower), end(profile::upper)))
    }

    /// Upper end of [`Fit::ever_profile`]; 1 where no seed has rooted.
    pub fn ever_at_most(&self, now: f64, conf: f64) -> f64 {
        let logit = || profile::upper(self, Hold::EverAfter(now.ln()), self.logit_ever(now), conf);
        if self.any_rooted { logistic(logit()) } else { 1.0 }
    }

    /// The chance that a seed not rooted by `now` will root within `horizon` after it.
    pub fn within(&self, now: f64, horizon: f64) -> Option<Chance> {
        let covariance = self.covariance.as_ref()?;
        let mut chance = 0.0;
        let mut slope = [0.0; 3];
        if horizon > 0.0 {
            let ahead =
                [Seeds { fate: Fate::Rooted { l: now.max(0.0), r: now + horizon }, count: 1.0, bag: 0 }];
            let waiting = [Seeds { fate: Fate::OnPaper { l: now.max(0.0) }, count: 1.0, bag: 0 }];
            let [ahead, waiting] = [&ahead, &waiting]
                .map(|s| super::likelihood::Likelihood::of(s, self.form, Removed::Censored).at(&self.theta));
            chance = (ahead.value - waiting.value).exp().min(1.0);
            slope = std::array::from_fn(|i| ahead.gradient[i] - waiting.gradient[i]);
        }
        let se = chance * spread(covariance, &slope);
        Some(Chance { chance, se: Some(se).filter(|se| se.is_finite()), interval: None })
    }

    /// The earliest time by which at least one of `left` seeds not rooted by `now` will have rooted
    /// with probability `chance`; `None` where that is never.
    pub fn next_look(&self, now: f64, left: f64, chance: f64) -> Option<f64> {
        let each = -((-chance).ln_1p() / left).exp_m1();
        let p = self.p().filter(|_| left > 0.0)?;
        let seen = self.share(now)?;
        let wanted = (seen + each * (1.0 - seen)) / p;
        if !(wanted > 0.0 && wanted < 1.0) {
            return None;
        }
        let t = (self.theta[1] + self.form.quantile(wanted) / self.theta[2].exp()).exp();
        Some(t.max(now)).filter(|t| t.is_finite())
    }

    fn logit_ever(&self, now: f64) -> f64 {
        self.theta[0] + if now > 0.0 { self.form.at(self.w(now)).ln_sf } else { 0.0 }
    }

    /// Slopes in ln t50 and ln steepness of a function of w with this derivative.
    fn slopes(&self, now: f64, derivative: impl Fn(super::form::Standard) -> f64) -> [f64; 2] {
        if now <= 0.0 {
            return [0.0; 2];
        }
        let w = self.w(now);
        let d = derivative(self.form.at(w));
        [-d * self.theta[2].exp(), d * w]
    }

    /// Whether the looks exclude that more than `worth` of `left` seeds are still to come.
    fn excludes(&self, now: f64, left: f64, worth: f64, conf: f64) -> bool {
        if left <= worth {
            return true;
        }
        let limit = (worth / (left - worth)).ln();
        if !self.any_rooted || self.logit_ever(now) >= limit {
            return false;
        }
        let start = [self.theta[1], self.theta[2]];
        let best = profile::held(&self.likelihood, Hold::EverAfter(now.ln()), limit, start).0;
        2.0 * (self.loglik - best) > two_sided_z(conf).powi(2)
    }
}

fn spread(covariance: &[[f64; 3]; 3], slope: &[f64; 3]) -> f64 {
    let moved: [f64; 3] = std::array::from_fn(|i| dot(&covariance[i], slope));
    dot(&moved, slope).max(0.0).sqrt()
}

/// Whether to go on looking at a bag.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GivingUp {
    /// All three forms exclude, at the confidence asked, that `worth` seeds or more are to come.
    pub supported: bool,
    /// The most seeds still to be expected: the highest upper profile limit of the three forms.
    pub most_to_come: f64,
    /// When giving up will be supported if nothing more roots; now where it already is; `None`
    /// where not within eight times the present age, or no seed has rooted yet.
    pub from: Option<f64>,
}

/// Judges `left` seeds on paper at `now`. They are the seeds on paper with the latest look.
pub fn giving_up(
    seeds: &[Seeds],
    removed: Removed,
    (now, left): (f64, f64),
    worth: f64,
    conf: f64,
) -> GivingUp {
    let most = |form: &Form| left * Fit::of(seeds, *form, removed).ever_at_most(now, conf);
    let most_to_come = Form::ALL.iter().map(most).fold(0.0, f64::max);
    let excluded = |seeds: &[Seeds], then: f64| {
        let excludes = |form: &Form| Fit::of(seeds, *form, removed).excludes(then, left, worth, conf);
        Form::ALL.iter().all(excludes)
    };
    let supported = excluded(seeds, now);
    let from = if supported { Some(now) } else { first(now, |then| excluded(&waited(seeds, then), then)) };
    GivingUp { supported, most_to_come, from }
}

/// The first time from `now` to eight times it that `holds`, to a hundredth or so.
fn first(now: f64, holds: impl Fn(f64) -> bool) -> Option<f64> {
    let mut yes = [1.0, 2.0, 4.0, 8.0].map(|k| k * now).into_iter().find(|then| holds(*then))?;
    let mut no = now.max(0.5 * yes);
    for _ in 0..7 {
        let middle = 0.5 * (no + yes);
        if yes > now && holds(middle) { yes = middle } else { no = middle }
    }
    Some(yes)
}

/// The seeds as they would be if those last on paper were looked at until `then` without news.
fn waited(seeds: &[Seeds], then: f64) -> Vec<Seeds> {
    let look = |s: &Seeds| if let Fate::OnPaper { l } = s.fate { l } else { 0.0 };
    let last = seeds.iter().map(look).fold(0.0, f64::max);
    let wait = |s: &Seeds| match s.fate {
        Fate::OnPaper { l } if l >= last => Seeds { fate: Fate::OnPaper { l: l.max(then) }, ..*s },
        _ => *s,
    };
    seeds.iter().map(wait).collect()
}
