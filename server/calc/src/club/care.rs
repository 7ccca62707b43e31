//! What else differs between trials and is adjusted for: kinds, routines, warmth, age of seed.

use crate::table::Count;
use std::collections::{BTreeMap, BTreeSet};

/// What else is known of one bag's trial.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Care<'a> {
    /// Name of the trial.
    pub trial: &'a str,
    /// Seeds of the bag.
    pub seeds: u32,
    /// The routine before the paper.
    pub routine: Option<&'a str>,
    /// Warmth of the bag, degrees C.
    pub warmth_c: Option<f64>,
    /// Age of the seed.
    pub age_years: Option<f64>,
    /// The club of its grower; `None` for our own.
    pub club: Option<&'a str>,
    /// Name of the lot; lots are told apart within variety and source.
    pub lot: Option<&'a str>,
}

/// One column of the fixed part after the intercept: a number for each trial, 0 for the reference.
pub struct Column {
    pub name: String,
    pub values: Vec<f64>,
    /// Differs between trials for reasons other than the seed.
    pub is_care: bool,
}

/// The columns of the trials: each kind against the first; where every trial has it and it varies,
/// each routine against the most used, warmth and age as the difference from their mean. Columns
/// that others already tell are left out.
pub fn columns(trials: &[Count], cares: &[Care]) -> Vec<Column> {
    let care = Cares::of(trials, cares);
    let kinds: Vec<Option<&str>> = trials.iter().map(|t| Some(t.place.0)).collect();
    let mut columns = levels("kind", &kinds, trials.first().map(|t| t.place.0));
    columns.extend(levels("routine", &care.routine, care.usual()).into_iter().map(as_care));
    columns.extend(slope("warmth_c", &care.warmth).map(as_care));
    columns.extend(slope("age_years", &care.age).map(as_care));
    independent(columns, trials.len())
}

/// The lot of each trial.
pub fn lots<'f>(trials: &[Count], cares: &[Care<'f>]) -> Vec<Option<&'f str>> {
    let known: BTreeSet<(&str, &str)> =
        cares.iter().filter_map(|care| Some((care.trial, care.lot?))).collect();
    let of: BTreeMap<&str, &str> = known.into_iter().collect();
    trials.iter().map(|t| of.get(t.trial).copied()).collect()
}

/// The club of each trial's grower.
pub fn clubs<'f>(trials: &[Count], cares: &[Care<'f>]) -> Vec<Option<&'f str>> {
    let of: BTreeMap<&str, &str> = cares.iter().filter_map(|care| Some((care.trial, care.club?))).collect();
    trials.iter().map(|t| of.get(t.trial).copied()).collect()
}

fn as_care(column: Column) -> Column {
    Column { is_care: true, ..column }
}

/// What is known of each trial, in their order.
struct Cares<'f> {
    routine: Vec<Option<&'f str>>,
    warmth: Vec<Option<f64>>,
    age: Vec<Option<f64>>,
}

impl<'f> Cares<'f> {
    fn of(trials: &[Count], cares: &[Care<'f>]) -> Self {
        let mut bags: BTreeMap<&str, Vec<&Care<'f>>> = BTreeMap::new();
        for care in cares {
            bags.entry(care.trial).or_default().push(care);
        }
        bags.values_mut().for_each(|of_trial| of_trial.sort_by(|a, b| order(a, b)));
        let of = |t: &Count| bags.get(t.trial).map(Vec::as_slice).unwrap_or_default();
        let first = |t: &Count| of(t).first();
        Self {
            routine: trials.iter().map(|t| first(t)?.routine).collect(),
            warmth: trials.iter().map(|t| warmth(of(t))).collect(),
            age: trials.iter().map(|t| first(t)?.age_years).collect(),
        }
    }

    /// The routine of most trials; the first by name of several.
    fn usual(&self) -> Option<&'f str> {
        let mut uses: BTreeMap<&str, usize> = BTreeMap::new();
        self.routine.iter().flatten().for_each(|r| *uses.entry(r).or_default() += 1);
        uses.into_iter().rev().max_by_key(|(_, n)| *n).map(|(routine, _)| routine)
    }
}

/// Any order that does not depend on that of the input, so that sums come out the same to the last digit.
fn order(a: &Care, b: &Care) -> std::cmp::Ordering {
    let number = |x: Option<f64>| x.unwrap_or(f64::NEG_INFINITY);
    (a.seeds, a.routine).cmp(&(b.seeds, b.routine)).then(number(a.warmth_c).total_cmp(&number(b.warmth_c)))
}

