//! Viability by age of seed: a binomial line on the probit or logit scale by maximum likelihood
//! (the probit line is the form of Ellis & Roberts 1980, Ann. Bot. 45:13-30).

use crate::event_time::Form;
use crate::special::{ln_gamma, normal_cdf, normal_quantile, two_sided_z};

/// The scale on which viability falls in a straight line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Link {
    /// Lifespans of the seeds are normal.
    Probit,
    /// Lifespans of the seeds are logistic.
    Logit,
}

impl Link {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Probit, Self::Logit];

    /// The name in files.
    pub fn name(self) -> &'static str {
        match self {
            Self::Probit => "probit",
            Self::Logit => "logit",
        }
    }

    fn form(self) -> Form {
        match self {
            Self::Probit => Form::LogNormal,
            Self::Logit => Form::LogLogistic,
        }
    }

    /// The rate at a point of the line.
    pub fn rate(self, line: f64) -> f64 {
        match self {
            Self::Probit => normal_cdf(line),
            Self::Logit => 1.0 / (1.0 + (-line).exp()),
        }
    }

    /// The point of the line with this rate, in (0, 1).
    fn line(self, rate: f64) -> f64 {
        match self {
            Self::Probit => normal_quantile(rate),
            Self::Logit => (rate / (1.0 - rate)).ln(),
        }
    }
}

/// What the seeds allow.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Status {
    /// A line.
    Ok,
    /// All seeds up to some age did one thing and all past it the other: the steepest line is best.
    Separated,
    /// All seeds rooted, or none, or there are none.
    NoVariation,
    /// All seeds are of one age.
    NoAgeSpread,
}

impl Status {
    /// The name in files.
    pub fn name(self) -> &'static str {
        match self {
            Self::Ok => "ok",
            Self::Separated => "separated",
            Self::NoVariation => "no_variation",
            Self::NoAgeSpread => "no_age_spread",
        }
    }
}

/// Ages that differ by less, in years (a thirtieth of a second), are one age.
const LEAST_SPREAD: f64 = 1e-9;

/// Seeds of one age.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Aged {
    /// Years.
    pub age: f64,
    /// Rooted, 0..=n.
    pub x: f64,
    /// Seeds tried.
    pub n: f64,
}

/// A fitted line: rate = link(intercept + slope x age).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line {
    /// The scale.
    pub link: Link,
    /// At age 0.
    pub intercept: f64,
    /// Per year; negative when viability falls.
    pub slope: f64,
    /// Variances of intercept and slope, and their covariance, from the expected information.
    pub variance: (f64, f64, f64),
    /// Twice the log-likelihood short of a perfect fit.
    pub deviance: f64,
    /// Pearson's chi-squared.
    pub pearson: f64,
    /// Log-likelihood with binomial coefficients.
    pub loglik: f64,
    /// Rows less 2.
    pub df: usize,
}

/// A rate the line gives, with its interval.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rate {
    /// The rate, 0..1.
    pub rate: f64,
    /// Lower end.
    pub low: f64,
    /// Upper end.
    pub high: f64,
    /// Standard error on the link's scale.
    pub se_link: f64,
}

impl Line {
    /// Fits the line, or says what stands in the way. Rows without seeds are left out; the order of
    /// rows does not matter.
    pub fn fit(rows: &[Aged], link: Link) -> Result<Self, Status> {
        let sound =
            |r: &&Aged| r.age.is_finite() && r.n > 0.0 && r.n.is_finite() && (0.0..=r.n).contains(&r.x);
        let mut rows: Vec<Aged> = rows.iter().filter(sound).copied().collect();
        rows.sort_by(|a, b| a.age.total_cmp(&b.age).then(a.n.total_cmp(&b.n)).then(a.x.total_cmp(&b.x)));
        obstacle(&rows)?;
        let middle = rows.iter().map(|r| r.n * r.age).sum::<f64>() / rows.iter().map(|r| r.n).sum::<f64>();
        let spread = rows.iter().map(|r| (r.age - middle).abs()).fold(0.0, f64::max);
        rows.iter_mut().for_each(|r| r.age = (r.age - middle) / spread);
        let fit = scores(&rows, link).ok_or(Status::Separated)?;
        let slope = fit.at[1] / spread;
        let [v0, v1, c] = [fit.variance[0], fit.variance[1] / (spread * spread), fit.variance[2] / spread];
        Ok(Self {
            link,
            intercept: fit.at[0] - slope * middle,
            slope,
            variance: (v0 - 2.0 * middle * c + middle * middle * v1, v1, c - middle * v1),
            deviance: rows.iter().map(|r| deviance(r, &fit, link)).sum::<f64>().max(0.0),
            pearson: rows.iter().map(|r| pearson(r, &fit, link)).sum(),
            loglik: fit.loglik + rows.iter().map(|r| ln_choose(r.n, r.x)).sum::<f64>(),
            df: rows.len().saturating_sub(2),
        })
    }

