//! Warmth in the member's habit: degrees Celsius or Fahrenheit.

use crate::web::forms::Form;
use crate::web::session::Member;
use crate::web::words;

/// Degrees C that a mat, a fridge or a windowsill can have.
const RANGE_C: std::ops::RangeInclusive<f64> = -30.0..=60.0;

fn fahrenheit(celsius: f64) -> f64 {
    celsius * 9.0 / 5.0 + 32.0
}

fn celsius(fahrenheit: f64) -> f64 {
    (fahrenheit - 32.0) * 5.0 / 9.0
}

/// `28 °C` or `82 °F`.
pub fn shown(member: &Member, warmth_c: f64) -> String {
    if member.us() {
        return format!("{:.0} °F", fahrenheit(warmth_c));
    }
    let rounded = (warmth_c * 10.0).round() / 10.0;
    format!("{} °C", words::decimal(&rounded.to_string()))
}

/// The label of fields that ask for a warmth.
pub fn label(member: &Member) -> &'static str {
    if member.us() { t!("bags-warmth-fahrenheit") } else { t!("bags-warmth-celsius") }
}

/// A typed warmth in degrees C, or `None` where the field is empty.
pub fn typed(form: &mut Form, field: &str, member: &Member) -> Option<f64> {
    if member.us() {
        let range = fahrenheit(*RANGE_C.start())..=fahrenheit(*RANGE_C.end());
        return form.decimal(field, range).map(celsius);
    }
    form.decimal(field, RANGE_C)
}

/// `place: mat, at 28 °C`, `at 28 °C`, or nothing.
pub fn place_words(member: &Member, place: &str, warmth_c: Option<f64>) -> String {
    let warmth = warmth_c.map(|c| t!("bags-at-warmth", warmth = shown(member, c)));
    let place = (!place.is_empty()).then(|| t!("bags-place", place = place));
    [place, warmth].into_iter().flatten().collect::<Vec<_>>().join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_scales_meet_at_their_fixed_points() {
        // water freezes and boils at 32 and 212 degrees F by definition
        assert_eq!((fahrenheit(0.0), fahrenheit(100.0)), (32.0, 212.0));
        assert!((celsius(fahrenheit(28.0)) - 28.0).abs() < 1e-12);
    }
}
