//! The published equation for seed in closed store at constant moisture and temperature:
//! probit(viability) = Ki - days/sigma, log10 sigma = KE - CW log10 m - CH t - CQ t^2
//! (Ellis & Roberts 1980, Ann. Bot. 45:13-30). Answers only where its constants were tested.

use crate::special::{normal_cdf, normal_quantile};
use std::ops::RangeInclusive;

/// Constants of one kind, and where they were tested.
#[derive(Debug, Clone, PartialEq)]
pub struct Constants {
    /// Intercept.
    pub ke: f64,
    /// Of the logarithm of moisture.
    pub cw: f64,
    /// Of temperature.
    pub ch: f64,
    /// Of temperature squared.
    pub cq: f64,
    /// Seed moisture tested, percent of fresh weight.
    pub moisture: RangeInclusive<f64>,
    /// Temperature tested, degrees C.
    pub celsius: RangeInclusive<f64>,
}

impl Constants {
    /// Capsicum annuum (Demir et al. 2009, HortScience 44:1679-1682): moisture 7.0 to 12.1 %. The
    /// temperature terms are those found alike for eight species from -13 to 90 degrees C (Dickie et
    /// al. 1990, Ann. Bot. 65:197-204).
    pub fn pepper() -> Self {
        Self { ke: 7.767, cw: 4.67, ch: 0.0329, cq: 0.000_478, moisture: 7.0..=12.1, celsius: -13.0..=90.0 }
    }
}

/// Why there is no answer.
#[derive(Debug, Clone, PartialEq)]
pub enum Untested {
    /// Moisture outside this range.
    Moisture(RangeInclusive<f64>),
    /// Temperature outside this range.
    Celsius(RangeInclusive<f64>),
    /// The share viable at the start is not strictly between 0 and 1, or the time is below 0.
    Start,
}

/// A closed store.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Store {
    /// Seed moisture, percent of fresh weight.
    pub moisture: f64,
    /// Degrees C.
    pub celsius: f64,
}

/// Standard deviation of the seeds' lifespans in `store`, in days.
pub fn sigma_days(constants: &Constants, store: Store) -> Result<f64, Untested> {
    let Constants { ke, cw, ch, cq, moisture, celsius } = constants;
    if !moisture.contains(&store.moisture) {
        return Err(Untested::Moisture(moisture.clone()));
    }
    if !celsius.contains(&store.celsius) {
        return Err(Untested::Celsius(celsius.clone()));
    }
    Ok(10.0_f64
        .powf(ke - cw * store.moisture.log10() - ch * store.celsius - cq * store.celsius * store.celsius))
}

/// Share viable after `days` in `store`, from a share `start` (0..1, both excluded) at the beginning.
pub fn viable_after(constants: &Constants, store: Store, start: f64, days: f64) -> Result<f64, Untested> {
    let sigma = sigma_days(constants, store)?;
    if !(start > 0.0 && start < 1.0 && days >= 0.0) {
        return Err(Untested::Start);
    }
    Ok(normal_cdf(normal_quantile(start) - days / sigma))
}

/// Days in `store` until half are viable, from a share `start`; 0 or less where it is below half.
pub fn half_life(constants: &Constants, store: Store, start: f64) -> Result<f64, Untested> {
    let sigma = sigma_days(constants, store)?;
    if !(start > 0.0 && start < 1.0) {
        return Err(Untested::Start);
    }
    Ok(normal_quantile(start) * sigma)
}
