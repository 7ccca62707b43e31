//! Continuous distributions: normal, chi-squared, Student's t, beta.
//!
//! Every function takes any `f64` and returns: outside its range the answer is NaN, never a panic and
//! never an endless loop. The incomplete beta and its inverse are our own, because those of the library
//! stop short for large counts and can fail to return far in the tail.

use statrs::function::{erf, gamma};
use std::f64::consts::{PI, SQRT_2};

/// Largest shape parameter of a beta distribution that is computed; above it the answer is NaN.
pub const MAX_SHAPE: f64 = 1e10;

/// Natural logarithm of the gamma function; `x` > 0, else NaN.
pub fn ln_gamma(x: f64) -> f64 {
    if x > 0.0 && x.is_finite() { gamma::ln_gamma(x) } else { f64::NAN }
}

/// Natural logarithm of the beta function; `a`, `b` > 0, else NaN.
pub fn ln_beta(a: f64, b: f64) -> f64 {
    let n = a + b;
    if !(a > 0.0 && b > 0.0 && n.is_finite()) {
        return f64::NAN;
    }
    (n / (a * b)).ln() + stirling_rest(a) + stirling_rest(b) - stirling_rest(n)
        + 0.5 * (2.0 * PI * a).ln()
        + 0.5 * (b / n).ln()
        - a * (b / a).ln_1p()
        - b * (a / b).ln_1p()
}

/// Standard normal P(Z <= z).
pub fn normal_cdf(z: f64) -> f64 {
    if z > 0.0 { 1.0 - normal_cdf(-z) } else { 0.5 * chi2_sf(z * z, 1.0) }
}

/// Standard normal P(Z > z).
pub fn normal_sf(z: f64) -> f64 {
    normal_cdf(-z)
}

/// The z with P(Z <= z) = `p`; 0 and 1 give the infinite ends, outside [0, 1] NaN.
pub fn normal_quantile(p: f64) -> f64 {
    if !(0.0..=1.0).contains(&p) {
        f64::NAN
    } else if p > 0.5 {
        SQRT_2 * erf::erfc_inv(2.0 * (1.0 - p))
    } else {
        -SQRT_2 * erf::erfc_inv(2.0 * p)
    }
}

/// The z of a two-sided interval of confidence `conf`: 1.96 for 0.95.
pub fn two_sided_z(conf: f64) -> f64 {
    -normal_quantile((1.0 - conf) / 2.0)
}

/// Chi-squared P(X > x) with `df` > 0 degrees of freedom; Wilson and Hilferty's cube root above 10^8.
pub fn chi2_sf(x: f64, df: f64) -> f64 {
    if x.is_nan() || df.is_nan() || df <= 0.0 {
        f64::NAN
    } else if x <= 0.0 {
        1.0
    } else if x.is_infinite() {
        0.0
    } else if df > 1e8 {
        let s = 2.0 / (9.0 * df);
        normal_sf(((x / df).cbrt() - 1.0 + s) / s.sqrt())
    } else {
        gamma::checked_gamma_ur(df / 2.0, x / 2.0).unwrap_or(f64::NAN).clamp(0.0, 1.0)
    }
}

/// Student's t: P(|T| > |t|) with `df` > 0 degrees of freedom.
pub fn t_two_sided(t: f64, df: f64) -> f64 {
    let square = t * t;
    if square.is_infinite() {
        return 0.0;
    }
    lower(Split { x: df / (df + square), y: square / (df + square) }, df / 2.0, 0.5)
}

/// The t with P(T <= t) = `p` with `df` > 0 degrees of freedom.
pub fn t_quantile(p: f64, df: f64) -> f64 {
    if p == 0.5 {
        return 0.0;
    }
    let tail = 2.0 * p.min(1.0 - p);
    let split = quantile(tail, df / 2.0, 0.5);
    let t = (df * split.y / split.x).sqrt();
    if p < 0.5 { -t } else { t }
}

/// Regularised incomplete beta function I_x(a, b) = P(X <= x); `a`, `b` in (0, 10^10].
pub fn beta_cdf(x: f64, a: f64, b: f64) -> f64 {
    lower(Split { x, y: 1.0 - x }, a, b)
}

/// P(X > x) of the beta distribution, with full digits when it is small.
pub fn beta_sf(x: f64, a: f64, b: f64) -> f64 {
    lower(Split { x: 1.0 - x, y: x }, b, a)
}

/// The x with I_x(a, b) = `p`; `p` in [0, 1], `a`, `b` in (0, 10^10].
pub fn beta_quantile(p: f64, a: f64, b: f64) -> f64 {
    quantile(p, a, b).x
}

/// A point of [0, 1] and its complement, both with full digits.
#[derive(Clone, Copy)]
struct Split {
    x: f64,
    y: f64,
}

impl Split {
    fn of_logit(u: f64) -> Self {
        Self { x: 1.0 / (1.0 + (-u).exp()), y: 1.0 / (1.0 + u.exp()) }
    }

