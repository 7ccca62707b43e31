//! Sources across varieties, lots, care and floaters of clubs made with known effects.

#[path = "support/dice.rs"]
mod dice;

use dice::Dice;
use hilum_calc::club::{Care, Club, Effect, SourceStanding, Standing};
use hilum_calc::mixed::expit;
use hilum_calc::power::Question;
use hilum_calc::special::t_quantile;
use hilum_calc::table::{At, Bag, Look, Of, Options};

fn normal(dice: &mut Dice) -> f64 {
    let (u, v) = (1.0 - dice.unit(), dice.unit());
    (-2.0 * u.ln()).sqrt() * (std::f64::consts::TAU * v).cos()
}

fn rooted(dice: &mut Dice, seeds: u32, logit: f64) -> u32 {
    (0..seeds).filter(|_| dice.unit() < expit(logit)).count() as u32
}

/// One bag of a made club, with what else is known of its trial.
#[derive(Debug, Clone, Default)]
struct Made {
    variety: String,
    source: String,
    grower: String,
    trial: String,
    bag: String,
    seeds: u32,
    rooted: u32,
    floated: bool,
    routine: Option<&'static str>,
    lot: Option<String>,
}

impl Made {
    fn bag(&self) -> Bag<'_> {
        Bag {
            kind: "pepper",
            variety: &self.variety,
            source: &self.source,
            grower: &self.grower,
            trial: &self.trial,
            bag: &self.bag,
            seeds: self.seeds,
            soaked: self.seeds,
            floated: self.floated,
            put_on_paper: None,
            closed: true,
            looks: vec![Look { hours: 336.0, rooted: self.rooted, abnormal: 0, dead: 0 }].into(),
        }
    }

    fn care(&self) -> Care<'_> {
        Care {
            trial: &self.trial,
            seeds: self.seeds,
            routine: self.routine,
            warmth_c: None,
            age_years: None,
            club: None,
            lot: self.lot.as_deref(),
        }
    }
}

fn standing(made: &[Made]) -> Standing {
    let bags: Vec<Bag> = made.iter().map(Made::bag).collect();
    let cares: Vec<Care> = made.iter().map(Made::care).collect();
    let options = Options { of: Of::Paper, at: At::Close, as_of: None, standard_day: &|_| None };
    Club::of(bags, cares, &options).standing
}

/// Trials of each of `sources` with each of `varieties`, by growers who differ; `logit` says what the
/// variety, source and trial number make of a trial.
fn club(
    dice: &mut Dice,
    (varieties, sources, growers, trials): (usize, usize, usize, usize),
    logit: &dyn Fn(usize, usize, usize) -> f64,
) -> Vec<Made> {
    let care: Vec<f64> = (0..growers).map(|_| 0.4 * normal(dice)).collect();
    let mut made = Vec::new();
    for trial in 0..trials {
        let (v, s, g) = (trial % varieties, trial / varieties % sources, dice.below(growers));
        let at = logit(v, s, trial) + care[g] + 0.4 * normal(dice);
        made.push(Made {
            variety: format!("V{v}"),
            source: format!("S{s}"),
            grower: format!("g{g}"),
            trial: format!("t{trial:03}"),
            bag: "a".to_owned(),
            seeds: 20,
            rooted: rooted(dice, 20, at),
            ..Made::default()
        });
    }
    made
}

#[test]
fn a_source_that_is_better_across_varieties_is_found() {
    let of_source = [0.9, 0.0, -0.9, 0.1, -0.1];
    let made = club(&mut Dice::new(5), (6, 5, 10, 240), &|v, s, _| 0.3 * v as f64 - 0.5 + of_source[s]);
    let standing = standing(&made);
    assert_eq!(standing.sources.len(), 5);
    for (source, truth) in standing.sources.iter().zip(of_source) {
        let effect = source.effect.unwrap();
        assert!(effect.low < truth && truth < effect.high, "{source:?}");
        assert_eq!((source.varieties, source.seeds), (6, 48 * 20));
    }
    let sure = |i: usize| standing.sources[i].probability_better.unwrap();
    assert!(sure(0) > 0.99 && sure(2) < 0.01 && (0.05..0.95).contains(&sure(1)), "{:?}", standing.sources);
    let model = standing.model.unwrap();
    assert_eq!((model.fit.as_str(), model.sd.source), ("partial pooling", 0.0));
}

