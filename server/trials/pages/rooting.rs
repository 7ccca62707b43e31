//! The trial page's part about rooting: curve, what it says in words, each bag's measures.

use super::measures::{self, Table};
use crate::charts::{Step, StepCurve};
use crate::error::AppError;
use crate::notebook::bag::Finding;
use crate::notebook::seen::Standing;
use crate::trials::alike::{Alike, Rule, Unsaid, alike};
use crate::trials::rooting::{Seen, curve};
use crate::trials::store::Bag;
use crate::web::words::{counted, percent, seeds};
use hilum_calc::curve::{Band, Curve};
use hilum_calc::replicates::Printed;
use hilum_calc::units::shown;

const HOURS: f64 = 24.0;
/// Looks so many days apart or less say the day well enough.
const CLOSE_LOOKS: f64 = 1.5;

/// The share rooted by the last look.
pub struct Now {
    pub rate: String,
    pub span: String,
    pub words: String,
    /// Said where the curve is not simply the counted share.
    pub allowed: String,
    pub median: String,
}

/// A bag that does not count, and why.
pub struct LeftOut {
    pub mark: String,
    pub why: &'static str,
}

/// Whether the bags are alike: `verdict` is an en dash where it cannot be said.
pub struct Likeness {
    pub verdict: &'static str,
    pub words: String,
}

/// Everything about rooting, once a bag was looked at.
pub struct Rooting {
    pub now: Option<Now>,
    pub chart: Option<StepCurve>,
    pub left_out: Vec<LeftOut>,
    pub likeness: Option<Likeness>,
    pub leading: Table,
    pub others: Table,
}

/// `None` before the first look; `mark` is the packet's.
pub fn rooting(mark: &str, bags: &[Bag]) -> Result<Option<Rooting>, AppError> {
    let seen = bags.iter().map(|b| Ok(Seen::new(b, &Finding::all(&b.findings)?)));
    let seen: Vec<Seen> = seen.collect::<Result<_, AppError>>()?;
    let looked_at = seen.iter().any(|b| b.standing != Standing::Unseen);
    Ok(looked_at.then(|| told(mark, &seen)))
}

fn told(mark: &str, seen: &[Seen]) -> Rooting {
    let curve = curve(seen);
    let band = curve.band(0.95);
    let title = format!("Share of the seeds of {mark} on paper whose root was out, by days on paper");
    Rooting {
        now: band.last().map(|last| now(seen, &curve, last)),
        chart: StepCurve::new("rooting", title, &band.iter().map(step).collect::<Vec<_>>()),
        left_out: seen.iter().filter_map(left_out).collect(),
        likeness: alike(seen).map(likeness),
        leading: measures::leading(seen),
        others: measures::others(seen),
    }
}

fn step(b: &Band) -> Step {
    Step { day: b.t / HOURS, share: b.share, low: b.low, high: b.high }
}

fn left_out(seen: &Seen) -> Option<LeftOut> {
    let why = match seen.standing {
        Standing::Counts => return None,
        Standing::InDoubt => "is in doubt, so it is left out.",
        Standing::Abandoned => "was abandoned, so it is left out.",
        Standing::Unseen => "was not looked at yet.",
    };
    Some(LeftOut { mark: seen.mark.clone(), why })
}

fn now(seen: &[Seen], curve: &Curve, last: &Band) -> Now {
    let counting: Vec<&Seen> = seen.iter().filter(|b| b.counts()).collect();
    let rooted: u32 = counting.iter().map(|b| b.rooted()).sum();
    let all = curve.seeds().round();
    let bags = counted(counting.len() as i64, "bag", "bags");
    let simple = percent(f64::from(rooted) / all);
    let rate = percent(last.share);
    let allowed = if simple == rate {
        String::new()
    } else {
        format!(
            "Not every seed was watched as long, and the share allows for that: {rooted} of {all} alone would make {simple} %."
        )
    };
    let ended = counting.iter().all(|b| b.closed);
    Now {
        span: format!("({} to {})", percent(last.low), percent(last.high)),
        words: format!(
            "of the seeds on paper rooted by day {}, {}: {rooted} of {} in {bags}.",
            shown(last.t / HOURS, 1),
            if ended { "when the last bag was closed" } else { "the last look" },
            seeds(all as i64),
        ),
        median: median(curve, ended),
        rate: format!("{rate} %"),
        allowed,
    }
}

