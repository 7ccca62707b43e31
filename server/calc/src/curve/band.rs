use super::Curve;

/// An interval for the cumulative share at one end point of the looks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band {
    /// Time.
    pub t: f64,
    /// Lower end, 0..1.
    pub low: f64,
    /// Upper end, 0..1.
    pub high: f64,
}

impl Curve {
    /// TODO
    pub fn band(&self, _z: f64) -> Vec<Band> {
        Vec::new()
    }
}
