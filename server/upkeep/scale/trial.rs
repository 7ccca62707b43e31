//! One trial from the soak to the tray, drawn as such things go.

use super::club::{Club, Packet, TRIALS_OF_PACKET};
use crate::db::ids::At;
use crate::notebook::planting::NEVER_UP;
use crate::routines::model::Step;
use hilum_calc::dice::Dice;

const TRIALS: u64 = 5;
/// The days on paper on which members look, and on which they close.
const LOOKS: std::ops::RangeInclusive<i64> = 3..=13;
const CLOSED: i64 = 14;
const OUTCOME_AFTER_DAYS: i64 = 6;
/// Rows and columns of a member's tray.
pub const TRAY: (i64, i64) = (6, 12);
/// Rooted seeds without a cell go to other growers so many days after the bag was closed.
const GIVEN_AFTER_DAYS: i64 = 2;
/// One trial in so many is planted into the tray.
const PLANTED: usize = 6;
const SEEDS_PLANTED: i64 = 3;

#[derive(Debug, Clone)]
pub struct Trial {
    pub member: usize,
    /// Place among the member's packets, from 0.
    pub packet: usize,
    pub routine: usize,
    pub began: At,
    pub seeds: i64,
    /// Steps done: position, moment.
    pub steps: Vec<(i64, At)>,
    pub tally: Option<Tally>,
    pub bags: Vec<Bag>,
}

/// Floaters are thrown out or kept in.
#[derive(Debug, Clone)]
pub struct Tally {
    pub at: At,
    pub sank: i64,
    pub floated: i64,
    pub thrown_out: bool,
}

impl Tally {
    /// What became of the floaters, as stored.
    pub fn floaters(&self) -> &'static str {
        match (self.floated, self.thrown_out) {
            (0, _) => "",
            (_, true) => "thrown out",
            (_, false) => "kept in",
        }
    }
}

#[derive(Debug, Clone)]
pub struct Bag {
    pub at: At,
    pub seeds: i64,
    pub looks: Vec<Look>,
    pub closing: Option<Closing>,
    pub planted: Option<Planted>,
    /// When its other rooted seeds were given away, and how many.
    pub given: Option<(At, i64)>,
}

#[derive(Debug, Clone, Copy)]
pub struct Look {
    pub at: At,
    pub rooted: i64,
    pub abnormal: i64,
    pub dead: i64,
}

#[derive(Debug, Clone, Copy)]
pub struct Closing {
    pub at: At,
    /// Given up: nobody examined what was left.
    pub abandoned: bool,
    pub fresh: i64,
    pub dead: i64,
    pub not_examined: i64,
}

impl Closing {
    /// As stored.
    pub fn ending(&self) -> &'static str {
        if self.abandoned { "abandoned" } else { "final count" }
    }

    pub fn why(&self) -> &'static str {
        if self.abandoned { "mould" } else { "" }
    }
}

/// One seed to a cell, from `cell` on.
#[derive(Debug, Clone)]
pub struct Planted {
    pub at: At,
    pub cell: i64,
    pub seeds: i64,
    /// When it was seen which came up, and how many did.
    pub outcome: Option<(At, i64)>,
}

impl Planted {
    /// What is noted of the `nth` of them: sort and reason.
    pub fn fate(&self, nth: i64) -> Option<(At, &'static str, &'static str)> {
        let (at, up) = self.outcome?;
        Some(if nth < up { (at, "up", "") } else { (at, "lost", NEVER_UP) })
    }
}

impl Club {
    /// The `n`-th trial, where the routines have these steps.
    pub fn trial(&self, n: usize, routines: &[Vec<Step>]) -> Trial {
        let mut dice = Dice::of(TRIALS, n);
        let (member, nth) = (n % self.size.members, n / self.size.members);
        let began = self.began(member, nth);
        let routine = dice.among(0, routines.len() as i64 - 1) as usize;
        let steps: Vec<(i64, At)> = ends(&routines[routine], began).collect();
        let soaked = steps.last().map_or(began, |(_, at)| *at);
        let seeds = self.seeds(n);
        let tally = (!steps.is_empty() && dice.happens(0.8)).then(|| tally(seeds, soaked, &mut dice));
        let on_paper = seeds - tally.iter().filter(|t| t.thrown_out).map(|t| t.floated).sum::<i64>();
        let at = soaked.plus_minutes(20);
        let packet = self.packet(member, nth / TRIALS_OF_PACKET);
        let lean = self.odds(&packet) + 0.5 * dice.normal();
        let halves = [on_paper / 2, on_paper - on_paper / 2];
        let paper = |seeds: i64| self.bag(&packet, (at, seeds), lean, &mut dice);
        let mut bags: Vec<Bag> = if at > self.now { Vec::new() } else { halves.map(paper).into() };
        self.plant(member, nth, bags.first_mut());
        bags.iter_mut().for_each(|bag| self.give(bag));
        Trial {
            member,
            packet: nth / TRIALS_OF_PACKET,
            routine,
            began,
            seeds,
            steps: steps.into_iter().filter(|(_, at)| *at <= self.now).collect(),
            tally: tally.filter(|t| t.at <= self.now),
            bags,
        }
    }

