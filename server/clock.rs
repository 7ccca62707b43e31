//! The only caller of the system clock.

use crate::db::ids::At;
use std::path::PathBuf;
use std::sync::Arc;
use std::sync::atomic::{AtomicI64, Ordering};

/// Where the time comes from.
#[derive(Clone, Debug)]
pub enum Clock {
    System,
    /// Set by hand; for tests within the process.
    Fixed(Arc<AtomicI64>),
    /// Seconds since 1970 read from a file at each call; for tests that drive the program from outside.
    File(PathBuf),
}

impl Clock {
    /// A clock that stands still at `at` until it is set.
    pub fn fixed(at: At) -> Self {
        Self::Fixed(Arc::new(AtomicI64::new(at.0)))
    }

    /// The present moment.
    pub fn now(&self) -> At {
        match self {
            Self::System => system(),
            Self::Fixed(at) => At(at.load(Ordering::SeqCst)),
            Self::File(path) => {
                let text = std::fs::read_to_string(path).unwrap_or_default();
                text.trim().parse().map_or_else(|_| system(), At)
            }
        }
    }

    /// Moves a fixed clock; does nothing to the others.
    pub fn set(&self, at: At) {
        if let Self::Fixed(cell) = self {
            cell.store(at.0, Ordering::SeqCst);
        }
    }
}

#[expect(clippy::disallowed_methods, reason = "the one place that reads the clock")]
fn system() -> At {
    At(chrono::Utc::now().timestamp())
}
