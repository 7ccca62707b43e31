//! Prints how long the club table and the mixed models take on made clubs:
//! `cargo run --release -p hilum-calc --example speed_club`.

use hilum_calc::club::Club;
use hilum_calc::mixed::{Design, Fixed, Terms, Trial, fit};
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
    for trials in [5_000, 50_000] {
        models(trials);
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
                looks,
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

/// Table, model, adjusted rates, pairs: what is computed after a save.
fn whole(trials: usize, growers: usize, cells: usize) {
    let mut dice = Dice(3);
    let names: Vec<String> = (0..trials).map(|i| format!("n{i:05}")).collect();
    let effects: Vec<f64> = (0..growers.max(cells)).map(|_| 0.5 * dice.normal()).collect();
    let mut bag = |trial| {
        let (g, c, seeds) = (dice.below(growers), dice.below(cells), 5 + dice.below(45) as u32);
        let p = 1.0 / (1.0 + (-(1.0 + effects[c] + effects[g] + 0.6 * dice.normal())).exp());
        let rooted = (0..seeds).filter(|_| dice.roll() < p).count() as u32;
        Bag {
            kind: "pepper",
            variety: &names[c / 4],
            source: &names[c],
            grower: &names[g],
            trial,
            bag: "a",
            seeds,
            soaked: seeds,
            floated: false,
            put_on_paper: None,
            closed: true,
            looks: vec![Look { hours: 336.0, rooted, abnormal: 0, dead: 0 }],
        }
    };
    let bags: Vec<Bag> = names.iter().map(|trial| bag(trial)).collect();
    let options = Options { of: Of::Started, at: At::Day, as_of: None, standard_day: &|_| Some(14.0) };
    let (time, club) = best(2, || Club::of(&bags, &[], &options));
    let pairs = club.standing.pairs.len();
    println!("whole club, {trials} trials, {growers} growers, {cells} sources, {pairs} pairs: {time:.2} s");
}

fn models(trials: usize) {
    let mut dice = Dice(2);
    let names: Vec<String> = (0..400).map(|i| format!("n{i:03}")).collect();
    let growers: Vec<f64> = (0..200).map(|_| 0.5 * dice.normal()).collect();
    let cells: Vec<f64> = (0..400).map(|_| 1.2 + 0.8 * dice.normal()).collect();
    let mut trial = |_| {
        // Few sources and growers are common, many are rare.
        let (c, g) = ((400.0 * dice.roll().powi(2)) as usize, (200.0 * dice.roll().powi(2)) as usize);
        let n = (5 + dice.below(45)) as f64;
        let p = 1.0 / (1.0 + (-(cells[c] + growers[g] + 0.6 * dice.normal())).exp());
        let x = (0..n as u32).filter(|_| dice.roll() < p).count() as f64;
        Trial { variety: &names[c / 4], cell: &names[c], grower: &names[g], x, n }
    };
    let rows: Vec<Trial> = (0..trials).map(&mut trial).collect();
    let partial = Fixed::Columns { width: 1, values: vec![1.0; trials] };
    let terms = Terms { variety: true, cell: true, grower: true, trial: true };
    let (time, sd) = best(2, || fit(&Design::new(&rows, &partial), terms).point.sd);
    println!("partial pooling, {trials} trials: {time:.2} s, {sd:.3?}");
    let terms = Terms { variety: false, cell: false, ..terms };
    let (time, sd) = best(2, || fit(&Design::new(&rows, &Fixed::Cells), terms).point.sd);
    println!("fixed cells, {trials} trials: {time:.2} s, {sd:.3?}");
}
