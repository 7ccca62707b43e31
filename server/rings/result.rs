//! What an opened ring trial found: each lot's rate, and each two lots compared within growers.

use super::model::{Grower, Lot, Ring, names};
use super::store::counts::RingBag;
use crate::error::AppError;
use crate::notebook::bag::Finding;
use crate::notebook::seen::{self, count};
use crate::web::words;
use hilum_calc::club::{Club, Pair};
use hilum_calc::mixed::holm;
use hilum_calc::ring_trial::{plants_of_100, seeds_to_show};
use hilum_calc::special::{normal_cdf, normal_sf, two_sided_z};
use hilum_calc::table::{At, Bag, Look, Of, Options, Row};
use std::collections::BTreeSet;

const LEVEL: f64 = 0.05;
/// What one grower finds may be their hand: fewer show no difference.
const LEAST_GROWERS: usize = 2;

/// Two lots compared.
#[derive(Debug, Clone, PartialEq)]
pub struct Compared {
    /// The one that did better, then the other.
    pub better: String,
    pub other: String,
    /// Seeds of 100 more, with the ends of its 95 % interval.
    pub more: f64,
    pub low: f64,
    pub high: f64,
    /// Chance that `better` is the better one, 0.5 to 1.
    pub sure: f64,
    /// Whether the difference is shown, all pairs taken together.
    pub shown: bool,
    /// Seeds of 100 more by those who had both, where others count too.
    pub alone: Option<f64>,
    /// Growers who had both, of those who had either.
    pub growers: usize,
    pub of: usize,
    /// Seeds of each lot that would show the difference asked for, with growers as unlike as these.
    pub takes: i64,
}

/// What one grower found.
#[derive(Debug)]
pub struct Hands {
    pub grower: String,
    /// Rooted and seeds of each lot; `None` where they did not have it.
    pub lots: Vec<Option<(i64, i64)>>,
}

/// Everything found.
#[derive(Debug, Default)]
pub struct Found {
    pub rows: Vec<Row>,
    pub compared: Vec<Compared>,
    /// Pairs without a number.
    pub unknown: Vec<String>,
    /// Bags that left the rates: abandoned or in doubt.
    pub left_out: usize,
    /// Bags that still run.
    pub running: usize,
    pub by_grower: Vec<Hands>,
}

struct Counted<'a> {
    bag: &'a RingBag,
    name: &'a str,
    looks: Vec<Look>,
}

/// Puts the counts together.
pub fn found(ring: &Ring, lots: &[Lot], growers: &[Grower], bags: &[RingBag]) -> Result<Found, AppError> {
    let names = names(lots);
    let counted = counted(&names, bags)?;
    let left_out = bags.iter().filter(|b| b.in_doubt || b.ending == "abandoned").count();
    let running = bags.iter().filter(|b| b.closed_at.is_none()).count();
    let by_grower = by_grower(&counted, growers, &names);
    if counted.is_empty() {
        return Ok(Found { left_out, running, by_grower, ..Found::default() });
    }
    let taken: Vec<Bag> = counted.iter().map(|c| bag(ring, c)).collect();
    let day = |_: &str| None;
    let options = Options { of: Of::Paper, at: At::Close, as_of: None, standard_day: &day };
    let club = Club::of(taken, Vec::new(), &options);
    let (compared, unknown) = compared(ring, &club, &counted);
    Ok(Found { rows: club.rows, compared, unknown, left_out, running, by_grower })
}

fn counted<'a>(names: &'a [String], bags: &'a [RingBag]) -> Result<Vec<Counted<'a>>, AppError> {
    let mut counted = Vec::new();
    for bag in bags.iter().filter(|b| !b.in_doubt && b.ending != "abandoned" && b.seeds > 0) {
        let name = usize::try_from(bag.place).ok().and_then(|place| names.get(place));
        let mut found = Finding::all(&bag.findings)?;
        found.retain(|f| f.sown == 0);
        if let Some(name) = name.filter(|_| !found.is_empty()) {
            let hours = |f: &Finding| seen::hours(f.at.hours_since(bag.on_paper_at));
            let looks = seen::found(found.iter().map(|f| (hours(f), [f.rooted, f.abnormal, f.dead])));
            counted.push(Counted { bag, name, looks });
        }
    }
    Ok(counted)
}

fn bag<'a>(ring: &'a Ring, c: &'a Counted<'a>) -> Bag<'a> {
    Bag {
        kind: &ring.kind,
        variety: &ring.variety,
        source: c.name,
        grower: &c.bag.grower_id,
        trial: &c.bag.trial,
        bag: &c.bag.mark,
        seeds: count(c.bag.seeds),
        soaked: count(c.bag.seeds),
        floated: false,
        put_on_paper: None,
        closed: c.bag.closed_at.is_some(),
        looks: c.looks.as_slice().into(),
    }
}

fn by_grower(counted: &[Counted], growers: &[Grower], names: &[String]) -> Vec<Hands> {
    let cell = |g: &Grower, name: &String| {
        let theirs = counted.iter().filter(|c| c.bag.grower_id == g.member_id.0 && c.name == name);
        let sums = theirs.fold((0, 0), |(x, n), c| (x + c.bag.rooted, n + c.bag.seeds));
        (sums.1 > 0).then_some(sums)
    };
    let hands =
        |g: &Grower| Hands { grower: g.name.clone(), lots: names.iter().map(|n| cell(g, n)).collect() };
    growers.iter().map(hands).collect()
}

/// A pair with its log odds ratio: estimate and standard error.
struct Ratio<'p> {
    pair: &'p Pair,
    value: f64,
    error: f64,
    /// The same from those who had both, where others count too.
    alone: Option<f64>,
    growers: usize,
    of: usize,
}

