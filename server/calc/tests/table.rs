//! The club table: what it must say of small hand-made clubs, and what must hold for any club.

#[path = "support/dice.rs"]
mod dice;

use dice::Dice;
use hilum_calc::table::{At, Bag, Look, Looks, Of, Options, Packed, Row, table};

fn look(hours: f64, rooted: u32) -> Look {
    Look { hours, rooted, abnormal: 0, dead: 0 }
}

fn bag<'a>(source: &'a str, trial: &'a str, seeds: u32, looks: &[(f64, u32)]) -> Bag<'a> {
    Bag {
        kind: "pepper",
        variety: "Dusk",
        source,
        grower: "ann",
        trial,
        bag: "a",
        seeds,
        soaked: seeds,
        floated: false,
        put_on_paper: None,
        closed: true,
        looks: looks.iter().map(|l| look(l.0, l.1)).collect::<Vec<_>>().into(),
    }
}

fn options<'f>(at: At, day: &'f dyn Fn(&str) -> Option<f64>) -> Options<'f> {
    Options { of: Of::Started, at, as_of: None, standard_day: day }
}

fn fourteen(_: &str) -> Option<f64> {
    Some(14.0)
}

fn by_day(bags: &[Bag]) -> Vec<Row> {
    table(bags, &options(At::Day, &fourteen))
}

fn near(got: f64, want: f64) {
    assert!((got - want).abs() < 1e-9, "want {want}, got {got}");
}

#[test]
fn one_bag_seen_on_the_day_has_the_interval_of_one_proportion() {
    let row = &by_day(&[bag("a", "t1", 20, &[(120.0, 9), (330.0, 5), (500.0, 2)])])[0];
    assert_eq!((row.rooted, row.seeds, row.bags, row.trials, row.growers), (14, 20, 1, 1, 1));
    near(row.rate.unwrap(), 0.7);
    // statsmodels 0.14 proportion_confint(14, 20, method="wilson"), from memory of the formula
    assert!((row.low - 0.481_026).abs() < 1e-5 && (row.high - 0.854_526).abs() < 1e-5, "{row:?}");
    assert!(!row.estimated && row.closed_early == 0);
}

#[test]
fn at_the_close_all_that_ever_rooted_counts() {
    let bags = [bag("a", "t1", 20, &[(120.0, 9), (330.0, 5), (500.0, 2)])];
    let row = &table(&bags, &options(At::Close, &fourteen))[0];
    near(row.rate.unwrap(), 0.8);
    assert_eq!(row.day, None);
}

#[test]
fn looks_that_straddle_the_day_bound_the_rate() {
    let row = &by_day(&[bag("a", "t1", 20, &[(240.0, 8), (432.0, 8)])])[0];
    let rate = row.rate.unwrap();
    assert!(row.estimated && rate > 0.4 && rate < 0.8, "{row:?}");
    assert!(row.low <= 0.4 && row.high >= 0.8);
    assert_eq!(row.rooted, 8);
}

#[test]
fn a_bag_closed_early_is_not_a_failure() {
    let whole = bag("a", "t1", 20, &[(120.0, 10), (336.0, 8)]);
    let early = bag("a", "t2", 20, &[(120.0, 10)]);
    let row = &by_day(&[whole, early])[0];
    // Of the 10 not yet rooted at 120 h, 8 rooted by the day: 10 + 0.8 x 10 in each bag.
    assert!((row.rate.unwrap() - 0.9).abs() < 1e-6, "{row:?}");
    assert_eq!((row.closed_early, row.rooted), (1, 28));
}

#[test]
fn where_no_look_reaches_the_day_there_is_no_rate() {
    let row = &by_day(&[bag("a", "t1", 20, &[(120.0, 10)])])[0];
    assert_eq!(row.rate, None);
    assert!(row.low > 0.1 && row.low < 0.5 && row.high > 0.99, "{row:?}");
}

#[test]
fn thrown_floaters_are_failures_of_seeds_started_only() {
    let mut thrown = bag("a", "t1", 16, &[(336.0, 12)]);
    thrown.soaked = 20;
    let rate = |of| table(&[thrown.clone()], &Options { of, ..options(At::Day, &fourteen) })[0].clone();
    near(rate(Of::Started).rate.unwrap(), 0.6);
    near(rate(Of::Paper).rate.unwrap(), 0.75);
    assert_eq!(rate(Of::Started).threw_floaters, 1);
}

