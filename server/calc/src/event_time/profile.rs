//! Profile likelihood of one number while the others are free.

use super::climb::{Local, climb};
use super::fit::Fit;
use super::likelihood::Likelihood;
use crate::special::two_sided_z;

/// The number held, as a logit: capacity, or the chance that a seed not rooted by this ln time
/// will ever root.
#[derive(Debug, Clone, Copy)]
pub(super) enum Hold {
    Capacity,
    EverAfter(f64),
}

/// Logits further out than this count as 0 or 1.
const FAR: f64 = 60.0;
const HALVINGS: usize = 60;

/// Interval of confidence `conf` for the held logit around its estimate; infinite ends where the
/// looks do not exclude 0 or 1.
pub(super) fn interval(fit: &Fit, hold: Hold, estimate: f64, conf: f64) -> (f64, f64) {
    let lowest = fit.loglik - 0.5 * two_sided_z(conf).powi(2);
    let above = |logit: f64, from: [f64; 2]| {
        let (value, at) = held(&fit.likelihood, hold, logit, from);
        (value - lowest, at)
    };
    let start = [fit.theta[1], fit.theta[2]];
    let edge = if estimate.is_infinite() { 0.0 } else { above(f64::INFINITY, start).0 };
    let inner = estimate.clamp(-FAR, 0.5 * FAR);
    let high = if edge >= 0.0 { f64::INFINITY } else { crossing(inner, start, 1.0, above) };
    let low = if estimate < -FAR { f64::NEG_INFINITY } else { crossing(inner, start, -1.0, above) };
    (low, high)
}

/// The highest log-likelihood with the held logit, and the ln t50 and ln steepness it has.
pub(super) fn held(likelihood: &Likelihood, hold: Hold, logit: f64, from: [f64; 2]) -> (f64, [f64; 2]) {
    let top = climb(from, |at| restricted(likelihood, hold, logit, at));
    (top.local.value, top.at)
}

/// Where `above` falls through 0, going from `inner` in direction `sign`.
fn crossing(inner: f64, start: [f64; 2], sign: f64, above: impl Fn(f64, [f64; 2]) -> (f64, [f64; 2])) -> f64 {
    let (mut near, mut from, mut stride) = (inner, start, 0.5);
    let mut far = loop {
        let try_at = near + sign * stride;
        let (left, at) = above(try_at, from);
        if left < 0.0 {
            break try_at;
        }
        (near, from, stride) = (try_at, at, 1.6 * stride);
        if (near - inner).abs() > 2.0 * FAR || near * sign > FAR {
            return sign * f64::INFINITY;
        }
    };
    for _ in 0..HALVINGS {
        if (far - near).abs() < 1e-7 {
            break;
        }
        let middle = 0.5 * (near + far);
        let (left, at) = above(middle, from);
        if left < 0.0 { far = middle } else { (near, from) = (middle, at) }
    }
    0.5 * (near + far)
}

/// The likelihood in ln t50 and ln steepness, with logit p = logit - ln S(now) bound to them.
fn restricted(likelihood: &Likelihood, hold: Hold, logit: f64, at: &[f64; 2]) -> Local<2> {
    let [mu, log_a] = *at;
    let a = log_a.exp();
    let (bound, first, second) = match hold {
        Hold::EverAfter(now) if now > f64::NEG_INFINITY => {
            let w = a * (now - mu);
            let s = likelihood.form.at(w);
            let hazard = (s.ln_pdf - s.ln_sf).exp();
            let curve = hazard * (s.bend + hazard);
            let cross = -curve * a * w - hazard * a;
            (
                logit - s.ln_sf,
                [-hazard * a, hazard * w],
                [[curve * a * a, cross], [cross, curve * w * w + hazard * w]],
            )
        }
        _ => (logit, [0.0; 2], [[0.0; 2]; 2]),
    };
    let full = likelihood.at(&[bound, mu, log_a]);
    let (g, h) = (&full.gradient, &full.hessian);
    let gradient = std::array::from_fn(|i| g[i + 1] + g[0] * first[i]);
    let hessian = std::array::from_fn(|i| {
        std::array::from_fn(|j| {
            h[i + 1][j + 1]
                + h[0][j + 1] * first[i]
                + h[i + 1][0] * first[j]
                + h[0][0] * first[i] * first[j]
                + g[0] * second[i][j]
        })
    });
    Local { value: full.value, gradient, hessian }
}
