//! Intervals that were computed, by age: that is the age at the last look, so that all who open the bag until the next one
//! ask for the same.

use std::collections::HashMap;
use std::sync::{Mutex, PoisonError};

/// How many are kept at once.
const MOST: usize = 500;

#[derive(Debug, Default)]
pub struct Intervals(Mutex<HashMap<u64, (f64, f64)>>);

impl Intervals {
    /// The interval at `age`, computed where it is not kept.
    pub fn at(&self, age: f64, compute: impl FnOnce() -> (f64, f64)) -> (f64, f64) {
        let known = self.with(|kept| kept.get(&age.to_bits()).copied());
        known.unwrap_or_else(|| {
            let interval = compute();
            self.with(|kept| {
                if kept.len() >= MOST {
                    kept.clear();
                }
                kept.insert(age.to_bits(), interval)
            });
            interval
        })
    }

    fn with<T>(&self, what: impl FnOnce(&mut HashMap<u64, (f64, f64)>) -> T) -> T {
        what(&mut self.0.lock().unwrap_or_else(PoisonError::into_inner))
    }
}
