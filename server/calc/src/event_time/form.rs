use statrs::function::erf::erfc;
use std::f64::consts::{LN_2, PI, SQRT_2};

/// The form of the time to rooting, of the seeds that root.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// G = 1 / (1 + (t/t50)^-b); shape b.
    LogLogistic,
    /// G = Phi(ln(t/t50) / sigma); shape sigma.
    LogNormal,
    /// G = 1 - exp(-ln 2 (t/t50)^k); shape k.
    Weibull,
}

impl Form {
    /// All three.
    pub const ALL: [Self; 3] = [Self::LogLogistic, Self::LogNormal, Self::Weibull];

    /// The name in files.
    pub fn name(self) -> &'static str {
        match self {
            Self::LogLogistic => "loglogistic",
            Self::LogNormal => "lognormal",
            Self::Weibull => "weibull",
        }
    }

    /// Spread of w when ln t has spread 1 and steepness 1, for a first guess.
    pub(super) fn spread(self) -> f64 {
        match self {
            Self::LogLogistic => PI / 3.0_f64.sqrt(),
            Self::LogNormal => 1.0,
            Self::Weibull => PI / 6.0_f64.sqrt(),
        }
    }

    /// The standard form at w = steepness x ln(t/t50).
    pub(crate) fn at(self, w: f64) -> Standard {
        let w = w.clamp(-300.0, 100.0);
        match self {
            Self::LogLogistic => {
                let (ln_cdf, ln_sf) = (-ln_one_plus_exp(-w), -ln_one_plus_exp(w));
                Standard { ln_cdf, ln_sf, ln_pdf: ln_cdf + ln_sf, bend: -(w / 2.0).tanh() }
            }
            Self::LogNormal => Standard {
                ln_cdf: ln_normal(w),
                ln_sf: ln_normal(-w),
                ln_pdf: -0.5 * (w * w + (2.0 * PI).ln()),
                bend: -w,
            },
            Self::Weibull => {
                let hazard = LN_2 * w.exp();
                let ln_cdf = if w < -40.0 { LN_2.ln() + w } else { (-(-hazard).exp_m1()).ln() };
                Standard { ln_cdf, ln_sf: -hazard, ln_pdf: LN_2.ln() + w - hazard, bend: 1.0 - hazard }
            }
        }
    }

    /// The w where the form reaches `share`, strictly between 0 and 1.
    pub(crate) fn quantile(self, share: f64) -> f64 {
        match self {
            Self::LogLogistic => (share / (1.0 - share)).ln(),
            Self::LogNormal => crate::special::normal_quantile(share),
            Self::Weibull => (-(-share).ln_1p() / LN_2).ln(),
        }
    }
}

/// Logarithms of the share, its complement and the density at w; `bend` is d ln(density)/dw.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Standard {
    pub ln_cdf: f64,
    pub ln_sf: f64,
    pub ln_pdf: f64,
    pub bend: f64,
}

/// ln(e^a - e^b) for a >= b.
pub(super) fn ln_minus(a: f64, b: f64) -> f64 {
    let d = b - a;
    a + if d > -LN_2 { (-d.exp_m1()).ln() } else { (-d.exp()).ln_1p() }
}

pub(super) fn ln_one_plus_exp(x: f64) -> f64 {
    x.max(0.0) + (-x.abs()).exp().ln_1p()
}

/// ln Phi(w), with the asymptotic series (Abramowitz & Stegun 26.2.12) far in the tail.
fn ln_normal(w: f64) -> f64 {
    if w > 0.0 {
        (-0.5 * erfc(w / SQRT_2)).ln_1p()
    } else if w > -30.0 {
        (0.5 * erfc(-w / SQRT_2)).ln()
    } else {
        let v = 1.0 / (w * w);
        -0.5 * (w * w + (2.0 * PI).ln()) - (-w).ln() + (-v + 3.0 * v * v - 15.0 * v * v * v).ln_1p()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn densities_and_bends_are_the_derivatives() {
        for form in Form::ALL {
            for w in [-45.0, -31.0, -8.0, -1.0, 0.0, 0.7, 2.5, 4.0] {
                let h = 1e-5;
                let (below, here, above) = (form.at(w - h), form.at(w), form.at(w + h));
                let slope = (above.ln_cdf - below.ln_cdf) / (2.0 * h);
                assert!(
                    (slope - (here.ln_pdf - here.ln_cdf).exp()).abs() < 1e-5 * slope.abs().max(1.0),
                    "{form:?} {w}"
                );
                let fall = (above.ln_sf - below.ln_sf) / (2.0 * h);
                assert!(
                    (fall + (here.ln_pdf - here.ln_sf).exp()).abs() < 1e-5 * fall.abs().max(1.0),
                    "{form:?} {w}"
                );
                let bend = (above.ln_pdf - below.ln_pdf) / (2.0 * h);
                assert!((bend - here.bend).abs() < 1e-5 * bend.abs().max(1.0), "{form:?} {w}");
            }
        }
    }

    #[test]
    fn half_of_the_seeds_at_the_median_and_quantiles_invert() {
        for form in Form::ALL {
            assert!((form.at(0.0).ln_cdf.exp() - 0.5).abs() < 1e-15);
            for share in [0.01, 0.3, 0.5, 0.999] {
                assert!(
                    (form.at(form.quantile(share)).ln_cdf.exp() - share).abs() < 1e-12,
                    "{form:?} {share}"
                );
            }
        }
    }
}
