use std::sync::LazyLock;
use std::time::{Duration, Instant};

/// How many times a harness goes round: `usual`, or what the environment asks for by `name`.
#[expect(clippy::disallowed_methods, reason = "how long a harness runs is for whoever runs it")]
pub fn times(name: &str, usual: usize) -> usize {
    std::env::var(name).ok().map_or(usual, |asked| asked.parse().expect("a number of times"))
}

/// Whether `HILUM_MINUTES` leaves time for another turn; without it a harness goes round as often as it was asked to.
pub fn time_is_left() -> bool {
    static BEGUN: LazyLock<Instant> = LazyLock::new(Instant::now);
    let begun = *BEGUN;
    let minutes = times("HILUM_MINUTES", usize::MAX);
    begun.elapsed() < Duration::from_secs((minutes as u64).saturating_mul(60))
}
