//! Why raw and adjusted rates differ, found in the data.

use super::hundred::logit;
use super::variety::Source;
use crate::rates::book::{Book, Counted};
use crate::rates::choice::Choice;
use crate::rates::rows::ClubTable;
use crate::routines::said;
use hilum_calc::club::{Effect, Standing};
use hilum_calc::mixed::expit;
use std::collections::BTreeMap;

/// A difference of fewer than two in 100 is not worth a reason.
const WORTH: f64 = 0.02;

/// What the club's growers and their care do to raw rates.
pub struct Reasons<'c> {
    standing: &'c Standing,
    table: &'c ClubTable,
    bags: Vec<&'c Counted>,
    /// Of each grower: seeds rooted, expected to root, and all.
    growers: BTreeMap<&'c str, [f64; 3]>,
}

impl<'c> Reasons<'c> {
    pub fn new(standing: &'c Standing, table: &'c ClubTable, book: &'c Book) -> Self {
        let mut growers: BTreeMap<&str, [f64; 3]> = BTreeMap::new();
        for g in &table.grown {
            if let Some(expected) = adjusted(standing, table, g.row) {
                let sums = growers.entry(&g.grower).or_default();
                *sums = [sums[0] + g.rooted, sums[1] + expected * g.seeds, sums[2] + g.seeds];
            }
        }
        Self { standing, table, bags: Choice::default().counting(book).collect(), growers }
    }

    /// In one sentence; empty where the two rates are as good as the same, or one is not known.
    pub fn of(&self, kind: &str, variety: &str, source: &Source) -> String {
        let (Some(adjusted), Some((place, row))) = (source.adjusted, source.row) else {
            return String::new();
        };
        let Some(raw) = row.row.rate else { return String::new() };
        let gap = raw - adjusted.rate;
        if gap.abs() < WORTH {
            return String::new();
        }
        let growers = self.growers_of(place);
        let cares = self.cares((kind, variety, source.name), adjusted.rate);
        let helps = |share: f64| share.abs() >= WORTH && share * gap > 0.0;
        let mut said = Vec::new();
        if let Some(share) = growers.filter(|s| helps(*s)) {
            let by = (share * 100.0).abs().round() as i64;
            said.push(if share > 0.0 {
                t!("compare-growers-do-better", n = by)
            } else {
                t!("compare-growers-do-worse", n = by)
            });
        }
        said.extend(cares.iter().filter(|(_, s)| helps(*s)).map(|(words, _)| words.clone()));
        let told = growers.unwrap_or(0.0) + cares.iter().map(|(_, s)| s).sum::<f64>();
        if said.is_empty() || helps(gap - told) {
            said.push(t!("compare-drawn-to-the-usual").to_owned());
        }
        let why = said.join("; ");
        if gap > 0.0 {
            t!("compare-adjusted-is-lower", why = why)
        } else {
            t!("compare-adjusted-is-higher", why = why)
        }
    }

    /// How many of their other seeds its growers root beyond what is expected, as a share, by their seeds here.
    fn growers_of(&self, place: usize) -> Option<f64> {
        let expected = adjusted(self.standing, self.table, place)?;
        let club =
            beyond(self.growers.values().fold([0.0; 3], |a, b| [a[0] + b[0], a[1] + b[1], a[2] + b[2]]))?;
        let here = self.table.grown.iter().filter(|g| g.row == place);
        let (mut sum, mut weight) = (0.0, 0.0);
        for g in here {
            let all = self.growers.get(g.grower.as_str())?;
            let others = [all[0] - g.rooted, all[1] - expected * g.seeds, all[2] - g.seeds];
            if let Some(share) = beyond(others) {
                sum += (share - club) * g.seeds;
                weight += g.seeds;
            }
        }
        (weight > 0.0).then(|| sum / weight)
    }

    /// What routine, warmth and age do to its raw rate, in words and as a share.
    fn cares(&self, place: (&str, &str, &str), rate: f64) -> Vec<(String, f64)> {
        let here = |b: &&&Counted| (b.kind.as_str(), b.variety.as_str(), b.source.as_str()) == place;
        let own: Vec<&Counted> = self.bags.iter().filter(here).copied().collect();
        let effects = self.standing.model.iter().flat_map(|m| &m.effects);
        effects
            .filter(|effect| is_shown(effect))
            .filter_map(|effect| {
                let (words, differs) = care(&effect.name, &own, &self.bags)?;
                let share = expit(logit(rate) + effect.estimate.value * differs) - rate;
                let how = if share > 0.0 { t!("compare-more-root-so") } else { t!("compare-fewer-root-so") };
                Some((format!("{words} ({how})"), share))
            })
            .collect()
    }
}

/// Whether growers who varied it showed it: what the page about care says of it must not be denied here.
fn is_shown(effect: &Effect) -> bool {
    effect.within_growers.is_some_and(|e| e.low > 0.0 || e.high < 0.0)
}

/// How the bags of a source differ from the club's in what an effect is of.
fn care(effect: &str, own: &[&Counted], all: &[&Counted]) -> Option<(String, f64)> {
    if let Some(routine) = effect.strip_prefix("routine: ") {
        let share = mean(own, |b| Some(f64::from(u8::from(b.routine == routine))))?;
        return Some((t!("compare-another-routine", routine = said::name(routine)), share));
    }
    let (of, more, less): (fn(&Counted) -> Option<f64>, _, _) = match effect {
        "warmth_c" => (|b| b.warmth_c, t!("compare-lay-warmer"), t!("compare-lay-colder")),
        "age_years" => {
            (|b| b.age_years.map(|y| y as f64), t!("compare-was-older"), t!("compare-was-fresher"))
        }
        _ => return None,
    };
    let differs = mean(own, of)? - mean(all, of)?;
    Some((if differs > 0.0 { more } else { less }.to_owned(), differs))
}

/// By seeds; `None` where it is known of no bag.
fn mean(bags: &[&Counted], of: impl Fn(&Counted) -> Option<f64>) -> Option<f64> {
    let known = bags.iter().filter_map(|b| Some((of(b)?, f64::from(b.seeds))));
    let (sum, seeds) = known.fold((0.0, 0.0), |(sum, all), (x, n)| (sum + x * n, all + n));
    (seeds > 0.0).then(|| sum / seeds)
}

fn beyond([rooted, expected, seeds]: [f64; 3]) -> Option<f64> {
    (seeds > 0.5).then(|| (rooted - expected) / seeds)
}

fn adjusted(standing: &Standing, table: &ClubTable, place: usize) -> Option<f64> {
    let row = &table.rows.get(place)?.row;
    standing.adjusted((&row.kind, &row.variety, &row.source)).map(|a| a.rate)
}
