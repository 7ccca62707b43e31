use super::Form;
use crate::db::ids::At;
use crate::web::words;
use chrono::{DateTime, NaiveDate, NaiveDateTime, TimeZone};
use icu_properties::CodePointSetData;
use icu_properties::props::DefaultIgnorableCodePoint;
use std::num::IntErrorKind;
use std::ops::RangeInclusive;

/// Blanks, and signs that nobody sees.
fn is_unseen(c: char) -> bool {
    c.is_whitespace() || CodePointSetData::new::<DefaultIgnorableCodePoint>().contains(c)
}

/// Days. Nobody remembers the minute of what is longer ago: it is a slip in the year.
const LONG_AGO: i64 = 30 * 365;

/// Reading typed values. Each reader notes what is wrong on the form and gives a harmless value back;
/// ask [`Form::failed`] once after reading all.
impl Form {
    /// Text of at most `longest` characters, without spaces around it; may be empty.
    pub fn text(&mut self, name: &str, longest: usize) -> String {
        let value = self.value(name).trim().to_owned();
        if value.chars().count() > longest {
            self.refuse(name, t!("web-at-most", n = longest));
        }
        if value.chars().any(|c| c.is_control() && c != '\n' && c != '\r' && c != '\t') {
            self.refuse(name, t!("web-unprintable"));
        }
        value
    }

    /// Text that must not be empty.
    pub fn must_text(&mut self, name: &str, longest: usize) -> String {
        let value = self.text(name, longest);
        if value.chars().all(is_unseen) {
            self.refuse(name, t!("web-fill-in"));
        }
        value
    }

    /// A whole number in `range`, or `None` where the field is empty.
    pub fn whole(&mut self, name: &str, range: RangeInclusive<i64>) -> Option<i64> {
        let typed = self.value(name).trim().to_owned();
        if typed.is_empty() {
            return None;
        }
        let plain = if in_thousands(&typed) { typed.replace([',', '.'], "") } else { typed };
        let (least, most) = (*range.start(), *range.end());
        match plain.parse::<i64>().map_err(|e| *e.kind()) {
            Ok(n) if range.contains(&n) => return Some(n),
            Ok(_) | Err(IntErrorKind::PosOverflow | IntErrorKind::NegOverflow) => {
                self.refuse(name, t!("web-whole-from-to", least = least, most = most));
            }
            Err(_) if least > 1000 => self.refuse(name, t!("web-year")),
            Err(_) => self.refuse(name, t!("web-whole")),
        }
        None
    }

    /// A whole number that must be there.
    pub fn must_whole(&mut self, name: &str, range: RangeInclusive<i64>) -> i64 {
        let low = *range.start();
        if self.value(name).trim().is_empty() {
            self.refuse(name, t!("web-give-number"));
        }
        self.whole(name, range).unwrap_or(low)
    }

    /// A number in `range`, with a point or a comma, or `None` where the field is empty.
    pub fn decimal(&mut self, name: &str, range: RangeInclusive<f64>) -> Option<f64> {
        let typed = self.value(name).trim().to_owned();
        if typed.is_empty() {
            return None;
        }
        if in_thousands(&typed) {
            let (whole, part) =
                (typed.replace([',', '.'], ""), typed.replace([',', '.'], t!("words-decimal-mark")));
            self.refuse(name, t!("web-which-number", whole = whole, part = part));
            return None;
        }
        let typed = typed.replace(',', ".");
        match typed.parse::<f64>() {
            Ok(x) if x.is_finite() && range.contains(&x) => Some(x),
            Ok(_) => {
                let [least, most] = [range.start(), range.end()].map(|x| words::decimal(&x.to_string()));
                self.refuse(name, t!("web-number-from-to", least = least, most = most));
                None
            }
            Err(_) => {
                self.refuse(name, t!("web-number"));
                None
            }
        }
    }

    /// A calendar day, or `None` where the field is empty.
    pub fn day(&mut self, name: &str) -> Option<NaiveDate> {
        let typed = self.value(name).trim().to_owned();
        if typed.is_empty() {
            return None;
        }
        let day = NaiveDate::parse_from_str(&typed, "%Y-%m-%d").ok();
        if day.is_none() {
            self.refuse(name, t!("web-date"));
        }
        day
    }

