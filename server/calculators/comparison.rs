//! How many seeds of each of two sources it takes to tell their rates apart.

use super::numbers::{must, must_percent, typed_percent};
use crate::web::forms::Form;
use crate::web::words::{decimal, percent};
use hilum_calc::power::{Question as Power, design_effect};
use hilum_calc::units::shown;

/// The level of the test: how often two equal sources would seem to differ.
const ALPHA: f64 = 0.05;
/// Fisher's test is gone through for every number of seeds; above this many it takes too long for a page.
const MOST_EXACT: f64 = 400.0;
/// More seeds of each source than this, or more bags, are said to be a lot.
const LOT_OF_SEEDS: f64 = 150.0;
const LOT_OF_BAGS: f64 = 8.0;
/// Rates nearer than this cannot be told apart by any club.
const NEAREST: f64 = 0.005;

/// What is asked; shares and certainty 0 to 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Question {
    pub one: f64,
    pub other: f64,
    pub certainty: f64,
    pub bag: u64,
    /// How alike the seeds of one bag are, 0 to 1.
    pub alike: f64,
}

impl Question {
    /// Reads the form; what is wrong is noted on it.
    pub fn parse(form: &mut Form) -> Option<Self> {
        let one = must_percent(form, "one", 0.0, 100.0);
        let other = must_percent(form, "other", 0.0, 100.0);
        let certainty = must_percent(form, "certainty", 50.0, 99.0);
        let bag = must(form, "bag");
        let alike = form.decimal("alike", 0.0..=1.0);
        if alike.is_none() && form.error("alike").is_empty() {
            form.refuse("alike", t!("calculators-chance-only"));
        }
        if form.error("one").is_empty() && form.error("other").is_empty() && (one - other).abs() < NEAREST {
            form.refuse("other", t!("calculators-two-rates-apart"));
        }
        let alike = alike?;
        (!form.failed()).then_some(Self { one, other, certainty, bag, alike })
    }

    fn power(&self) -> Power {
        Power { p1: self.one, p2: self.other, alpha: ALPHA, power: self.certainty }
    }

    fn design_effect(&self) -> f64 {
        design_effect(self.bag as f64, self.alike)
    }

    /// Seeds of each source, and bags of each.
    fn need(&self) -> Need {
        let seeds = self.power().corrected() * self.design_effect();
        Need { seeds: seeds.ceil(), bags: (seeds / self.bag as f64).ceil() }
    }
}

#[derive(Debug, Clone, Copy, PartialEq)]
struct Need {
    seeds: f64,
    bags: f64,
}

/// The answer in words.
pub struct Answer {
    pub lead: String,
    pub meaning: String,
    pub unlike: String,
    pub much: String,
    /// Both rates, seeds of each, bags of each.
    pub rows: Vec<(String, String, String)>,
    pub methods: Vec<(&'static str, String)>,
}

impl Answer {
    /// `most`: the seeds of the source that the club tested most, 0 where none.
    pub fn of(q: &Question, most: u64) -> Self {
        let need = q.need();
        Self {
            lead: t!("calculators-bags-from-each", bags = need.bags as i64, seeds = q.bag),
            meaning: meaning(q, need),
            unlike: unlike(q, need),
            much: much(need, most),
            rows: rows(q),
            methods: methods(q),
        }
    }
}

fn meaning(q: &Question, need: Need) -> String {
    t!(
        "calculators-that-is-seeds",
        n = (need.bags * q.bag as f64) as i64,
        others = shown(need.seeds, 0),
        one = typed_percent(q.one),
        other = typed_percent(q.other),
        found = percent(q.certainty),
        missed = percent(1.0 - q.certainty)
    )
}

fn unlike(q: &Question, need: Need) -> String {
    let effect = q.design_effect();
    if effect < 1.05 {
        return t!("calculators-bags-by-chance").to_owned();
    }
    let plain = q.power().corrected().ceil() as i64;
    let luck = t!("calculators-bags-share-luck", alike = decimal(&shown(effect, 1)), n = plain);
    let smaller = Question { bag: (q.bag / 2).max(1), ..*q };
    let less = smaller.need();
    if less.seeds < 0.9 * need.seeds {
        let more = t!("calculators-more-bags", bags = less.bags as i64, seeds = smaller.bag);
        format!("{luck} {more}")
    } else {
        luck
    }
}

fn much(need: Need, most: u64) -> String {
    if need.seeds <= LOT_OF_SEEDS && need.bags <= LOT_OF_BAGS {
        return String::new();
    }
    let club = (most > 0).then(|| t!("calculators-most-tested", n = most));
    let (lot, bigger) = (t!("calculators-a-lot"), t!("calculators-bigger-difference"));
    [Some(lot), club.as_deref(), Some(bigger)].into_iter().flatten().collect::<Vec<_>>().join(" ")
}

/// The same question for other differences, downwards from the better source.
fn rows(q: &Question) -> Vec<(String, String, String)> {
    let better = q.one.max(q.other);
    let mut others: Vec<f64> = [0.05, 0.1, 0.15, 0.2, 0.3, 0.4].iter().map(|d| better - d).collect();
    others.push(q.one.min(q.other));
    others.retain(|p| *p >= -1e-9);
    others.sort_by(|a, b| b.total_cmp(a));
    others.dedup_by(|a, b| (*a - *b).abs() < 1e-9);
    let row = |p: f64| {
        let other = p.max(0.0);
        let need = Question { one: better, other, ..*q }.need();
        let rates = t!("calculators-two-rates", one = typed_percent(better), other = typed_percent(other));
        (rates, shown(need.seeds, 0), shown(need.bags, 0))
    };
    others.into_iter().map(row).collect()
}

/// Seeds of each source by each method, as if every seed stood alone.
fn methods(q: &Question) -> Vec<(&'static str, String)> {
    let power = q.power();
    let exact = match power.corrected() {
        n if n > MOST_EXACT => t!("calculators-not-worked-out").to_owned(),
        _ => match power.exact() {
            Some(e) => e.stays.to_string(),
            None => t!("calculators-not-found").to_owned(),
        },
    };
    vec![
        (t!("calculators-normal-approximation"), shown(power.normal().ceil(), 0)),
        (t!("calculators-continuity-correction"), shown(power.corrected().ceil(), 0)),
        (t!("calculators-fisher"), exact),
    ]
}
