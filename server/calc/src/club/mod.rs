//! A whole club at once: the table, the mixed model, sources compared, and which are linked at all.

mod care;
mod effects;
mod layout;
mod model;
mod pairs;
mod sources;
mod within;

use crate::table::{Bag, Options, Place, Reading, Row};
pub use care::Care;
pub use effects::Effect;
pub use model::{Adjusted, Estimate, Model};
pub use pairs::{Pair, Whole};
use serde::{Deserialize, Serialize};
pub use sources::SourceStanding;
use std::collections::BTreeMap;

/// Everything that is computed over a club's bags.
#[derive(Debug, Clone)]
pub struct Club {
    /// The club table.
    pub rows: Vec<Row>,
    /// How its sources stand.
    pub standing: Standing,
}

/// How the sources of a club stand beside each other.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct Standing {
    /// The model; `None` of no trials or a club too large (see [`crate::mixed::Design::check`]).
    pub model: Option<Model>,
    /// The adjusted rate of every source in the model, sorted by kind, variety, source.
    pub adjusted: Vec<Adjusted>,
    /// Every pair of sources of every variety, in alphabetical order.
    pub pairs: Vec<Pair>,
    /// Every source across varieties, sorted by name; empty where too few have two varieties.
    pub sources: Vec<SourceStanding>,
    /// What care does that has a fit of its own: `floated`, where a trial had both sorts on paper.
    pub effects: Vec<Effect>,
    /// Which sources can be compared at all.
    pub linked: Vec<Linked>,
}

/// The sources of one variety by the group in which they can be compared.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Linked {
    /// Kind.
    pub kind: String,
    /// Variety.
    pub variety: String,
    /// Sources of each group.
    pub groups: Vec<Vec<String>>,
}

impl Club {
    /// Computes everything; `cares` says what else differs between the trials of `bags`, in any order. Both are large
    /// and let go of before the models are fitted.
    #[must_use]
    pub fn of(bags: Vec<Bag>, cares: Vec<Care>, options: &Options) -> Self {
        let reading = Reading::new(bags, options);
        let (rows, groups, trials) = (reading.rows(), reading.groups(), reading.trials());
        let (floaters, sunk) = (reading.trials_of(|bag| bag.floated), reading.trials_of(|bag| !bag.floated));
        drop(reading);
        let ready = layout::Ready::new(&trials, &cares);
        drop(cares);
        let fitted = ready.as_ref().map(model::Fitted::new);
        let floated = |fitted: &model::Fitted| effects::floated(&floaters, &sunk, fitted.fit.point.sd.trial);
        let standing = Standing {
            adjusted: fitted.as_ref().map(model::Fitted::adjusted).unwrap_or_default(),
            pairs: pairs::pairs(fitted.as_ref(), &trials, &groups),
            sources: fitted.as_ref().map(sources::sources).unwrap_or_default(),
            effects: fitted.as_ref().and_then(floated).into_iter().collect(),
            model: fitted.as_ref().map(model::Fitted::model),
            linked: linked(&groups),
        };
        Self { rows, standing }
    }
}

impl Standing {
    /// The adjusted rate of one source.
    #[must_use]
    pub fn adjusted(&self, (kind, variety, source): Place) -> Option<&Adjusted> {
        let key = |a: &Adjusted| {
            (a.kind.as_str(), a.variety.as_str(), a.source.as_str()).cmp(&(kind, variety, source))
        };
        self.adjusted.binary_search_by(key).ok().map(|i| &self.adjusted[i])
    }
}

fn linked(groups: &BTreeMap<Place, usize>) -> Vec<Linked> {
    let mut varieties: Vec<Linked> = Vec::new();
    for ((kind, variety, source), group) in groups {
        if varieties.last().is_none_or(|v| (v.kind.as_str(), v.variety.as_str()) != (*kind, *variety)) {
            let (kind, variety) = ((*kind).to_owned(), (*variety).to_owned());
            varieties.push(Linked { kind, variety, groups: Vec::new() });
        }
        if let Some(last) = varieties.last_mut() {
            let places = last.groups.len().max(*group);
            last.groups.resize(places, Vec::new());
            last.groups[group - 1].push((*source).to_owned());
        }
    }
    varieties
}
