use prometheus_client::encoding::EncodeLabelSet;
use prometheus_client::metrics::family::Family;
use prometheus_client::metrics::histogram::Histogram;
use std::time::Duration;

/// Upper bounds in seconds.
const WAITS: [f64; 6] = [0.001, 0.01, 0.1, 1.0, 5.0, 10.0];

/// What a database is waited for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Work {
    Read,
    Write,
}

#[derive(Debug, Clone, PartialEq, Eq, Hash, EncodeLabelSet)]
pub(super) struct For {
    work: &'static str,
}

/// How long reading and writing waited for their turn; clones share it.
#[derive(Debug, Clone)]
pub struct Waits(Family<For, Histogram, fn() -> Histogram>);

impl Default for Waits {
    fn default() -> Self {
        Self(Family::new_with_constructor(|| Histogram::new(WAITS)))
    }
}

impl Waits {
    /// Some work had its turn after `took`.
    pub fn waited(&self, work: Work, took: Duration) {
        let work = match work {
            Work::Read => "read",
            Work::Write => "write",
        };
        self.0.get_or_create(&For { work }).observe(took.as_secs_f64());
    }

    pub(super) fn family(&self) -> Family<For, Histogram, fn() -> Histogram> {
        self.0.clone()
    }
}
