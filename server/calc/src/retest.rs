//! When stored seed is tested again, and when it is to be replaced: the numbers of gene banks (FAO 2014, Genebank
//! Standards 4.3.1 to 4.3.4; Rao et al. 2006, Manual of Seed Handling in Genebanks, Table 8.2). They are for cold dry
//! stores; seed in a kitchen ages faster.

/// Seed is replaced below this share of its first viability (4.3.4).
pub const KEEP_SHARE: f64 = 0.85;
/// Tested for the first time within so many months of receipt (4.3.1).
pub const FIRST_TEST_MONTHS: u32 = 12;
/// The longest time between tests, in years (4.3.3, from memory).
pub const MOST_YEARS: f64 = 40.0;
/// The time between tests of short-lived seed, in years, where no fall can be predicted (4.3.3, from memory).
pub const SHORT_LIVED_YEARS: f64 = 5.0;
/// The share of the predicted time after which seed is tested again (4.3.3, from memory).
const PART: f64 = 1.0 / 3.0;

/// Years between tests; `years_to_fall` is the time predicted until viability is [`KEEP_SHARE`] of the first.
#[must_use]
pub fn interval_years(years_to_fall: Option<f64>) -> f64 {
    let predicted = years_to_fall.filter(|y| y.is_finite() && *y > 0.0);
    predicted.map_or(SHORT_LIVED_YEARS, |y| (y * PART).min(MOST_YEARS))
}

/// Seed is replaced when fewer percent than this are viable, of `first` percent at its first test; rounded half up.
#[must_use]
pub fn replace_below_percent(first: f64) -> f64 {
    (KEEP_SHARE * first).round()
}

#[cfg(test)]
mod tests {
    use super::*;

    const THRESHOLDS: &str = include_str!("../../../tests/reference/standards/regeneration_threshold.csv");
    const NUMBERS: &str = include_str!("../../../tests/reference/standards/genebank_numbers.csv");

    /// Every row of Table 8.2 (Rao et al. 2006).
    #[test]
    fn thresholds_are_those_of_the_printed_table() {
        let mut rows = 0;
        for line in THRESHOLDS.lines().skip(1) {
            let numbers: Vec<f64> = line.split(',').take(2).map(|cell| cell.parse().unwrap()).collect();
            assert_eq!(replace_below_percent(numbers[0]), numbers[1], "{line}");
            rows += 1;
        }
        assert_eq!(rows, 16);
    }

    /// The clauses as the reference folder has them.
    #[test]
    fn intervals_are_those_of_the_gene_banks() {
        for clause in [
            "within 12 months of receipt",
            "one third of time predicted to fall to 85%",
            "at most 40 y",
            "<=5 y short-lived",
        ] {
            assert!(NUMBERS.contains(clause), "{clause}");
        }
        assert_eq!(interval_years(Some(9.0)), 3.0);
        assert_eq!(interval_years(Some(300.0)), 40.0);
        assert_eq!(interval_years(None), 5.0);
        assert_eq!(interval_years(Some(f64::NAN)), 5.0);
    }
}