    fn bag(&self, packet: &Packet, (at, seeds): (At, i64), lean: f64, dice: &mut Dice) -> Bag {
        let chance = 1.0 / (1.0 + (-(lean + 0.2 * dice.normal())).exp());
        let days = self.varieties[packet.variety].days;
        let fates: Vec<Fate> = (0..seeds).map(|_| Fate::drawn(chance, days, dice)).collect();
        let mut bag = Bag { at, seeds, looks: Vec::new(), closing: None, planted: None, given: None };
        let (mut before, mut left) = (0.0, seeds);
        for day in LOOKS {
            let at = at.plus_days(day).plus_minutes(dice.among(0, 180));
            if dice.happens(0.1) || at > self.now {
                continue;
            }
            let look = look(at, (before, day as f64), &fates);
            left -= look.rooted + look.abnormal + look.dead;
            before = day as f64;
            bag.looks.push(look);
        }
        let at = at.plus_days(CLOSED).plus_minutes(dice.among(0, 180));
        let abandoned = dice.happens(0.02);
        let fresh = (left as f64 * dice.share()) as i64;
        bag.closing = (at <= self.now).then_some(if abandoned {
            Closing { at, abandoned, fresh: 0, dead: 0, not_examined: left }
        } else {
            Closing { at, abandoned, fresh, dead: left - fresh, not_examined: 0 }
        });
        bag
    }

    /// Some of the last season's seeds go into the member's tray, for as long as there is room.
    fn plant(&self, member: usize, nth: usize, bag: Option<&mut Bag>) {
        let Some(bag) = bag else { return };
        let Some(closing) = bag.closing else { return };
        let at = closing.at.plus_minutes(30);
        let rooted = bag.rooted();
        let first = (self.trials_of(member) * (self.size.seasons - 1)).div_ceil(self.size.seasons);
        let in_season = nth.checked_sub(first).filter(|n| n.is_multiple_of(PLANTED));
        let Some(before) = in_season.map(|n| (n / PLANTED) as i64 * SEEDS_PLANTED) else { return };
        if rooted == 0 || at > self.now || before + SEEDS_PLANTED > TRAY.0 * TRAY.1 {
            return;
        }
        let seeds = rooted.min(SEEDS_PLANTED);
        let seen = at.plus_days(OUTCOME_AFTER_DAYS);
        let outcome = (seen <= self.now).then_some((seen, (seeds - (nth % 2) as i64).max(1)));
        bag.planted = Some(Planted { at, cell: before + 1, seeds, outcome });
    }

    /// Nothing of a closed bag waits for a cell for years.
    fn give(&self, bag: &mut Bag) {
        let at = bag.closing.map(|c| c.at.plus_days(GIVEN_AFTER_DAYS)).filter(|at| *at <= self.now);
        let rest = bag.rooted() - bag.planted.as_ref().map_or(0, |p| p.seeds);
        bag.given = at.map(|at| (at, rest)).filter(|_| rest > 0);
    }
}

impl Bag {
    fn rooted(&self) -> i64 {
        self.looks.iter().map(|l| l.rooted).sum()
    }
}

/// When each step ends.
fn ends(steps: &[Step], began: At) -> impl Iterator<Item = (i64, At)> {
    let mut at = began;
    steps.iter().map(move |step| {
        at = at.plus_minutes(step.minutes);
        (step.position, at)
    })
}

fn tally(seeds: i64, soaked: At, dice: &mut Dice) -> Tally {
    let floated = (0..seeds / 4).filter(|_| dice.happens(0.3)).count() as i64;
    let thrown_out = floated > 0 && dice.happens(0.3);
    Tally { at: soaked.plus_minutes(10), sank: seeds - floated, floated, thrown_out }
}

/// What becomes of a seed on paper, and on which day it is to be seen.
#[derive(Debug, Clone, Copy)]
enum Fate {
    Roots(f64),
    Abnormal(f64),
    Dies(f64),
    Stays,
}

impl Fate {
    /// Days to root are log-normal around `days`.
    fn drawn(chance: f64, days: f64, dice: &mut Dice) -> Self {
        if dice.happens(chance) {
            let day = days * (0.3 * dice.normal()).exp();
            return if dice.happens(0.02) { Self::Abnormal(day) } else { Self::Roots(day) };
        }
        if dice.happens(0.3) { Self::Dies(7.0 + 7.0 * dice.share()) } else { Self::Stays }
    }
}

fn look(at: At, (after, upto): (f64, f64), fates: &[Fate]) -> Look {
    let mut look = Look { at, rooted: 0, abnormal: 0, dead: 0 };
    let seen = |day: f64| day > after && day <= upto;
    for fate in fates {
        match *fate {
            Fate::Roots(day) if seen(day) => look.rooted += 1,
            Fate::Abnormal(day) if seen(day) => look.abnormal += 1,
            Fate::Dies(day) if seen(day) => look.dead += 1,
            _ => {}
        }
    }
    look
}
