//! How many inputs, how long, and what went wrong, by method.

use crate::case::{Case, Input, Outcome};
use std::collections::BTreeMap;
use std::fmt::Write;
use std::panic;
use std::sync::{Arc, Mutex};
use std::time::Duration;

/// Examples that are kept of each sort of failure.
const EXAMPLES: usize = 3;

#[derive(Default)]
struct Method {
    inputs: u64,
    answered: u64,
    whole: Duration,
    slowest: (Duration, u64),
}

#[derive(Default)]
struct Failure {
    times: u64,
    examples: Vec<String>,
}

pub struct Tally {
    methods: BTreeMap<&'static str, Method>,
    failures: BTreeMap<String, Failure>,
    last_panic: Arc<Mutex<String>>,
}

impl Tally {
    /// Also keeps panics from being printed: they are told as failures.
    pub fn new() -> Self {
        let last_panic = Arc::new(Mutex::new(String::new()));
        let seen = Arc::clone(&last_panic);
        panic::set_hook(Box::new(move |info| {
            if let Ok(mut last) = seen.lock() {
                *last = info.to_string();
            }
        }));
        Self { methods: BTreeMap::new(), failures: BTreeMap::new(), last_panic }
    }

    pub fn add(&mut self, case: &Case, outcome: Outcome, longest: Duration) {
        let method = self.methods.entry(case.method).or_default();
        method.inputs += 1;
        method.answered += u64::from(outcome.answered);
        method.whole += outcome.took;
        method.slowest = method.slowest.max((outcome.took, case.number));
        let late = (outcome.took > longest).then(|| "too slow".to_owned());
        for what in outcome.wrong.into_iter().chain(late) {
            let panicked = what == "panic";
            let what = if panicked { self.last_panic.lock().unwrap().clone() } else { what };
            let failure = self.failures.entry(format!("{}: {what}", case.method)).or_default();
            failure.times += 1;
            if failure.times == 1 {
                println!("input {}, {}: {what}", case.number, case.method);
            }
            if failure.examples.len() < EXAMPLES {
                failure.examples.push(format!(
                    "{}, {:.0?}: {}",
                    case.number,
                    outcome.took,
                    shown(&case.input)
                ));
            }
        }
    }

    /// Lets panics be printed again.
    pub fn close(&self) {
        drop(panic::take_hook());
    }

    pub fn is_clean(&self) -> bool {
        self.failures.is_empty()
    }

    /// One line for each method.
    pub fn table(&self, inputs: u64, took: Duration) -> String {
        let mut out = format!("{inputs} inputs in {:.1} s\n", took.as_secs_f64());
        out += "| method | inputs | answered | mean, microseconds | slowest, milliseconds | its number |\n";
        out += "| --- | --- | --- | --- | --- | --- |\n";
        for (name, m) in &self.methods {
            let mean = m.whole.as_secs_f64() * 1e6 / m.inputs as f64;
            let slowest = m.slowest.0.as_secs_f64() * 1e3;
            let (inputs, answered, number) = (m.inputs, m.answered, m.slowest.1);
            writeln!(out, "| {name} | {inputs} | {answered} | {mean:.0} | {slowest:.1} | {number} |")
                .unwrap();
        }
        out
    }

    pub fn failures(&self) -> String {
        let mut out = format!("{} sorts of failure\n", self.failures.len());
        for (what, failure) in &self.failures {
            writeln!(out, "{what}: {} times\n  {}", failure.times, failure.examples.join("\n  ")).unwrap();
        }
        out
    }
}

fn shown(input: &Input) -> String {
    let text = match input {
        Input::Json(value) => value.to_string(),
        Input::File(text, options) => format!("{options:?} {text:?}"),
    };
    text.chars().take(1_500).collect()
}
