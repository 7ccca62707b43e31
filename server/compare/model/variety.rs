use super::contrast::Contrast;
use super::hundred::logit;
use crate::rates::others::Beside;
use crate::rates::rows::{ClubRow, ClubTable};
use hilum_calc::club::{Adjusted, Linked, Pair, Standing};
use std::collections::BTreeSet;

/// One source of a variety.
#[derive(Debug)]
pub struct Source<'c> {
    pub name: &'c str,
    pub adjusted: Option<&'c Adjusted>,
    /// Its row of the table of seeds on paper, with its place there.
    pub row: Option<(usize, &'c ClubRow)>,
    pub growers: BTreeSet<&'c str>,
    /// What other clubs found with it.
    pub beside: Option<&'c Beside>,
}

/// Sources that can be compared with each other, the best first.
#[derive(Debug)]
pub struct Group<'c> {
    pub sources: Vec<Source<'c>>,
    /// Every pair of them of which something is known, in the order of the sources.
    pub contrasts: Vec<Contrast<'c>>,
}

/// The sources of one variety.
#[derive(Debug)]
pub struct Variety<'c> {
    pub kind: &'c str,
    pub name: &'c str,
    pub groups: Vec<Group<'c>>,
}

impl<'c> Variety<'c> {
    /// Every variety of the standing.
    pub fn all(standing: &'c Standing, table: &'c ClubTable) -> Vec<Self> {
        standing.linked.iter().map(|linked| Self::linked(standing, table, linked)).collect()
    }

    /// `None` where the standing has no such variety.
    pub fn named(standing: &'c Standing, table: &'c ClubTable, kind: &str, variety: &str) -> Option<Self> {
        let linked = standing.linked.iter().find(|l| l.kind == kind && l.variety == variety)?;
        Some(Self::linked(standing, table, linked))
    }

    fn linked(standing: &'c Standing, table: &'c ClubTable, linked: &'c Linked) -> Self {
        let key = |p: &Pair| (p.kind.as_str(), p.variety.as_str()).cmp(&(&linked.kind, &linked.variety));
        let first = standing.pairs.partition_point(|p| key(p).is_lt());
        let pairs = &standing.pairs[first..];
        let pairs = &pairs[..pairs.partition_point(|p| key(p).is_eq())];
        let lots = standing.model.as_ref().is_some_and(|m| m.lots);
        let group = |names: &'c Vec<String>| {
            let source =
                |name: &'c String| Source::of(standing, table, (&linked.kind, &linked.variety, name));
            let mut sources: Vec<Source> = names.iter().map(source).collect();
            let rate = |s: &Source| s.adjusted.map_or(-1.0, |a| a.rate);
            sources.sort_by(|a, b| rate(b).total_cmp(&rate(a)).then(a.name.cmp(b.name)));
            Group { contrasts: contrasts((pairs, table), &sources, lots), sources }
        };
        let groups = linked.groups.iter().map(group).collect();
        Self { kind: &linked.kind, name: &linked.variety, groups }
    }

    pub fn sources(&self) -> impl Iterator<Item = &Source<'c>> {
        self.groups.iter().flat_map(|g| &g.sources)
    }
}

fn contrasts<'c>(
    (pairs, table): (&'c [Pair], &ClubTable),
    sources: &[Source<'c>],
    lots: bool,
) -> Vec<Contrast<'c>> {
    let mut found = Vec::new();
    for (i, one) in sources.iter().enumerate() {
        for other in &sources[i + 1..] {
            let both =
                |p: &&Pair| (p.a == one.name && p.b == other.name) || (p.a == other.name && p.b == one.name);
            let shared: BTreeSet<&str> = one.growers.intersection(&other.growers).copied().collect();
            let middle = f64::midpoint(logit_of(table, one, &shared), logit_of(table, other, &shared));
            let known = one.adjusted.is_some() && other.adjusted.is_some();
            if let Some(pair) = pairs.iter().find(both).filter(|_| known) {
                found.extend(Contrast::of(pair, (shared.len(), middle), lots));
            }
        }
    }
    found
}

/// The logit of what these growers rooted of a source, half a seed added to either side so that it is finite.
fn logit_of(table: &ClubTable, source: &Source, growers: &BTreeSet<&str>) -> f64 {
    let place = source.row.map(|(place, _)| place);
    let theirs = table.grown.iter().filter(|g| Some(g.row) == place && growers.contains(g.grower.as_str()));
    let (rooted, seeds) = theirs.fold((0.0, 0.0), |(x, n), g| (x + g.rooted, n + g.seeds));
    logit((rooted + 0.5) / (seeds + 1.0))
}

impl<'c> Source<'c> {
    fn of(standing: &'c Standing, table: &'c ClubTable, place: (&str, &str, &'c str)) -> Self {
        let key =
            |r: &ClubRow| (r.row.kind.as_str(), r.row.variety.as_str(), r.row.source.as_str()).cmp(&place);
        let at = table.rows.binary_search_by(key).ok();
        let first = table.grown.partition_point(|g| Some(g.row) < at);
        let growers = table.grown[first..].iter().take_while(|g| Some(g.row) == at);
        let beside = table.besides.with(place);
        let theirs = beside.iter().flat_map(|b| &b.growers).map(String::as_str);
        Self {
            name: place.2,
            adjusted: standing.adjusted(place),
            row: at.map(|i| (i, &table.rows[i])),
            growers: growers.map(|g| g.grower.as_str()).chain(theirs).collect(),
            beside,
        }
    }
}

impl<'c> Group<'c> {
    /// What is known of one source against another.
    pub fn contrast(&self, one: &str, other: &str) -> Option<&Contrast<'c>> {
        self.contrasts.iter().find(|c| c.is_of(one, other))
    }
}
