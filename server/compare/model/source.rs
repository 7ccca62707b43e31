//! One source across its varieties.

use super::contrast::{Contrast, Finding};
use super::hundred::{Hundred, logit};
use super::variety::{Source, Variety};
use crate::rates::rows::ClubTable;
use crate::web::words::percent;
use hilum_calc::club::{SourceStanding, Standing};

/// What is known of the source with one variety.
#[derive(Debug)]
pub struct Of<'c> {
    pub variety: &'c Variety<'c>,
    pub own: &'c Source<'c>,
    /// Beside each source of the variety that it can be compared with.
    pub beside: Vec<(&'c str, Hundred, Finding)>,
    /// Those that it cannot be compared with.
    pub apart: Vec<&'c str>,
}

/// Every variety of the source, in the order of the standing.
pub fn of<'c>(varieties: &'c [Variety<'c>], source: &str) -> Vec<Of<'c>> {
    varieties.iter().filter_map(|variety| one(variety, source)).collect()
}

fn one<'c>(variety: &'c Variety<'c>, source: &str) -> Option<Of<'c>> {
    let place = variety.groups.iter().position(|g| g.sources.iter().any(|s| s.name == source))?;
    let group = &variety.groups[place];
    let own = group.sources.iter().find(|s| s.name == source)?;
    let seen = |c: &Contrast<'c>| {
        if c.better == source {
            Some((c.worse, c.whole, c.finding))
        } else {
            (c.worse == source).then(|| (c.better, c.whole.turned(), c.finding))
        }
    };
    let others = variety.groups.iter().enumerate().filter(|(i, _)| *i != place);
    Some(Of {
        variety,
        own,
        beside: group.contrasts.iter().filter_map(seen).collect(),
        apart: others.flat_map(|(_, g)| g.sources.iter().map(|s| s.name)).collect(),
    })
}

/// How the source stands across varieties against the club's average source, in one sentence.
pub fn across(standing: &Standing, table: &ClubTable, source: &str) -> Option<String> {
    let own = standing.sources.iter().find(|s| s.source == source);
    let Some((own, effect)) = own.and_then(|own| Some((own, own.effect?))) else {
        return Some(missing(own, table, source));
    };
    let logits: Vec<f64> = standing.adjusted.iter().map(|a| logit(a.rate)).collect();
    let from = logits.iter().sum::<f64>() / logits.len().max(1) as f64;
    let found = Hundred::beyond(from, &effect);
    let chance = own.probability_better?;
    let (found, better, worse) = (found.words(), percent(chance), percent(1.0 - chance));
    Some(match (effect.low > 0.0, effect.high < 0.0) {
        (true, _) => t!("compare-across-better", found = found, chance = better),
        (_, true) => t!("compare-across-worse", found = found, chance = worse),
        _ if chance >= 0.5 => t!("compare-across-if-better", found = found, chance = better),
        _ => t!("compare-across-if-worse", found = found, chance = worse),
    })
}

fn missing(own: Option<&SourceStanding>, table: &ClubTable, source: &str) -> String {
    let varieties =
        own.map_or_else(|| table.rows.iter().filter(|r| r.row.source == source).count(), |own| own.varieties);
    t!("compare-across-missing", n = varieties)
}

/// How sure a difference is; `None` where it is shown.
pub fn sure(finding: Finding) -> Option<&'static str> {
    match finding {
        Finding::Shown => None,
        Finding::Probable => Some(t!("compare-sure-probable")),
        Finding::NotShown => Some(t!("compare-verdict-not-shown")),
        Finding::Unsettled => Some(t!("compare-sure-unsettled")),
    }
}
