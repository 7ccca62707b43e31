//! How many seeds to soak for so many plants.

use super::numbers::{must, must_percent, some, typed_percent};
use crate::rates::known::Known;
use crate::web::forms::Form;
use crate::web::words::percent;
use hilum_calc::sowing::{Rate, Sowing, Stages, Tested};
use hilum_calc::units::shown;

/// Certainties that every answer is given for besides the one asked for.
const ALSO: [f64; 3] = [0.8, 0.9, 0.95];

/// The club's own numbers for the chosen seed: its row of the club table, and its rooted seeds that became plants.
pub struct Club<'a> {
    pub known: &'a Known,
    pub grown: Option<(u64, u64)>,
}

/// What is asked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Question {
    pub plants: u64,
    /// 0 to 1.
    pub certainty: f64,
    pub stages: Stages,
}

/// The names of the three fields of one stage: a rate, or so many of so many.
struct Fields {
    rate: &'static str,
    some: &'static str,
    all: &'static str,
}

const ROOTING: Fields = Fields { rate: "rate", some: "rooted", all: "tested" };
const GROWING: Fields = Fields { rate: "onward", some: "grown", all: "planted" };

impl Question {
    /// Reads the form; what is wrong is noted on it.
    pub fn parse(form: &mut Form, club: Option<&Club>) -> Option<Self> {
        let plants = must(form, "plants");
        let certainty = must_percent(form, "certainty", 50.0, 99.9);
        let typed = ROOTING.read(form);
        let first = match club {
            Some(_) if typed.is_some() => {
                form.refuse("from", t!("calculators-club-or-own"));
                None
            }
            Some(club) => {
                let (x, n) = club.known.as_test();
                Some(Rate::Tested(Tested { x, n }))
            }
            None => typed,
        };
        if first.is_none() {
            form.refuse("rate", t!("calculators-give-a-rate"));
        }
        let trays = club.and_then(|c| c.grown).map(|(x, n)| Rate::Tested(Tested { x, n }));
        let second = GROWING.read(form).or(trays);
        let stages = Stages { first: first?, second };
        (!form.failed()).then_some(Self { plants, certainty, stages })
    }
}

impl Fields {
    fn read(&self, form: &mut Form) -> Option<Rate> {
        let rate = form.decimal(self.rate, 0.1..=100.0).map(|percent| Rate::Known(percent / 100.0));
        let (x, n) = (some(form, self.some), some(form, self.all));
        let typed = |name: &str| !form.value(name).trim().is_empty();
        let (typed_rate, typed_some, typed_all) = (typed(self.rate), typed(self.some), typed(self.all));
        if typed_rate && (typed_some || typed_all) {
            form.refuse(self.rate, t!("calculators-rate-or-test"));
        } else if typed_some && !typed_all {
            form.refuse(self.all, t!("calculators-of-how-many"));
        } else if typed_all && !typed_some {
            form.refuse(self.some, t!("calculators-how-many-of-them"));
        }
        match (x, n) {
            (Some(x), Some(n)) if x > n => {
                form.refuse(self.some, t!("calculators-more-than-in-all"));
                None
            }
            (Some(_), Some(0)) => {
                form.refuse(self.all, t!("calculators-at-least-one"));
                None
            }
            (Some(x), Some(n)) => Some(Rate::Tested(Tested { x, n })),
            _ => rate,
        }
    }
}

/// The answer in words.
pub struct Answer {
    pub lead: String,
    pub meaning: String,
    pub expected: String,
    pub by_hand: String,
    /// Certainty, seeds, plants to expect.
    pub rows: Vec<(String, String, String)>,
}

