use hilum_calc::club::Estimate;
use hilum_calc::mixed::expit;

/// A difference as seeds out of 100, with its 95 % interval: above 0 are more.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hundred {
    pub value: f64,
    pub low: f64,
    pub high: f64,
}

/// ln(p / (1 - p)); shares of 0 and 1 are drawn in by a millionth.
pub fn logit(share: f64) -> f64 {
    let p = share.clamp(1e-6, 1.0 - 1e-6);
    (p / (1.0 - p)).ln()
}

impl Hundred {
    /// From a difference of shares.
    pub fn of(difference: &Estimate) -> Self {
        Self::each(difference, |x| x)
    }

    /// From a log odds ratio between two rates whose logits lie around `middle`.
    pub fn around(middle: f64, ratio: &Estimate) -> Self {
        Self::each(ratio, |x| expit(middle + x / 2.0) - expit(middle - x / 2.0))
    }

    /// From an effect on the logit, for seed that otherwise roots at `from` (a logit).
    pub fn beyond(from: f64, effect: &Estimate) -> Self {
        Self::each(effect, |x| expit(from + x) - expit(from))
    }

    fn each(of: &Estimate, share: impl Fn(f64) -> f64) -> Self {
        let hundred = |x: f64| 100.0 * share(x);
        Self { value: hundred(of.value), low: hundred(of.low), high: hundred(of.high) }
    }

    /// The same difference seen from the other side.
    pub fn turned(self) -> Self {
        Self { value: -self.value, low: -self.high, high: -self.low }
    }

    /// "12 more of 100 seeds (2 to 21)", "4 more of 100 seeds (from 9 fewer to 17 more)".
    pub fn words(&self) -> String {
        format!("{} {}", self.amount(), self.span())
    }

    /// "12 more of 100 seeds than Hollin (2 to 21)".
    pub fn than(&self, other: &str) -> String {
        let amount = match whole(self.value) {
            0 => t!("compare-as-many-as", other = other),
            n @ 1.. => t!("compare-more-than", n = n, other = other),
            n => t!("compare-fewer-than", n = -n, other = other),
        };
        format!("{amount} {}", self.span())
    }

    fn amount(&self) -> String {
        match whole(self.value) {
            0 => t!("compare-as-many").to_owned(),
            n @ 1.. => t!("compare-more-of-100", n = n),
            n => t!("compare-fewer-of-100", n = -n),
        }
    }

    fn span(&self) -> String {
        let [value, low, high] = [self.value, self.low, self.high].map(whole);
        match (low, high) {
            (1.., _) if value != 0 => t!("rates-span", low = low, high = high),
            (_, ..0) if value != 0 => t!("rates-span", low = -high, high = -low),
            _ => t!("compare-span-from", low = more(low), high = more(high)),
        }
    }
}

fn whole(hundredths: f64) -> i64 {
    hundredths.round() as i64
}

/// `9 more`, `9 fewer`, `none`.
fn more(n: i64) -> String {
    match n {
        0 => t!("compare-none").to_owned(),
        1.. => t!("compare-more", n = n),
        _ => t!("compare-fewer", n = -n),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(value: f64, low: f64, high: f64) -> String {
        Hundred { value, low, high }.words()
    }

    #[test]
    fn differences_are_said_as_more_or_fewer() {
        assert_eq!(said(12.3, 1.6, 21.4), "12 more of 100 seeds (2 to 21)");
        assert_eq!(said(-12.3, -21.4, -1.6), "12 fewer of 100 seeds (2 to 21)");
        assert_eq!(said(4.0, -9.0, 17.0), "4 more of 100 seeds (from 9 fewer to 17 more)");
        assert_eq!(said(29.0, 0.3, 58.0), "29 more of 100 seeds (from none to 58 more)");
        let than = Hundred { value: 0.2, low: -9.0, high: 8.0 }.than("Hollin");
        assert_eq!(than, "as many of 100 seeds as Hollin (from 9 fewer to 8 more)");
        assert_eq!(said(0.2, -9.0, 0.3), "as many of 100 seeds (from 9 fewer to none)");
    }

    #[test]
    fn around_the_middle_the_ratio_of_two_rates_is_their_difference() {
        let (a, b) = (logit(0.86), logit(0.66));
        let ratio = Estimate { value: a - b, low: 0.1, high: 2.0 };
        let found = Hundred::around(f64::midpoint(a, b), &ratio);
        assert!((found.value - 20.0).abs() < 1e-9, "{found:?}");
        assert_eq!(found.turned().turned(), found);
    }
}
