//! Two by two tables in strata (growers, lots): Mantel and Haenszel's common odds ratio and test.

use crate::proportion::Interval;
use crate::special::{chi2_sf, two_sided_z};

/// One stratum: `a` germinated and `b` not in the first group, `c` and `d` in the second.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stratum {
    /// First group, germinated.
    pub a: f64,
    /// First group, not germinated.
    pub b: f64,
    /// Second group, germinated.
    pub c: f64,
    /// Second group, not germinated.
    pub d: f64,
}

/// What the strata say together; `None` where the data leave it undefined.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Common {
    /// Mantel and Haenszel's common odds ratio (1959); infinite where no b c is above 0.
    pub odds_ratio: Option<f64>,
    /// Variance of its logarithm (Robins, Breslow and Greenland 1986).
    pub variance: Option<f64>,
    /// Interval of the common odds ratio, normal on the log scale.
    pub interval: Option<Interval>,
    /// Test that the common odds ratio is 1.
    pub test: Option<CommonTest>,
}

/// Cochran, Mantel and Haenszel's test, one degree of freedom.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CommonTest {
    /// Chi-squared without continuity correction.
    pub chi2: f64,
    /// Its p-value.
    pub p: f64,
    /// Chi-squared with 1/2 taken off the difference, where that is at least 1/2.
    pub chi2_corrected: f64,
    /// Its p-value.
    pub p_corrected: f64,
}

/// Combines `strata`; cells are >= 0. The order of the strata does not matter: sums are taken sorted.
pub fn combine(strata: &[Stratum], conf: f64) -> Common {
    let sum = |f: &dyn Fn(&Stratum) -> f64| {
        let mut terms: Vec<f64> = strata.iter().filter(|s| s.total() > 0.0).map(f).collect();
        terms.sort_by(f64::total_cmp);
        terms.iter().sum::<f64>()
    };
    let (r, s) = (sum(&Stratum::r), sum(&Stratum::s));
    let odds_ratio = Some(r / s).filter(|ratio| !ratio.is_nan());
    let both = r > 0.0 && s > 0.0;
    let variance = both.then(|| {
        sum(&|t| t.p() * t.r()) / (2.0 * r * r)
            + sum(&|t| t.p() * t.s() + (1.0 - t.p()) * t.r()) / (2.0 * r * s)
            + sum(&|t| (1.0 - t.p()) * t.s()) / (2.0 * s * s)
    });
    let interval = variance.map(|v| {
        let spread = two_sided_z(conf) * v.sqrt();
        Interval { low: r / s * (-spread).exp(), high: r / s * spread.exp() }
    });
    let test = common_test(sum(&Stratum::excess), sum(&Stratum::excess_variance));
    Common { odds_ratio, variance, interval, test }
}

fn common_test(excess: f64, variance: f64) -> Option<CommonTest> {
    let away = excess.abs();
    let corrected = if away >= 0.5 { away - 0.5 } else { away };
    let (chi2, chi2_corrected) = (away * away / variance, corrected * corrected / variance);
    let p = |chi2| chi2_sf(chi2, 1.0);
    (variance > 0.0).then(|| CommonTest { chi2, p: p(chi2), chi2_corrected, p_corrected: p(chi2_corrected) })
}

impl Stratum {
    fn total(&self) -> f64 {
        self.a + self.b + self.c + self.d
    }

    fn r(&self) -> f64 {
        self.a * self.d / self.total()
    }

    fn s(&self) -> f64 {
        self.b * self.c / self.total()
    }

    fn p(&self) -> f64 {
        (self.a + self.d) / self.total()
    }

    /// First group's germinated less their expected number.
    fn excess(&self) -> f64 {
        self.a - (self.a + self.b) * (self.a + self.c) / self.total()
    }

    fn excess_variance(&self) -> f64 {
        let n = self.total();
        if n <= 1.0 {
            return 0.0;
        }
        (self.a + self.b) * (self.c + self.d) * (self.a + self.c) * (self.b + self.d) / (n * n * (n - 1.0))
    }
}