#[test]
fn no_number_for_a_source_that_too_little_tells_of() {
    let mut made = club(&mut Dice::new(6), (5, 4, 8, 120), &|v, s, _| 0.2 * v as f64 + 0.5 * s as f64 - 0.5);
    let one = |source: &str, variety: &str, grower: &str, i: usize| Made {
        variety: variety.to_owned(),
        source: source.to_owned(),
        grower: grower.to_owned(),
        trial: format!("x{source}{i}"),
        bag: "a".to_owned(),
        seeds: 20,
        rooted: 12,
        ..Made::default()
    };
    made.extend((0..3).map(|i| one("one variety", "V0", "g0", i)));
    made.extend((0..4).map(|i| one("by a grower alone", ["V0", "V1"][i % 2], "hermit", i)));
    let standing = standing(&made);
    let found = |name: &str| standing.sources.iter().find(|s| s.source == name).unwrap();
    assert!(found("S0").effect.is_some());
    for (name, varieties) in [("one variety", 1), ("by a grower alone", 2)] {
        let SourceStanding { varieties: of, growers, effect, probability_better, .. } = found(name);
        assert_eq!((*of, *growers, *effect, *probability_better), (varieties, 1, None, None));
    }
}

#[test]
fn sources_are_left_out_where_few_have_two_varieties_and_none_is_certain_without_a_difference() {
    let few = club(&mut Dice::new(7), (6, 2, 8, 96), &|v, s, _| 0.3 * v as f64 + s as f64 - 0.8);
    assert!(standing(&few).sources.is_empty());
    let mut alike = club(&mut Dice::new(8), (4, 4, 8, 128), &|_, _, _| 0.5);
    alike.iter_mut().for_each(|m| m.rooted = 13);
    let standing = standing(&alike);
    assert_eq!(standing.sources.len(), 4);
    assert!(standing.sources.iter().all(|s| s.effect.is_none() && s.probability_better.is_none()));
}

/// Clubs made by the model itself: the 95 % interval of a source less the club's average holds the truth.
#[test]
fn intervals_of_sources_hold_the_truth_as_often_as_they_say() {
    let mut dice = Dice::new(31);
    let (mut held, mut all) = (0, 0);
    for _ in 0..30 {
        let of_source: Vec<f64> = (0..8).map(|_| 0.5 * normal(&mut dice)).collect();
        let of_cell: Vec<f64> = (0..48).map(|_| 0.3 * normal(&mut dice)).collect();
        let made = club(&mut dice, (6, 8, 8, 144), &|v, s, _| 0.6 + of_source[s] + of_cell[8 * v + s]);
        let average = of_source.iter().sum::<f64>() / 8.0;
        for (source, truth) in standing(&made).sources.iter().zip(&of_source) {
            let Some(effect) = source.effect else { continue };
            all += 1;
            held += u32::from(effect.low < truth - average && truth - average < effect.high);
        }
    }
    let share = f64::from(held) / f64::from(all);
    assert!(all > 200 && (0.91..0.985).contains(&share), "{held} of {all}");
}

#[test]
fn lots_are_told_apart_where_enough_cells_have_two() {
    let mut dice = Dice::new(9);
    let lots: Vec<f64> = (0..60).map(|_| 0.9 * normal(&mut dice)).collect();
    let lot = |trial: usize| trial / 20 % 3;
    let mut made = club(&mut dice, (5, 4, 8, 360), &|v, s, trial| {
        0.3 * v as f64 - 0.2 * s as f64 + lots[3 * (4 * v + s) + lot(trial)]
    });
    made.iter_mut().enumerate().for_each(|(i, m)| m.lot = Some((2020 + lot(i)).to_string()));
    let model = standing(&made).model.unwrap();
    assert!(model.lots && (model.sd.lot - 0.9).abs() < 0.25, "{model:?}");
    // Two cells with several lots are too few.
    made.iter_mut().filter(|m| m.variety != "V0" || m.source.as_str() > "S1").for_each(|m| m.lot = None);
    assert_eq!(standing(&made).model.map(|m| (m.lots, m.sd.lot)), Some((false, 0.0)));
}

fn find<'e>(effects: &'e [Effect], name: &str) -> &'e Effect {
    effects.iter().find(|e| e.name == name).unwrap()
}