#[test]
fn bags_enter_by_the_date_they_went_on_paper() {
    let mut bags = vec![bag("a", "t1", 10, &[(336.0, 9)]), bag("a", "t2", 10, &[(24.0, 9)])];
    bags[0].put_on_paper = Some(100);
    bags[1].put_on_paper = Some(101);
    let of = |as_of| table(&bags, &Options { as_of: Some(as_of), ..options(At::Day, &fourteen) });
    assert_eq!(of(113).len(), 0);
    assert_eq!(of(114)[0].bags, 1);
    assert_eq!(of(115)[0].bags, 2);
}

#[test]
fn a_kind_without_a_published_day_uses_the_clubs() {
    let bags = [bag("a", "t1", 100, &[(120.0, 90), (190.0, 6), (480.0, 4)])];
    let row = &table(&bags, &options(At::Day, &|_| None))[0];
    assert_eq!((row.day, row.club_day), (Some(8.0), true));
    near(row.rate.unwrap(), 0.96);
}

#[test]
fn trials_that_disagree_widen_the_interval() {
    let alike: Vec<Bag> = ["1", "2", "3", "4"].iter().map(|t| bag("a", t, 50, &[(336.0, 30)])).collect();
    let unlike: Vec<Bag> = [("1", 10), ("2", 50), ("3", 15), ("4", 45)]
        .iter()
        .map(|(t, x)| bag("a", t, 50, &[(336.0, *x)]))
        .collect();
    let (alike, unlike) = (&by_day(&alike)[0], &by_day(&unlike)[0]);
    near(alike.design_effect, 1.0);
    assert!(unlike.design_effect > 10.0 && unlike.high - unlike.low > 2.0 * (alike.high - alike.low));
    let single = bag("b", "9", 50, &[(336.0, 30)]);
    let mut club: Vec<Bag> = [("1", 10), ("2", 50), ("3", 15), ("4", 45)]
        .iter()
        .map(|(t, x)| bag("a", t, 50, &[(336.0, *x)]))
        .collect();
    club.push(single);
    let rows = by_day(&club);
    assert!(rows[1].design_effect > 5.0, "a source of one bag takes the club's: {:?}", rows[1]);
}

#[test]
fn none_and_all_rooted_give_ends_and_no_nan() {
    for rooted in [0, 20] {
        let bags = [bag("a", "t1", 20, &[(336.0, rooted)]), bag("a", "t2", 20, &[(336.0, rooted)])];
        let row = &by_day(&bags)[0];
        near(row.rate.unwrap(), f64::from(rooted) / 20.0);
        assert!(row.low >= 0.0 && row.high <= 1.0 && row.high - row.low > 0.02, "{row:?}");
    }
}

const NAMES: [&str; 6] = ["a", "b", "c", "d", "e", "f"];

fn any_club(dice: &mut Dice) -> Vec<Bag<'static>> {
    let mut bags = Vec::new();
    for trial in 0..dice.below(12) {
        let (source, grower) = (NAMES[dice.below(3)], NAMES[dice.below(4)]);
        for name in &NAMES[..=dice.below(3)] {
            bags.push(any_bag(
                dice,
                ["t1", "t2", "t3", "t4", "t5", "t6", "t7", "t8", "t9", "u1", "u2", "u3"][trial],
                name,
            ));
            let last = bags.last_mut().unwrap();
            (last.source, last.grower) = (source, grower);
        }
    }
    bags
}

fn any_bag<'a>(dice: &mut Dice, trial: &'a str, name: &'a str) -> Bag<'a> {
    let seeds = 1 + dice.below(30) as u32;
    let mut made = bag("a", trial, seeds, &[]);
    (made.bag, made.closed, made.soaked) = (name, dice.below(3) > 0, seeds + dice.below(4) as u32);
    made.put_on_paper = Some(dice.below(40) as i32);
    let (mut left, mut hours, mut looks) = (seeds, 0.0, Vec::new());
    let ease = dice.below(4);
    for _ in 0..dice.below(8) {
        hours += 1.0 + dice.below(100) as f64;
        let mut part = |most: usize| {
            let n = dice.below(most.min(left as usize) + 1) as u32;
            left -= n;
            n
        };
        let (rooted, abnormal, dead) = (part(ease * 5), part(1), part(1));
        looks.push(Look { hours, rooted, abnormal, dead });
    }
    made.looks = looks.into();
    made
}

