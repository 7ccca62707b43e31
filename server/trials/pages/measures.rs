//! The germination-time measures of each bag: in words, with what each means and where it comes from.

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

/// What a measure means and where it comes from.
pub struct About {
    pub name: &'static str,
    pub meaning: &'static str,
    pub formula: &'static str,
    pub source: &'static str,
    value: fn(&Seen, &Looks) -> Result<String, &'static str>,
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

const READ_OFF: &str = "Read off the looks.";

const LEADING: &[About] = &[
    About {
        name: "Rooted",
        meaning: "The share of the bag's seeds whose root is out so far; in brackets where the true share may well lie.",
        formula: "100 × rooted / seeds on paper, less those lost or moved. Brackets: 95 % score interval of this one bag.",
        source: "Seed-testing rules (ISTA, AOSA); interval: Wilson 1927.",
        value: share,
    },
    About {
        name: "First root",
        meaning: "The day of the first look that found a root out.",
        formula: "The first look with something new.",
        source: READ_OFF,
        value: |_, looks| days(looks.first()),
    },
    About {
        name: "Half out by",
        meaning: "The day by which half of the seeds that rooted had done so. Best for setting two bags side by side.",
        formula: "T50: the straight-line cumulative count from 0 on day 0 reaches N / 2, with N seeds rooted.",
        source: "Farooq et al. 2005. Advised over the mean for comparing treatments: Soltani et al. 2015.",
        value: |_, looks| half(looks, looks.t50_half()),
    },
    About {
        name: "Mean time",
        meaning: "How many days a seed that rooted took on average, give or take its standard error.",
        formula: "sum(n t) / sum(n), with n seeds new at day t; ± s / √N. A root counts on the day it was seen, so this is late by about half the gap between looks.",
        source: "Edmond and Drapala 1958; Labouriau 1983; as collected by Ranal and Santana 2006.",
        value: |_, looks| mean(looks),
    },
];

const OTHERS: &[About] = &[
    About {
        name: "Last root",
        meaning: "The day of the last look that found a new root.",
        formula: "The last look with something new.",
        source: READ_OFF,
        value: |_, looks| days(looks.last()),
    },
    About {
        name: "Half out by, the other way",
        meaning: "The same as half out by, but counting to the middle seed; a little later in small bags.",
        formula: "T50: the straight-line cumulative count from 0 on day 0 reaches (N + 1) / 2.",
        source: "Coolbear, Francis and Grierson 1984.",
        value: |_, looks| half(looks, looks.t50_coolbear()),
    },
    About {
        name: "Variance of the time",
        meaning: "How widely the days of rooting are spread, in days squared.",
        formula: "s² = sum(n (t - mean)²) / (N - 1)",
        source: "Labouriau 1983; Ranal and Santana 2006.",
        value: |_, looks| number(looks.variance(), 2, " days²"),
    },
    About {
        name: "Variation of the time",
        meaning: "The spread of the days as a share of the mean: small when all came at once.",
        formula: "100 × s / mean",
        source: "Ranal and Santana 2006.",
        value: |_, looks| number(looks.variation_percent(), 1, " %"),
    },
    About {
        name: "Maguire's speed",
        meaning: "Roots a day, with early roots weighing more. It grows with the size of the bag.",
        formula: "sum(n / t), with the n seeds that are new at day t",
        source: "Maguire 1962, Crop Science 2:176-177.",
        value: |seen, looks| speed(seen, number(Ok(looks.maguire()), 2, " seeds a day")),
    },
    About {
        name: "Kotowski's velocity",
        meaning: "One over the mean time, as a percentage a day: higher is quicker, whatever the share.",
        formula: "100 × sum(n) / sum(n t) = 100 / mean",
        source: "Kotowski 1926; Nichols and Heydecker 1968.",
        value: |seen, looks| speed(seen, number(looks.kotowski(), 1, " % a day")),
    },
    About {
        name: "Uncertainty",
        meaning: "How hard it is to guess at which look a seed came: 0 when all came at one look.",
        formula: "-sum(f log2 f), with f the share of all roots that is new at a look",
        source: "Labouriau and Valadares 1976.",
        value: |_, looks| number(looks.uncertainty(), 2, " bits"),
    },
    About {
        name: "Synchrony",
        meaning: "The chance that two seeds that rooted were found at the same look: 1 when all were.",
        formula: "sum(n (n - 1)) / (N (N - 1))",
        source: "Primack 1980; Ranal and Santana 2006.",
        value: |_, looks| number(looks.synchrony(), 2, ""),
    },
    About {
        name: "Peak value",
        meaning: "The best pace reached: the highest share rooted so far for each day waited.",
        formula: "the greatest of (rooted so far, % of the seeds) / t",
        source: "Czabator 1962.",
        value: |seen, looks| speed(seen, number(looks.peak_value(), 1, " % a day")),
    },
];
