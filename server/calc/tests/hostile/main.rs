//! Made inputs of every sort through every method of `reckon` and through `analyse`: each must end in
//! time, without a panic, in a sound answer or in a fault that names its field.
//!
//! Input number `i` depends on `i` alone. `HILUM_HOSTILE_SEED` is the first number, `HILUM_HOSTILE_SECONDS`
//! (5 where neither is set) or `HILUM_HOSTILE_INPUTS` say how long to go on.

mod answer;
mod case;
#[path = "../support/dice.rs"]
mod dice;
mod document;
mod file;
mod found;
mod junk;
mod numbers;
mod shaped;
#[path = "../support/mod.rs"]
mod support;
mod tally;
mod watch;

use case::{Case, Oracles};
use std::env;
use std::str::FromStr;
use std::time::Duration;
use tally::Tally;
use watch::{Stopwatch, Watch};

/// Longest time an input may take.
const LONGEST: Duration = Duration::from_secs(if cfg!(debug_assertions) { 20 } else { 1 });

/// How often an input that took too long is tried again: the machine may have been busy.
const TRIES: usize = 20;

#[expect(clippy::disallowed_methods, reason = "the library reads no environment, its tests do")]
fn setting<T: FromStr>(name: &str) -> Option<T> {
    let text = env::var(name).ok()?;
    Some(text.parse().unwrap_or_else(|_| panic!("{name} is not a number: {text}")))
}

#[test]
fn made_inputs_end_in_time_in_a_sound_answer_or_a_named_fault() {
    let first: u64 = setting("HILUM_HOSTILE_SEED").unwrap_or(1);
    let inputs: Option<u64> = setting("HILUM_HOSTILE_INPUTS");
    let seconds: Option<u64> = setting("HILUM_HOSTILE_SECONDS").or(inputs.is_none().then_some(5));
    println!("first input: {first}");
    let (oracles, whole, watch) = (Oracles::read(), Stopwatch::start(), Watch::start());
    let mut tally = Tally::new();
    let mut number = first;
    while inputs.is_none_or(|most| number - first < most)
        && seconds.is_none_or(|most| whole.elapsed() < Duration::from_secs(most))
    {
        watch.now_at(number);
        let case = Case::new(number, &oracles);
        let mut result = case.run();
        for _ in 1..TRIES {
            if result.took > LONGEST {
                result = case.run().min(result);
            }
        }
        tally.add(&case, result, LONGEST);
        number += 1;
    }
    watch.end();
    tally.close();
    println!("{}", tally.table(number - first, whole.elapsed()));
    assert!(tally.is_clean(), "{}", tally.failures());
}