#[test]
fn any_club_has_finite_ordered_numbers_whatever_the_order_of_its_rows() {
    let mut dice = Dice::new(7);
    for _ in 0..400 {
        let mut bags = any_club(&mut dice);
        for at in [At::Day, At::Close] {
            for of in [Of::Started, Of::Paper] {
                let options = Options { of, at, as_of: Some(45), standard_day: &fourteen };
                let rows = table(&bags, &options);
                rows.iter().for_each(sound);
                dice.shuffle(&mut bags);
                bags.iter_mut().for_each(|b| b.looks = shuffled(b, &mut dice));
                assert_eq!(format!("{rows:?}"), format!("{:?}", table(&bags, &options)));
                let packed: Vec<Packed> = bags.iter().map(|b| Packed::from(&*b.looks.in_order())).collect();
                let same =
                    bags.iter().zip(&packed).map(|(b, looks)| Bag { looks: looks.into(), ..b.clone() });
                assert_eq!(format!("{rows:?}"), format!("{:?}", table(&same.collect::<Vec<_>>(), &options)));
            }
        }
    }
}

fn shuffled(bag: &Bag, dice: &mut Dice) -> Looks<'static> {
    let mut looks = bag.looks.in_order().into_owned();
    dice.shuffle(&mut looks);
    looks.into()
}

fn sound(row: &Row) {
    assert!(0.0 <= row.low && row.low <= row.high && row.high <= 1.0, "{row:?}");
    assert!(row.design_effect >= 1.0 && row.design_effect.is_finite(), "{row:?}");
    assert!(row.rate.is_none_or(|rate| row.low <= rate && rate <= row.high), "{row:?}");
    assert!(row.median_days.is_none_or(|d| d > 0.0), "{row:?}");
    assert!(row.rooted <= row.seeds && row.seeds <= row.soaked && row.group >= 1);
}

#[test]
fn pooling_stays_between_the_extremes() {
    let mut dice = Dice::new(11);
    for _ in 0..200 {
        let trials: Vec<(u32, u32)> = (0..5)
            .map(|_| {
                let seeds = 1 + dice.below(40);
                (seeds as u32, dice.below(seeds + 1) as u32)
            })
            .collect();
        let bags: Vec<Bag> =
            trials.iter().zip(NAMES).map(|((n, x), t)| bag("a", t, *n, &[(336.0, *x)])).collect();
        let shares = trials.iter().map(|(n, x)| f64::from(*x) / f64::from(*n));
        let (low, high) = shares.fold((1.0, 0.0), |(low, high): (f64, f64), s| (low.min(s), high.max(s)));
        let rate = by_day(&bags)[0].rate.unwrap();
        assert!(low <= rate + 1e-12 && rate <= high + 1e-12);
    }
}

/// Clubs whose trials truly differ: 95 % intervals must hold the source's mean rate about that often.
#[test]
fn intervals_cover_the_rate_of_clubs_whose_trials_differ() {
    let mut dice = Dice::new(5);
    let (mut inside, mut all) = (0, 0);
    for _ in 0..60 {
        let mut bags = Vec::new();
        for (s, source) in NAMES.iter().enumerate() {
            for trial in &TRIALS[s][..3 + dice.below(5)] {
                let p = if dice.unit() < 0.5 { 0.58 } else { 0.82 };
                let seeds = 10 + dice.below(30) as u32;
                let rooted = (0..seeds).filter(|_| dice.unit() < p).count() as u32;
                bags.push(bag(source, trial, seeds, &[(336.0, rooted)]));
            }
        }
        for row in by_day(&bags) {
            all += 1;
            inside += usize::from(row.low <= 0.7 && 0.7 <= row.high);
        }
    }
    let share = f64::from(inside as u32) / f64::from(all);
    assert!((0.92..=0.99).contains(&share), "{share}");
}

const TRIALS: [[&str; 8]; 6] = [
    ["a1", "a2", "a3", "a4", "a5", "a6", "a7", "a8"],
    ["b1", "b2", "b3", "b4", "b5", "b6", "b7", "b8"],
    ["c1", "c2", "c3", "c4", "c5", "c6", "c7", "c8"],
    ["d1", "d2", "d3", "d4", "d5", "d6", "d7", "d8"],
    ["e1", "e2", "e3", "e4", "e5", "e6", "e7", "e8"],
    ["f1", "f2", "f3", "f4", "f5", "f6", "f7", "f8"],
];
