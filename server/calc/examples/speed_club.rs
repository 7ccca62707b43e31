//! Prints how long the club table and the mixed models take on made clubs, how much memory, and how
//! both grow: `cargo run --release -p hilum-calc --example speed_club`.

use hilum_calc::club::Club;
use hilum_calc::mixed::{Design, Fixed, Sd, Terms, Trial, fit};
use hilum_calc::table::{At, Bag, Look, Of, Options, table};
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

    fn below(&mut self, n: usize) -> usize {
        (self.roll() * n as f64) as usize
    }

    fn normal(&mut self) -> f64 {
        (0..12).map(|_| self.roll()).sum::<f64>() - 6.0
    }
}

#[expect(clippy::disallowed_types, reason = "a stopwatch outside the crate proper")]
fn best<T>(times: u32, f: impl Fn() -> T) -> (f64, T) {
    let mut best = f64::INFINITY;
    let mut last = None;
    for _ in 0..times {
        let clock = Instant::now();
        let made = black_box(f());
        best = best.min(clock.elapsed().as_secs_f64());
        last = Some(made);
    }
    (best, last.unwrap())
}

fn main() {
    for daily in [true, false] {
        tables(daily);
    }
    for model in [Which::Partial, Which::Cells, Which::Sources] {
        let mut before = None;
        for trials in [5_000, 50_000, 500_000] {
            before = Some(measure(model, trials, before));
        }
    }
    for (trials, growers, cells) in [(1_000, 12, 40), (5_000, 12, 60), (5_000, 200, 400), (50_000, 200, 400)]
    {
        whole(trials, growers, cells);
    }
}

fn tables(daily: bool) {
    let names: Vec<String> = (0..2_000).map(|i| format!("n{i:04}")).collect();
    let mut dice = Dice(1);
    let mut bags = Vec::new();
    for trial in &names {
        let (cell, grower) = (dice.below(400), dice.below(200));
        for name in &names[..2] {
            let seeds = 10 + dice.below(30) as u32;
            let looks = looks(&mut dice, seeds, daily);
            bags.push(Bag {
                kind: "pepper",
                variety: &names[cell / 4],
                source: &names[cell % 4],
                grower: &names[grower],
                trial,
                bag: name,
                seeds,
                soaked: seeds,
                floated: false,
                put_on_paper: None,
                closed: true,
                looks: looks.into(),
            });
        }
    }
    for at in [At::Day, At::Close] {
        let options = Options { of: Of::Started, at, as_of: None, standard_day: &|_| Some(14.0) };
        let (time, rows) = best(20, || table(&bags, &options));
        let hours = if daily { "at the same hour" } else { "at any hour" };
        println!("table at {at:?}, 4000 bags, 8 looks {hours}: {} rows, {:.1} ms", rows.len(), 1e3 * time);
    }
}

fn looks(dice: &mut Dice, seeds: u32, daily: bool) -> Vec<Look> {
    let (mut left, mut hours) = (seeds, 48.0);
    let look = |_| {
        hours += 24.0 * (1 + dice.below(3)) as f64;
        let at = if daily { hours } else { hours + 10.0 * dice.roll() };
        let rooted = (0..left).filter(|_| dice.roll() < 0.25).count() as u32;
        left -= rooted;
        Look { hours: at, rooted, abnormal: 0, dead: 0 }
    };
    (0..8).map(look).collect()
}

#[derive(Clone, Copy)]
enum Which {
    Partial,
    Cells,
    Sources,
}

struct Made {
    names: Vec<String>,
    /// Cell, grower, rooted, seeds.
    trials: Vec<(usize, usize, f64, f64)>,
}

impl Made {
    /// Four cells of each variety, from 20 sources.
    fn new(trials: usize, growers: usize, cells: usize) -> Self {
        let mut dice = Dice(2);
        let names: Vec<String> = (0..growers.max(cells)).map(|i| format!("n{i:03}")).collect();
        let growers: Vec<f64> = (0..growers).map(|_| 0.5 * dice.normal()).collect();
        let cells: Vec<f64> = (0..cells).map(|_| 1.2 + 0.8 * dice.normal()).collect();
        let trial = |_| {
            // Few sources and growers are common, many are rare.
            let mut rare = |of: &[f64]| (of.len() as f64 * dice.roll().powi(2)) as usize;
            let (c, g) = (rare(&cells), rare(&growers));
            let n = (5 + dice.below(45)) as f64;
            let p = 1.0 / (1.0 + (-(cells[c] + growers[g] + 0.6 * dice.normal())).exp());
            let x = (0..n as u32).filter(|_| dice.roll() < p).count() as f64;
            (c, g, x, n)
        };
        Self { names, trials: (0..trials).map(trial).collect() }
    }

