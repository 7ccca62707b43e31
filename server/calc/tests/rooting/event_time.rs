//! Capacity and time of rooting: what must hold for any looks.

use crate::support::{Dice, table};
use hilum_calc::event_time::{Fate, Fit, Form, Removed, Seeds, Status, giving_up};

fn rooted(l: f64, r: f64, count: f64) -> Seeds {
    Seeds { fate: Fate::Rooted { l, r }, count, bag: 0 }
}

fn on_paper(l: f64, count: f64) -> Seeds {
    Seeds { fate: Fate::OnPaper { l }, count, bag: 0 }
}

/// A bag of up to 60 seeds with looks at random days, some mouldy, some never to root.
fn bag(dice: &mut Dice, bag: usize) -> Vec<Seeds> {
    let seeds = 1 + dice.below(60);
    let (p, t50, steep) = (dice.even(), 1.0 + 15.0 * dice.even(), 1.0 + 8.0 * dice.even());
    let mut looks = vec![0.0];
    for _ in 0..1 + dice.below(12) {
        looks.push(looks[looks.len() - 1] + 0.5 + dice.below(4) as f64);
    }
    let one = |_| {
        let (u, never, mould) = (dice.even(), dice.even() > p, dice.below(12) == 0);
        let t = if never { f64::INFINITY } else { t50 * (u / (1.0 - u)).powf(1.0 / steep) };
        let seen = looks.windows(2).find(|w| t <= w[1]);
        let fate = match seen {
            Some(w) => Fate::Rooted { l: w[0], r: w[1] },
            None if mould => Fate::Removed { l: looks[1 + dice.below(looks.len() as u64 - 1) as usize] },
            None => Fate::OnPaper { l: looks[looks.len() - 1] },
        };
        Seeds { fate, count: 1.0, bag }
    };
    (0..seeds).map(one).collect()
}

/// The log-likelihood as the formula has it, with no care for rounding.
fn plain(seeds: &[Seeds], removed: Removed, form: Form, (p, t50, shape): (f64, f64, f64)) -> f64 {
    let g = |t: f64| match form {
        _ if t <= 0.0 => 0.0,
        Form::LogLogistic => 1.0 / (1.0 + (t / t50).powf(-shape)),
        Form::LogNormal => hilum_calc::special::normal_cdf((t / t50).ln() / shape),
        Form::Weibull => 1.0 - (-std::f64::consts::LN_2 * (t / t50).powf(shape)).exp(),
    };
    let share = |s: &Seeds| match s.fate {
        Fate::Rooted { l, r } => p * (g(r) - g(l)),
        Fate::Removed { .. } if removed == Removed::Never => 1.0 - p,
        Fate::OnPaper { l } | Fate::Removed { l } => 1.0 - p * g(l),
    };
    seeds.iter().map(|s| s.count * share(s).ln()).sum()
}

#[test]
fn no_other_numbers_are_likelier_than_the_fit() {
    let mut dice = Dice(3);
    let mut ends = [0; 3];
    for round in 0..200 {
        let seeds = bag(&mut dice, 0);
        for (form, removed) in
            Form::ALL.into_iter().flat_map(|f| [(f, Removed::Censored), (f, Removed::Never)])
        {
            let fit = Fit::of(&seeds, form, removed);
            ends[fit.status as usize] += 1;
            let (Some(p), Some(t50), Some(shape)) = (fit.p(), fit.t50(), fit.shape()) else {
                assert_eq!(fit.status, Status::NotEstimable);
                continue;
            };
            let here = plain(&seeds, removed, form, (p, t50, shape));
            assert!(
                (here - fit.loglik).abs() < 1e-6 * here.abs().max(1.0),
                "{round} {form:?}: {here} {}",
                fit.loglik
            );
            for k in 0..60 {
                let reach = [0.02, 0.3, 2.0][k % 3];
                let mut shift = || ((dice.even() - 0.5) * reach).exp();
                let other = ((p * shift()).min(1.0), t50 * shift(), shape * shift());
                let there = plain(&seeds, removed, form, other);
                assert!(
                    there.is_nan() || there <= fit.loglik + 1e-7,
                    "{round} {form:?} {removed:?}: {other:?} is likelier than {fit:?}"
                );
            }
        }
    }
    println!("ok, boundary, not estimable: {ends:?}");
    assert!(ends.iter().all(|n| *n > 20), "{ends:?}");
}

