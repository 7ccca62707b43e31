//! Designs of ring trials against the published ones. The parameters (lots, growers, bags of a lot, lots of a
//! grower, shared growers of a pair) are those of the tables of balanced incomplete blocks of Fisher and Yates
//! (Statistical Tables, 6th ed. 1963, tables XVIII and XIX) and of Cochran and Cox (Experimental Designs, 2nd
//! ed. 1957, table 11.1a), from memory; that a design is balanced is counted here, not taken from there.

use hilum_calc::blocks::{Design, Fault, MAX_GROWERS, MAX_LOTS};
use std::time::Duration;

/// t, b, r, k, lambda.
const PUBLISHED: &[(usize, usize, usize, usize, usize)] = &[
    (3, 3, 2, 2, 1),
    (4, 4, 3, 3, 2),
    (4, 6, 3, 2, 1),
    (5, 5, 4, 4, 3),
    (5, 10, 4, 2, 1),
    (5, 10, 6, 3, 3),
    (6, 10, 5, 3, 2),
    (6, 15, 5, 2, 1),
    (6, 15, 10, 4, 6),
    (7, 7, 3, 3, 1),
    (7, 7, 4, 4, 2),
    (7, 21, 6, 2, 1),
    (8, 14, 7, 4, 3),
    (8, 28, 7, 2, 1),
    (9, 12, 4, 3, 1),
    (9, 12, 8, 6, 5),
    (9, 18, 8, 4, 3),
    (10, 15, 6, 4, 2),
    (10, 18, 9, 5, 4),
    (11, 11, 5, 5, 2),
    (11, 11, 6, 6, 3),
    (13, 13, 4, 4, 1),
    (13, 13, 9, 9, 6),
    (13, 26, 6, 3, 1),
    (15, 15, 7, 7, 3),
    (21, 21, 5, 5, 1),
    (25, 30, 6, 5, 1),
];

#[test]
fn published_balanced_designs_are_found() {
    for &(t, b, r, k, lambda) in PUBLISHED {
        let design = Design::find(t, b, k).unwrap();
        assert_eq!(design.growers_of_lots(), vec![r; t], "{t} {b} {k}");
        assert_eq!(design.fewest_and_most(), (lambda, lambda), "{t} {b} {k}");
        assert!(design.is_balanced() && design.is_linked());
        // Yates 1936: lambda t / (r k)
        let factor = (lambda * t) as f64 / (r * k) as f64;
        assert!((design.efficiency() - factor).abs() < 1e-12, "{t} {b} {k}");
    }
}

#[test]
fn a_design_repeated_stays_balanced_and_complete_blocks_lose_nothing() {
    let twice = Design::find(7, 14, 3).unwrap();
    assert_eq!((twice.fewest_and_most(), twice.growers_of_lots()), ((2, 2), vec![6; 7]));
    let complete = Design::find(3, 5, 3).unwrap();
    assert_eq!(complete.fewest_and_most(), (5, 5));
    assert!((complete.efficiency() - 1.0).abs() < 1e-12);
}

/// Every lot as often as every other within one, every grower so many different lots, all linked.
fn in_order(t: usize, b: usize, k: usize) -> Result<Design, Fault> {
    let design = Design::find(t, b, k)?;
    let counts = design.growers_of_lots();
    let (least, most) = (counts.iter().min().unwrap(), counts.iter().max().unwrap());
    assert!(most - least <= 1 && *least > 0, "{t} {b} {k}: {counts:?}");
    assert_eq!(design.blocks().len(), b);
    for block in design.blocks() {
        let mut lots = block.clone();
        lots.dedup();
        assert!(lots.len() == k && lots.iter().all(|lot| *lot < t), "{t} {b} {k}: {block:?}");
    }
    assert!(design.is_linked(), "{t} {b} {k}");
    assert!(design.efficiency() > 0.0 && design.efficiency() <= 1.0 + 1e-12);
    Ok(design)
}

#[test]
fn every_design_is_even_and_linked() {
    let mut found = 0;
    for t in 2..=8 {
        for b in 1..=9 {
            for k in 2..=t {
                let linkable = b * (k - 1) >= t - 1;
                match in_order(t, b, k) {
                    Ok(_) => {
                        assert!(linkable);
                        found += 1;
                    }
                    Err(fault) => assert_eq!((fault, linkable), (Fault::NotLinked, false), "{t} {b} {k}"),
                }
            }
        }
    }
    assert!(found > 150);
}

/// Sum of squared meetings over pairs.
fn unevenness(design: &Design, t: usize) -> usize {
    let pairs = (0..t).flat_map(|a| (a + 1..t).map(move |b| (a, b)));
    pairs.map(|(a, b)| design.meetings(a, b).pow(2)).sum()
}

