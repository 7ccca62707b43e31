use super::{Scale, place};
use crate::web::words::decimal;
use hilum_calc::units::shown;

/// A line across the drawing, or a name beside it.
#[derive(Debug, Clone)]
pub struct Tick {
    pub at: String,
    pub words: String,
}

/// One side of the frame.
#[derive(Debug, Clone)]
pub struct Axis {
    pub scale: Scale,
    pub ticks: Vec<Tick>,
    /// What is measured, with its unit.
    pub words: &'static str,
}

impl Axis {
    /// An axis with a tick at each of `at`, which are so many `places` after the point.
    pub fn numbers(scale: Scale, at: &[f64], places: usize, words: &'static str) -> Self {
        let tick = |n: &f64| Tick { at: place(scale.at(*n)), words: decimal(&shown(*n, places)) };
        Self { scale, ticks: at.iter().map(tick).collect(), words }
    }

    /// An axis of days, from 0 to `last`; a stretch below one day is drawn as one.
    pub fn days(last: f64, drawn: (f64, f64), words: &'static str) -> Self {
        let scale = Scale::new((0.0, last.max(1.0)), drawn);
        let round = scale.round(6);
        let places = usize::from(round.iter().any(|n| n.fract() > 0.0));
        Self::numbers(scale, &round, places, words)
    }

    /// An axis of per cent, for shares from 0 to 1.
    pub fn percent(drawn: (f64, f64), words: &'static str) -> Self {
        let scale = Scale::new((0.0, 1.0), drawn);
        let tick = |n: u32| Tick { at: place(scale.at(f64::from(n) / 100.0)), words: n.to_string() };
        Self { scale, ticks: [0, 25, 50, 75, 100].map(tick).to_vec(), words }
    }
}

/// The field of a chart inside its margins, with its axes: x below, y at the left.
#[derive(Debug, Clone)]
pub struct Frame {
    pub width: u32,
    pub height: u32,
    /// The field: left, top, right, bottom.
    pub field: [u32; 4],
    pub x: Axis,
    pub y: Axis,
}

impl Frame {
    /// Every chart is as wide as a phone.
    pub const WIDTH: u32 = 340;
}