    /// The rate at `age` years, with an interval of confidence `conf`.
    pub fn at(&self, age: f64, conf: f64) -> Rate {
        let line = self.intercept + self.slope * age;
        let (v0, v1, c) = self.variance;
        let se_link = (v0 + 2.0 * age * c + age * age * v1).max(0.0).sqrt();
        let half = two_sided_z(conf) * se_link;
        let rate = |line| self.link.rate(line);
        Rate { rate: rate(line), low: rate(line - half), high: rate(line + half), se_link }
    }

    /// Age at which half still root, with its standard error (delta method); `None` where viability
    /// does not fall.
    pub fn half_age(&self) -> Option<(f64, f64)> {
        let age = -self.intercept / self.slope;
        let (v0, v1, c) = self.variance;
        let se = (v0 + 2.0 * age * c + age * age * v1).max(0.0).sqrt() / self.slope.abs();
        (self.slope < 0.0 && age.is_finite() && se.is_finite()).then_some((age, se))
    }

    /// Age in years at which the rate has fallen to `share` (in (0, 1)) of that at age 0; `None` where it does not
    /// fall.
    pub fn age_at_share(&self, share: f64) -> Option<f64> {
        let goal = share * self.link.rate(self.intercept);
        let age = (self.link.line(goal) - self.intercept) / self.slope;
        (self.slope < 0.0 && age.is_finite()).then_some(age)
    }

    /// How many times more unlike than by chance the rows are: Pearson's chi-squared over its degrees of freedom,
    /// at least 1.
    pub fn unlike(&self) -> f64 {
        if self.df == 0 { 1.0 } else { (self.pearson / self.df as f64).max(1.0) }
    }

    /// The line with variances that allow for rows being so unlike (quasi-likelihood: McCullagh & Nelder 1989,
    /// Generalized Linear Models, ch. 4).
    pub fn widened(&self) -> Self {
        let (k, (v0, v1, c)) = (self.unlike(), self.variance);
        Self { variance: (k * v0, k * v1, k * c), ..*self }
    }

    /// Whether the interval of the slope leaves no room for viability that stays.
    pub fn falls(&self, conf: f64) -> bool {
        self.slope + two_sided_z(conf) * self.variance.1.max(0.0).sqrt() < 0.0
    }

    /// Standard deviation of the seeds' lifespans in years; probit only, where viability falls.
    pub fn sigma_years(&self) -> Option<f64> {
        let sigma = -1.0 / self.slope;
        (self.link == Link::Probit && self.slope < 0.0 && sigma.is_finite()).then_some(sigma)
    }
}

/// Why no line can be fitted. A line runs off to infinite steepness when no seed that rooted is
/// older than one that did not, or the other way about.
fn obstacle(rows: &[Aged]) -> Result<(), Status> {
    let ends = |holds: fn(&Aged) -> bool| {
        let ages = rows.iter().filter(|r| holds(r)).map(|r| r.age);
        ages.fold(None, |ends: Option<(f64, f64)>, a| {
            Some(ends.map_or((a, a), |(l, h)| (l.min(a), h.max(a))))
        })
    };
    let (Some(yes), Some(no)) = (ends(|r| r.x > 0.0), ends(|r| r.x < r.n)) else {
        return Err(Status::NoVariation);
    };
    let (youngest, oldest) = (yes.0.min(no.0), yes.1.max(no.1));
    if oldest - youngest < LEAST_SPREAD {
        Err(Status::NoAgeSpread)
    } else if yes.1 <= no.0 || no.1 <= yes.0 {
        Err(Status::Separated)
    } else {
        Ok(())
    }
}

/// Where Fisher's scoring ended, on centred ages.
struct Scored {
    at: [f64; 2],
    /// Of intercept, of slope, and between them.
    variance: [f64; 3],
    loglik: f64,
}