    fn swapped(self) -> Self {
        Self { x: self.y, y: self.x }
    }
}

fn shapes_hold(a: f64, b: f64) -> bool {
    a > 0.0 && b > 0.0 && a <= MAX_SHAPE && b <= MAX_SHAPE
}

fn lower(at: Split, a: f64, b: f64) -> f64 {
    if at.x.is_nan() || !shapes_hold(a, b) { f64::NAN } else { ln_lower(at, a, b).exp().min(1.0) }
}

/// Newton on the logit and the log scale, inside a bracket: there the function is concave and the
/// smaller tail keeps its digits.
fn quantile(p: f64, a: f64, b: f64) -> Split {
    if !(0.0..=1.0).contains(&p) || !shapes_hold(a, b) {
        return Split { x: f64::NAN, y: f64::NAN };
    }
    if p > 0.5 {
        return quantile(1.0 - p, b, a).swapped();
    }
    if p == 0.0 {
        return Split { x: 0.0, y: 1.0 };
    }
    let (mut low, mut high) = (-746.0, 746.0);
    let mut u = (a / b).ln();
    for _ in 0..200 {
        let at = Split::of_logit(u);
        let ln_p = ln_lower(at, a, b);
        if ln_p > p.ln() {
            high = u
        } else {
            low = u
        }
        let step = (ln_p - p.ln()) / (ln_front(at, a, b) - ln_p).exp();
        let newton = u - step;
        let next = if newton > low && newton < high { newton } else { f64::midpoint(low, high) };
        let moved = (next - u).abs();
        u = next;
        if moved <= 2e-16 * u.abs().max(1.0) {
            break;
        }
    }
    Split::of_logit(u)
}

/// ln I_x(a, b), from the continued fraction on the side where it converges.
fn ln_lower(at: Split, a: f64, b: f64) -> f64 {
    if at.x <= 0.0 {
        f64::NEG_INFINITY
    } else if at.y <= 0.0 {
        0.0
    } else if at.x < (a + 1.0) / (a + b + 2.0) {
        ln_front(at, a, b) - a.ln() + fraction(at.x, a, b).ln()
    } else {
        let upper = (ln_front(at, a, b) - b.ln() + fraction(at.y, b, a).ln()).exp();
        (-upper.min(1.0)).ln_1p()
    }
}

/// ln of x^a y^b / B(a, b), by Loader's saddle-point form (2000), which loses no digits for large
/// counts as differences of log-gammas would.
fn ln_front(at: Split, a: f64, b: f64) -> f64 {
    let n = a + b;
    (a * b / n).ln() + stirling_rest(n) - stirling_rest(a) - stirling_rest(b) + 0.5 * (n / (a * b)).ln()
        - 0.5 * (2.0 * PI).ln()
        - deviance(a, n * at.x)
        - deviance(b, n * at.y)
}

/// ln gamma(z + 1) less Stirling's first terms.
fn stirling_rest(z: f64) -> f64 {
    if z < 15.0 {
        return gamma::ln_gamma(z + 1.0) - (z + 0.5) * z.ln() + z - 0.5 * (2.0 * PI).ln();
    }
    let w = 1.0 / (z * z);
    (1.0 / 12.0 - w * (1.0 / 360.0 - w * (1.0 / 1260.0 - w * (1.0 / 1680.0 - w / 1188.0)))) / z
}

/// x ln(x / m) + m - x, by a series where x is near m.
fn deviance(x: f64, m: f64) -> f64 {
    let v = (x - m) / (x + m);
    if v.abs() > 0.1 {
        return x * (x / m).ln() + m - x;
    }
    let mut sum = (x - m) * v;
    let mut term = 2.0 * x * v;
    for j in 1..100 {
        term *= v * v;
        let next = sum + term / f64::from(2 * j + 1);
        if next == sum {
            break;
        }
        sum = next;
    }
    sum
}

/// Continued fraction of the incomplete beta (Abramowitz and Stegun 26.5.8) by Lentz's method; it
/// needs about sqrt(a + b) steps, and the number of steps is bounded.
fn fraction(x: f64, a: f64, b: f64) -> f64 {
    let away = |v: f64| if v.abs() < 1e-300 { 1e-300 } else { v };
    let mut c = 1.0;
    let mut d = 1.0 / away(1.0 - (a + b) * x / (a + 1.0));
    let mut h = d;
    let steps = 500 + 20 * a.max(b).sqrt() as u32;
    for m in 1..steps {
        let m = f64::from(m);
        let even = m * (b - m) * x / ((a + 2.0 * m - 1.0) * (a + 2.0 * m));
        d = 1.0 / away(1.0 + even * d);
        c = away(1.0 + even / c);
        h *= d * c;
        let odd = -(a + m) * (a + b + m) * x / ((a + 2.0 * m) * (a + 2.0 * m + 1.0));
        d = 1.0 / away(1.0 + odd * d);
        c = away(1.0 + odd / c);
        h *= d * c;
        if (d * c - 1.0).abs() < 2e-16 {
            break;
        }
    }
    h
}
