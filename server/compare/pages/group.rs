//! Sources that can be compared, as a page shows them.

use super::super::model::{Contrast, Reasons, Source, Variety};
use super::super::read::Club;
use crate::charts::{Dot, Dots};
use crate::rates::links::Links;
use crate::rates::name;
use crate::rates::rows::ClubRow;
use crate::web::words::percent;

/// One pair of sources.
pub struct PairLine {
    pub names: String,
    pub within: String,
    pub whole: String,
    pub chance: String,
    pub verdict: &'static str,
    /// Disagreement of the two in words; empty where there is none.
    pub flag: String,
}

/// What is to say of one source besides its numbers.
pub struct Note {
    pub name: String,
    pub link: String,
    pub sentences: Vec<String>,
}

pub struct ShownGroup {
    pub title: String,
    pub chart: Option<Dots>,
    pub pairs: Vec<PairLine>,
    pub notes: Vec<Note>,
}

/// Shows the group number `i` of `variety`.
pub fn shown(club: &Club, reasons: &Reasons, variety: &Variety, i: usize) -> ShownGroup {
    let group = &variety.groups[i];
    let title = match (variety.groups.len(), group.sources.len()) {
        (1, _) => t!("compare-side-by-side").to_owned(),
        (all, 1) => t!("compare-group-alone", n = i + 1, all = all),
        (all, _) => t!("compare-group-together", n = i + 1, all = all),
    };
    let dots: Vec<Dot> = group.sources.iter().filter_map(dot).collect();
    let drawn = t!("compare-chart", variety = name::read(variety.name), when = club.by_when());
    let place = (variety.kind, variety.name);
    ShownGroup {
        title,
        chart: Dots::new(format!("group-{}", i + 1), drawn, dots),
        pairs: group.contrasts.iter().map(pair).collect(),
        notes: group.sources.iter().map(|s| note(club, reasons, place, s)).collect(),
    }
}

fn dot(source: &Source) -> Option<Dot> {
    let adjusted = source.adjusted?;
    Some(Dot {
        name: source.name.to_owned(),
        share: adjusted.rate,
        low: adjusted.low,
        high: adjusted.high,
        raw: source.row.and_then(|(_, r)| r.row.rate),
        behind: behind(source),
    })
}

/// "41 seeds, 3 growers, with 120 seeds of 2 other clubs".
pub fn behind(source: &Source) -> String {
    let own =
        source.row.map(|(_, r)| t!("rates-seeds-of-growers", seeds = r.row.seeds, growers = r.row.growers));
    match (own, source.beside) {
        (Some(own), Some(beside)) => format!("{own}, {}", beside.with_words()),
        (None, Some(beside)) => t!("compare-none-of-ours", others = beside.words()),
        (own, None) => own.unwrap_or_default(),
    }
}

/// "86 % (73 to 94)"; empty where it is not known.
pub fn adjusted(source: &Source) -> String {
    source.adjusted.map_or_else(String::new, |a| {
        let span = t!("rates-span", low = percent(a.low), high = percent(a.high));
        format!("{}\u{a0}% {span}", percent(a.rate))
    })
}

/// "91 %"; empty where it is not known.
pub fn raw(source: &Source) -> String {
    source.row.and_then(|(_, r)| r.row.rate).map_or_else(String::new, |p| format!("{}\u{a0}%", percent(p)))
}

fn pair(c: &Contrast) -> PairLine {
    PairLine {
        names: t!("compare-against", better = c.better, worse = c.worse),
        within: c.within.map_or_else(
            || t!("compare-pair-nobody").to_owned(),
            |w| t!("compare-pair-within", found = w.words(), n = c.growers),
        ),
        whole: c.whole.words(),
        chance: format!("{} %", percent(c.chance)),
        verdict: c.verdict(),
        flag: if c.disagrees() { c.beside() } else { String::new() },
    }
}

fn note(club: &Club, reasons: &Reasons, (kind, variety): (&str, &str), source: &Source) -> Note {
    let mut sentences = Vec::new();
    if source.adjusted.is_none() {
        sentences.push(t!("compare-too-little-for-adjusted").to_owned());
    }
    sentences.push(reasons.of(kind, variety, source));
    sentences.extend(source.row.and_then(|(_, row)| floaters(source, row)));
    sentences.retain(|s| !s.is_empty());
    let link = Links::of((kind, variety, source.name), club.at_close).source;
    Note { name: source.name.to_owned(), link, sentences }
}

/// The bound that counts floaters thrown out as not rooted.
fn floaters(source: &Source, row: &ClubRow) -> Option<String> {
    let adjusted = source.adjusted?;
    let (paper, started) = (row.row.seeds as f64, row.row.soaked as f64);
    if row.threw == 0 || started <= paper {
        return None;
    }
    let (bound, all) = (percent(adjusted.rate * paper / started), percent(adjusted.rate));
    (bound != all).then(|| t!("compare-floaters-bound", n = row.threw, bound = bound, all = all))
}
