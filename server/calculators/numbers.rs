//! Numbers as a grower types and reads them.

use crate::web::forms::Form;
use crate::web::words::decimal;

/// The most seeds or plants that can be typed.
pub const MOST: i64 = 100_000;

/// A per cent from `low` to `high` that must be there, as a share of 1.
pub fn must_percent(form: &mut Form, name: &str, low: f64, high: f64) -> f64 {
    let typed = form.decimal(name, low..=high);
    if typed.is_none() && form.error(name).is_empty() {
        form.refuse(name, t!("calculators-give-a-number"));
    }
    typed.unwrap_or(low) / 100.0
}

/// A whole number from 0 to [`MOST`], where one is typed.
pub fn some(form: &mut Form, name: &str) -> Option<u64> {
    form.whole(name, 0..=MOST).and_then(|n| u64::try_from(n).ok())
}

/// A whole number from 1 to [`MOST`] that must be there.
pub fn must(form: &mut Form, name: &str) -> u64 {
    u64::try_from(form.must_whole(name, 1..=MOST)).unwrap_or(1)
}

/// `86` or `86.5`: a share as the per cent it was typed as.
pub fn typed_percent(share: f64) -> String {
    decimal(hilum_calc::units::shown(share * 100.0, 1).trim_end_matches(".0"))
}
