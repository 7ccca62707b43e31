//! How moments, days and numbers are said on pages.

use crate::db::ids::At;
use chrono::{Datelike, NaiveDate};
use chrono_tz::Tz;
use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

/// Latin letters that Unicode does not take apart, as lists without them write them (common practice, no source).
const LETTERS: [(char, &str); 8] =
    [('ø', "o"), ('ł', "l"), ('đ', "d"), ('ð', "d"), ('ß', "ss"), ('æ', "ae"), ('œ', "oe"), ('þ', "th")];

/// Puts rows in the order of their names as a reader looks for them: Änne beside Anne, Øystein beside Oystein, whatever
/// the case.
pub fn by_name<T>(mut rows: Vec<T>, name: impl Fn(&T) -> &str) -> Vec<T> {
    let plain = |name: &str| -> String {
        let lower = name.nfkd().filter(|c| !is_combining_mark(*c)).flat_map(char::to_lowercase);
        lower.fold(String::new(), |mut plain, c| {
            match LETTERS.iter().find(|(letter, _)| *letter == c) {
                Some((_, written)) => plain.push_str(written),
                None => plain.push(c),
            }
            plain
        })
    };
    rows.sort_by_cached_key(|row| (plain(name(row)), name(row).to_owned()));
    rows
}

/// `18:42`.
pub fn clock(at: At, zone: Tz) -> String {
    at.local(zone).format("%H:%M").to_string()
}

/// `Mon 2 Mar`, with the year where it is not this one.
pub fn day(day: NaiveDate, today: NaiveDate) -> String {
    if day.year() != today.year() {
        return date(day);
    }
    let weekday = nth(t!("words-weekdays"), day.weekday().num_days_from_monday());
    t!("words-day", weekday = weekday, day = day.day(), month = month(day))
}

/// `2 Mar 2026`.
pub fn date(day: NaiveDate) -> String {
    t!("words-date", day = day.day(), month = month(day), year = day.year().to_string())
}

/// `2 Mar`.
pub fn short_date(day: NaiveDate) -> String {
    t!("words-short-date", day = day.day(), month = month(day))
}

fn month(day: NaiveDate) -> &'static str {
    nth(t!("words-months"), day.month0())
}

