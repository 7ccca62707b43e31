//! What care does, as found within growers who varied it.

use super::hundred::{Hundred, logit};
use crate::rates::book::{Book, Counted};
use crate::rates::choice::Choice;
use crate::routines::said;
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

/// The four questions. `us`: warmth in steps of 10 degrees F, not 5 degrees C.
pub fn questions(standing: &Standing, book: &Book, us: bool) -> Vec<Question> {
    let bags: Vec<&Counted> = Choice::default().counting(book).collect();
    let model = standing.model.iter().flat_map(|m| &m.effects);
    let effects: Vec<&Effect> = model.chain(&standing.effects).collect();
    let logits: Vec<f64> = standing.adjusted.iter().map(|a| logit(a.rate)).collect();
    let from = logits.iter().sum::<f64>() / logits.len().max(1) as f64;
    let ask = |title, starts: &str, advice, words: &Say| {
        let of = effects.iter().filter(|e| e.name.starts_with(starts) && e.growers > 0);
        let answers = of.filter_map(|e| Some(answer(e, &e.within_growers?, from, words))).collect();
        Question { title, answers, advice }
    };
    let usual = usual(&bags, &effects);
    let (step, times) = if us { ("10 °F", 50.0 / 9.0) } else { ("5 °C", 5.0) };
    let split = t!("compare-advice-split");
    vec![
        ask(t!("compare-does-the-routine-help"), "routine: ", split, &|e, verdict| {
            let routine = said::name(e.name.trim_start_matches("routine: "));
            let lead = match usual {
                None => t!("compare-routine-against-usual", routine = routine, verdict = verdict),
                Some(usual) => {
                    let usual = said::name(usual);
                    t!("compare-routine-against", routine = routine, usual = usual, verdict = verdict)
                }
            };
            Words { lead, times: 1.0 }
        }),
        ask(t!("compare-does-warmth-help"), "warmth_c", split, &|_, verdict| Words {
            lead: t!("compare-each-step-warmer", step = step, verdict = verdict),
            times,
        }),
        ask(t!("compare-does-age-matter"), "age_years", t!("compare-advice-age"), &|_, verdict| Words {
            lead: t!("compare-each-year-older", verdict = verdict),
            times: 1.0,
        }),
        ask(t!("compare-do-floaters-root"), "floated", t!("compare-advice-floaters"), &|_, verdict| Words {
            lead: t!("compare-floated-against-sank", verdict = verdict),
            times: 1.0,
        }),
    ]
}

/// What is said of an effect: `more` seeds root, `fewer`, or `none` of it is shown.
type Say<'s> = dyn Fn(&Effect, &'static str) -> Words + 's;

struct Words {
    lead: String,
    /// So many units of the effect are told at once.
    times: f64,
}

fn answer(effect: &Effect, within: &Estimate, from: f64, words: &Say) -> Answer {
    let verdict = match (within.low > 0.0, within.high < 0.0) {
        (true, _) => "more",
        (_, true) => "fewer",
        _ => "none",
    };
    let words = words(effect, verdict);
    let times = |x: f64| x * words.times;
    let scaled = Estimate { value: times(within.value), low: times(within.low), high: times(within.high) };
    let found = Hundred::beyond(from, &scaled);
    Answer {
        lead: words.lead,
        detail: t!(
            "compare-found-by",
            found = found.words(),
            growers = effect.growers,
            trials = effect.trials
        ),
    }
}

/// The routine that the others are set against: the most used of those without an effect of their own.
fn usual<'b>(bags: &[&'b Counted], effects: &[&Effect]) -> Option<&'b str> {
    let mut uses: BTreeMap<&str, usize> = BTreeMap::new();
    for bag in bags {
        let has = effects.iter().any(|e| e.name.strip_prefix("routine: ") == Some(&bag.routine));
        *uses.entry(&bag.routine).or_default() += usize::from(!has);
    }
    uses.into_iter().rev().max_by_key(|(_, n)| *n).map(|(name, _)| name)
}
