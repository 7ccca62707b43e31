use super::spread::Tally;
use super::{Bag, HOURS, Look, Of};
use crate::curve::{Curve, Interval};

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
    let looks = bag.looks.in_order();
    let known = |seen| Shown { seen, open: 0, after: 0.0, upto: None };
    let upto = |hours: f64| rooted(looks.iter().take_while(|l| l.hours <= hours));
    let Some(day) = horizon.hours() else {
        let open = if bag.closed { 0 } else { left(bag.seeds, &looks) };
        let last = looks.last().map_or(0.0, |l| l.hours);
        return Shown { seen: rooted(looks.iter()), open, after: last, upto: None };
    };
    if let Some(look) = nearest(&looks, day) {
        return known(upto(look.hours));
    }
    let next = looks.iter().map(|l| l.hours).find(|h| *h > day);
    let before = looks.iter().map(|l| l.hours).rfind(|h| *h <= day).unwrap_or(0.0);
    let seen = upto(day);
    match next {
        Some(next) => Shown { seen, open: upto(next) - seen, after: before, upto: Some(next) },
        None => Shown { seen, open: left(bag.seeds, &looks), after: before, upto: None },
    }
}

fn rooted<'a>(looks: impl Iterator<Item = &'a Look>) -> u32 {
    looks.map(|l| l.rooted).sum()
}

fn left(seeds: u32, looks: &[Look]) -> u32 {
    looks.iter().fold(seeds, |left, l| left.saturating_sub(l.rooted + l.abnormal + l.dead))
}

/// The look closest to `day` hours, not more than a day away; the earlier of two.
fn nearest(looks: &[Look], day: f64) -> Option<&Look> {
    let near = looks.iter().filter(|l| (l.hours - day).abs() <= HOURS);
    near.min_by(|a, b| (a.hours - day).abs().total_cmp(&(b.hours - day).abs()))
}

/// The curve of a cell, and its share at the horizon: `None` where no look reaches it.
pub struct Share {
    curve: Curve,
    horizon: f64,
    rooted: Option<f64>,
}

impl Share {
    /// Fits the curve of a cell. A look within a day of the standard day is as good as one on it; the
    /// close is the last look of all.
    pub fn of(bags: &[&Bag], horizon: &Horizon) -> Self {
        let looks: Vec<_> = bags.iter().map(|b| (b.seeds, b.looks.in_order())).collect();
        let reach = looks.iter().flat_map(|(_, looks)| looks.last()).map(|l| l.hours).fold(0.0, f64::max);
        let curve = Curve::fit(&intervals(looks));
        let horizon = horizon.hours().unwrap_or(reach);
        let at = if horizon <= reach + HOURS { horizon.min(reach) } else { horizon };
        let rooted = curve.at(at).mid;
        Self { curve, horizon, rooted }
    }

    /// Days until half of the seeds that root have rooted.
    pub fn median_days(&self) -> Option<f64> {
        self.curve.median_of_rooting().map(|span| span.mid / HOURS)
    }

    /// Of a bag's open seeds, the share that the curve has rooted by the horizon, 0 to 1.
    fn of_open(&self, shown: &Shown) -> Option<f64> {
        let before = self.curve.at(shown.after).mid?;
        let part = match shown.upto {
            None => (self.rooted? - before) / (1.0 - before),
            Some(upto) => (self.rooted? - before) / (self.curve.at(upto).mid? - before),
        };
        let by_time = shown.upto.map_or(0.0, |upto| (self.horizon - shown.after) / (upto - shown.after));
        Some(if part.is_finite() { part.clamp(0.0, 1.0) } else { by_time })
    }
}

/// Seeds by the span of hours in which they rooted, equal spans merged: from bags of so many seeds with
/// their looks in order of time. What is left in a bag is censored at its last look; abnormal and dead
/// seeds never root, so they outlast every look of the bags.
pub fn intervals<L: AsRef<[Look]>>(bags: impl IntoIterator<Item = (u32, L)>) -> Vec<Interval> {
    let mut spans: Vec<(f64, f64, u32)> = Vec::new();
    let mut never = 0;
    let mut end = 0.0_f64;
    for (seeds, looks) in bags {
        let looks = looks.as_ref();
        let (mut since, mut before) = (0.0_f64, 0.0_f64);
        for look in looks {
            if look.hours > before {
                (since, before) = (before, look.hours);
            }
            spans.push((since, before, look.rooted));
            never += look.abnormal + look.dead;
        }
        end = end.max(before);
        spans.push((before, f64::INFINITY, left(seeds, looks)));
    }
    spans.push((end, f64::INFINITY, never));
    spans.retain(|span| span.2 > 0);
    spans.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
    let merged = |same: &[(f64, f64, u32)]| Interval {
        l: same[0].0,
        r: Some(same[0].1).filter(|r| r.is_finite()),
        count: same.iter().map(|span| f64::from(span.2)).sum(),
    };
    spans.chunk_by(|a, b| (a.0, a.1) == (b.0, b.1)).map(merged).collect()
}

/// One bag's part in the rate: what was seen, what the curve adds, and how sure that is.
pub fn tally<'a>(bag: &Bag<'a>, horizon: &Horizon, of: Of, share: &Share) -> Tally<'a> {
    let shown = shown(bag, horizon);
    let (seen, open) = (f64::from(shown.seen), f64::from(shown.open));
    let q = if shown.open == 0 { Some(0.0) } else { share.of_open(&shown) };
    let rooted = q.map(|q| seen + open * q);
    let straddled = shown.upto.is_some();
    let base = match of {
        Of::Started => bag.soaked.max(bag.seeds),
        Of::Paper => bag.seeds,
    };
    Tally {
        grower: bag.grower,
        trial: bag.trial,
        base: f64::from(base),
        seeds: f64::from(bag.seeds),
        seen: u64::from(shown.seen),
        rooted,
        least: if straddled { seen } else { rooted.unwrap_or(seen) },
        most: if straddled { seen + open } else { rooted.unwrap_or(seen + open) },
        open,
        q: q.unwrap_or(0.5),
        elapsed: if share.horizon > 0.0 { (shown.after / share.horizon).min(1.0) } else { 0.0 },
        estimated: shown.open > 0 && !horizon.close,
        closed_early: shown.open > 0 && !straddled && bag.closed,
    }
}