    /// Variety and source of a cell.
    fn seed(&self, cell: usize) -> (&str, &str) {
        (&self.names[cell / 4], &self.names[(cell + cell / 4 * 3) % 20])
    }

    fn rows(&self, sources: bool) -> Vec<Trial<'_>> {
        let row = |&(c, g, x, n): &(usize, usize, f64, f64)| {
            let (variety, source) = self.seed(c);
            let source = sources.then_some(source);
            Trial {
                variety,
                cell: &self.names[c],
                source,
                grower: &self.names[g],
                x,
                n,
                lot: None,
                club: None,
            }
        };
        self.trials.iter().map(row).collect()
    }
}

fn fitted(model: Which, made: &Made) -> Sd {
    let one = || Fixed::Columns { width: 1, values: vec![1.0; made.trials.len()] };
    let (fixed, terms) = match model {
        Which::Partial => (one(), Terms::CLUB),
        Which::Cells => (Fixed::Cells, Terms { variety: false, cell: false, ..Terms::CLUB }),
        Which::Sources => (one(), Terms { source: true, ..Terms::CLUB }),
    };
    let design = Design::new(&made.rows(terms.source), &fixed);
    fit(&design, terms).point.sd
}

/// Returns the seconds of a core; prints how many times those of a tenth of the trials they are.
fn measure(model: Which, trials: usize, before: Option<f64>) -> f64 {
    let made = Made::new(trials, 200, 400);
    forget_peak();
    let times = if trials > 50_000 { 1 } else { 3 };
    let before_all = core_seconds();
    let (time, sd) = best(times, || fitted(model, &made));
    let core = (core_seconds() - before_all) / f64::from(times);
    let name = match model {
        Which::Partial => "partial pooling",
        Which::Cells => "fixed cells",
        Which::Sources => "partial pooling with sources",
    };
    let growth = before.map(|before| format!(", {:.1} times a tenth", core / before)).unwrap_or_default();
    println!("{name}, {trials} trials: {time:.2} s, {core:.2} s of a core{growth}, peak {} MiB", peak());
    println!("    {sd:.3?}");
    core
}

/// All that is computed of a club after a count: table, model, covariances, sources, pairs.
fn whole(trials: usize, growers: usize, cells: usize) {
    let made = Made::new(trials, growers, cells);
    let names: Vec<String> = (0..trials).map(|i| format!("t{i:06}")).collect();
    let bags: Vec<Bag> = made
        .trials
        .iter()
        .zip(&names)
        .map(|((cell, grower, x, n), trial)| {
            let (variety, source) = made.seed(*cell);
            Bag {
                kind: "pepper",
                variety,
                source,
                grower: &made.names[*grower],
                trial,
                bag: "a",
                seeds: *n as u32,
                soaked: *n as u32,
                floated: false,
                put_on_paper: None,
                closed: true,
                looks: vec![Look { hours: 336.0, rooted: *x as u32, abnormal: 0, dead: 0 }].into(),
            }
        })
        .collect();
    let options = Options { of: Of::Started, at: At::Day, as_of: None, standard_day: &|_| Some(14.0) };
    forget_peak();
    let before_all = core_seconds();
    let (time, club) = best(1, || Club::of(bags.clone(), Vec::new(), &options));
    let core = core_seconds() - before_all;
    let (rows, pairs, sources) = (club.rows.len(), club.standing.pairs.len(), club.standing.sources.len());
    println!(
        "whole club, {trials} trials, {growers} growers, {cells} cells: {time:.2} s, {core:.2} s of a core, {rows} rows, {pairs} pairs, {sources} sources, peak {} MiB",
        peak()
    );
}

/// Processor time so far, in hundredths (Linux's `utime` and `stime`, proc(5)); what else runs on the
/// machine does not count.
#[expect(clippy::disallowed_methods, reason = "the kernel's own numbers, outside the crate proper")]
fn core_seconds() -> f64 {
    let stat = std::fs::read_to_string("/proc/self/stat").unwrap_or_default();
    let after_name = stat.rsplit(") ").next().unwrap_or_default();
    let ticks = after_name.split(' ').skip(11).take(2).filter_map(|ticks| ticks.parse::<f64>().ok());
    ticks.sum::<f64>() / 100.0
}

/// Where Linux allows, the peak starts anew from what is in use now.
#[expect(clippy::disallowed_methods, reason = "the kernel's own numbers, outside the crate proper")]
fn forget_peak() {
    std::fs::write("/proc/self/clear_refs", "5").ok();
}

/// Most memory held (VmHWM), MiB.
#[expect(clippy::disallowed_methods, reason = "the kernel's own numbers, outside the crate proper")]
fn peak() -> String {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    let kib = line.and_then(|line| line.trim().trim_end_matches(" kB").parse::<f64>().ok());
    kib.map_or("?".to_owned(), |kib| format!("{:.0}", kib / 1024.0))
}