#[test]
fn every_number_of_a_fit_is_finite_and_inside_its_range() {
    let mut dice = Dice(4);
    for round in 0..40 {
        let seeds: Vec<Seeds> = (0..1 + dice.below(3) as usize).flat_map(|b| bag(&mut dice, b)).collect();
        let removed = if round % 2 == 0 { Removed::Censored } else { Removed::Never };
        let now = 20.0 * dice.even();
        for form in Form::ALL {
            check_numbers(&Fit::of(&seeds, form, removed), &seeds, removed, now);
        }
        let verdict = giving_up(&seeds, removed, (now, 5.0), 0.5, 0.95);
        assert!((0.0..=5.0).contains(&verdict.most_to_come), "{verdict:?}");
        assert!(verdict.from.is_none_or(|t| t >= now && t <= 8.0 * now), "{verdict:?} at {now}");
        assert!(!verdict.supported || verdict.most_to_come <= 0.5 + 1e-6, "{verdict:?}");
    }
}

fn check_numbers(fit: &Fit, seeds: &[Seeds], removed: Removed, now: f64) {
    let inside = |(low, high): (f64, f64), x: f64| {
        let slack = 1e-6 * x.abs().max(1e-6);
        assert!(
            low.is_finite() && high.is_finite() && low <= x + slack && x <= high + slack,
            "{low} {x} {high} {fit:?}"
        );
    };
    let ever = fit.ever(now, 0.95);
    if let Some((low, high)) = fit.ever_profile(now, 0.95) {
        assert!((0.0..=1.0).contains(&low) && low <= high && high <= 1.0, "{low} {high} {fit:?}");
        if let Some(ever) = ever {
            inside((low, high), ever.chance);
        }
    }
    let Some(p) = fit.p() else {
        assert!(ever.is_none() && fit.errors().is_none() && fit.p_profile(0.95).is_none());
        return;
    };
    let (errors, ever) = (fit.errors().unwrap(), ever.unwrap());
    let numbers = [
        errors.t50,
        errors.shape,
        errors.p.unwrap_or(0.0),
        fit.loglik,
        fit.aic().unwrap(),
        ever.se.unwrap_or(0.0),
    ];
    assert!(numbers.iter().all(|x| x.is_finite()), "{numbers:?} {fit:?}");
    assert!(numbers[..3].iter().all(|x| *x >= 0.0) && (0.0..=1.0).contains(&ever.chance), "{numbers:?}");
    inside(fit.p_profile(0.95).unwrap(), p);
    inside(fit.t50_interval(0.95).unwrap(), fit.t50().unwrap());
    fit.p_interval(0.95).into_iter().for_each(|ends| inside(ends, p));
    ever.interval.into_iter().for_each(|ends| inside(ends, ever.chance));
    let within = fit.within(now, 3.0).unwrap();
    assert!((0.0..=ever.chance + 1e-9).contains(&within.chance), "{within:?} {ever:?}");
    assert!(fit.next_look(now, 4.0, 0.8).is_none_or(|t| t >= now && t.is_finite()));
    let shares: Vec<f64> = (0..40).map(|t| fit.share(f64::from(t)).unwrap()).collect();
    assert!(shares.windows(2).all(|w| w[0] <= w[1] && w[1] <= p), "{shares:?}");
    if let Some(by_bag) = fit.errors_by_bag(seeds, removed) {
        assert!(
            by_bag.t50.is_finite() && by_bag.shape.is_finite() && by_bag.p.unwrap_or(0.0).is_finite(),
            "{by_bag:?}"
        );
    }
}

#[test]
fn the_order_of_rows_does_not_matter_to_the_last_bit() {
    let mut dice = Dice(5);
    let mut seeds: Vec<Seeds> = (0..4).flat_map(|b| bag(&mut dice, b)).collect();
    for form in Form::ALL {
        let before = Fit::of(&seeds, form, Removed::Censored);
        let by_bag = before.errors_by_bag(&seeds, Removed::Censored);
        seeds.reverse();
        let after = Fit::of(&seeds, form, Removed::Censored);
        assert_eq!(before.loglik.to_bits(), after.loglik.to_bits());
        assert_eq!((before.p(), before.t50(), before.shape()), (after.p(), after.t50(), after.shape()));
        assert_eq!(by_bag, after.errors_by_bag(&seeds, Removed::Censored));
    }
}

#[test]
fn hours_and_days_tell_the_same() {
    let days = [rooted(0.0, 3.0, 4.0), rooted(3.0, 4.0, 9.0), rooted(4.0, 6.0, 5.0), on_paper(9.0, 6.0)];
    let hours = days.map(|s| match s.fate {
        Fate::Rooted { l, r } => rooted(24.0 * l, 24.0 * r, s.count),
        Fate::OnPaper { l } | Fate::Removed { l } => on_paper(24.0 * l, s.count),
    });
    for form in Form::ALL {
        let (d, h) = (Fit::of(&days, form, Removed::Censored), Fit::of(&hours, form, Removed::Censored));
        assert!((24.0 * d.t50().unwrap() - h.t50().unwrap()).abs() < 1e-7, "{form:?}");
        assert!(
            (d.p().unwrap() - h.p().unwrap()).abs() < 1e-9
                && (d.shape().unwrap() - h.shape().unwrap()).abs() < 1e-6
        );
    }
}

