//! Base temperature and thermal time: below the best temperature the speed of rooting, 1/t50, rises
//! in a straight line with temperature (Bierhuizen & Wagenvoort 1974, Sci. Hortic. 2:213-219).

use crate::special::t_quantile;

/// What the points allow.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Status {
    /// A rising line with an interval.
    Ok,
    /// Two points: a line without any idea of its error.
    TwoPointsNoInterval,
    /// The line may as well be level, at this confidence; the delta intervals are not to be trusted.
    SlopeNotSignificant,
    /// Speed does not rise with temperature: past the best temperature, or no effect.
    SlopeNotPositive,
    /// All at one temperature, or fewer than two points.
    NoTemperatureSpread,
}

impl Status {
    /// The name in files.
    pub fn name(self) -> &'static str {
        match self {
            Self::Ok => "ok",
            Self::TwoPointsNoInterval => "two_points_no_interval",
            Self::SlopeNotSignificant => "slope_not_significant",
            Self::SlopeNotPositive => "slope_not_positive",
            Self::NoTemperatureSpread => "no_temperature_spread",
        }
    }
}

/// One temperature and the median time of rooting at it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Warmth {
    /// Degrees C.
    pub celsius: f64,
    /// Days, above 0.
    pub t50: f64,
}

/// Intervals and what they rest on, from three points.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Errors {
    /// Residual standard deviation of speed, per day.
    pub residual_sd: f64,
    /// Standard error of the intercept.
    pub se_intercept: f64,
    /// Standard error of the slope.
    pub se_slope: f64,
    /// Student's t of the confidence, with n - 2 degrees of freedom.
    pub t_quantile: f64,
}

/// Base temperature and thermal time with their errors, where the line rises.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Estimate {
    /// The estimate.
    pub value: f64,
    /// Standard error by the delta method; `None` for two points.
    pub se: Option<f64>,
    /// Delta interval with Student's t.
    pub delta: Option<(f64, f64)>,
    /// Exact interval: Fieller's (1954) for the base temperature, the reciprocals of the slope's
    /// interval for the thermal time. `None` where the slope is not significant: it has no ends.
    pub exact: Option<(f64, f64)>,
}

/// A line through speed against temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line {
    /// What the points allow.
    pub status: Status,
    /// Number of points.
    pub n: usize,
    /// Speed at 0 degrees C, per day.
    pub intercept: Option<f64>,
    /// Speed per degree.
    pub slope: Option<f64>,
    /// Share of the variance of speed explained; `None` where speed does not vary.
    pub r_squared: Option<f64>,
    /// From three points.
    pub errors: Option<Errors>,
    /// Temperature of no rooting, degrees C.
    pub base: Option<Estimate>,
    /// Degree-days above the base to half of the seeds that root.
    pub thermal_time: Option<Estimate>,
}

/// Sums about the means, in an order that does not depend on the rows'.
struct Sums {
    n: f64,
    t: f64,
    speed: f64,
    tt: f64,
    ty: f64,
    yy: f64,
}

impl Sums {
    fn of(points: &[Warmth]) -> Self {
        let mut sorted: Vec<(f64, f64)> = points.iter().map(|p| (p.celsius, 1.0 / p.t50)).collect();
        sorted.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
        let n = sorted.len() as f64;
        let t = sorted.iter().map(|p| p.0).sum::<f64>() / n;
        let speed = sorted.iter().map(|p| p.1).sum::<f64>() / n;
        let sum = |f: fn(f64, f64) -> f64| sorted.iter().map(|p| f(p.0 - t, p.1 - speed)).sum::<f64>();
        Self { n, t, speed, tt: sum(|x, _| x * x), ty: sum(|x, y| x * y), yy: sum(|_, y| y * y) }
    }
}

