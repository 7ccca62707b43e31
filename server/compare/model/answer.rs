use super::contrast::{Contrast, Finding};
use super::variety::{Group, Source, Variety};
use crate::web::words::{and, or};
use hilum_calc::power::Question;

/// What an organiser can act on, in plain sentences.
#[derive(Debug, Default)]
pub struct Answer {
    /// Which source to buy from again.
    pub lead: String,
    /// Whether the lead says what to buy.
    pub differs: bool,
    /// Whether a ring trial would tell more: no difference is shown, or some cannot be compared.
    pub open: bool,
    /// How sure that is, and what cannot be compared.
    pub sentences: Vec<String>,
}

/// Seeds of a trial in a plan, and the difference it is to show, as a share.
const SEEDS: u32 = 20;
const TEN: f64 = 0.1;

impl Answer {
    /// `sd_trial` says how far trials differ, on the logit.
    pub fn of(variety: &Variety, sd_trial: f64) -> Self {
        let compared = variety.groups.iter().filter(|g| !g.contrasts.is_empty());
        let mut found: Vec<Self> = compared.map(|g| among(g, sd_trial)).collect();
        found.sort_by_key(|answer| !answer.differs);
        let mut found = found.into_iter();
        let mut answer = found.next().unwrap_or_default();
        for more in found {
            answer.open |= more.open;
            answer.sentences.push(more.lead);
            answer.sentences.extend(more.sentences);
        }
        answer.open |= variety.groups.len() > 1;
        answer.sentences.extend(apart(variety));
        if answer.lead.is_empty() {
            answer.lead = nothing(variety);
        }
        answer
    }
}

/// Where no two sources can be compared.
fn nothing(variety: &Variety) -> String {
    let names: Vec<&str> = variety.sources().map(|s| s.name).collect();
    match names[..] {
        [only] => t!("compare-only-one-source", source = only),
        _ if variety.groups.len() > 1 => t!("compare-no-two-yet").to_owned(),
        _ => t!("compare-too-little-to-compare").to_owned(),
    }
}

/// The answer for sources that can be compared with each other.
fn among(group: &Group, sd_trial: f64) -> Answer {
    let best = group.sources[0].name;
    let against: Vec<&Contrast> =
        group.sources[1..].iter().filter_map(|s| group.contrast(best, s.name)).collect();
    let worse: Vec<&Contrast> = against.iter().copied().filter(|c| c.differs()).collect();
    let level: Vec<&Contrast> = against.iter().copied().filter(|c| !c.differs()).collect();
    let mut names = vec![best];
    names.extend(level.iter().map(|c| other(c, best)));
    let mut said: Vec<String> = worse.iter().map(|c| c.sentence()).collect();
    let sure = worse.iter().all(|c| c.finding == Finding::Shown);
    let than: Vec<&str> = worse.iter().map(|c| other(c, best)).collect();
    if !level.is_empty() {
        if !worse.is_empty() {
            said.push(t!("compare-no-difference-between", sources = and(&names)));
        }
        said.extend(undecided(group, &level, sd_trial));
    }
    let lead = match (worse.is_empty(), level.is_empty()) {
        (true, _) => t!("compare-no-difference-between", sources = and(&names)),
        (false, true) if sure => t!("compare-buy", best = best, others = and(&than)),
        (false, true) => t!("compare-probably-buy", best = best, others = and(&than)),
        (false, false) if sure => t!("compare-buy-one-of", best = or(&names), others = or(&than)),
        (false, false) => t!("compare-probably-buy-one-of", best = or(&names), others = or(&than)),
    };
    Answer { lead, differs: !worse.is_empty(), open: !level.is_empty(), sentences: said }
}

fn other<'c>(contrast: &Contrast<'c>, one: &str) -> &'c str {
    if contrast.better == one { contrast.worse } else { contrast.better }
}

/// Sources of which none is shown to be better: who is ahead by how much, and what it would take to show it.
fn undecided(group: &Group, level: &[&Contrast], sd_trial: f64) -> Vec<String> {
    let mut said: Vec<String> = level.iter().map(|c| c.undecided()).collect();
    said.extend(group.sources[0].adjusted.and_then(|best| to_show(best.rate, sd_trial)));
    said
}

/// The seeds it takes to show that one source is 10 in 100 better, four times out of five.
fn to_show(rate: f64, sd_trial: f64) -> Option<String> {
    let (low, high) = ((rate - TEN).clamp(0.02, 0.88), rate.clamp(0.12, 0.98));
    let question = Question { p1: high, p2: low, alpha: 0.05, power: 0.8 };
    let plan = question.trials(sd_trial, SEEDS)?;
    Some(t!("compare-to-show-it", seeds = plan.seeds, trials = plan.trials, each = SEEDS))
}

/// Which sources cannot be compared, and why.
fn apart(variety: &Variety) -> Option<String> {
    let groups = &variety.groups;
    if groups.len() < 2 {
        return None;
    }
    let named = |g: &Group| and(&g.sources.iter().map(|s| s.name).collect::<Vec<_>>());
    let main = groups.iter().max_by_key(|g| g.sources.len())?;
    let alone: Vec<&Group> = groups.iter().filter(|g| !std::ptr::eq(*g, main)).collect();
    let parts: Vec<String> =
        alone.iter().map(|g| format!("{} ({})", named(g), grown_by(&g.sources))).collect();
    let mains = or(&main.sources.iter().map(|s| s.name).collect::<Vec<_>>());
    let (these, main) = (and(&parts), format!("{mains} ({})", grown_by(&main.sources)));
    Some(match alone.len() {
        1 => t!("compare-apart", these = these, main = main),
        _ => t!("compare-apart-each", these = these, main = main),
    })
}

fn grown_by(sources: &[Source]) -> String {
    let mut growers: Vec<&str> = sources.iter().flat_map(|s| s.growers.iter().copied()).collect();
    growers.sort_unstable();
    growers.dedup();
    match growers.len() {
        0 => t!("compare-no-count-yet").to_owned(),
        1..=3 => t!("compare-grown-by", growers = and(&growers)),
        n => t!("compare-grown-by-others", n = n),
    }
}
