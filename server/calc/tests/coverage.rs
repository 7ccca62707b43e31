//! A small part of the simulation that `examples/coverage` prints whole: 95 % intervals hold the truth
//! about that often on average over sources.

#[path = "support/dice.rs"]
mod dice;
#[path = "../examples/coverage/made.rs"]
mod made;
#[path = "../examples/coverage/score.rs"]
mod score;

use made::{Made, Manner, Size};
use score::{Found, Outcome, Tally, held, outcome};

const MANNER: Manner = Manner { name: "ordinary", growers: 0.5, trials: 0.5, choosy: false };

fn outcomes() -> Vec<Outcome> {
    let clubs = [(3, 4, 40), (4, 8, 20), (6, 12, 10), (12, 24, 2)];
    let seeds = clubs.iter().flat_map(|(growers, cells, clubs)| {
        (0..*clubs).map(move |club| (Size { growers: *growers, cells: *cells }, 1_000 * *cells as u64 + club))
    });
    seeds.map(|(size, seed)| outcome(&Made::new(size, MANNER, seed))).collect()
}

#[test]
fn intervals_of_made_clubs_hold_what_is_true() {
    let outcomes = outcomes();
    let found: Vec<&Found> = outcomes.iter().flat_map(|o| &o.sources).collect();
    let all = Tally::of(found.iter().copied());
    let (adjusted, raw) = (all.adjusted.average_grower(), all.raw.grower_averaged());
    println!("{}: adjusted {adjusted:.3}, raw {raw:.3} of {} sources", MANNER.name, all.sources);
    assert!((0.93..0.985).contains(&adjusted), "adjusted {adjusted}");
    assert!((0.92..0.985).contains(&raw), "raw {raw}");
    assert!(all.adjusted.width() < 0.5 && all.raw.width() < 0.55, "an interval of no use holds anything");
    assert!(all.adjusted.grower_averaged() > 0.9 && all.raw.average_grower() > 0.88);
    assert!((all.adjusted.intervals - all.sources).abs() < 0.5 && outcomes.iter().all(|o| !o.failed));
    // Clubs where some spread is estimated at 0 are among them, and sources of one grower.
    assert!(outcomes.iter().filter(|o| o.at_zero && o.fixed).count() > 5 && all.lone > 0.15 * all.sources);
    assert!(all.all_or_nothing > 0.0 && found.iter().any(|f| f.trials == 1));
    let pairs: Vec<[bool; 2]> = outcomes.iter().flat_map(|o| &o.pairs).copied().collect();
    let [ratios, differences] = held(&pairs);
    assert!((0.92..0.99).contains(&ratios), "log odds ratios {ratios}");
    assert!((0.90..0.99).contains(&differences), "differences {differences}");
    let tenths = |of: fn(&Found) -> usize| (0..10).all(|tenth| found.iter().any(|f| of(f) == tenth));
    assert!(tenths(|f| f.tenth) && tenths(|f| f.tenth_within), "effects of every size are among them");
    assert!(found.iter().all(|f| f.growers <= f.trials));
}
