//! Writes iCalendar objects (RFC 5545).

use crate::db::ids::At;
use chrono::{DateTime, NaiveDate};

/// Octets of a line without its break (RFC 5545, 3.1).
const LINE: usize = 75;

/// When an event is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum When {
    /// At this moment, with an alarm.
    Moment(At),
    /// All of this day.
    Day(NaiveDate),
}

/// One event; the texts are plain.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Event {
    /// Stays the same for the same event.
    pub uid: String,
    pub when: When,
    pub summary: String,
    pub description: String,
}

/// The calendar called `name` as it stood at `stamp`; its events lead to `link`.
pub fn calendar(name: &str, link: &str, stamp: At, events: &[Event]) -> String {
    let mut out = String::new();
    for (property, value) in [("BEGIN", "VCALENDAR"), ("VERSION", "2.0"), ("PRODID", "-//Hilum//Due now//EN")]
    {
        line(&mut out, property, value);
    }
    line(&mut out, "NAME", &text(name));
    line(&mut out, "REFRESH-INTERVAL;VALUE=DURATION", "PT1H");
    if events.is_empty() {
        no_events(&mut out);
    }
    for event in events {
        add(&mut out, event, link, stamp);
    }
    line(&mut out, "END", "VCALENDAR");
    out
}

/// A calendar holds at least one component (RFC 5545, 3.6): the one that says nothing.
fn no_events(out: &mut String) {
    let lines = [
        ("BEGIN", "VTIMEZONE"),
        ("TZID", "UTC"),
        ("BEGIN", "STANDARD"),
        ("DTSTART", "19700101T000000"),
        ("TZOFFSETFROM", "+0000"),
        ("TZOFFSETTO", "+0000"),
        ("END", "STANDARD"),
        ("END", "VTIMEZONE"),
    ];
    for (property, value) in lines {
        line(out, property, value);
    }
}

fn add(out: &mut String, event: &Event, link: &str, stamp: At) {
    line(out, "BEGIN", "VEVENT");
    line(out, "UID", &event.uid);
    line(out, "DTSTAMP", &moment(stamp));
    match event.when {
        When::Moment(at) => {
            line(out, "DTSTART", &moment(at));
            line(out, "DURATION", "PT10M");
        }
        When::Day(day) => {
            line(out, "DTSTART;VALUE=DATE", &date(day));
            line(out, "DTEND;VALUE=DATE", &date(day.succ_opt().unwrap_or(day)));
        }
    }
    line(out, "SUMMARY", &text(&event.summary));
    line(out, "DESCRIPTION", &text(&event.description));
    line(out, "URL", link);
    line(out, "TRANSP", "TRANSPARENT");
    if matches!(event.when, When::Moment(_)) {
        line(out, "BEGIN", "VALARM");
        line(out, "ACTION", "DISPLAY");
        line(out, "TRIGGER", "PT0S");
        line(out, "DESCRIPTION", &text(&event.summary));
        line(out, "END", "VALARM");
    }
    line(out, "END", "VEVENT");
}

/// `20260302T070000Z`.
fn moment(at: At) -> String {
    DateTime::from_timestamp(at.0, 0).unwrap_or_default().format("%Y%m%dT%H%M%SZ").to_string()
}

/// `20260302`.
fn date(day: NaiveDate) -> String {
    day.format("%Y%m%d").to_string()
}

/// A text value (RFC 5545, 3.3.11).
fn text(plain: &str) -> String {
    let mut out = String::with_capacity(plain.len());
    for c in plain.chars() {
        match c {
            '\\' | ';' | ',' => out.extend(['\\', c]),
            '\n' => out.push_str("\\n"),
            c if c.is_control() => {}
            c => out.push(c),
        }
    }
    out
}

/// A content line, folded so that no line is longer than [`LINE`] octets and no character is split.
fn line(out: &mut String, property: &str, value: &str) {
    let mut used = 0;
    for c in format!("{property}:{value}").chars() {
        if used + c.len_utf8() > LINE {
            out.push_str("\r\n ");
            used = 1;
        }
        out.push(c);
        used += c.len_utf8();
    }
    out.push_str("\r\n");
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_fold_at_75_octets_and_between_characters() {
        let mut out = String::new();
        line(&mut out, "SUMMARY", &"ä".repeat(100));
        assert!(out.ends_with("\r\n"));
        let lines: Vec<&str> = out.trim_end_matches("\r\n").split("\r\n").collect();
        assert!(lines.len() == 3 && lines.iter().all(|l| l.len() <= LINE), "{lines:?}");
        assert!(lines[1..].iter().all(|l| l.starts_with(' ')));
        assert_eq!(out.replace("\r\n ", ""), format!("SUMMARY:{}\r\n", "ä".repeat(100)));
    }

    #[test]
    fn text_is_escaped() {
        assert_eq!(text("a, b; c\\d\r\ne\u{7}"), "a\\, b\\; c\\\\d\\ne");
    }
}
