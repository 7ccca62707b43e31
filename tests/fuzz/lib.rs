//! The targets for libFuzzer; see `tests/fuzz/run`.

pub mod targets;

use std::sync::atomic::{AtomicU64, Ordering};
use std::time::Instant;

/// Runs a target, and says which input was the slowest so far.
pub fn tried(name: &str, data: &[u8]) {
    static SLOWEST: AtomicU64 = AtomicU64::new(20_000);
    let target = targets::ALL.iter().find(|t| t.name == name).expect("a target of that name");
    let begun = Instant::now();
    (target.run)(data);
    let took = begun.elapsed().as_micros() as u64;
    if took > SLOWEST.fetch_max(took, Ordering::Relaxed) {
        eprintln!(
            "slowest: {} ms, {} bytes: {}",
            took / 1000,
            data.len(),
            data[..data.len().min(80)].escape_ascii()
        );
    }
}