#[test]
fn a_million_seeds_give_the_numbers_of_a_hundred_with_smaller_errors() {
    let few = [rooted(2.0, 4.0, 20.0), rooted(4.0, 5.0, 30.0), rooted(5.0, 8.0, 20.0), on_paper(12.0, 30.0)];
    let many = few.map(|s| Seeds { count: 1e4 * s.count, ..s });
    for form in Form::ALL {
        let (a, b) = (Fit::of(&few, form, Removed::Censored), Fit::of(&many, form, Removed::Censored));
        assert!(
            (a.p().unwrap() - b.p().unwrap()).abs() < 1e-8
                && (a.t50().unwrap() - b.t50().unwrap()).abs() < 1e-8
        );
        assert!((a.errors().unwrap().t50 / b.errors().unwrap().t50 - 100.0).abs() < 1e-3);
    }
}

#[test]
fn looks_that_cannot_tell_are_not_estimable() {
    let cases: [&[Seeds]; 6] = [
        &[],
        &[on_paper(9.0, 20.0)],
        &[rooted(3.0, 4.0, 1.0)],
        &[rooted(0.0, 4.0, 20.0)],
        &[rooted(3.0, 4.0, 18.0), on_paper(20.0, 2.0)],
        &[rooted(0.0, 3.0, 5.0), rooted(3.0, 4.0, 12.0), on_paper(4.0, 23.0)],
    ];
    for seeds in cases {
        for form in Form::ALL {
            let fit = Fit::of(seeds, form, Removed::Censored);
            assert_eq!(fit.status, Status::NotEstimable, "{seeds:?} {fit:?}");
            assert!(fit.p().is_none() && fit.aic().is_none() && fit.within(9.0, 3.0).is_none());
        }
    }
}

#[test]
fn all_rooted_is_the_boundary() {
    let seeds = [rooted(2.0, 4.0, 20.0), rooted(4.0, 5.0, 30.0), rooted(5.0, 8.0, 20.0)];
    for form in Form::ALL {
        let fit = Fit::of(&seeds, form, Removed::Censored);
        assert_eq!((fit.status, fit.p()), (Status::BoundaryP1, Some(1.0)));
        let (low, high) = fit.p_profile(0.95).unwrap();
        assert!(low > 0.9 && high == 1.0);
    }
}

#[test]
fn errors_by_bag_of_bags_alike_are_near_zero_and_of_bags_unlike_are_wider() {
    let half = |bag: usize, early: f64, late: f64| {
        [
            rooted(2.0, 4.0, early),
            rooted(4.0, 5.0, 10.0),
            rooted(5.0, 8.0, late),
            on_paper(12.0, 20.0 - early),
        ]
        .map(|s| Seeds { bag, ..s })
    };
    let alike: Vec<Seeds> = (0..6).flat_map(|bag| half(bag, 8.0, 8.0)).collect();
    let unlike: Vec<Seeds> =
        (0..6).flat_map(|bag| half(bag, if bag % 2 == 0 { 1.0 } else { 15.0 }, 8.0)).collect();
    let fit = Fit::of(&alike, Form::LogLogistic, Removed::Censored);
    assert!(fit.errors_by_bag(&alike, Removed::Censored).unwrap().t50 < 1e-6);
    let fit = Fit::of(&unlike, Form::LogLogistic, Removed::Censored);
    assert!(fit.errors_by_bag(&unlike, Removed::Censored).unwrap().t50 > fit.errors().unwrap().t50);
}

#[test]
fn giving_up_comes_with_waiting_and_not_before_rooting_begins() {
    let rising = [rooted(0.0, 2.0, 1.0), rooted(2.0, 3.0, 6.0), rooted(3.0, 4.0, 11.0), on_paper(4.0, 32.0)];
    let early = giving_up(&rising, Removed::Censored, (4.0, 32.0), 0.5, 0.95);
    assert!(!early.supported && early.most_to_come > 20.0, "{early:?}");
    let done = [
        rooted(0.0, 2.0, 1.0),
        rooted(2.0, 3.0, 6.0),
        rooted(3.0, 4.0, 11.0),
        rooted(4.0, 6.0, 2.0),
        on_paper(40.0, 3.0),
    ];
    let late = giving_up(&done, Removed::Censored, (40.0, 3.0), 0.5, 0.95);
    assert!(late.supported && late.from == Some(40.0), "{late:?}");
    let nothing = giving_up(&[on_paper(40.0, 30.0)], Removed::Censored, (40.0, 30.0), 0.5, 0.95);
    assert!(!nothing.supported && nothing.most_to_come == 30.0 && nothing.from.is_none(), "{nothing:?}");
}

