//! How often the 95 % intervals of adjusted and of raw rates hold the truth in made clubs, as Markdown:
//! `cargo run --release -p hilum-calc --example coverage`, with another seed after `--`.

#[path = "../../tests/support/dice.rs"]
mod dice;
mod made;
mod score;

use made::{Made, Manner, Size};
use score::{Found, Outcome, Tally, held, outcome};
use std::thread;

const SEED: u64 = 20_261_125;
const MANNERS: [Manner; 4] = [
    Manner { name: "ordinary", growers: 0.5, trials: 0.5, choosy: false },
    Manner { name: "no grower differences", growers: 0.0, trials: 0.5, choosy: false },
    Manner { name: "heavy grower differences", growers: 1.2, trials: 0.5, choosy: false },
    Manner { name: "careful growers choose good sources", growers: 0.5, trials: 0.5, choosy: true },
];
/// Growers, sources, clubs of each manner.
const SIZES: [(usize, usize, usize); 6] =
    [(3, 4, 400), (4, 8, 200), (6, 12, 130), (12, 24, 80), (20, 40, 50), (40, 60, 40)];

struct Group {
    size: usize,
    manner: usize,
    outcomes: Vec<Outcome>,
}

impl Group {
    fn found(&self) -> impl Iterator<Item = &Found> {
        self.outcomes.iter().flat_map(|o| &o.sources)
    }
}

fn main() {
    let seed = std::env::args().nth(1).and_then(|seed| seed.parse().ok()).unwrap_or(SEED);
    println!("Seed {seed}; shares in percent.\n");
    let pairs = (0..SIZES.len()).flat_map(|size| (0..MANNERS.len()).map(move |manner| (size, manner)));
    let groups: Vec<Group> = pairs.map(|(size, manner)| group(size, manner, seed)).collect();
    clubs(&groups);
    by_size(&groups);
    by_manner(&groups);
    by_tenth(&groups);
    by_knowledge(&groups);
}

/// All clubs of one size and manner, on two processors.
fn group(size: usize, manner: usize, seed: u64) -> Group {
    let (growers, cells, clubs) = SIZES[size];
    let one = |club: usize| {
        let seed = seed + ((size * MANNERS.len() + manner) * 100_000 + club) as u64;
        outcome(&Made::new(Size { growers, cells }, MANNERS[manner], seed))
    };
    let half = |from: usize| move || (from..clubs).step_by(2).map(one).collect::<Vec<_>>();
    let outcomes = thread::scope(|scope| {
        let running: Vec<_> = (0..2).map(|from| scope.spawn(half(from))).collect();
        running.into_iter().flat_map(|thread| thread.join().expect("no club ends in a panic")).collect()
    });
    Group { size, manner, outcomes }
}

fn percent(share: f64) -> String {
    if share.is_nan() { "none".to_owned() } else { format!("{:.1}", 100.0 * share) }
}

fn row(name: &str, tally: &Tally) {
    let (a, r) = (&tally.adjusted, &tally.raw);
    println!(
        "| {name} | {} | {} | {} | {:.2} | {} | {} | {:.2} |",
        tally.sources,
        percent(a.average_grower()),
        percent(a.grower_averaged()),
        a.width(),
        percent(r.grower_averaged()),
        percent(r.average_grower()),
        r.width(),
    );
}

fn head(what: &str) {
    println!(
        "\n| {what} | sources | adjusted, of the average grower | of the mean of growers | width \
         | raw, of the mean of growers | of the average grower | width |"
    );
    println!("| --- | --- | --- | --- | --- | --- | --- | --- |");
}

fn clubs(groups: &[Group]) {
    println!(
        "| growers x sources | clubs | fits that failed | growers or trials at zero | fixed cells | sources of one grower \
         | none or all rooted | no adjusted rate | pairs of sources | log odds ratio held | difference held |"
    );
    println!("| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |");
    for (size, (growers, cells, _)) in SIZES.iter().enumerate() {
        let of: Vec<&Group> = groups.iter().filter(|g| g.size == size).collect();
        let clubs: Vec<&Outcome> = of.iter().flat_map(|g| &g.outcomes).collect();
        let tally = Tally::of(of.iter().flat_map(|g| g.found()));
        let pairs: Vec<[bool; 2]> = clubs.iter().flat_map(|o| &o.pairs).copied().collect();
        let [ratios, differences] = held(&pairs);
        let n = clubs.len() as f64;
        println!(
            "| {growers} x {cells} | {n} | {} | {} | {} | {} | {} | {} | {} | {} | {} |",
            clubs.iter().filter(|o| o.failed).count(),
            percent(clubs.iter().filter(|o| o.at_zero).count() as f64 / n),
            percent(clubs.iter().filter(|o| o.fixed).count() as f64 / n),
            percent(tally.lone / tally.sources),
            percent(tally.all_or_nothing / tally.sources),
            percent(1.0 - tally.adjusted.intervals / tally.sources),
            pairs.len(),
            percent(ratios),
            percent(differences),
        );
    }
}

fn by_size(groups: &[Group]) {
    head("growers x sources");
    for (size, (growers, cells, _)) in SIZES.iter().enumerate() {
        let of = groups.iter().filter(|g| g.size == size);
        row(&format!("{growers} x {cells}"), &Tally::of(of.flat_map(Group::found)));
    }
    row("all", &Tally::of(groups.iter().flat_map(Group::found)));
}

fn by_manner(groups: &[Group]) {
    for (at, manner) in MANNERS.iter().enumerate() {
        head(manner.name);
        for group in groups.iter().filter(|g| g.manner == at) {
            let (growers, cells, _) = SIZES[group.size];
            row(&format!("{growers} x {cells}"), &Tally::of(group.found()));
        }
        row("all", &Tally::of(groups.iter().filter(|g| g.manner == at).flat_map(Group::found)));
    }
}

fn by_tenth(groups: &[Group]) {
    head("tenth of variety and source");
    for tenth in 0..10 {
        let of = groups.iter().flat_map(Group::found).filter(|f| f.tenth == tenth);
        row(&(tenth + 1).to_string(), &Tally::of(of));
    }
    head("tenth of source within variety");
    for tenth in 0..10 {
        let of = groups.iter().flat_map(Group::found).filter(|f| f.tenth_within == tenth);
        row(&(tenth + 1).to_string(), &Tally::of(of));
    }
}

/// Whether a source is one of those.
type Is = fn(&Found) -> bool;

fn by_knowledge(groups: &[Group]) {
    head("source");
    let is: [(&str, Is); 5] = [
        ("one trial", |f| f.trials == 1),
        ("one grower, several trials", |f| f.growers == 1 && f.trials > 1),
        ("two growers", |f| f.growers == 2),
        ("three growers or more", |f| f.growers > 2),
        ("none or all rooted", |f| f.all_or_nothing),
    ];
    for (name, is) in is {
        row(name, &Tally::of(groups.iter().flat_map(Group::found).filter(|f| is(f))));
    }
}
