use super::{Axis, Frame, place};
use crate::web::words::{decimal, percent};
use askama::Template;
use hilum_calc::units::shown;
use std::fmt::Write;

const HEIGHT: u32 = 230;
/// Left, top, right, bottom.
const FIELD: [u32; 4] = [36, 28, 290, 184];

/// The share from this moment until the next step.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Step {
    /// Days, above 0.
    pub day: f64,
    /// The share, 0 to 1, with the ends of its interval.
    pub share: f64,
    pub low: f64,
    pub high: f64,
}

/// A step as the table says it.
#[derive(Debug)]
struct Row {
    day: String,
    share: String,
    span: String,
}

/// Where the curve ends, and what it says there.
#[derive(Debug)]
struct End {
    x: String,
    y: String,
    low: String,
    high: String,
    words: String,
}

/// A share that rises in steps over the days, with its interval as a band. It begins with nothing on day 0.
#[derive(Debug, Template)]
#[template(path = "charts/curve.html")]
pub struct StepCurve {
    /// Unique on the page.
    id: &'static str,
    title: String,
    desc: String,
    frame: Frame,
    line: String,
    band: String,
    end: End,
    rows: Vec<Row>,
}

impl StepCurve {
    /// `steps` are in order of time; `None` without any. `title` says whose share of what it is.
    pub fn new(id: &'static str, title: String, steps: &[Step]) -> Option<Self> {
        let last = steps.last()?;
        let [left, top, right, bottom] = FIELD.map(f64::from);
        let frame = Frame {
            width: Frame::WIDTH,
            height: HEIGHT,
            field: FIELD,
            x: Axis::days(last.day, (left, right), t!("charts-days-on-paper")),
            y: Axis::percent((bottom, top), t!("charts-per-cent-rooted")),
        };
        let end = End {
            x: place(frame.x.scale.at(last.day)),
            y: place(frame.y.scale.at(last.share)),
            low: place(frame.y.scale.at(last.low)),
            high: place(frame.y.scale.at(last.high)),
            words: format!("{} %", percent(last.share)),
        };
        Some(Self {
            id,
            title,
            desc: described(last),
            line: along(&frame, steps.iter().map(|s| (s.day, s.share))),
            band: band(&frame, steps),
            frame,
            end,
            rows: rows(steps),
        })
    }
}

/// Right and up from nothing on day 0.
fn along(frame: &Frame, steps: impl Iterator<Item = (f64, f64)>) -> String {
    let (x, y) = (&frame.x.scale, &frame.y.scale);
    let mut path = format!("M{} {}", place(x.at(0.0)), place(y.at(0.0)));
    for (day, share) in steps {
        let _ = write!(path, "H{}V{}", place(x.at(day)), place(y.at(share)));
    }
    path
}

/// The upper ends from left to right, then the lower ends back.
fn band(frame: &Frame, steps: &[Step]) -> String {
    let (x, y) = (&frame.x.scale, &frame.y.scale);
    let mut path = along(frame, steps.iter().map(|s| (s.day, s.high)));
    let before = std::iter::once(0.0).chain(steps.iter().map(|s| s.low));
    let back: Vec<(f64, f64)> = steps.iter().map(|s| s.day).zip(before).collect();
    if let Some(last) = steps.last() {
        let _ = write!(path, "V{}", place(y.at(last.low)));
    }
    for (day, low) in back.into_iter().rev() {
        let _ = write!(path, "H{}V{}", place(x.at(day)), place(y.at(low)));
    }
    path + "Z"
}

/// The steps at which something changes in print, and the last one.
fn rows(steps: &[Step]) -> Vec<Row> {
    let mut rows: Vec<Row> = Vec::new();
    for (i, s) in steps.iter().enumerate() {
        let share = format!("{} %", percent(s.share));
        let span = t!("charts-from-to", low = percent(s.low), high = percent(s.high));
        let new = rows.last().is_none_or(|r| r.share != share || r.span != span);
        if new || i + 1 == steps.len() {
            rows.push(Row { day: decimal(&shown(s.day, 1)), share, span });
        }
    }
    rows
}

/// The curve in words.
fn described(last: &Step) -> String {
    let (day, share) = (decimal(&shown(last.day, 1)), percent(last.share));
    let (low, high) = (percent(last.low), percent(last.high));
    if last.share > 0.0 {
        t!("charts-line-that-rises", day = day, share = share, low = low, high = high)
    } else {
        t!("charts-line-that-stays", day = day, low = low, high = high)
    }
}

#[cfg(test)]
mod tests;
