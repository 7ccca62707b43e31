//! Prints how long the heavier methods take: `cargo run --release -p hilum-calc --example speed`.

use hilum_calc::curve::{Curve, Interval};
use std::hint::black_box;
#[expect(clippy::disallowed_types, reason = "a stopwatch outside the crate proper")]
use std::time::Instant;

/// The same made numbers on every machine (a 64-bit linear congruential generator).
struct Dice(u64);

impl Dice {
    fn roll(&mut self) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 11) as f64 / (1u64 << 53) as f64
    }

    /// Time of rooting: log-logistic, median 7, shape 5; one in five never.
    fn rooting(&mut self) -> f64 {
        let (u, never) = (self.roll(), self.roll() < 0.2);
        if never { f64::INFINITY } else { 7.0 * (u / (1.0 - u)).powf(0.2) }
    }
}

fn main() {
    let wide = apart(2000, |dice| 0.3 + 6.0 * dice.roll());
    let narrow = apart(2000, |dice| 0.2 + 0.2 * dice.roll());
    for (name, rows) in [
        ("curve, 2000 wide looks all different", wide),
        ("curve, 2000 narrow looks all different", narrow),
        ("curve, 1 bag looked at 2000 times", shared(1, 2000)),
        ("curve, 8 bags looked at 250 times", shared(8, 250)),
        ("curve, 200 bags looked at 10 times", shared(200, 10)),
    ] {
        let (time, curve) = best(|| Curve::fit(&rows));
        let masses = curve.support().len();
        println!(
            "{name}: {} rows, {masses} masses, gap {:.1e}, {:.2} ms",
            rows.len(),
            curve.gap(),
            1e3 * time
        );
    }
}

/// Seeds each with looks of their own, gaps drawn by `gap`.
fn apart(seeds: usize, gap: impl Fn(&mut Dice) -> f64) -> Vec<Interval> {
    let mut dice = Dice(7);
    let one = |_| {
        let t = dice.rooting();
        let mut l = 0.0;
        while l < 20.0 {
            let r = l + gap(&mut dice);
            if t <= r {
                return Interval { l, r: Some(r), count: 1.0 };
            }
            l = r;
        }
        Interval { l, r: None, count: 1.0 }
    };
    (0..seeds).map(one).collect()
}

/// Bags of 100 seeds (or five per look), each with its own evenly spaced looks.
fn shared(bags: usize, looks: usize) -> Vec<Interval> {
    let mut dice = Dice(11);
    let mut rows = Vec::new();
    for _ in 0..bags {
        let (start, step) = (2.0 + dice.roll(), 14.0 / looks as f64);
        let mut counts = vec![0.0; looks + 1];
        for _ in 0..100.max(5 * looks) {
            let look = ((dice.rooting() - start) / step).ceil().clamp(0.0, looks as f64);
            counts[look as usize] += 1.0;
        }
        let at = |k: usize| start + k as f64 * step;
        rows.extend(counts.into_iter().enumerate().filter(|(_, count)| *count > 0.0).map(|(k, count)| {
            Interval { l: if k == 0 { 0.0 } else { at(k - 1) }, r: (k < looks).then(|| at(k)), count }
        }));
    }
    rows
}

/// The shortest of five runs in seconds, and the result.
#[expect(clippy::disallowed_types, reason = "a stopwatch outside the crate proper")]
fn best<T>(run: impl Fn() -> T) -> (f64, T) {
    let mut shortest = f64::INFINITY;
    let mut result = None;
    for _ in 0..5 {
        let start = Instant::now();
        result = Some(black_box(run()));
        shortest = shortest.min(start.elapsed().as_secs_f64());
    }
    (shortest, result.unwrap_or_else(run))
}
