//! One made input, and what became of it.

use crate::dice::Dice;
use crate::support::{FILES, oracle};
use crate::watch::Stopwatch;
use crate::{answer, document, file, junk, shaped};
use hilum_calc::analyse::{self, Options};
use hilum_calc::reckon;
use serde_json::Value;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::time::Duration;

/// Every method with its share of the inputs, in thousandths: dear methods get few, none less than 10.
const SHARES: [(&str, usize); 16] = [
    ("ageing", 100),
    ("analyse", 10),
    ("club", 10),
    ("curve", 60),
    ("event-time", 10),
    ("linked", 70),
    ("mix", 250),
    ("pooled", 10),
    ("power", 10),
    ("rate", 80),
    ("replicates", 20),
    ("shrink", 20),
    ("sow", 20),
    ("times", 160),
    ("two-rates", 70),
    ("warmth", 100),
];

/// The inputs of all oracle cases, by method.
pub struct Oracles(Vec<(&'static str, Vec<Value>)>);

impl Oracles {
    pub fn read() -> Self {
        assert_eq!(SHARES.iter().map(|s| s.1).sum::<usize>(), 1000);
        let left_out = |method: &&str| !SHARES.iter().any(|(name, _)| name == method);
        assert_eq!(reckon::METHODS.iter().map(|m| m.0).find(left_out), None, "a method gets no inputs");
        let inputs = |file: &str| {
            let cases = oracle(file)["cases"].as_array().unwrap().clone();
            cases.into_iter().map(|mut case| case["input"].take()).collect()
        };
        Self(FILES.iter().map(|(method, file)| (*method, inputs(file))).collect())
    }

    fn pick(&self, method: &str, dice: &mut Dice) -> Value {
        let (_, inputs) = self.0.iter().find(|(name, _)| *name == method).unwrap();
        junk::clipped(&inputs[dice.below(inputs.len())], dice)
    }
}

pub enum Input {
    Json(Value),
    File(String, Options),
}

impl Input {
    /// The confidence level asked for.
    fn conf(&self) -> f64 {
        let Self::Json(input) = self else { return 0.95 };
        let text = input["conf"].as_str().and_then(|text| text.trim().parse().ok());
        input["conf"].as_f64().or(text).unwrap_or(0.95)
    }
}

pub struct Case {
    pub number: u64,
    pub method: &'static str,
    pub input: Input,
}

/// What became of an input: `Err` says what is wrong.
pub struct Outcome {
    pub took: Duration,
    pub answered: bool,
    pub wrong: Vec<String>,
}

impl Outcome {
    /// The quicker of two runs, with the faults of both.
    pub fn min(mut self, other: Self) -> Self {
        self.took = self.took.min(other.took);
        self.wrong = if self.wrong.is_empty() { other.wrong } else { self.wrong };
        self
    }
}

impl Case {
    pub fn new(number: u64, oracles: &Oracles) -> Self {
        let mut dice = Dice::new(number);
        let mut place = dice.below(1000);
        let method = SHARES.iter().find(|(_, share)| place.checked_sub(*share).map(|p| place = p).is_none());
        let method = method.unwrap().0;
        let input = match method {
            "analyse" => Input::File(file::text(&mut dice), file::options(&mut dice)),
            _ => Input::Json(json(method, oracles, &mut dice)),
        };
        Self { number, method, input }
    }

    pub fn run(&self) -> Outcome {
        let clock = Stopwatch::start();
        let result = catch_unwind(AssertUnwindSafe(|| match &self.input {
            Input::Json(input) => Ran::Reckon(reckon::run(self.method, input)),
            Input::File(text, options) => Ran::Analyse(analyse::run(text, *options).map(Box::new)),
        }));
        let took = clock.elapsed();
        let (answered, wrong) = match (result, &self.input) {
            (Ok(Ran::Reckon(Ok(answer))), input) => (true, answer::faults_of(&answer, input.conf())),
            (Ok(Ran::Reckon(Err(fault))), Input::Json(input)) => {
                (false, answer::faults_of_fault(&fault, input))
            }
            (Ok(Ran::Analyse(Ok(analysis))), _) => (true, document::faults_of(&analysis)),
            (Ok(Ran::Analyse(Err(faults))), _) => (false, document::faults_of_faults(&faults)),
            (Ok(Ran::Reckon(Err(_))), Input::File(..)) => unreachable!("files go through analyse"),
            (Err(_), _) => (false, vec!["panic".to_owned()]),
        };
        Outcome { took, answered, wrong }
    }
}

enum Ran {
    Reckon(Result<Value, reckon::Fault>),
    Analyse(Result<Box<analyse::Analysis>, Vec<analyse::Fault>>),
}

fn json(method: &str, oracles: &Oracles, dice: &mut Dice) -> Value {
    match dice.below(20) {
        0..=9 => shaped::input(method, dice),
        10..=13 => junk::mutated(shaped::input(method, dice), dice),
        14..=18 => junk::mutated(oracles.pick(method, dice), dice),
        _ => junk::random(dice),
    }
}