#[test]
fn an_effect_says_who_varied_it_and_has_no_number_within_growers_where_nobody_did() {
    let dry = |trial: usize| (trial / 7).is_multiple_of(3);
    for few in [false, true] {
        let size = if few { (1, 3, 9, 90) } else { (4, 3, 9, 120) };
        let made = club(&mut Dice::new(13), size, &|v, s, trial| {
            0.2 * v as f64 + 0.3 * s as f64 - if dry(trial) { 1.0 } else { 0.0 }
        });
        let cells = if few { "fixed cells" } else { "partial pooling" };
        let mut some = made.clone();
        some.iter_mut().enumerate().for_each(|(i, m)| m.routine = Some(if dry(i) { "dry" } else { "soak" }));
        let model = standing(&some).model.unwrap();
        assert_eq!(model.fit, cells);
        let effect = find(&model.effects, "routine: dry");
        let within = effect.within_growers.unwrap();
        assert!(within.low < -1.0 && -1.0 < within.high && within.high < 0.0, "{effect:?}");
        assert_eq!((effect.growers, effect.trials), (9, made.len()));
        // Each grower keeps to one routine.
        let keeps = |m: &Made| if m.grower.as_str() < "g4" { "dry" } else { "soak" };
        some.iter_mut().for_each(|m| m.routine = Some(keeps(m)));
        let model = standing(&some).model.unwrap();
        let effect = find(&model.effects, "routine: dry");
        assert_eq!((effect.within_growers, effect.growers, effect.trials), (None, 0, 0));
    }
}

#[test]
fn floaters_are_judged_against_the_sunk_seeds_of_their_own_trial() {
    let mut dice = Dice::new(19);
    let sunk = club(&mut dice, (4, 3, 6, 60), &|v, s, _| 0.4 * v as f64 + 0.3 * s as f64);
    let floated = |i: usize, rooted: u32| Made {
        bag: "f".to_owned(),
        floated: true,
        seeds: 6,
        rooted,
        ..sunk[i].clone()
    };
    assert!(standing(&sunk).effects.is_empty());
    // Half as many of each trial root of the floated as of the sunk.
    let half = (0..30).map(|i| floated(i, (f64::from(sunk[i].rooted) * 6.0 / 40.0).round() as u32));
    let made: Vec<Made> = sunk.iter().cloned().chain(half).collect();
    let with = standing(&made);
    let effect = find(&with.effects, "floated");
    let growers: std::collections::BTreeSet<&str> = sunk[..30].iter().map(|m| m.grower.as_str()).collect();
    assert_eq!((effect.growers, effect.trials), (growers.len(), 30));
    assert_eq!(effect.within_growers, Some(effect.estimate));
    assert!(effect.estimate.high < 0.0 && effect.estimate.value > -4.0, "{effect:?}");
    // None of the floated rooted: still a number, and more so.
    let none = (0..4).map(|i| floated(i, 0));
    let made: Vec<Made> = sunk.iter().cloned().chain(none).collect();
    let effect = find(&standing(&made).effects, "floated").estimate;
    assert!(effect.high < 0.0 && effect.low > -12.0, "{effect:?}");
}

/// The 95 % interval of floating holds the truth, whether trials are few or some.
#[test]
fn intervals_of_floating_hold_the_truth_as_often_as_they_say() {
    let mut dice = Dice::new(37);
    for trials in [12, 40] {
        let (mut held, mut all) = (0, 0);
        for _ in 0..60 {
            let mut made = club(&mut dice, (3, 3, 5, trials), &|v, s, _| 0.3 * v as f64 + 0.2 * s as f64);
            let floated: Vec<Made> = made
                .iter_mut()
                .map(|m| {
                    let at = 0.8 * normal(&mut dice);
                    let own = |dice: &mut Dice| at + 0.3 * normal(dice);
                    let logit = own(&mut dice) + 0.6;
                    (m.seeds, m.rooted) = (15, rooted(&mut dice, 15, logit));
                    let logit = own(&mut dice) - 0.6;
                    let rooted = rooted(&mut dice, 6, logit);
                    Made { bag: "f".to_owned(), floated: true, seeds: 6, rooted, ..m.clone() }
                })
                .collect();
            made.extend(floated);
            let Some(effect) = standing(&made).effects.first().map(|e| e.estimate) else { continue };
            all += 1;
            held += u32::from(effect.low < -1.2 && -1.2 < effect.high);
        }
        let share = f64::from(held) / f64::from(all);
        println!("{trials}: {held} of {all}");
        assert!(all == 60 && share >= 0.88, "{trials} trials: {held} of {all}");
    }
}

