use super::spread::Tally;
use super::{Bag, HOURS, Look, Of};
use crate::curve::{Curve, Interval};
use std::collections::BTreeMap;

/// By when seeds must have rooted.
#[derive(Debug, Clone, Copy)]
pub struct Horizon {
    /// Days on paper of the kind's standard day.
    pub day: Option<f64>,
    /// The day is the club's, not a published one.
    pub club: bool,
    /// Rates are of the close; `day` only chooses which bags enter.
    pub close: bool,
}

impl Horizon {
    /// Hours of the standard day; `None` where the rate is of the close.
    fn hours(&self) -> Option<f64> {
        self.day.filter(|_| !self.close).map(|d| d * HOURS)
    }
}

/// What a bag shows at the horizon: seeds known rooted, and seeds of which only a span is known.
struct Shown {
    seen: u32,
    open: u32,
    after: f64,
    upto: Option<f64>,
}

fn shown(bag: &Bag, horizon: &Horizon) -> Shown {
    let known = |seen| Shown { seen, open: 0, after: 0.0, upto: None };
    let upto = |hours: f64| rooted(bag.looks.iter().take_while(|l| l.hours <= hours));
    let last = bag.looks.last().map_or(0.0, |l| l.hours);
    let all = rooted(bag.looks.iter());
    let Some(day) = horizon.hours() else {
        let open = if bag.closed { 0 } else { left(bag) };
        return Shown { seen: all, open, after: last, upto: None };
    };
    if let Some(look) = nearest(bag, day) {
        return known(upto(look.hours));
    }
    let next = bag.looks.iter().map(|l| l.hours).find(|h| *h > day);
    let before = bag.looks.iter().map(|l| l.hours).rfind(|h| *h <= day).unwrap_or(0.0);
    let seen = upto(day);
    match next {
        Some(next) => Shown { seen, open: upto(next) - seen, after: before, upto: Some(next) },
        None => Shown { seen, open: left(bag), after: before, upto: None },
    }
}

fn rooted<'a>(looks: impl Iterator<Item = &'a Look>) -> u32 {
    looks.map(|l| l.rooted).sum()
}

fn left(bag: &Bag) -> u32 {
    bag.looks.iter().fold(bag.seeds, |left, l| left.saturating_sub(l.rooted + l.abnormal + l.dead))
}

/// The look closest to `day` hours, not more than a day away; the earlier of two.
fn nearest<'b>(bag: &'b Bag, day: f64) -> Option<&'b Look> {
    let near = bag.looks.iter().filter(|l| (l.hours - day).abs() <= HOURS);
    near.min_by(|a, b| (a.hours - day).abs().total_cmp(&(b.hours - day).abs()))
}

/// The curve of a cell and the share rooted at the horizon; both `None` where every bag was seen.
pub struct Share {
    curve: Option<Curve>,
    day: Option<f64>,
    at_day: Option<f64>,
}

/// Fits the curve of a cell, only where some bag needs it. The look within a day of the horizon
/// counts as a look on the day, so that the curve there agrees with the counts.
pub fn share_at(bags: &[&Bag], horizon: &Horizon) -> Share {
    let day = horizon.hours();
    if bags.iter().all(|bag| shown(bag, horizon).open == 0) {
        return Share { curve: None, day, at_day: None };
    }
    let moved = |bag: &Bag, hours: f64| match day {
        Some(day) if nearest(bag, day).is_some_and(|l| l.hours == hours) => day,
        _ => hours,
    };
    let curve = Curve::fit(&intervals(bags, horizon.close, &moved));
    let reach = bags.iter().flat_map(|b| b.looks.iter().map(|l| moved(b, l.hours))).fold(0.0, f64::max);
    let at_day = curve.at(day.unwrap_or(reach)).mid;
    Share { curve: Some(curve), day: Some(day.unwrap_or(reach)), at_day }
}

/// Days until half of the seeds that root have rooted.
pub fn median_days(bags: &[&Bag]) -> Option<f64> {
    Curve::fit(&intervals(bags, false, &|_, hours| hours)).median_of_rooting().map(|span| span.mid / HOURS)
}

/// Seeds by the span in which they rooted, equal spans merged. Abnormal and dead seeds never root:
/// they outlast every look of the cell, as do the seeds left in a closed bag where the rate is of
/// the close.
fn intervals(bags: &[&Bag], close: bool, moved: &dyn Fn(&Bag, f64) -> f64) -> Vec<Interval> {
    let mut spans: BTreeMap<(u64, u64), u64> = BTreeMap::new();
    let mut never = 0;
    let mut end = 0.0_f64;
    for bag in bags {
        let (mut since, mut before) = (0.0_f64, 0.0_f64);
        for look in &bag.looks {
            let hours = moved(bag, look.hours);
            if hours > before {
                (since, before) = (before, hours);
            }
            *spans.entry((since.to_bits(), before.to_bits())).or_default() += u64::from(look.rooted);
            never += u64::from(look.abnormal + look.dead);
        }
        end = end.max(before);
        let rest = u64::from(left(bag));
        if close && bag.closed {
            never += rest;
        } else {
            *spans.entry((before.to_bits(), f64::INFINITY.to_bits())).or_default() += rest;
        }
    }
    *spans.entry((end.to_bits(), f64::INFINITY.to_bits())).or_default() += never;
    let interval = |((l, r), count): ((u64, u64), u64)| {
        let r = Some(f64::from_bits(r)).filter(|r| r.is_finite());
        Interval { l: f64::from_bits(l), r, count: count as f64 }
    };
    spans.into_iter().filter(|(_, count)| *count > 0).map(interval).collect()
}

/// One bag's part in the rate: what was seen, what the curve adds, and how sure that is.
pub fn tally<'a>(bag: &Bag<'a>, horizon: &Horizon, of: Of, share: &Share) -> Tally<'a> {
    let shown = shown(bag, horizon);
    let (seen, open) = (f64::from(shown.seen), f64::from(shown.open));
    let q = if shown.open == 0 { Some(0.0) } else { passed(&shown, share) };
    let rooted = q.map(|q| seen + open * q);
    let straddled = shown.upto.is_some();
    let base = match of {
        Of::Started => bag.soaked.max(bag.seeds),
        Of::Paper => bag.seeds,
    };
    Tally {
        trial: bag.trial,
        base: f64::from(base),
        seen: u64::from(shown.seen),
        rooted,
        least: if straddled { seen } else { rooted.unwrap_or(seen) },
        most: if straddled { seen + open } else { rooted.unwrap_or(seen + open) },
        open,
        q: q.unwrap_or(0.5),
        elapsed: share.day.map_or(1.0, |day| (shown.after / day).clamp(0.0, 1.0)),
        estimated: shown.open > 0 && !horizon.close,
        closed_early: shown.open > 0 && !straddled && bag.closed,
    }
}

/// Of the open seeds, the share that the curve has rooted by the horizon, 0 to 1.
fn passed(shown: &Shown, share: &Share) -> Option<f64> {
    let (curve, day, at_day) = (share.curve.as_ref()?, share.day?, share.at_day);
    let before = curve.at(shown.after).mid?;
    let part = match shown.upto {
        None => (at_day? - before) / (1.0 - before),
        Some(upto) => (at_day? - before) / (curve.at(upto).mid? - before),
    };
    let by_time = shown.upto.map_or(0.0, |upto| (day - shown.after) / (upto - shown.after));
    Some(if part.is_finite() { part.clamp(0.0, 1.0) } else { by_time })
}