/// Fisher's scoring with halved steps; the log-likelihood is concave in both scales. Bounded.
fn scores(rows: &[Aged], link: Link) -> Option<Scored> {
    let mut at = [0.0; 2];
    let mut here = loglik(rows, link, at);
    for _ in 0..200 {
        let (g, variance) = information(rows, link, at)?;
        let step = [variance[0] * g[0] + variance[2] * g[1], variance[2] * g[0] + variance[1] * g[1]];
        let rise = step[0] * g[0] + step[1] * g[1];
        let mut length = 1.0;
        let (next, there) = loop {
            let next = [at[0] + length * step[0], at[1] + length * step[1]];
            let there = loglik(rows, link, next);
            if there >= here - 1e-13 * here.abs() || length < 1e-9 {
                break (next, there);
            }
            length *= 0.5;
        };
        (at, here) = (next, there);
        if rise <= 1e-20 * (1.0 + here.abs()) {
            let (_, variance) = information(rows, link, at)?;
            return Some(Scored { at, variance, loglik: here });
        }
    }
    let (g, variance) = information(rows, link, at)?;
    let rise = variance[0] * g[0] * g[0] + 2.0 * variance[2] * g[0] * g[1] + variance[1] * g[1] * g[1];
    (rise < 1e-10).then_some(Scored { at, variance, loglik: here })
}

fn loglik(rows: &[Aged], link: Link, at: [f64; 2]) -> f64 {
    let row = |r: &Aged| {
        let s = link.form().at(at[0] + at[1] * r.age);
        r.x * s.ln_cdf + (r.n - r.x) * s.ln_sf
    };
    rows.iter().map(row).sum()
}

/// Gradient, and the inverse of the expected information.
fn information(rows: &[Aged], link: Link, at: [f64; 2]) -> Option<([f64; 2], [f64; 3])> {
    let (mut g, mut i) = ([0.0; 2], [0.0; 3]);
    for r in rows {
        let s = link.form().at(at[0] + at[1] * r.age);
        let (up, down) = ((s.ln_pdf - s.ln_cdf).exp(), (s.ln_pdf - s.ln_sf).exp());
        let (pull, weight) = (r.x * up - (r.n - r.x) * down, r.n * up * down);
        g = [g[0] + pull, g[1] + pull * r.age];
        i = [i[0] + weight, i[1] + weight * r.age * r.age, i[2] + weight * r.age];
    }
    let determinant = i[0] * i[1] - i[2] * i[2];
    let sound = determinant > 1e-13 * i[0] * i[1] && determinant.is_finite();
    sound.then(|| (g, [i[1] / determinant, i[0] / determinant, -i[2] / determinant]))
}

fn deviance(r: &Aged, fit: &Scored, link: Link) -> f64 {
    let s = link.form().at(fit.at[0] + fit.at[1] * r.age);
    let part = |count: f64, ln_share: f64| {
        if count > 0.0 { 2.0 * count * ((count / r.n).ln() - ln_share) } else { 0.0 }
    };
    part(r.x, s.ln_cdf) + part(r.n - r.x, s.ln_sf)
}

fn pearson(r: &Aged, fit: &Scored, link: Link) -> f64 {
    let s = link.form().at(fit.at[0] + fit.at[1] * r.age);
    let miss = r.x - r.n * s.ln_cdf.exp();
    miss * miss / (r.n * (s.ln_cdf + s.ln_sf).exp())
}

fn ln_choose(n: f64, x: f64) -> f64 {
    ln_gamma(n + 1.0) - ln_gamma(x + 1.0) - ln_gamma(n - x + 1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// tests/reference/standards/viability_worked.csv, 7.5 % moisture at 20 degrees C: from 95 % viable and sigma
    /// 678.053 days it takes 1115.3 days until half are.
    #[test]
    fn a_line_tells_when_a_share_is_left() {
        let line = Line {
            link: Link::Probit,
            intercept: 1.644_854,
            slope: -1.0 / 678.053,
            variance: (0.01, 1e-8, 0.0),
            deviance: 0.0,
            pearson: 12.0,
            loglik: 0.0,
            df: 3,
        };
        let half = line.age_at_share(0.5 / 0.95).unwrap();
        assert!((half - 1115.3).abs() < 0.05, "{half}");
        assert_eq!(Line { slope: 0.001, ..line }.age_at_share(0.85), None);
        assert_eq!((line.unlike(), line.widened().variance.1), (4.0, 4e-8));
        assert!(line.falls(0.95) && !Line { variance: (0.01, 1e-5, 0.0), ..line }.falls(0.95));
    }
}
