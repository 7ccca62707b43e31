//! Charts as inline SVG made on the server: drawing only, from numbers that are already there.
//!
//! A chart stands on a [`Frame`] of two axes and brings a title, a description in words and a table with the same
//! numbers. Drawings are 340 units wide, so that a phone shows their text at its own size.

mod curve;
mod dots;
mod frame;
mod scale;

pub use curve::{Step, StepCurve};
pub use dots::{Dot, Dots};
pub use frame::{Axis, Frame, Tick};
pub use scale::Scale;

/// A coordinate as it is written into the drawing.
fn place(at: f64) -> String {
    hilum_calc::units::shown(at, 1)
}
