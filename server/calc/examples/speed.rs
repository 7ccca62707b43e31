//! Prints how long the heavier methods take: `cargo run --release -p hilum-calc --example speed`.
//! With `bags` after `--`: the made bags as CSV, for another program to fit.

use hilum_calc::curve::{Curve, Interval};
use hilum_calc::event_time::{Fate, Fit, Form, Removed, Seeds, giving_up};
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
    if std::env::args().nth(1).as_deref() == Some("bags") {
        return print_bags();
    }
    curves();
    event_times();
}

fn curves() {
    let wide = apart(2000, |dice| 0.3 + 6.0 * dice.roll());
    let narrow = apart(2000, |dice| 0.2 + 0.2 * dice.roll());
    for (name, rows) in [
        ("curve, 2000 seeds with wide looks of their own", wide),
        ("curve, 2000 seeds with narrow looks of their own", narrow),
        ("curve, 1 bag looked at 2000 times", shared(1, 2000).concat()),
        ("curve, 8 bags looked at 250 times", shared(8, 250).concat()),
        ("curve, 200 bags looked at 10 times", shared(200, 10).concat()),
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

fn event_times() {
    let bags: Vec<Vec<Seeds>> = shared(1000, 14).iter().map(|bag| bag.iter().map(seeds).collect()).collect();
    let (time, fits) = best(|| {
        let fit = |form: Form| bags.iter().map(|bag| Fit::of(bag, form, Removed::Censored)).collect();
        Form::ALL.map(|form| -> Vec<Fit> { fit(form) })
    });
    println!("event time: 1000 bags, three forms each: {time:.4} s, {time:.4} ms a bag");
    for fits in fits {
        let loglik: f64 = fits.iter().map(|f| f.loglik).sum();
        let mut t50: Vec<f64> = fits.iter().filter_map(Fit::t50).collect();
        t50.sort_by(f64::total_cmp);
        let middle = 0.5 * (t50[(t50.len() - 1) / 2] + t50[t50.len() / 2]);
        let name = fits[0].form.name();
        println!(
            "  {name}: {} estimable, sum of log-likelihoods {loglik:.4}, median t50 {middle:.6}",
            t50.len()
        );
    }
    let (time, _) = best(|| bags[..100].iter().map(|bag| profiles(bag)).sum::<f64>());
    println!("event time with profile intervals of p and of what is to come: {:.3} ms a bag", 10.0 * time);
    let judge = |bag: &Vec<Seeds>| giving_up(bag, Removed::Censored, (16.0, 20.0), 0.5, 0.95).most_to_come;
    let (time, _) = best(|| bags[..100].iter().map(judge).sum::<f64>());
    println!("whether and when to give up: {:.3} ms a bag", 10.0 * time);
}

fn profiles(bag: &[Seeds]) -> f64 {
    let fit = |form| Fit::of(bag, form, Removed::Censored);
    let low = |fit: Fit| {
        fit.p_profile(0.95).map_or(0.0, |p| p.0) + fit.ever_profile(16.0, 0.95).map_or(0.0, |e| e.1)
    };
    Form::ALL.into_iter().map(fit).map(low).sum()
}

fn seeds(row: &Interval) -> Seeds {
    let fate = row.r.map_or(Fate::OnPaper { l: row.l }, |r| Fate::Rooted { l: row.l, r });
    Seeds { fate, count: row.count, bag: 0 }
}

fn print_bags() {
    println!("bag,l,r,count");
    for (bag, rows) in shared(1000, 14).iter().enumerate() {
        for Interval { l, r, count } in rows {
            println!("{bag},{l},{},{count}", r.map_or(String::new(), |r| r.to_string()));
        }
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
fn shared(bags: usize, looks: usize) -> Vec<Vec<Interval>> {
    let mut dice = Dice(11);
    let mut all = Vec::new();
    for _ in 0..bags {
        let (start, step) = (2.0 + dice.roll(), 14.0 / looks as f64);
        let mut counts = vec![0.0; looks + 1];
        for _ in 0..100.max(5 * looks) {
            let look = ((dice.rooting() - start) / step).ceil().clamp(0.0, looks as f64);
            counts[look as usize] += 1.0;
        }
        let at = |k: usize| start + k as f64 * step;
        let row = |(k, count): (usize, f64)| Interval {
            l: if k == 0 { 0.0 } else { at(k - 1) },
            r: (k < looks).then(|| at(k)),
            count,
        };
        all.push(counts.into_iter().enumerate().filter(|(_, count)| *count > 0.0).map(row).collect());
    }
    all
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
