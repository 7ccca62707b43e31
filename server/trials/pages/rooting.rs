//! The trial page's part about rooting: curve, what it says in words, each bag's measures.

use super::measures::{self, Table};
use crate::charts::{Step, StepCurve};
use crate::error::AppError;
use crate::notebook::bag::Finding;
use crate::notebook::seen::Standing;
use crate::trials::alike::{Alike, Rule, Unsaid, alike};
use crate::trials::rooting::{Seen, curve};
use crate::trials::store::Bag;
use crate::web::words::{decimal, percent};
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
    let title = t!("trials-chart-title", mark = mark);
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
        Standing::InDoubt => t!("trials-left-out-in-doubt"),
        Standing::Abandoned => t!("trials-left-out-abandoned"),
        Standing::Unseen => t!("trials-not-looked-at"),
    };
    Some(LeftOut { mark: seen.mark.clone(), why })
}

fn now(seen: &[Seen], curve: &Curve, last: &Band) -> Now {
    let counting: Vec<&Seen> = seen.iter().filter(|b| b.counts()).collect();
    let rooted: u32 = counting.iter().map(|b| b.rooted()).sum();
    let all = curve.seeds().round();
    let simple = percent(f64::from(rooted) / all);
    let rate = percent(last.share);
    let allowed = if simple == rate {
        String::new()
    } else {
        t!("trials-share-allows", rooted = rooted, seeds = all as i64, simple = simple)
    };
    let ended = counting.iter().all(|b| b.closed);
    Now {
        span: t!("trials-span", low = percent(last.low), high = percent(last.high)),
        words: rooted_by(&day(last.t / HOURS), (rooted, all as i64), (counting.len(), ended)),
        median: median(curve, ended),
        rate: format!("{rate} %"),
        allowed,
    }
}

/// Rooted of so many seeds, in so many bags that have ended or not.
fn rooted_by(day: &str, (rooted, seeds): (u32, i64), (bags, ended): (usize, bool)) -> String {
    if ended {
        t!("trials-rooted-when-closed", day = day, rooted = rooted, seeds = seeds, bags = bags)
    } else {
        t!("trials-rooted-by-the-last-look", day = day, rooted = rooted, seeds = seeds, bags = bags)
    }
}

/// `12.0`.
fn day(days: f64) -> String {
    decimal(&shown(days, 1))
}

fn median(curve: &Curve, ended: bool) -> String {
    let Some(span) = curve.median_of_rooting() else {
        return if ended { t!("trials-nothing-rooted") } else { t!("trials-nothing-rooted-yet") }.to_owned();
    };
    let (low, high) = (span.low / HOURS, span.high / HOURS);
    let is_close = high - low <= CLOSE_LOOKS;
    let (low, high, mid) = (day(low), day(high), day(span.mid / HOURS));
    match (is_close, ended) {
        (true, true) => t!("trials-half-of-all-by", day = mid),
        (true, false) => t!("trials-half-so-far-by", day = mid),
        (false, true) => t!("trials-half-of-all-between", low = low, high = high),
        (false, false) => t!("trials-half-so-far-between", low = low, high = high),
    }
}

fn likeness(found: Alike) -> Likeness {
    let (verdict, words) = match found.verdict {
        Err(unsaid) => ("\u{2013}", t!("trials-alike-cannot-be-said", why = why(unsaid))),
        Ok((true, rule)) => (t!("trials-alike-yes"), [spread(&found), within(rule)].join(" ")),
        Ok((false, rule)) => {
            let told = [spread(&found), beyond(rule), t!("trials-look-for-a-difference").to_owned()];
            (t!("trials-alike-no"), told.join(" "))
        }
    };
    Likeness { verdict, words }
}

fn why(unsaid: Unsaid) -> &'static str {
    match unsaid {
        Unsaid::Warmth => t!("trials-unsaid-warmth"),
        Unsaid::NothingRooted => t!("trials-unsaid-nothing-rooted"),
        Unsaid::AllRooted => t!("trials-unsaid-all-rooted"),
        Unsaid::Apart => t!("trials-unsaid-apart"),
        Unsaid::FewSeeds => t!("trials-unsaid-few-seeds"),
    }
}

/// `7 to 9 of 10 rooted by day 12.0.`; in per cent where the bags differ in size.
fn spread(found: &Alike) -> String {
    let size = found.bags.first().map_or(0, |b| b.1);
    let by = day(found.hours / HOURS);
    if found.bags.iter().all(|b| b.1 == size) {
        let rooted = || found.bags.iter().map(|b| b.0);
        let (least, most) = (rooted().min().unwrap_or(0), rooted().max().unwrap_or(0));
        return t!("trials-spread-in-seeds", least = least, most = most, size = size, day = by);
    }
    let rates = || found.bags.iter().map(|b| b.0 as f64 / b.1 as f64);
    let (least, most) = (rates().fold(1.0, f64::min), rates().fold(0.0, f64::max));
    t!("trials-spread-in-percent", least = percent(least), most = percent(most), day = by)
}

fn within(rule: Rule) -> String {
    match rule {
        Rule::Published(limit, printed) => {
            t!("trials-accepted-up-to", limit = limit, table = table_of(printed))
        }
        Rule::Range(0..=1) | Rule::Dispersion(_) => t!("trials-chance-can").to_owned(),
        Rule::Range(limit) => t!("trials-chance-can-up-to", limit = limit),
    }
}

fn beyond(rule: Rule) -> String {
    match rule {
        Rule::Published(limit, printed) => {
            t!("trials-accepted-only", limit = limit, table = table_of(printed))
        }
        Rule::Range(limit) => t!("trials-chance-seldom-more-than", limit = limit),
        Rule::Dispersion(_) => t!("trials-chance-seldom").to_owned(),
    }
}

fn table_of(printed: Printed) -> &'static str {
    match printed {
        Printed::SeedLaw => "7 CFR 201.55(a)",
        Printed::FromMemory => t!("trials-table-from-memory"),
    }
}