impl Answer {
    pub fn of(q: &Question) -> Self {
        let sowing = q.stages.seeds(q.plants, q.certainty);
        let mut asked = ALSO.to_vec();
        asked.push(q.certainty);
        asked.sort_by(f64::total_cmp);
        asked.dedup_by(|a, b| (*a - *b).abs() < 1e-9);
        Self {
            lead: match sowing.seeds {
                Some(n) => t!("calculators-soak", n = n),
                None => t!("calculators-no-number-is-enough", most = q.stages.cap()),
            },
            meaning: meaning(q, &sowing),
            expected: sowing.seeds.map(|n| expected(q, n)).unwrap_or_default(),
            by_hand: by_hand(q, &sowing),
            rows: asked.into_iter().map(|certainty| row(q, certainty)).collect(),
        }
    }
}

fn meaning(q: &Question, sowing: &Sowing) -> String {
    let asked = typed_percent(q.certainty);
    match sowing.seeds {
        Some(n) if n == q.plants => t!("calculators-each-must-become", certainty = asked),
        Some(n) => t!(
            "calculators-certain-to",
            certainty = asked,
            seeds = n,
            share = percent(sowing.probability),
            plants = q.plants,
            fewer = percent(sowing.one_fewer)
        ),
        None => t!("calculators-plants-out-of-reach", certainty = asked),
    }
}

fn expected(q: &Question, seeds: u64) -> String {
    t!("calculators-on-average", plants = shown(seeds as f64 * q.stages.mean(), 0))
}

fn row(q: &Question, certainty: f64) -> (String, String, String) {
    let seeds = q.stages.seeds(q.plants, certainty).seeds;
    (
        format!("{} %", typed_percent(certainty)),
        seeds.map_or_else(|| t!("calculators-out-of-reach").to_owned(), |n| n.to_string()),
        seeds.map_or_else(String::new, |n| shown(n as f64 * q.stages.mean(), 0)),
    )
}

/// The rate as one would divide by it by hand.
fn plain_rate(rate: Rate) -> f64 {
    match rate {
        Rate::Known(p) => p,
        Rate::Tested(test) => test.x as f64 / test.n as f64,
        Rate::Beta(..) => rate.mean(),
    }
}

/// Plants divided by the rate, and how often that is enough; empty where the rate is 0.
fn by_hand(q: &Question, sowing: &Sowing) -> String {
    let rates = [Some(q.stages.first), q.stages.second];
    let rates: Vec<f64> = rates.into_iter().flatten().map(plain_rate).collect();
    let exact = q.plants as f64 / rates.iter().product::<f64>();
    if !exact.is_finite() {
        return String::new();
    }
    // 86 of 100 divided and multiplied again may end a hair above a whole number
    let seeds = (exact - 1e-9).ceil() as u64;
    let rates: Vec<String> = rates.iter().map(|r| format!("{} %", typed_percent(*r))).collect();
    let sum = t!("calculators-sum", plants = q.plants, rates = rates.join(" ÷ "), n = seeds);
    match (sowing.seeds, q.stages.probability(q.plants, seeds)) {
        (Some(n), Some(p)) if seeds < n => {
            t!("calculators-by-hand-less", sum = sum, share = percent(p), plants = q.plants)
        }
        (Some(_), _) => t!("calculators-by-hand-enough", sum = sum),
        (None, _) => t!("calculators-by-hand-uncertain", sum = sum),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 10 plants at a known 80 %: 13 seeds give 10 or more in 0.7473 (scipy 1.17.1, binom.sf(9, 13, 0.8)).
    #[test]
    fn dividing_by_hand_is_right_on_average_only() {
        let stages = Stages { first: Rate::Known(0.8), second: None };
        let answer = Answer::of(&Question { plants: 10, certainty: 0.9, stages });
        assert_eq!(answer.lead, "Soak 15 seeds.");
        assert!(answer.by_hand.starts_with("By hand, 10 ÷ 80 % = 13 seeds. "), "{}", answer.by_hand);
        assert!(answer.by_hand.contains("about 75 of 100"), "{}", answer.by_hand);
        assert_eq!(answer.rows.len(), 3);
    }
}