/// Mean warmth of a trial's bags, by their seeds; `None` where one is not known.
fn warmth(bags: &[&Care]) -> Option<f64> {
    let (mut sum, mut seeds) = (0.0, 0.0);
    for bag in bags {
        sum += bag.warmth_c? * f64::from(bag.seeds);
        seeds += f64::from(bag.seeds);
    }
    (seeds > 0.0).then(|| sum / seeds)
}

fn levels(what: &str, of: &[Option<&str>], reference: Option<&str>) -> Vec<Column> {
    if of.iter().any(Option::is_none) {
        return Vec::new();
    }
    let mut names: Vec<&str> = of.iter().copied().flatten().collect();
    names.sort_unstable();
    names.dedup();
    let column = |name: &&str| Column {
        name: format!("{what}: {name}"),
        values: of.iter().map(|x| f64::from(u8::from(*x == Some(*name)))).collect(),
        is_care: false,
    };
    names.iter().filter(|name| Some(**name) != reference).map(column).collect()
}

fn slope(name: &str, of: &[Option<f64>]) -> Option<Column> {
    let values: Vec<f64> = of.iter().copied().collect::<Option<_>>()?;
    let mean = values.iter().sum::<f64>() / values.len() as f64;
    let values: Vec<f64> = values.iter().map(|x| x - mean).collect();
    let varies = values.iter().any(|x| x.abs() > 1e-9);
    varies.then(|| Column { name: name.to_owned(), values, is_care: false })
}

/// The columns that the intercept and those before do not already tell (Gram and Schmidt).
pub fn independent(columns: Vec<Column>, trials: usize) -> Vec<Column> {
    let mut known = vec![vec![1.0 / (trials.max(1) as f64).sqrt(); trials]];
    let mut kept = Vec::new();
    for column in columns {
        let length = |v: &[f64]| v.iter().map(|x| x * x).sum::<f64>().sqrt();
        let mut rest = column.values.clone();
        for base in known.iter().chain(&known) {
            let along: f64 = base.iter().zip(&rest).map(|(b, r)| b * r).sum();
            rest.iter_mut().zip(base).for_each(|(r, b)| *r -= along * b);
        }
        let left = length(&rest);
        if left > 1e-6 * length(&column.values) {
            rest.iter_mut().for_each(|r| *r /= left);
            known.push(rest);
            kept.push(column);
        }
    }
    kept
}

/// How many growers varied what a column says, and how many trials they made.
pub fn varied(column: &Column, trials: &[Count]) -> (usize, usize) {
    let mut growers: BTreeMap<&str, (f64, f64, usize)> = BTreeMap::new();
    for (t, x) in trials.iter().zip(&column.values) {
        let (low, high, n) = growers.entry(t.grower).or_insert((*x, *x, 0));
        (*low, *high, *n) = (low.min(*x), high.max(*x), *n + 1);
    }
    let varied = growers.values().filter(|(low, high, _)| high - low > 1e-9);
    varied.fold((0, 0), |(growers, trials), (_, _, n)| (growers + 1, trials + n))
}

/// Columns of care taken apart into what differs within growers and what between: for each, the
/// column less its grower's mean, then the means.
pub fn within_growers(columns: &[Column], trials: &[Count]) -> Vec<Column> {
    let mut split = Vec::new();
    for column in columns {
        if !column.is_care {
            split.push(Column { name: column.name.clone(), values: column.values.clone(), is_care: false });
            continue;
        }
        let mut growers: BTreeMap<&str, (f64, f64)> = BTreeMap::new();
        for (t, x) in trials.iter().zip(&column.values) {
            let sums = growers.entry(t.grower).or_default();
            *sums = (sums.0 + x, sums.1 + 1.0);
        }
        let mean = |t: &Count| growers[t.grower].0 / growers[t.grower].1;
        let means: Vec<f64> = trials.iter().map(mean).collect();
        let within = column.values.iter().zip(&means).map(|(x, m)| x - m).collect();
        split.push(Column { name: column.name.clone(), values: within, is_care: true });
        split.push(Column { name: String::new(), values: means, is_care: false });
    }
    split.retain(|c| c.values.iter().any(|x| x.abs() > 1e-9));
    independent(split, trials.len())
}