fn nth(names: &'static str, place: u32) -> &'static str {
    names.split(' ').nth(place as usize).unwrap_or_default()
}

/// `today 18:42`, `yesterday 18:42`, `Mon 2 Mar 18:42`.
pub fn moment(at: At, now: At, zone: Tz) -> String {
    let (then, today) = (at.day(zone), now.day(zone));
    let word = match (today - then).num_days() {
        0 => t!("words-today").to_owned(),
        1 => t!("words-yesterday").to_owned(),
        -1 => t!("words-tomorrow").to_owned(),
        _ => day(then, today),
    };
    format!("{word} {}", clock(at, zone))
}

/// `2 Mar 2026 18:42`.
pub fn dated(at: At, zone: Tz) -> String {
    format!("{} {}", date(at.day(zone)), clock(at, zone))
}

/// `out at 18:42`, `out tomorrow 07:00`: when something comes out of the soak.
pub fn out_at(at: At, now: At, zone: Tz) -> String {
    if at.day(zone) == now.day(zone) {
        t!("words-out-at", time = clock(at, zone))
    } else {
        t!("words-out-on", moment = moment(at, now, zone))
    }
}

/// What an `<input type="datetime-local">` holds.
pub fn input_moment(at: At, zone: Tz) -> String {
    at.local(zone).format("%Y-%m-%dT%H:%M").to_string()
}

/// `35 min`, `2 h 05 min`, `3 days`.
pub fn span(minutes: i64) -> String {
    match minutes {
        ..60 => t!("words-minutes", n = minutes),
        60..2880 => t!("words-hours-minutes", hours = minutes / 60, minutes = format!("{:02}", minutes % 60)),
        _ => t!("words-days", n = minutes / 1440),
    }
}

/// `out in 12 min`, `out now`, `out now, 3 h over`: what the ticking timer of `app.js` says at this moment.
pub fn countdown(at: At, now: At) -> String {
    match at.0 - now.0 {
        left @ 1.. => t!("words-out-in", span = ticking(left)),
        -59..=0 => t!("words-out-now").to_owned(),
        over => t!("words-out-over", span = ticking((-over).max(120))),
    }
}

fn ticking(seconds: i64) -> String {
    let (minutes, hours) = (seconds / 60, seconds / 3600);
    match seconds {
        ..120 => t!("words-seconds", n = seconds),
        120..7200 => t!("words-minutes", n = minutes),
        7200..172_800 if minutes % 60 == 0 => t!("words-hours", n = hours),
        7200..172_800 => t!("words-hours-minutes", hours = hours, minutes = minutes % 60),
        _ => t!("words-days", n = hours / 24),
    }
}

/// `1 seed`, `2 seeds`.
pub fn seeds(n: i64) -> String {
    t!("words-seeds", n = n)
}

/// A number with so many decimals, and the decimal mark of the language.
pub fn fixed(x: f64, decimals: usize) -> String {
    decimal(&format!("{x:.decimals$}"))
}

/// A number written with a point, with the decimal mark of the language.
pub fn decimal(number: &str) -> String {
    number.replace('.', t!("words-decimal-mark"))
}

/// `a`, `a and b`, `a, b and c`.
pub fn and(names: &[impl AsRef<str>]) -> String {
    joined(names, t!("words-and"))
}

/// `a`, `a or b`, `a, b or c`.
pub fn or(names: &[impl AsRef<str>]) -> String {
    joined(names, t!("words-or"))
}

fn joined(names: &[impl AsRef<str>], word: &str) -> String {
    let names: Vec<&str> = names.iter().map(AsRef::as_ref).collect();
    match names.split_last() {
        Some((last, rest)) if !rest.is_empty() => format!("{} {word} {last}", rest.join(", ")),
        _ => names.concat(),
    }
}

/// A share in per cent without decimals; 0 and 100 only where nothing, or everything, is meant.
pub fn percent(share: f64) -> String {
    let whole = (share * 100.0).round();
    let whole = if share > 0.0 && share < 1.0 { whole.clamp(1.0, 99.0) } else { whole };
    format!("{whole}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn moments_are_said_as_people_say_them() {
        let zone = chrono_tz::Europe::Berlin;
        let now = At(1_772_449_200); // Mon 2026-03-02 12:00 in Berlin
        assert_eq!(moment(now, now, zone), "today 12:00");
        assert_eq!(moment(now.plus_days(-1), now, zone), "yesterday 12:00");
        assert_eq!(moment(now.plus_days(-9), now, zone), "Sat 21 Feb 12:00");
    }

    #[test]
    fn names_stand_where_a_reader_looks_for_them() {
        let sorted = by_name(
            vec!["Zoë", "anna", "Øystein", "Bo", "Änne", "Łukasz", "Anne", "Émile", "Olga"],
            |name| name,
        );
        let right = ["anna", "Anne", "Änne", "Bo", "Émile", "Łukasz", "Olga", "Øystein", "Zoë"];
        assert_eq!(sorted, right);
    }

    #[test]
    fn timers_start_with_what_they_go_on_with() {
        let said = |seconds| countdown(At(seconds), At(0));
        let all = [90, 720, 7200, 7500, 400_000, 0, -30, -61, -7260].map(said);
        let over = ["out now, 2 min over", "out now, 2 h 1 min over"];
        let left = ["out in 90 s", "out in 12 min", "out in 2 h", "out in 2 h 5 min", "out in 4 days"];
        assert_eq!(all, [left.as_slice(), &["out now", "out now"], &over].concat()[..]);
    }

    #[test]
    fn lists_are_said_as_people_say_them() {
        assert_eq!([and(&["a"]), and(&["a", "b"]), or(&["a", "b", "c"])], ["a", "a and b", "a, b or c"]);
        assert_eq!(and(&[] as &[&str]), "");
    }

    #[test]
    fn nothing_and_everything_are_only_said_of_nothing_and_everything() {
        let said = [0.0, 0.001, 0.5, 0.999, 1.0].map(percent);
        assert_eq!(said, ["0", "1", "50", "99", "100"]);
    }
}
