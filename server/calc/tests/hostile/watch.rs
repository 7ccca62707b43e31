//! The clock, and a guard that names the input a test hangs on.

use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering::Relaxed};
use std::thread;
use std::time::Duration;

/// After so many seconds at one input the run is given up.
const HOPELESS: u64 = 120;
const ENDED: u64 = u64::MAX;

/// Time since its start.
#[expect(clippy::disallowed_types, reason = "the library has no clock, its tests do")]
pub struct Stopwatch(std::time::Instant);

impl Stopwatch {
    #[expect(clippy::disallowed_types, reason = "the library has no clock, its tests do")]
    pub fn start() -> Self {
        Self(std::time::Instant::now())
    }

    pub fn elapsed(&self) -> Duration {
        self.0.elapsed()
    }
}

/// Ends the process, with the number of the input, where one never comes to an end.
pub struct Watch(Arc<AtomicU64>);

impl Watch {
    pub fn start() -> Self {
        let at = Arc::new(AtomicU64::new(0));
        let seen = Arc::clone(&at);
        thread::spawn(move || {
            let (mut last, mut since) = (0, 0);
            loop {
                thread::sleep(Duration::from_secs(1));
                let now = seen.load(Relaxed);
                if now == ENDED {
                    return;
                }
                (last, since) = if now == last { (last, since + 1) } else { (now, 0) };
                if since > HOPELESS {
                    eprintln!("input {now} did not end in {HOPELESS} s");
                    std::process::exit(1);
                }
            }
        });
        Self(at)
    }

    pub fn now_at(&self, number: u64) {
        self.0.store(number, Relaxed);
    }

    pub fn end(&self) {
        self.0.store(ENDED, Relaxed);
    }
}