    /// A moment typed on a clock in `zone`, or given by the phone in UTC (`2026-02-28T06:30:00Z`); `now` where the
    /// field is empty. Never later than `now`: what the phone's clock says beyond that is `now`.
    pub fn moment(&mut self, name: &str, zone: chrono_tz::Tz, now: At) -> At {
        let typed = self.value(name).trim().to_owned();
        if typed.is_empty() {
            return now;
        }
        let formats = ["%Y-%m-%dT%H:%M:%S", "%Y-%m-%dT%H:%M", "%Y-%m-%d %H:%M"];
        let naive = formats.iter().find_map(|f| NaiveDateTime::parse_from_str(&typed, f).ok());
        let local = naive.and_then(|n| zone.from_local_datetime(&n).earliest()).map(|t| At(t.timestamp()));
        let by_phone = || DateTime::parse_from_rfc3339(&typed).ok().map(|t| At(t.timestamp()));
        match local.or_else(by_phone) {
            None => {
                self.refuse(name, t!("web-moment"));
                now
            }
            // a form drawn in this minute shows the minute, not the second
            Some(at) if at.0 / 60 == now.0 / 60 => now,
            Some(at) if at > now && self.at_by_phone() => now,
            Some(at) if at > now => {
                self.refuse(name, t!("web-future"));
                now
            }
            Some(at) if at < now.plus_days(-LONG_AGO) => {
                self.refuse(name, t!("web-long-ago"));
                now
            }
            Some(at) => at,
        }
    }

    /// One of `choices`; refused where something else came.
    pub fn one_of(&mut self, name: &str, choices: &[&'static str]) -> &'static str {
        let typed = self.value(name).to_owned();
        match choices.iter().find(|c| **c == typed) {
            Some(choice) => choice,
            None => {
                self.refuse(name, t!("web-choose"));
                choices.first().copied().unwrap_or_default()
            }
        }
    }

    /// Whether the box `name` is ticked.
    pub fn ticked(&self, name: &str) -> bool {
        !self.value(name).is_empty()
    }
}

/// Whether a number is written with the sign that parts thousands where the language has another for decimals: `1,250` in
/// English. Somebody used to the other way may mean one and a quarter.
fn in_thousands(typed: &str) -> bool {
    let sign = if t!("words-decimal-mark") == "," { '.' } else { ',' };
    let digits = |part: &str| part.bytes().all(|b| b.is_ascii_digit());
    typed.split_once(sign).is_some_and(|(first, rest)| {
        let first_good = (1..=3).contains(&first.len()) && digits(first) && !first.starts_with('0');
        first_good && rest.split(sign).all(|group| group.len() == 3 && digits(group))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn form(value: &str) -> Form {
        Form::new().with("x", value)
    }

    #[test]
    fn numbers_keep_to_their_range() {
        assert_eq!(form(" 12 ").whole("x", 0..=20), Some(12));
        for bad in ["-1", "21", "1.5", "ten", "99999999999999999999"] {
            let mut f = form(bad);
            assert_eq!(f.whole("x", 0..=20), None);
            assert!(f.failed(), "{bad}");
        }
        assert_eq!(form("2,5").decimal("x", 0.0..=3.0), Some(2.5));
        for bad in ["NaN", "inf", "1e400", "3.1"] {
            let mut f = form(bad);
            assert_eq!(f.decimal("x", 0.0..=3.0), None);
            assert!(f.failed(), "{bad}");
        }
    }

    #[test]
    fn a_name_that_nobody_sees_is_none() {
        for unseen in ["", " ", "\u{200b}", "\u{200d}\u{feff} \u{ad}", "\u{3164}"] {
            let mut f = form(unseen);
            f.must_text("x", 20);
            assert!(f.failed(), "{unseen:?}");
        }
        let mut f = form("नर्‍मदा \u{1f469}\u{200d}\u{1f33e}");
        f.must_text("x", 20);
        assert!(!f.failed());
    }

    #[test]
    fn a_sign_that_parts_thousands_is_not_taken_for_a_decimal_mark() {
        assert_eq!(form("1,200").whole("x", 0..=2000), Some(1200));
        assert_eq!(form("1.250").decimal("x", 0.0..=3.0), Some(1.25));
        assert_eq!(form("0,125").decimal("x", 0.0..=3.0), Some(0.125));
        let mut f = form("1,250");
        assert_eq!(f.decimal("x", 0.0..=2000.0), None);
        assert_eq!(f.error("x"), "Is that 1250 or 1.250? Please write it so.");
    }

    #[test]
    fn moments_are_local_and_never_in_the_future() {
        let zone = chrono_tz::Europe::Berlin;
        let noon = At(1_772_449_200); // 2026-03-02 12:00 in Berlin
        assert_eq!(form("2026-03-02T11:00").moment("x", zone, noon), noon.plus_minutes(-60));
        let mut late = form("2026-03-02T12:01");
        late.moment("x", zone, noon);
        assert!(late.failed());
        assert_eq!(form("2026-03-02T10:00:00Z").moment("x", zone, noon), noon.plus_minutes(-60));
        let mut ahead = form("2026-03-02T12:00:00Z").with("at_by", "phone");
        assert_eq!((ahead.moment("x", zone, noon), ahead.failed()), (noon, false));
    }
}
