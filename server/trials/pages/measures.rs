//! The germination-time measures of each bag: in words, with what each means and where it comes from.

use crate::manual::{self, Told};
use crate::trials::rooting::{Seen, measured};
use crate::web::words::{decimal, percent};
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

/// A measure; the manual says under its title what it means and where it comes from.
pub struct About {
    title: &'static str,
    name: fn() -> &'static str,
    value: fn(&Seen, &Looks) -> Result<String, &'static str>,
}

impl About {
    pub fn name(&self) -> &'static str {
        (self.name)()
    }

    /// As the methods page says it.
    pub fn told(&self) -> Told {
        manual::told(self.title)
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
    let name = about.name();
    match (about.value)(seen, looks) {
        Ok(words) => Cell { name, words, why: "" },
        Err(why) => Cell { name, words: "\u{2013}".to_owned(), why },
    }
}

fn number(measure: Measure, places: usize) -> Result<String, &'static str> {
    measure.map(|x| fixed(x, places)).map_err(why)
}

/// A number with so many decimals, rounded as a person would.
fn fixed(x: f64, places: usize) -> String {
    decimal(&shown(x, places))
}

fn why(undefined: Undefined) -> &'static str {
    match undefined {
        Undefined::NothingGerminated => t!("trials-why-nothing-rooted"),
        Undefined::OneSeed => t!("trials-why-one-seed"),
        Undefined::NoDuration => t!("trials-why-no-time"),
    }
}

fn days(measure: Measure) -> Result<String, &'static str> {
    Ok(t!("trials-days", n = number(measure, 1)?))
}

/// The day of half; where a straight line draws it before anything was seen, that is said.
fn half(looks: &Looks, measure: Measure) -> Result<String, &'static str> {
    let said = days(measure)?;
    let unseen = looks.first().ok().zip(measure.ok()).is_some_and(|(first, half)| half < first);
    Ok(if unseen { t!("trials-days-guessed", days = said) } else { said })
}

fn seeds_a_day(measure: Measure) -> Result<String, &'static str> {
    Ok(t!("trials-seeds-a-day", n = number(measure, 2)?))
}

fn percent_a_day(measure: Measure) -> Result<String, &'static str> {
    Ok(t!("trials-percent-a-day", n = number(measure, 1)?))
}

/// A speed has no end where roots were out on day 0.
fn speed(seen: &Seen, said: Result<String, &'static str>) -> Result<String, &'static str> {
    if seen.rooted_in_soak() { Err(t!("trials-why-before-day-0")) } else { said }
}

fn share(seen: &Seen, looks: &Looks) -> Result<String, &'static str> {
    let (rooted, seeds) = (looks.germinated(), seen.seeds);
    let (x, n) = (rooted as f64, f64::from(seeds));
    let ends = wilson(x, n, 0.95);
    let (rate, low, high) = (percent(x / n), percent(ends.low), percent(ends.high));
    Ok(t!("trials-share", rate = rate, low = low, high = high, rooted = rooted, seeds = seeds))
}

fn mean(looks: &Looks) -> Result<String, &'static str> {
    let mean = fixed(looks.mean().map_err(why)?, 1);
    Ok(match looks.standard_error() {
        Ok(error) => t!("trials-mean-days", mean = mean, error = fixed(error, 1)),
        Err(undefined) => t!("trials-mean-days-alone", mean = mean, why = why(undefined)),
    })
}

const LEADING: &[About] = &[
    About { title: "Rooted", name: || t!("trials-measure-rooted"), value: share },
    About { title: "First root", name: || t!("trials-measure-first"), value: |_, looks| days(looks.first()) },
    About {
        title: "Half out by",
        name: || t!("trials-measure-half"),
        value: |_, looks| half(looks, looks.t50_half()),
    },
    About { title: "Mean time", name: || t!("trials-measure-mean"), value: |_, looks| mean(looks) },
];

const OTHERS: &[About] = &[
    About { title: "Last root", name: || t!("trials-measure-last"), value: |_, looks| days(looks.last()) },
    About {
        title: "Half out by, the other way",
        name: || t!("trials-measure-half-otherwise"),
        value: |_, looks| half(looks, looks.t50_coolbear()),
    },
    About {
        title: "Variance of the time",
        name: || t!("trials-measure-variance"),
        value: |_, looks| Ok(t!("trials-square-days", n = number(looks.variance(), 2)?)),
    },
    About {
        title: "Variation of the time",
        name: || t!("trials-measure-variation"),
        value: |_, looks| Ok(number(looks.variation_percent(), 1)? + " %"),
    },
    About {
        title: "Maguire's speed",
        name: || t!("trials-measure-maguire"),
        value: |seen, looks| speed(seen, seeds_a_day(Ok(looks.maguire()))),
    },
    About {
        title: "Kotowski's velocity",
        name: || t!("trials-measure-kotowski"),
        value: |seen, looks| speed(seen, percent_a_day(looks.kotowski())),
    },
    About {
        title: "Uncertainty",
        name: || t!("trials-measure-uncertainty"),
        value: |_, looks| Ok(t!("trials-bits", n = number(looks.uncertainty(), 2)?)),
    },
    About {
        title: "Synchrony",
        name: || t!("trials-measure-synchrony"),
        value: |_, looks| number(looks.synchrony(), 2),
    },
    About {
        title: "Peak value",
        name: || t!("trials-measure-peak"),
        value: |seen, looks| speed(seen, percent_a_day(looks.peak_value())),
    },
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
                about.title
            );
        }
    }
}
