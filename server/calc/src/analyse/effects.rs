//! What else differs between trials and is adjusted for: kinds, routines, warmth, age of seed.

use super::bags::BagFile;
use crate::table::Count;
use std::collections::BTreeMap;

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
pub fn columns(trials: &[Count], files: &[BagFile]) -> Vec<Column> {
    let care = Care::of(trials, files);
    let kinds: Vec<Option<&str>> = trials.iter().map(|t| Some(t.place.0)).collect();
    let mut columns = levels("kind", &kinds, trials.first().map(|t| t.place.0));
    columns.extend(levels("routine", &care.routine, care.usual()).into_iter().map(as_care));
    columns.extend(slope("warmth_c", &care.warmth).map(as_care));
    columns.extend(slope("age_years", &care.age).map(as_care));
    independent(columns, trials.len())
}

fn as_care(column: Column) -> Column {
    Column { is_care: true, ..column }
}

/// What the file says of each trial.
struct Care<'f> {
    routine: Vec<Option<&'f str>>,
    warmth: Vec<Option<f64>>,
    age: Vec<Option<f64>>,
}

impl<'f> Care<'f> {
    fn of(trials: &[Count], files: &'f [BagFile]) -> Self {
        let mut bags: BTreeMap<&str, Vec<&BagFile>> = BTreeMap::new();
        for file in files {
            bags.entry(&file.first.trial).or_default().push(file);
        }
        let first = |t: &Count| &bags[t.trial][0].first;
        Self {
            routine: trials.iter().map(|t| first(t).routine.as_deref()).collect(),
            warmth: trials.iter().map(|t| warmth(&bags[t.trial])).collect(),
            age: trials.iter().map(|t| first(t).age_years).collect(),
        }
    }

    /// The routine of most trials; the first by name of several.
    fn usual(&self) -> Option<&'f str> {
        let mut uses: BTreeMap<&str, usize> = BTreeMap::new();
        self.routine.iter().flatten().for_each(|r| *uses.entry(r).or_default() += 1);
        uses.into_iter().rev().max_by_key(|(_, n)| *n).map(|(routine, _)| routine)
    }
}

/// Mean warmth of a trial's bags, by their seeds.
fn warmth(bags: &[&BagFile]) -> Option<f64> {
    let (mut sum, mut seeds) = (0.0, 0.0);
    for bag in bags {
        sum += bag.first.warmth_c? * f64::from(bag.first.seeds);
        seeds += f64::from(bag.first.seeds);
    }
    Some(sum / seeds)
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