fn compared(ring: &Ring, club: &Club, counted: &[Counted]) -> (Vec<Compared>, Vec<String>) {
    let pairs = &club.standing.pairs;
    let ratios: Vec<Ratio> = pairs.iter().filter_map(|pair| ratio(pair, counted)).collect();
    let p: Vec<f64> = ratios.iter().map(|r| 2.0 * normal_sf((r.value / r.error).abs())).collect();
    let adjusted = holm(&p);
    let unknown = pairs.iter().filter(|p| !ratios.iter().any(|r| std::ptr::eq(r.pair, *p)));
    let unknown = unknown.map(|p| words::and(&[&p.a, &p.b])).collect();
    let mut all: Vec<Compared> = ratios
        .iter()
        .zip(adjusted)
        .map(|(r, p)| one((ring, ratios.len()), club, r, p < LEVEL && r.of >= LEAST_GROWERS))
        .collect();
    all.sort_by(|a, b| b.shown.cmp(&a.shown).then(b.sure.total_cmp(&a.sure)));
    (all, unknown)
}

/// Within growers where all who had either had both. In incomplete blocks what the others found counts too, each
/// against their own other lots, so there the whole model speaks and those who had both stand beside it.
fn ratio<'p>(pair: &'p Pair, counted: &[Counted]) -> Option<Ratio<'p>> {
    let had = |name: &str| -> BTreeSet<&str> {
        counted.iter().filter(|c| c.name == name).map(|c| c.bag.grower_id.as_str()).collect()
    };
    let (a, b) = (had(&pair.a), had(&pair.b));
    let whole = pair.whole.map(|w| w.log_odds_ratio).filter(|_| a != b);
    let estimate = whole.or(pair.within_growers).or_else(|| pair.whole.map(|w| w.log_odds_ratio))?;
    let error = (estimate.high - estimate.low) / (2.0 * two_sided_z(0.95));
    let alone = whole.and(pair.within_growers).map(|w| w.value);
    let (growers, of) = (a.intersection(&b).count(), a.union(&b).count());
    (error > 0.0).then_some(Ratio { pair, value: estimate.value, error, alone, growers, of })
}

fn one((ring, pairs): (&Ring, usize), club: &Club, r: &Ratio, shown: bool) -> Compared {
    let rate = |name: &str| club.rows.iter().find(|row| row.source == name).and_then(|row| row.rate);
    let middle = f64::midpoint(rate(&r.pair.a).unwrap_or(0.5), rate(&r.pair.b).unwrap_or(0.5));
    let seeds =
        |name: &str| club.rows.iter().find(|row| row.source == name).map_or(0.0, |row| row.seeds as f64);
    let found = (f64::midpoint(seeds(&r.pair.a), seeds(&r.pair.b)), r.error);
    let certainty = ring.certainty as f64 / 100.0;
    let takes = seeds_to_show(found, (ring.difference as f64 / 100.0, middle), certainty, pairs as f64);
    let half = two_sided_z(0.95) * r.error;
    let (better, other) = if r.value >= 0.0 { (&r.pair.a, &r.pair.b) } else { (&r.pair.b, &r.pair.a) };
    let size = r.value.abs();
    Compared {
        better: better.clone(),
        other: other.clone(),
        more: plants_of_100(size, middle),
        low: plants_of_100(size - half, middle),
        high: plants_of_100(size + half, middle),
        sure: normal_cdf(size / r.error),
        shown,
        alone: r.alone.map(|value| plants_of_100(value * r.value.signum(), middle)),
        growers: r.growers,
        of: r.of,
        takes: takes.ceil() as i64,
    }
}

impl Compared {
    /// `Harrow & Daughter roots better than Lode Lane Seeds: 14 more of 100 seeds (5 to 23).`
    pub fn words(&self) -> String {
        let (better, other) = (&self.better, &self.other);
        let [more, low, high] = [self.more, self.low, self.high].map(|n| format!("{n:.0}"));
        if self.shown {
            return t!(
                "rings-roots-better",
                better = better,
                other = other,
                more = more,
                low = low,
                high = high
            );
        }
        let down = moved(self.low, t!("compare-none"));
        t!("rings-no-difference", better = better, other = other, more = more, down = down, high = high)
    }

    fn by(&self) -> String {
        let n = self.growers;
        match self.alone {
            _ if n == 0 => t!("rings-nobody-had-both").to_owned(),
            None if self.of < LEAST_GROWERS => t!("rings-from-one-alone").to_owned(),
            None => t!("rings-from-those-who-had-both", n = n),
            Some(alone) => {
                let found = moved(alone, t!("rings-found-no-difference"));
                t!("rings-from-either", all = self.of, n = n, found = found)
            }
        }
    }

    /// How sure, and by whom.
    pub fn aside(&self, ring: &Ring) -> String {
        let sure = (100.0 * self.sure).floor().min(99.0) as i64;
        let sure = match self.shown {
            true if self.sure > 0.99 => t!("rings-chance-better-99", better = self.better),
            true => t!("rings-chance-better", better = self.better, n = sure),
            false => t!("rings-what-it-takes", difference = ring.difference, seeds = self.takes),
        };
        format!("{} {sure}", self.by())
    }
}

/// `9 more`, `9 fewer`, or what is said of neither.
fn moved(seeds: f64, neither: &str) -> String {
    match seeds.round() as i64 {
        0 => neither.to_owned(),
        n @ 1.. => t!("compare-more", n = n),
        n => t!("compare-fewer", n = -n),
    }
}
