//! The germination-time measures of one bag, from its looks. Formulas as collected by Ranal and Santana
//! (2006); T50 after Farooq et al. (2005) and Coolbear, Francis and Grierson (1984).

use std::fmt;

/// Looks into one bag: `counts[i]` seeds were new at `times[i]`.
#[derive(Debug, Clone, Copy)]
pub struct Looks<'a> {
    sown: u64,
    times: &'a [f64],
    counts: &'a [u64],
}

/// Why looks do not make sense.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LookFault {
    /// No seeds.
    NoSeeds,
    /// Not as many counts as times.
    Lengths,
    /// The time at this place is not from 10^-6 to 10^9 and above the one before.
    Time(usize),
    /// More germinated than were sown.
    TooMany,
}

/// Why a measure does not exist for these looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Undefined {
    /// Nothing germinated.
    NothingGerminated,
    /// One seed has no spread.
    OneSeed,
    /// The test lasts no time.
    NoDuration,
}

impl fmt::Display for Undefined {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NothingGerminated => "nothing germinated",
            Self::OneSeed => "only one seed germinated",
            Self::NoDuration => "the test lasted no time",
        })
    }
}

/// A measure, or why it does not exist.
pub type Measure = Result<f64, Undefined>;

impl<'a> Looks<'a> {
    /// Times are from 10^-6 to 10^9 and strictly rising, in one unit (days or hours since paper); `counts`
    /// are new since the look before and together at most `sown`, which is at least 1.
    pub fn new(sown: u64, times: &'a [f64], counts: &'a [u64]) -> Result<Self, LookFault> {
        if sown == 0 {
            return Err(LookFault::NoSeeds);
        }
        if times.len() != counts.len() {
            return Err(LookFault::Lengths);
        }
        let before = std::iter::once(0.0).chain(times.iter().copied());
        if let Some(i) = times.iter().zip(before).position(|(t, b)| !((1e-6..=1e9).contains(t) && *t > b)) {
            return Err(LookFault::Time(i));
        }
        let total = counts.iter().fold(0_u64, |sum, n| sum.saturating_add(*n));
        if total > sown { Err(LookFault::TooMany) } else { Ok(Self { sown, times, counts }) }
    }

    /// Seeds germinated at all looks together.
    pub fn germinated(&self) -> u64 {
        self.counts.iter().sum()
    }

    /// Germinated, in percent of the sown.
    pub fn final_percent(&self) -> f64 {
        self.percent(self.germinated() as f64)
    }

    fn percent(&self, seeds: f64) -> f64 {
        100.0 * seeds / self.sown as f64
    }

    fn pairs(&self) -> impl DoubleEndedIterator<Item = (f64, f64)> + '_ {
        self.times.iter().copied().zip(self.counts.iter().map(|n| *n as f64)).filter(|(_, n)| *n > 0.0)
    }

    fn some(&self) -> Measure {
        if self.germinated() == 0 { Err(Undefined::NothingGerminated) } else { Ok(self.germinated() as f64) }
    }

    fn several(&self) -> Measure {
        self.some().and_then(|n| if n < 2.0 { Err(Undefined::OneSeed) } else { Ok(n) })
    }

    /// Mean germination time, sum n t / sum n, of the seeds that germinated.
    pub fn mean(&self) -> Measure {
        Ok(self.pairs().map(|(t, n)| n * t).sum::<f64>() / self.some()?)
    }

    /// Variance of the germination time, with divisor N - 1.
    pub fn variance(&self) -> Measure {
        let (n, mean) = (self.several()?, self.mean()?);
        Ok(self.pairs().map(|(t, k)| k * (t - mean) * (t - mean)).sum::<f64>() / (n - 1.0))
    }

    /// Standard error of the mean time.
    pub fn standard_error(&self) -> Measure {
        Ok((self.variance()? / self.several()?).sqrt())
    }

    /// Coefficient of variation of the time, in percent.
    pub fn variation_percent(&self) -> Measure {
        Ok(100.0 * self.variance()?.sqrt() / self.mean()?)
    }

    /// When the straight-line cumulative curve from (0, 0) first reaches half the germinated seeds.
    pub fn t50_half(&self) -> Measure {
        Ok(self.reaches(self.some()? / 2.0))
    }

    /// The same for (N + 1) / 2.
    pub fn t50_coolbear(&self) -> Measure {
        Ok(self.reaches((self.some()? + 1.0) / 2.0))
    }

    fn reaches(&self, goal: f64) -> f64 {
        let (mut seeds, mut time) = (0.0, 0.0);
        for (t, n) in self.times.iter().zip(self.counts) {
            let n = *n as f64;
            if seeds + n >= goal {
                return time + (goal - seeds) * (t - time) / n;
            }
            (seeds, time) = (seeds + n, *t);
        }
        time
    }

    /// Time of the first look with something new.
    pub fn first(&self) -> Measure {
        self.pairs().next().map(|(t, _)| t).ok_or(Undefined::NothingGerminated)
    }

    /// Time of the last look with something new.
    pub fn last(&self) -> Measure {
        self.pairs().next_back().map(|(t, _)| t).ok_or(Undefined::NothingGerminated)
    }

    /// Maguire's speed (1962): sum n / t with newly germinated seeds; 0 when nothing germinated.
    pub fn maguire(&self) -> f64 {
        self.pairs().map(|(t, n)| n / t).sum()
    }

    /// Maguire's speed with percent of the sown in place of seeds.
    pub fn maguire_percent(&self) -> f64 {
        self.percent(self.maguire())
    }

    /// Kotowski's coefficient of velocity (1926): 100 / mean time.
    pub fn kotowski(&self) -> Measure {
        Ok(100.0 / self.mean()?)
    }

    /// Synchrony Z: pairs of seeds seen at the same look, of all pairs; 0 to 1.
    pub fn synchrony(&self) -> Measure {
        let all = self.several()?;
        let pairs = |n: f64| n * (n - 1.0);
        Ok(self.pairs().map(|(_, n)| pairs(n)).sum::<f64>() / pairs(all))
    }

    /// Uncertainty U in bits (Labouriau and Valadares 1976): 0 when all came at one look.
    pub fn uncertainty(&self) -> Measure {
        let all = self.some()?;
        Ok(self.pairs().map(|(_, n)| n / all * (all / n).log2()).sum())
    }

    /// Czabator's peak value (1962): the greatest cumulative percent per unit of time.
    pub fn peak_value(&self) -> Measure {
        self.some()?;
        let mut seeds = 0.0;
        let speeds = self.pairs().map(|(t, n)| {
            seeds += n;
            self.percent(seeds) / t
        });
        Ok(speeds.fold(0.0, f64::max))
    }

    /// Mean daily germination: final percent over the length of the test.
    pub fn mean_daily(&self, duration: f64) -> Measure {
        if duration > 0.0 { Ok(self.final_percent() / duration) } else { Err(Undefined::NoDuration) }
    }

    /// Timson's sum (1965): the cumulative percent of each day from 1 to `days`, added up.
    pub fn timson(&self, days: u32) -> f64 {
        let counted = |t: f64| (f64::from(days) - t.ceil() + 1.0).max(0.0);
        self.percent(self.pairs().map(|(t, n)| n * counted(t)).sum())
    }
}