/// The least unevenness of all even and linked designs, by going through every one.
fn least(t: usize, b: usize, k: usize) -> usize {
    let blocks: Vec<Vec<usize>> = (0..1_usize << t)
        .map(|set| (0..t).filter(|lot| set >> lot & 1 == 1).collect::<Vec<_>>())
        .filter(|block| block.len() == k)
        .collect();
    let mut best = usize::MAX;
    let mut chosen = vec![0; b];
    loop {
        let design = Design::new(t, chosen.iter().map(|i: &usize| blocks[*i].clone()).collect());
        let counts = design.growers_of_lots();
        let even = counts.iter().max().unwrap() - counts.iter().min().unwrap() <= 1;
        if even && design.is_linked() {
            best = best.min(unevenness(&design, t));
        }
        // the next choice that does not fall
        let Some(at) = (0..b).rev().find(|i| chosen[*i] + 1 < blocks.len()) else { return best };
        let next = chosen[at] + 1;
        chosen[at..].fill(next);
    }
}

#[test]
fn no_small_design_is_more_even_than_the_one_found() {
    for (t, k) in [(3, 2), (4, 2), (4, 3), (5, 2), (5, 3), (5, 4)] {
        for b in (t - 1_usize).div_ceil(k - 1)..=5 {
            let found = Design::find(t, b, k).unwrap();
            assert_eq!(unevenness(&found, t), least(t, b, k), "{t} {b} {k}: {:?}", found.blocks());
        }
    }
}

#[test]
fn the_best_of_uneven_designs_is_near_what_the_bound_allows() {
    // The greatest efficiency factor of any design: (1 - 1/k) / (1 - 1/t), reached by balanced ones alone
    // (John and Williams 1995, Cyclic and Computer Generated Designs, ch. 2; from memory).
    for (t, b, k) in [(5, 7, 3), (6, 8, 3), (6, 7, 4), (8, 10, 3), (10, 12, 4), (12, 9, 4), (15, 10, 5)] {
        let design = in_order(t, b, k).unwrap();
        let bound = (1.0 - 1.0 / k as f64) / (1.0 - 1.0 / t as f64);
        let ratio = design.efficiency() / bound;
        assert!(ratio < 1.0 && ratio > 0.94, "{t} {b} {k}: {ratio}");
    }
}

#[test]
fn names_and_order_do_not_matter() {
    for (t, b, k) in [(6, 10, 3), (6, 8, 3), (7, 7, 3), (4, 9, 4)] {
        let design = Design::find(t, b, k).unwrap();
        assert_eq!(design, Design::find(t, b, k).unwrap(), "the same question has the same answer");
        for seed in [0, 1, 7, u64::MAX] {
            let shuffled = design.shuffled(seed);
            assert_eq!(shuffled, design.shuffled(seed));
            assert_eq!(shuffled.fewest_and_most(), design.fewest_and_most());
            assert!((shuffled.efficiency() - design.efficiency()).abs() < 1e-9);
            assert!(shuffled.is_linked());
        }
        assert_ne!(design.shuffled(1).blocks(), design.shuffled(2).blocks());
    }
}

#[test]
fn every_lot_comes_to_every_place_when_shuffled() {
    let design = Design::find(4, 4, 3).unwrap();
    let mut seen = [[0; 4]; 3];
    for seed in 0..2000 {
        let first = &design.shuffled(seed).blocks()[0].clone();
        first.iter().zip(&mut seen).for_each(|(lot, place)| place[*lot] += 1);
    }
    // 500 expected each, standard deviation 19: five of them either way
    assert!(seen.iter().flatten().all(|n| (400..600).contains(n)), "{seen:?}");
}

#[test]
fn links_that_are_not_there_are_seen() {
    let apart = Design::new(4, vec![vec![0, 1], vec![2, 3], vec![1, 0]]);
    assert!(!apart.is_linked() && !apart.is_balanced());
    assert_eq!(apart.efficiency(), 0.0);
    let never = Design::new(3, vec![vec![0, 1]]);
    assert!(!never.is_linked());
}

#[test]
#[expect(clippy::disallowed_types, reason = "the library has no clock, this test needs one")]
fn impossible_and_hostile_sizes_are_answered_in_time() {
    assert_eq!(Design::find(0, 3, 2), Err(Fault::Nothing));
    assert_eq!(Design::find(1, 3, 1), Err(Fault::Nothing));
    assert_eq!(Design::find(4, 0, 2), Err(Fault::Nothing));
    assert_eq!(Design::find(4, 4, 1), Err(Fault::LotsEach));
    assert_eq!(Design::find(4, 4, 5), Err(Fault::LotsEach));
    assert_eq!(Design::find(MAX_LOTS + 1, 4, 2), Err(Fault::TooLarge));
    assert_eq!(Design::find(usize::MAX, usize::MAX, usize::MAX), Err(Fault::TooLarge));
    assert_eq!(Design::find(9, 3, 3), Err(Fault::NotLinked));
    for (t, b, k) in [
        (MAX_LOTS, MAX_GROWERS, MAX_LOTS - 1),
        (MAX_LOTS, MAX_GROWERS, 20),
        (MAX_LOTS, MAX_GROWERS, 2),
        (MAX_LOTS, 39, 2),
        (39, 195, 13),
        (36, 42, 6),
        (22, 33, 12),
    ] {
        let began = std::time::Instant::now();
        in_order(t, b, k).unwrap();
        assert!(began.elapsed() < Duration::from_secs(20), "{t} {b} {k}: {:?}", began.elapsed());
    }
}
