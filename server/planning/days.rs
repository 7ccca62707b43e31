//! How long seeds lie on paper until the share that is needed has rooted.

use crate::outlook::{Outlook, days_to_emergence};
use crate::stock::published;

/// Days where nothing is known of a kind (our own choice, no source).
const OTHERWISE: f64 = 14.0;
/// The part of all that ever root that is waited for where the share that is needed is never reached (our own choice).
const MOST_OF_THEM: f64 = 0.9;

/// Whole days, and where they are from.
#[derive(Debug, Clone, PartialEq)]
pub struct Days {
    pub number: i64,
    pub words: String,
}

/// Days from the paper until `share` of the seeds have rooted, of `kind` at `warmth_c` degrees C (`warmth` in words).
pub fn days(outlook: Option<&Outlook>, (kind, warmth_c, warmth): (&str, f64, &str), share: f64) -> Days {
    if let Some(found) = outlook.and_then(|o| by_club(o, share, warmth)) {
        return found;
    }
    if let Some(days) = days_to_emergence(kind, warmth_c) {
        return Days {
            number: whole(days),
            words: t!("planning-days-in-soil", n = whole(days), warmth = warmth),
        };
    }
    match published::final_count_day(kind) {
        Some(day) => Days {
            number: day,
            words: t!("planning-days-of-laboratory", n = day, kind = kind, warmth = warmth),
        },
        None => Days {
            number: whole(OTHERWISE),
            words: t!("planning-days-guessed", n = whole(OTHERWISE), kind = kind, warmth = warmth),
        },
    }
}

fn by_club(outlook: &Outlook, share: f64, warmth: &str) -> Option<Days> {
    let (bags, of) = (outlook.basis.bags, &outlook.basis.of);
    if let Some(number) = outlook.when(share).map(whole) {
        let share = (100.0 * share).round().to_string();
        let words =
            t!("planning-days-until-share", n = number, share = share, bags = bags, of = of, warmth = warmth);
        return Some(Days { number, words });
    }
    let number = whole(outlook.when(MOST_OF_THEM * outlook.ever(0.0).mid)?);
    let words = t!("planning-days-until-most", n = number, bags = bags, of = of, warmth = warmth);
    Some(Days { number, words })
}

fn whole(days: f64) -> i64 {
    (days.ceil() as i64).clamp(1, 365)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// tests/reference/standards/emergence_by_soil_temperature.csv: pepper at 25 degrees C 8 days.
    #[test]
    fn without_bags_the_published_tables_tell() {
        let told = days(None, ("pepper", 25.0, "25 °C"), 0.5);
        assert_eq!(told.number, 8);
        assert!(told.words.contains("Harrington & Minges 1954"));
        // nothing came up at 40 degrees C: 7 CFR 201.58 table 2, final count on day 14
        assert_eq!(days(None, ("pepper", 40.0, "40 °C"), 0.5).number, 14);
        assert!(days(None, ("moonflower", 25.0, "25 °C"), 0.5).words.contains("a guess"));
    }
}