#[test]
fn even_rooting_between_two_looks_still_lets_giving_up_be_judged() {
    let seeds = |until: f64| [rooted(5.0, 6.0, 18.0), on_paper(until, 2.0)];
    let soon = giving_up(&seeds(6.0), Removed::Censored, (6.0, 2.0), 0.5, 0.95);
    let later = giving_up(&seeds(30.0), Removed::Censored, (30.0, 2.0), 0.5, 0.95);
    assert!(!soon.supported && later.supported, "{soon:?} {later:?}");
    assert!(soon.from.is_some_and(|t| t > 6.0 && t < 30.0), "{soon:?}");
}

#[test]
fn chickweed_as_published() {
    // Ritz, Pipper & Streibig 2013, data and estimates as printed on the help page of R package drc:
    // slope 20.767, upper limit 0.20011, t50 196.053; errors 2.944, 0.0283, 2.506; t10 176.370, t90 217.933.
    let row = |row: &csv::StringRecord| {
        let number = |i: usize| row[i].parse::<f64>().unwrap();
        let (l, r, count) = (number(0), number(1), number(2));
        if r.is_finite() { rooted(l, r, count) } else { on_paper(l, count) }
    };
    let seeds: Vec<Seeds> = table("chickweed").iter().map(row).collect();
    let fit = Fit::of(&seeds, Form::LogLogistic, Removed::Censored);
    let errors = fit.errors().unwrap();
    let near = |x: f64, printed: f64, step: f64| assert!((x - printed).abs() <= step, "{x} is not {printed}");
    near(fit.shape().unwrap(), 20.767, 0.001);
    near(fit.p().unwrap(), 0.20011, 1e-5);
    near(fit.t50().unwrap(), 196.053, 0.001);
    near(errors.shape, 2.944, 0.001);
    near(errors.p.unwrap(), 0.0283, 1e-4);
    near(errors.t50, 2.506, 0.001);
    for (share, printed) in [(0.1, 176.370), (0.9, 217.933)] {
        near(fit.share(printed).unwrap() / fit.p().unwrap(), share, 1e-5);
    }
}

#[test]
fn errors_by_bag_and_the_profile_of_what_is_to_come_agree_with_r() {
    // tests/reference/scripts/event_time_checks.R with R 4.2.2: optim, numerical derivatives, uniroot.
    let bag = |bag: usize, rooted_in: [(f64, f64, f64); 3], (last, left): (f64, f64)| {
        let rows = rooted_in.map(|(l, r, count)| Seeds { bag, ..rooted(l, r, count) });
        rows.into_iter().chain([Seeds { bag, ..on_paper(last, left) }])
    };
    let seeds: Vec<Seeds> = bag(1, [(0.0, 3.0, 2.0), (3.0, 5.0, 9.0), (5.0, 8.0, 4.0)], (12.0, 5.0))
        .chain(bag(2, [(2.0, 4.0, 6.0), (4.0, 6.0, 7.0), (6.0, 9.0, 1.0)], (12.0, 6.0)))
        .chain(bag(3, [(0.0, 4.0, 12.0), (4.0, 5.0, 3.0), (5.0, 7.0, 2.0)], (10.0, 3.0)))
        .chain(bag(4, [(3.0, 5.0, 4.0), (5.0, 7.0, 6.0), (7.0, 11.0, 3.0)], (12.0, 9.0)))
        .collect();
    let fit = Fit::of(&seeds, Form::LogLogistic, Removed::Censored);
    let near = |x: f64, r: f64, part: f64| assert!((x / r - 1.0).abs() < part, "{x} is not {r}");
    near(fit.loglik, -112.758767374, 1e-10);
    near(fit.t50().unwrap(), 4.2443723092, 1e-8);
    let by_bag = fit.errors_by_bag(&seeds, Removed::Censored).unwrap();
    near(by_bag.p.unwrap(), 0.053079136, 1e-5);
    near(by_bag.t50, 0.451399901, 1e-5);
    near(by_bag.shape, 0.741613320, 1e-5);
    near(fit.ever(12.0, 0.95).unwrap().chance, 0.01034339431, 1e-7);
    let (low, high) = fit.ever_profile(12.0, 0.95).unwrap();
    near(low, 0.0015560313, 1e-5);
    near(high, 0.0542264303, 1e-5);
}
