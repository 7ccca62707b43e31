//! Made numbers and reference tables for the checks.

/// The same made numbers on every machine (a 64-bit linear congruential generator).
pub struct Dice(pub u64);

impl Dice {
    /// A whole number below `n`.
    pub fn below(&mut self, n: u64) -> u64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % n
    }

    /// Evenly spread in 0..1.
    pub fn even(&mut self) -> f64 {
        (self.below(1 << 30) as f64 + 0.5) / f64::from(1 << 30)
    }
}

/// Rows of a table of `tests/reference/standards/`, without its header.
pub fn table(name: &str) -> Vec<csv::StringRecord> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../tests/reference/standards");
    let mut reader = csv::Reader::from_path(format!("{folder}/{name}.csv")).unwrap();
    reader.records().map(|row| row.unwrap()).collect()
}
