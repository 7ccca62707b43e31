//! What care does, as found within growers who varied it.

use super::hundred::{Hundred, logit};
use crate::rates::book::{Book, Counted};
use crate::rates::choice::Choice;
use crate::web::words::counted;
use hilum_calc::club::{Effect, Estimate, Standing};
use std::collections::BTreeMap;

/// One question about care and what the club's data say.
#[derive(Debug)]
pub struct Question {
    pub title: &'static str,
    pub answers: Vec<Answer>,
    /// What to do where nobody varied it.
    pub advice: &'static str,
}

#[derive(Debug)]
pub struct Answer {
    /// The verdict in a sentence.
    pub lead: String,
    /// Who found it, and the number.
    pub detail: String,
}

const SPLIT: &str =
    "Split one packet into paired trials that differ in this alone; what you find with them shows here.";

/// The four questions. `us`: warmth in steps of 10 degrees F, not 5 degrees C.
pub fn questions(standing: &Standing, book: &Book, us: bool) -> Vec<Question> {
    let bags: Vec<&Counted> = Choice::default().counting(book).collect();
    let model = standing.model.iter().flat_map(|m| &m.effects);
    let effects: Vec<&Effect> = model.chain(&standing.effects).collect();
    let logits: Vec<f64> = standing.adjusted.iter().map(|a| logit(a.rate)).collect();
    let from = logits.iter().sum::<f64>() / logits.len().max(1) as f64;
    let ask = |title, starts: &str, advice, words: &dyn Fn(&Effect) -> Words| {
        let of = effects.iter().filter(|e| e.name.starts_with(starts) && e.growers > 0);
        let answers = of.filter_map(|e| Some(answer(e, &e.within_growers?, from, &words(e)))).collect();
        Question { title, answers, advice }
    };
    let usual = usual(&bags, &effects);
    let step = if us { ("10 °F", 50.0 / 9.0) } else { ("5 °C", 5.0) };
    vec![
        ask("Does the routine help?", "routine: ", SPLIT, &|e| {
            let routine = e.name.trim_start_matches("routine: ");
            Words { what: format!("“{routine}” against {usual}"), times: 1.0 }
        }),
        ask("Does warmth help?", "warmth_c", SPLIT, &|_| Words {
            what: format!("Each {} warmer", step.0),
            times: step.1,
        }),
        ask(
            "Does the age of the seed matter?",
            "age_years",
            "Grow old and fresh seed of one variety and source side by side; what you find with them shows here.",
            &|_| Words { what: "Each year older".to_owned(), times: 1.0 },
        ),
        ask(
            "Do floaters root?",
            "floated",
            "At the float tally put the floaters into a bag of their own; what you find with them shows here.",
            &|_| Words {
                what: "Seeds that floated, against seeds that sank in the same trial".to_owned(),
                times: 1.0,
            },
        ),
    ]
}

struct Words {
    what: String,
    /// So many units of the effect are told at once.
    times: f64,
}

fn answer(effect: &Effect, within: &Estimate, from: f64, words: &Words) -> Answer {
    let times = |x: f64| x * words.times;
    let scaled = Estimate { value: times(within.value), low: times(within.low), high: times(within.high) };
    let found = Hundred::beyond(from, &scaled);
    let verdict = match (within.low > 0.0, within.high < 0.0) {
        (true, _) => "more seeds root",
        (_, true) => "fewer seeds root",
        _ => "no difference shown",
    };
    let number = |n: usize, one, many| counted(i64::try_from(n).unwrap_or(i64::MAX), one, many);
    Answer {
        lead: format!("{}: {verdict}.", words.what),
        detail: format!(
            "Found: {}, by {}, in {}.",
            found.words(),
            number(effect.growers, "grower who varied it", "growers who varied it"),
            number(effect.trials, "trial", "trials")
        ),
    }
}

/// The routine that the others are set against: the most used of those without an effect of their own.
fn usual(bags: &[&Counted], effects: &[&Effect]) -> String {
    let mut uses: BTreeMap<&str, usize> = BTreeMap::new();
    for bag in bags {
        let has = effects.iter().any(|e| e.name.strip_prefix("routine: ") == Some(&bag.routine));
        *uses.entry(&bag.routine).or_default() += usize::from(!has);
    }
    let most = uses.into_iter().rev().max_by_key(|(_, n)| *n);
    most.map_or_else(|| "the club's usual routine".to_owned(), |(name, _)| format!("“{name}”, the usual one"))
}
