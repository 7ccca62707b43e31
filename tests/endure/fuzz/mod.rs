//! The fuzz targets for a few seconds each: every kept input as it is, then changed ones. No panic, none that
//! takes more than a second. It is the short form of `tests/fuzz/run`, which is led by what an input reaches.
//!
//! Input number `i` of a target depends on `i` and the kept inputs alone. For longer, from another number, or one
//! target alone:
//!
//!     HILUM_FUZZ_SECONDS=60 HILUM_FUZZ_FIRST=1000000 cargo test --test endure fuzz::posts -- --nocapture

mod change;
#[path = "../../fuzz/targets/mod.rs"]
mod targets;

use crate::support::{Chance, routes, times};
use change::changed;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::Path;
use std::time::{Duration, Instant};
use targets::{ALL, Target};

/// The longest an input may take; a debug build takes its time.
const LONGEST: Duration = Duration::from_secs(if cfg!(debug_assertions) { 20 } else { 1 });
/// How often an input that took too long is tried again: the machine may have been busy.
const TRIES: usize = 5;

/// The inputs that are kept for a target, by name.
fn kept(name: &str) -> Vec<(String, Vec<u8>)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fuzz/corpus").join(name);
    let files = std::fs::read_dir(&folder).unwrap_or_else(|e| panic!("{}: {e}", folder.display()));
    let mut kept: Vec<_> = files
        .map(|file| file.unwrap())
        .map(|file| (file.file_name().to_string_lossy().into_owned(), std::fs::read(file.path()).unwrap()))
        .collect();
    kept.sort();
    assert!(!kept.is_empty(), "{name} keeps no input");
    kept
}

/// Runs the target on `input`; gives how long it took, the quickest of some tries where that was too long.
fn took(target: &Target, called: &str, input: &[u8]) -> Duration {
    let once = || {
        let begun = Instant::now();
        let ran = catch_unwind(AssertUnwindSafe(|| (target.run)(input)));
        assert!(ran.is_ok(), "{} panics at {called}: {}", target.name, input.escape_ascii());
        begun.elapsed()
    };
    let first = once();
    if first <= LONGEST { first } else { (1..TRIES).map(|_| once()).min().unwrap_or(first) }
}

fn run(name: &str) {
    let target = ALL.iter().find(|t| t.name == name).unwrap();
    let kept = kept(name);
    // the first one waits for the club to be made
    (target.run)(&kept[0].1);
    let whole = Instant::now();
    let limit = Duration::from_secs(times("HILUM_FUZZ_SECONDS", 3) as u64);
    let mut slowest = (Duration::ZERO, String::new());
    let mut tried = |called: String, input: &[u8]| {
        let took = took(target, &called, input);
        assert!(took <= LONGEST, "{name} takes {took:?} at {called}: {}", input.escape_ascii());
        slowest = std::mem::take(&mut slowest).max((took, called));
    };
    for (file, input) in &kept {
        tried(file.clone(), input);
    }
    let first = times("HILUM_FUZZ_FIRST", 1);
    let mut number = first;
    while whole.elapsed() < limit {
        let input = changed(&kept, target.longest, &mut Chance(number as u64));
        tried(format!("number {number}"), &input);
        number += 1;
    }
    println!("{name}: {} kept and {} changed inputs, slowest {slowest:?}", kept.len(), number - first);
}

macro_rules! each {
    ($($name:ident),* $(,)?) => {
        $(#[test] fn $name() { run(stringify!($name)); })*

        #[test]
        fn no_target_is_left_out() {
            let mut run = vec![$(stringify!($name)),*];
            let mut all: Vec<&str> = ALL.iter().map(|t| t.name).collect();
            run.sort_unstable();
            all.sort_unstable();
            assert_eq!(run, all);
        }
    };
}

each!(
    marks, names, days, forms, models, reckon, analyse, sheets, clubs, uploads, photos, imports, pages,
    posts, api,
);

/// Whether `path` may stand for an address of the app such as `/bags/{id}`.
fn stands_for(path: &str, route: &str) -> bool {
    let (path, route): (Vec<&str>, Vec<&str>) = (path.split('/').collect(), route.split('/').collect());
    path.len() == route.len() && path.iter().zip(route).all(|(p, r)| r.starts_with('{') || *p == r)
}

#[test]
fn every_address_has_a_kept_input() {
    let paths = |name: &str| -> Vec<String> {
        let first =
            |input: Vec<u8>| String::from_utf8_lossy(&input).lines().next().unwrap_or_default().to_owned();
        let paths = kept(name).into_iter().map(|(_, input)| first(input));
        paths.map(|path| path.split('?').next().unwrap_or_default().to_owned()).collect()
    };
    let (pages, posts) = (paths("pages"), paths("posts"));
    for route in routes::all().iter().filter(|r| !r.path.starts_with("/api/")) {
        let named = |paths: &[String]| paths.iter().any(|path| stands_for(path, &route.path));
        assert!(!route.get || named(&pages), "no kept input of `pages` asks for {}", route.path);
        assert!(!route.post || named(&posts), "no kept input of `posts` goes to {}", route.path);
    }
}
