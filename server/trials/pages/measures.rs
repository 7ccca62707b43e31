//! The germination-time measures of each bag: in words, with what each means and where it comes from.

use crate::manual::{self, Told};
use crate::trials::rooting::{Seen, measured};
use crate::web::words::percent;
use hilum_calc::proportion::wilson;
use hilum_calc::timing::{Looks, Measure, Undefined};
use hilum_calc::units::shown;

/// A measure as it is read; an en dash with `why` where there is none.
pub struct Cell {
    pub name: &'static str,
    pub words: String,
    pub why: &'static str,
}

/// The measures of one bag.
pub struct Line {
    pub mark: String,
    pub floaters: bool,
    pub cells: Vec<Cell>,
}

/// A measure; the manual says what it means and where it comes from.
pub struct About {
    pub name: &'static str,
    value: fn(&Seen, &Looks) -> Result<String, &'static str>,
}

impl About {
    /// As the methods page says it.
    pub fn told(&self) -> Told {
        manual::told(self.name)
    }
}

/// A table of some measures, bag by bag.
pub struct Table {
    pub about: &'static [About],
    pub lines: Vec<Line>,
}

/// The measures a grower looks at first.
pub fn leading(bags: &[Seen]) -> Table {
    table(LEADING, bags)
}

/// The others.
pub fn others(bags: &[Seen]) -> Table {
    table(OTHERS, bags)
}

fn table(about: &'static [About], bags: &[Seen]) -> Table {
    let line = |seen: &Seen| {
        let days = seen.days();
        let looks = measured(seen, &days)?;
        let cells = about.iter().map(|a| cell(a, seen, &looks)).collect();
        Some(Line { mark: seen.mark.clone(), floaters: seen.floaters, cells })
    };
    Table { about, lines: bags.iter().filter(|b| b.counts()).filter_map(line).collect() }
}

fn cell(about: &About, seen: &Seen, looks: &Looks) -> Cell {
    match (about.value)(seen, looks) {
        Ok(words) => Cell { name: about.name, words, why: "" },
        Err(why) => Cell { name: about.name, words: "\u{2013}".to_owned(), why },
    }
}

fn number(measure: Measure, places: usize, unit: &str) -> Result<String, &'static str> {
    measure.map(|x| format!("{}{unit}", shown(x, places))).map_err(why)
}

fn why(undefined: Undefined) -> &'static str {
    match undefined {
        Undefined::NothingGerminated => "nothing rooted",
        Undefined::OneSeed => "only one seed rooted",
        Undefined::NoDuration => "no time has passed",
    }
}

fn days(measure: Measure) -> Result<String, &'static str> {
    number(measure, 1, " days")
}

/// The day of half; where a straight line draws it before anything was seen, that is said.
fn half(looks: &Looks, measure: Measure) -> Result<String, &'static str> {
    let said = days(measure)?;
    let unseen = looks.first().ok().zip(measure.ok()).is_some_and(|(first, half)| half < first);
    Ok(if unseen { said + ", guessed: half were out when the first was seen" } else { said })
}

/// A speed has no end where roots were out on day 0.
fn speed(seen: &Seen, said: Result<String, &'static str>) -> Result<String, &'static str> {
    if seen.rooted_in_soak() { Err("roots were out before day 0") } else { said }
}

fn share(seen: &Seen, looks: &Looks) -> Result<String, &'static str> {
    let (x, n) = (looks.germinated() as f64, f64::from(seen.seeds));
    let ends = wilson(x, n, 0.95);
    let (rate, low, high) = (percent(x / n), percent(ends.low), percent(ends.high));
    Ok(format!("{rate} % ({low} to {high}), {x}\u{a0}of\u{a0}{n}"))
}

fn mean(looks: &Looks) -> Result<String, &'static str> {
    let mean = looks.mean().map_err(why)?;
    Ok(match looks.standard_error() {
        Ok(error) => format!("{} ± {} days", shown(mean, 1), shown(error, 1)),
        Err(undefined) => format!("{} days; ± \u{2013}, {}", shown(mean, 1), why(undefined)),
    })
}

const LEADING: &[About] = &[
    About { name: "Rooted", value: share },
    About { name: "First root", value: |_, looks| days(looks.first()) },
    About { name: "Half out by", value: |_, looks| half(looks, looks.t50_half()) },
    About { name: "Mean time", value: |_, looks| mean(looks) },
];

const OTHERS: &[About] = &[
    About { name: "Last root", value: |_, looks| days(looks.last()) },
    About { name: "Half out by, the other way", value: |_, looks| half(looks, looks.t50_coolbear()) },
    About { name: "Variance of the time", value: |_, looks| number(looks.variance(), 2, " days²") },
    About { name: "Variation of the time", value: |_, looks| number(looks.variation_percent(), 1, " %") },
    About {
        name: "Maguire's speed",
        value: |seen, looks| speed(seen, number(Ok(looks.maguire()), 2, " seeds a day")),
    },
    About {
        name: "Kotowski's velocity",
        value: |seen, looks| speed(seen, number(looks.kotowski(), 1, " % a day")),
    },
    About { name: "Uncertainty", value: |_, looks| number(looks.uncertainty(), 2, " bits") },
    About { name: "Synchrony", value: |_, looks| number(looks.synchrony(), 2, "") },
    About { name: "Peak value", value: |seen, looks| speed(seen, number(looks.peak_value(), 1, " % a day")) },
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_manual_tells_of_each_measure() {
        for about in LEADING.iter().chain(OTHERS) {
            let told = about.told();
            assert!(
                [told.meaning, told.formula, told.source].iter().all(|t| !t.is_empty()),
                "{}",
                about.name
            );
        }
    }
}
