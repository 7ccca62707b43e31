//! The trials laid out for the models.

use super::care::{Care, Column, clubs, columns, lots};
use crate::mixed::{Design, Fixed, Trial};
use crate::table::{Count, Place};
use std::collections::{BTreeMap, BTreeSet};

/// Fewer cells than this with two lots tried twice do not tell how lots of a cell differ.
const FEW_CELLS: usize = 3;
/// Fewer sources than this, each tried with two varieties, do not tell how sources differ.
pub const FEW_SOURCES: usize = 3;

/// What else each trial belongs to.
struct Groups<'t> {
    /// Its lot, where the model tells lots apart.
    lots: Vec<Option<&'t str>>,
    /// The club of its grower.
    clubs: Vec<Option<&'t str>>,
}

/// The trials laid out for either model.
pub struct Ready<'t> {
    pub trials: &'t [Count<'t>],
    groups: Groups<'t>,
    pub columns: Vec<Column>,
    pub partial: Design,
    pub fixed: Design,
}

impl<'t> Ready<'t> {
    /// `None` where no trial is known, or the club is too large (see [`Design::check`]).
    pub fn new(trials: &'t [Count<'t>], cares: &[Care<'t>]) -> Option<Self> {
        if trials.is_empty() {
            return None;
        }
        let columns = columns(trials, cares);
        let groups = Groups { lots: if_told(trials, lots(trials, cares)), clubs: clubs(trials, cares) };
        let partial = design(trials, &groups, false, &with_intercept(&columns, trials.len()));
        partial.check().ok()?;
        let fixed = design(trials, &groups, false, &Fixed::Cells);
        Some(Self { trials, groups, columns, partial, fixed })
    }

    /// Whether the model tells lots apart.
    pub fn has_lots(&self) -> bool {
        self.groups.lots.iter().any(Option::is_some)
    }

    /// Whether growers of more than one club made the trials.
    pub fn has_clubs(&self) -> bool {
        self.groups.clubs.iter().any(|club| *club != self.groups.clubs[0])
    }

    /// The partial design with other columns.
    pub fn with_columns(&self, columns: &[Column]) -> Design {
        design(self.trials, &self.groups, false, &with_intercept(columns, self.trials.len()))
    }

    /// The partial design with sources across varieties.
    pub fn with_sources(&self) -> Design {
        design(self.trials, &self.groups, true, &with_intercept(&self.columns, self.trials.len()))
    }

    /// The place of every cell in the designs.
    pub fn cells(&self) -> BTreeMap<Place<'t>, usize> {
        let at: BTreeMap<&str, usize> = self.partial.cells.iter().map(String::as_str).zip(0..).collect();
        self.trials.iter().map(|t| (t.place, at[named(t.place).as_str()])).collect()
    }
}

/// No lots at all where too few cells tell how they differ.
fn if_told<'t>(trials: &[Count], lots: Vec<Option<&'t str>>) -> Vec<Option<&'t str>> {
    let mut tried: BTreeMap<Place, BTreeMap<&str, usize>> = BTreeMap::new();
    for (t, lot) in trials.iter().zip(&lots).filter_map(|(t, lot)| Some((t, (*lot)?))) {
        *tried.entry(t.place).or_default().entry(lot).or_default() += 1;
    }
    let tells = |lots: &&BTreeMap<&str, usize>| lots.values().filter(|n| **n >= 2).count() >= 2;
    let told = tried.values().filter(tells).count() >= FEW_CELLS;
    if told { lots } else { vec![None; trials.len()] }
}

/// Kinds and varieties that each source was tried with.
pub fn varieties<'t>(trials: &[Count<'t>]) -> BTreeMap<&'t str, BTreeSet<(&'t str, &'t str)>> {
    let mut tried: BTreeMap<&str, BTreeSet<(&str, &str)>> = BTreeMap::new();
    for (kind, variety, source) in trials.iter().map(|t| t.place) {
        tried.entry(source).or_default().insert((kind, variety));
    }
    tried
}

fn named((kind, variety, source): Place) -> String {
    format!("{kind}\u{0}{variety}\u{0}{source}")
}

fn design(trials: &[Count], groups: &Groups, sources: bool, fixed: &Fixed) -> Design {
    let variety = |t: &Count| format!("{}\u{0}{}", t.place.0, t.place.1);
    let names: Vec<(String, String)> = trials.iter().map(|t| (variety(t), named(t.place))).collect();
    let row = |i: usize| Trial {
        variety: &names[i].0,
        cell: &names[i].1,
        source: sources.then_some(trials[i].place.2),
        lot: groups.lots[i],
        grower: trials[i].grower,
        club: groups.clubs[i],
        x: trials[i].rooted,
        n: trials[i].seeds,
    };
    Design::new(&(0..trials.len()).map(row).collect::<Vec<_>>(), fixed)
}

fn with_intercept(columns: &[Column], trials: usize) -> Fixed {
    let row = |i: usize| std::iter::once(1.0).chain(columns.iter().map(move |c| c.values[i]));
    Fixed::Columns { width: columns.len() + 1, values: (0..trials).flat_map(row).collect() }
}
