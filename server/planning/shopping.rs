//! What to buy: seed that the plan is short of, beside what the packets hold and how the club's sources stand.

use super::model::Entry;
use super::read::Season;
use super::sentences;
use crate::compare::model::{Answer, Variety};
use crate::compare::read::Club;
use crate::web::words::percent;
use std::collections::BTreeMap;

/// One source as the club found it.
#[derive(Debug, Clone, PartialEq)]
pub struct Source {
    pub name: String,
    /// `62 % (43 to 76)`; empty where too little is known.
    pub adjusted: String,
    /// `101 seeds, 5 growers`
    pub behind: String,
    /// Its group; empty where all can be compared.
    pub group: String,
}

/// Seed of one variety, and of one source where the plan names it.
#[derive(Debug, Clone, PartialEq)]
pub struct Want {
    pub kind: String,
    pub variety: String,
    /// Empty: any.
    pub source: String,
    /// Seeds that the plan takes, that packets hold of them, and that are short.
    pub wanted: i64,
    pub held: i64,
    pub short: i64,
    /// Lines without a number of seeds.
    pub unknown: usize,
    /// Which source to buy from, in words.
    pub lead: String,
    /// How sure that is, and what cannot be compared.
    pub sentences: Vec<String>,
    /// The best first within each group.
    pub sources: Vec<Source>,
}

/// What the lines that are not started are short of, by kind and variety.
pub fn list(season: &Season, club: &Club) -> Vec<Want> {
    let mut wants: BTreeMap<(&str, &str, &str), Want> = BTreeMap::new();
    for e in season.entries.iter().filter(|e| e.short > 0 || e.reckoned.seeds.is_none()) {
        let source = e.line.source.as_deref().unwrap_or_default();
        let want = wants.entry((&e.line.kind, &e.line.variety, source)).or_insert_with(|| empty(e));
        let seeds = e.reckoned.seeds.unwrap_or(0);
        want.wanted += seeds;
        want.short += e.short;
        want.held += seeds - e.short;
        want.unknown += usize::from(e.reckoned.seeds.is_none());
    }
    let mut wants: Vec<Want> = wants.into_values().collect();
    wants.iter_mut().for_each(|want| stand(want, club));
    wants
}

fn empty(e: &Entry) -> Want {
    Want {
        kind: e.line.kind.clone(),
        variety: e.line.variety.clone(),
        source: e.line.source.clone().unwrap_or_default(),
        wanted: 0,
        held: 0,
        short: 0,
        unknown: 0,
        lead: String::new(),
        sentences: Vec::new(),
        sources: Vec::new(),
    }
}

/// Adds what the club found. Sources that cannot be compared stand in groups, none before another.
fn stand(want: &mut Want, club: &Club) {
    let Some(standing) = club.standing() else {
        want.lead = t!("planning-sources-not-told-apart").to_owned();
        return;
    };
    let Some(variety) = Variety::named(standing, &club.table, &want.kind, &want.variety) else {
        want.lead = t!("planning-not-counted").to_owned();
        return;
    };
    let sd_trial = standing.model.as_ref().map_or(0.0, |m| m.sd.trial);
    let answer = Answer::of(&variety, sd_trial);
    (want.lead, want.sentences) = (answer.lead, answer.sentences);
    let grouped = variety.groups.len() > 1;
    for (place, group) in variety.groups.iter().enumerate() {
        want.sources.extend(group.sources.iter().map(|source| Source {
            name: source.name.to_owned(),
            adjusted: source.adjusted.map_or_else(String::new, |a| {
                t!("planning-interval", rate = percent(a.rate), low = percent(a.low), high = percent(a.high))
            }),
            behind: source.row.map_or_else(String::new, |(_, r)| {
                t!("planning-seeds-by-growers", seeds = r.row.seeds, growers = r.row.growers)
            }),
            group: if grouped { (place + 1).to_string() } else { String::new() },
        }));
    }
}

impl Want {
    /// `Marsh Ember, pepper`
    pub fn name(&self) -> String {
        format!("{}, {}", self.variety, self.kind)
    }

    /// Whether some of its sources cannot be compared.
    pub fn grouped(&self) -> bool {
        self.sources.iter().any(|s| !s.group.is_empty())
    }

    /// `14 seeds short: the plan takes 24, your packets hold 10 of them.`
    pub fn words(&self) -> String {
        let short = (self.short != 0)
            .then(|| t!("planning-seeds-short-of", n = self.short, wanted = self.wanted, held = self.held));
        let unknown = (self.unknown > 0).then(|| t!("planning-lines-without-number", n = self.unknown));
        sentences([short, unknown])
    }
}