impl Line {
    /// Least squares of 1/t50 on temperature. Points whose numbers are not finite or whose time is
    /// not above 0 are left out.
    pub fn fit(points: &[Warmth], conf: f64) -> Self {
        let sound = |p: &&Warmth| {
            p.celsius.is_finite() && p.t50 > 0.0 && (1.0 / p.t50).is_finite() && p.t50.is_finite()
        };
        let points: Vec<Warmth> = points.iter().filter(sound).copied().collect();
        let sums = Sums::of(&points);
        let n = points.len();
        let scale = points.iter().map(|p| p.celsius.abs()).fold(1.0, f64::max);
        if n < 2 || sums.tt <= 1e-20 * scale * scale * sums.n {
            return Self::without(Status::NoTemperatureSpread, n);
        }
        let slope = sums.ty / sums.tt;
        let intercept = sums.speed - slope * sums.t;
        let errors = (n > 2).then(|| errors(&sums, slope, conf));
        let mut line = Self {
            intercept: Some(intercept),
            slope: Some(slope),
            r_squared: (sums.yy > 0.0).then(|| (sums.ty * sums.ty / (sums.tt * sums.yy)).min(1.0)),
            errors,
            ..Self::without(Status::SlopeNotPositive, n)
        };
        if slope <= 1e-14 * sums.speed / scale {
            return line;
        }
        let significant = errors.map(|e| slope > e.t_quantile * e.se_slope);
        line.status = match significant {
            None => Status::TwoPointsNoInterval,
            Some(true) => Status::Ok,
            Some(false) => Status::SlopeNotSignificant,
        };
        line.base = Some(base(&sums, slope, errors));
        line.thermal_time = Some(thermal_time(slope, errors));
        line
    }

    fn without(status: Status, n: usize) -> Self {
        Self {
            status,
            n,
            intercept: None,
            slope: None,
            r_squared: None,
            errors: None,
            base: None,
            thermal_time: None,
        }
    }

    /// Days to half of the seeds that root at `celsius`; `None` at or below the base temperature, or
    /// without a rising line. Holds below the best temperature only.
    pub fn days(&self, celsius: f64) -> Option<f64> {
        days(self.base?.value, self.thermal_time?.value, celsius)
    }
}

/// Days at `celsius` for a base temperature and thermal time from a table; `None` at or below the base.
pub fn days(base: f64, thermal_time: f64, celsius: f64) -> Option<f64> {
    (celsius > base).then(|| thermal_time / (celsius - base)).filter(|d| d.is_finite() && *d > 0.0)
}

fn errors(sums: &Sums, slope: f64, conf: f64) -> Errors {
    let df = sums.n - 2.0;
    let residual_sd = ((sums.yy - slope * sums.ty).max(0.0) / df).sqrt();
    Errors {
        residual_sd,
        se_intercept: residual_sd * (1.0 / sums.n + sums.t * sums.t / sums.tt).sqrt(),
        se_slope: residual_sd / sums.tt.sqrt(),
        t_quantile: t_quantile(0.5 + conf / 2.0, df),
    }
}

/// Worked about the mean temperature m: the base is m - mean speed / slope, whose two parts are
/// independent.
fn base(sums: &Sums, slope: f64, errors: Option<Errors>) -> Estimate {
    let back = sums.speed / slope;
    let value = sums.t - back;
    let Some(e) = errors else { return Estimate { value, se: None, delta: None, exact: None } };
    let (v_mean, v_slope) = (e.residual_sd * e.residual_sd / sums.n, e.se_slope * e.se_slope);
    let se = (v_mean + back * back * v_slope).sqrt() / slope;
    let t2 = e.t_quantile * e.t_quantile;
    // (mean - slope u)^2 = t^2 (Vmean + u^2 Vslope), u = distance below the mean temperature.
    let lead = slope * slope - t2 * v_slope;
    let half = (t2 * (lead * v_mean + sums.speed * sums.speed * v_slope)).max(0.0).sqrt();
    let ends = |sign: f64| sums.t - (sums.speed * slope + sign * half) / lead;
    Estimate {
        value,
        se: Some(se),
        delta: Some(around(value, e.t_quantile * se)),
        exact: (lead > 0.0).then(|| (ends(1.0), ends(-1.0))),
    }
}

fn thermal_time(slope: f64, errors: Option<Errors>) -> Estimate {
    let value = 1.0 / slope;
    let Some(e) = errors else { return Estimate { value, se: None, delta: None, exact: None } };
    let se = e.se_slope / (slope * slope);
    let half = e.t_quantile * e.se_slope;
    let exact = (slope > half).then(|| (1.0 / (slope + half), 1.0 / (slope - half)));
    Estimate { value, se: Some(se), delta: Some(around(value, e.t_quantile * se)), exact }
}

fn around(x: f64, half: f64) -> (f64, f64) {
    (x - half, x + half)
}