fn median(curve: &Curve, ended: bool) -> String {
    let Some(span) = curve.median_of_rooting() else {
        return if ended { "Nothing rooted." } else { "Nothing has rooted yet." }.to_owned();
    };
    let (low, high, mid) = (span.low / HOURS, span.high / HOURS, span.mid / HOURS);
    let which = if ended { "the seeds that rooted" } else { "the seeds rooted so far" };
    if high - low <= CLOSE_LOOKS {
        format!("Half of {which} were out by day {}.", shown(mid, 1))
    } else {
        format!(
            "Half of {which} were out between day {} and day {}; the looks cannot say when.",
            shown(low, 1),
            shown(high, 1)
        )
    }
}

fn likeness(found: Alike) -> Likeness {
    let (verdict, words) = match found.verdict {
        Err(unsaid) => ("\u{2013}", format!("cannot be said: {}.", why(unsaid))),
        Ok((true, rule)) => ("Yes:", format!("{}. {}", spread(&found), within(rule))),
        Ok((false, rule)) => (
            "No:",
            format!(
                "{}. {} Look for a difference in warmth, damp or paper, or for a mix-up; the band above is too narrow for such bags.",
                spread(&found),
                beyond(rule)
            ),
        ),
    };
    Likeness { verdict, words }
}

fn why(unsaid: Unsaid) -> &'static str {
    match unsaid {
        Unsaid::Warmth => "the bags are kept at different warmth",
        Unsaid::NothingRooted => "nothing had rooted when all were last looked at",
        Unsaid::AllRooted => "every seed rooted, so there is nothing to tell apart",
        Unsaid::Apart => "the bags were looked at on different days",
        Unsaid::FewSeeds => "bags of different sizes, and too few seeds in them",
    }
}

/// `7 to 9 of 10 rooted by day 12.0`; in per cent where the bags differ in size.
fn spread(found: &Alike) -> String {
    let size = found.bags.first().map_or(0, |b| b.1);
    let by = shown(found.hours / HOURS, 1);
    if found.bags.iter().all(|b| b.1 == size) {
        let rooted = || found.bags.iter().map(|b| b.0);
        let (least, most) = (rooted().min().unwrap_or(0), rooted().max().unwrap_or(0));
        return format!("{least} to {most} of {size} rooted by day {by}");
    }
    let rates = || found.bags.iter().map(|b| b.0 as f64 / b.1 as f64);
    let (least, most) = (rates().fold(1.0, f64::min), rates().fold(0.0, f64::max));
    format!("{} to {} % rooted by day {by}", percent(least), percent(most))
}

fn within(rule: Rule) -> String {
    match rule {
        Rule::Published(limit, printed) => {
            format!("Seed testing accepts up to {limit} points between the bags ({}).", table_of(printed))
        }
        Rule::Range(0..=1) | Rule::Dispersion(_) => "Chance alone can set bags so far apart.".to_owned(),
        Rule::Range(limit) => format!("Chance alone can set such bags up to {limit} seeds apart."),
    }
}

fn beyond(rule: Rule) -> String {
    match rule {
        Rule::Published(limit, printed) => {
            format!("Seed testing accepts only {limit} points between the bags ({}).", table_of(printed))
        }
        Rule::Range(limit) => format!(
            "Chance alone sets such bags more than {} apart less than once in 40 times.",
            seeds(i64::try_from(limit).unwrap_or(i64::MAX))
        ),
        Rule::Dispersion(_) => "Chance alone sets bags so far apart less than once in 40 times.".to_owned(),
    }
}

fn table_of(printed: Printed) -> &'static str {
    match printed {
        Printed::SeedLaw => "7 CFR 201.55(a)",
        Printed::FromMemory => "ISTA table 5B, from memory",
    }
}