#[test]
fn the_order_of_bags_does_not_matter_to_the_last_digit() {
    let mut dice = Dice::new(29);
    let mut made = club(&mut dice, (5, 4, 6, 120), &|v, s, _| 0.4 * v as f64 + 0.3 * s as f64 - 0.5);
    for (i, m) in made.iter_mut().enumerate() {
        m.lot = Some((2020 + i / 20 % 2).to_string());
        m.routine = Some(["dry", "soak"][i / 7 % 2]);
    }
    let floated = made[..20].iter().map(|m| Made { bag: "f".to_owned(), floated: true, ..m.clone() });
    made.extend(floated.collect::<Vec<_>>());
    let first = standing(&made);
    assert!(first.sources.len() == 4 && first.effects.len() == 1 && first.model.as_ref().unwrap().lots);
    dice.shuffle(&mut made);
    assert_eq!(first, standing(&made));
    let text = serde_json::to_string(&first).unwrap();
    assert_eq!(first, serde_json::from_str(&text).unwrap());
}

#[test]
fn the_difference_of_a_pair_is_that_of_its_adjusted_rates() {
    let made = club(&mut Dice::new(23), (4, 3, 8, 120), &|v, s, _| 0.4 * v as f64 + 0.5 * s as f64 - 0.6);
    let standing = standing(&made);
    let rate = |v: &str, s: &str| standing.adjusted(("pepper", v, s)).unwrap().rate;
    assert_eq!(standing.pairs.len(), 12);
    for pair in &standing.pairs {
        let whole = pair.whole.unwrap();
        let d = whole.difference;
        assert!((d.value - rate(&pair.variety, &pair.a) + rate(&pair.variety, &pair.b)).abs() < 1e-12);
        assert!(-1.0 <= d.low && d.low < d.value && d.value < d.high && d.high <= 1.0);
        // Both intervals say the same of 0 unless it lies near an end.
        let (z, of_ratio) = (d.value / (d.high - d.low), whole.log_odds_ratio);
        assert!((z - of_ratio.value / (of_ratio.high - of_ratio.low)).abs() < 0.15 * z.abs().max(0.1));
    }
}

fn asked(p1: f64, p2: f64) -> Question {
    Question { p1, p2, alpha: 0.05, power: 0.8 }
}

#[test]
fn trials_without_spread_are_the_plain_formula_by_hand() {
    // 1 + (1.959964 + 0.841621)^2 (0.24 / 20 + 0.16 / 20) / 0.04 = 4.92
    assert_eq!(asked(0.6, 0.8).trials(0.0, 20).map(|t| (t.trials, t.seeds)), Some((5, 100)));
    let more = asked(0.6, 0.8).trials(0.6, 20).unwrap();
    assert!(more.trials > 5 && asked(0.6, 0.8).trials(0.6, 80).unwrap().trials < more.trials);
    for none in
        [asked(0.6, 0.6), asked(0.0, 0.5), asked(0.5, 1.0), asked(0.5, 0.500_01), asked(f64::NAN, 0.5)]
    {
        assert_eq!(none.trials(0.5, 20), None);
    }
    assert_eq!((asked(0.6, 0.8).trials(0.5, 0), asked(0.6, 0.8).trials(f64::NAN, 9)), (None, None));
}

/// Made trials compared by Student's test of their shares: the difference is seen 80 % of the time.
#[test]
fn so_many_trials_show_the_difference_as_often_as_asked() {
    let mut dice = Dice::new(77);
    for (p1, p2, sd, seeds) in [(0.6, 0.8, 0.6, 20_u32), (0.5, 0.7, 1.0, 10), (0.85, 0.95, 0.5, 30)] {
        let trials = asked(p1, p2).trials(sd, seeds).unwrap().trials;
        let critical = t_quantile(0.975, 2.0 * (trials - 1) as f64);
        let mut seen = 0;
        for _ in 0..1_000 {
            let mut moments = |p: f64| {
                let mut share = |_| {
                    let logit = (p / (1.0 - p)).ln() + sd * normal(&mut dice);
                    f64::from(rooted(&mut dice, seeds, logit)) / f64::from(seeds)
                };
                let shares: Vec<f64> = (0..trials).map(&mut share).collect();
                let mean = shares.iter().sum::<f64>() / trials as f64;
                let square = shares.iter().map(|x| (x - mean).powi(2)).sum::<f64>();
                (mean, square / (trials - 1) as f64 / trials as f64)
            };
            let ((one, v_one), (two, v_two)) = (moments(p1), moments(p2));
            seen += u32::from((one - two).abs() > critical * (v_one + v_two).sqrt());
        }
        let share = f64::from(seen) / 1_000.0;
        assert!((0.76..0.88).contains(&share), "{p1} {p2}: {trials} trials, {share}");
    }
}
