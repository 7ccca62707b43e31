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

/// [`lower`] or [`upper`].
pub(super) type End = fn(&Fit, Hold, f64, f64) -> f64;

/// Logits further out than this count as 0 or 1.
const FAR: f64 = 60.0;
const HALVINGS: usize = 60;

/// Lower end of the interval of confidence `conf` for the held logit around its estimate; -infinity
/// where the looks do not exclude 0.
pub(super) fn lower(fit: &Fit, hold: Hold, estimate: f64, conf: f64) -> f64 {
    if estimate < -FAR {
        f64::NEG_INFINITY
    } else {
        crossing(fit, hold, (estimate.min(0.5 * FAR), -1.0), conf)
    }
}

/// Upper end; +infinity where the looks do not exclude 1.
pub(super) fn upper(fit: &Fit, hold: Hold, estimate: f64, conf: f64) -> f64 {
    let start = [fit.theta[1], fit.theta[2]];
    let edge = || held(&fit.likelihood, hold, f64::INFINITY, start).0;
    if estimate.is_infinite() || 2.0 * (fit.loglik - edge()) <= two_sided_z(conf).powi(2) {
        return f64::INFINITY;
    }
    crossing(fit, hold, (estimate.clamp(-FAR, 0.5 * FAR), 1.0), conf)
}

/// The highest log-likelihood with the held logit, and the ln t50 and ln steepness it has.
pub(super) fn held(likelihood: &Likelihood, hold: Hold, logit: f64, from: [f64; 2]) -> (f64, [f64; 2]) {
    let top = climb(from, |at| restricted(likelihood, hold, logit, at));
    (top.local.value, top.at)
}

/// Where the signed root of twice the lost log-likelihood, nearly a straight line, reaches the
/// normal quantile, going from `inner` in direction `sign`: strides, then regula falsi (Illinois).
fn crossing(fit: &Fit, hold: Hold, (inner, sign): (f64, f64), conf: f64) -> f64 {
    let z = two_sided_z(conf);
    let mut from = [fit.theta[1], fit.theta[2]];
    let mut inside = |logit: f64| {
        let (value, at) = held(&fit.likelihood, hold, logit, from);
        let left = z - (2.0 * (fit.loglik - value)).max(0.0).sqrt();
        if left > -z {
            from = at;
        }
        left.max(-1e6)
    };
    let (mut near, mut far, mut stride) = ((inner, z), (inner, z), 0.5);
    while far.1 >= 0.0 {
        if far.0 * sign > FAR {
            return sign * f64::INFINITY;
        }
        near = far;
        far.0 += sign * stride;
        far.1 = inside(far.0);
        stride *= 1.6;
    }
    for _ in 0..HALVINGS {
        if (far.0 - near.0).abs() < 1e-8 {
            break;
        }
        let guess = (near.0 * far.1 - far.0 * near.1) / (far.1 - near.1);
        let left = inside(guess);
        if left.abs() < 1e-9 {
            return guess;
        }
        if left < 0.0 {
            far = (guess, left);
            near.1 *= 0.5;
        } else {
            near = (guess, left);
            far.1 *= 0.5;
        }
    }
    0.5 * (near.0 + far.0)
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
