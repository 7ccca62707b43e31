//! What was found in the bags of a trial, as the statistics take it: the same seeds and hours as in the club table.

use super::store::Bag;
use crate::notebook::bag::Finding;
use crate::notebook::seen::{self, A_MINUTE, Standing, count, hours};
use hilum_calc::curve::Curve;
use hilum_calc::table::{self, intervals};
use hilum_calc::timing::Looks;

/// The longest round of looks into the bags of a trial, in hours.
const A_ROUND: f64 = 6.0;
const HOURS: f64 = 24.0;

/// One bag with its looks.
#[derive(Debug, Clone)]
pub struct Seen {
    pub mark: String,
    pub floaters: bool,
    pub closed: bool,
    pub warmth_c: Option<f64>,
    pub standing: Standing,
    /// Seeds on paper, without those lost, moved to another bag or sown unrooted.
    pub seeds: u32,
    /// By hour, those of one moment together.
    pub looks: Vec<table::Look>,
    /// Seeds sown unrooted: so many, after so many hours.
    sown: Vec<(f64, u32)>,
}

impl Seen {
    /// The bag with what its looks `found`, in order of time.
    pub fn new(bag: &Bag, found: &[Finding]) -> Self {
        let at = |l: &Finding| hours(l.at.hours_since(bag.on_paper_at));
        let sown = found.iter().filter(|l| l.sown > 0).map(|l| (at(l), count(l.sown))).collect();
        let seeds = count(bag.seeds + bag.moved_in - bag.moved_out - bag.lost - bag.sown_unrooted);
        let new = found.iter().filter(|l| l.sown == 0);
        let looks = seen::found(new.map(|l| (at(l), [l.rooted, l.abnormal, l.dead])));
        let standing = Standing::of(&looks, seeds, bag.in_doubt, &bag.ending);
        let (mark, floaters) = (bag.mark.clone(), bag.floaters);
        let closed = bag.closed_at.is_some();
        Self { mark, floaters, closed, warmth_c: bag.warmth_c, standing, seeds, looks, sown }
    }

    pub fn counts(&self) -> bool {
        self.standing == Standing::Counts
    }

    /// Seeds rooted at looks up to `hours`.
    pub fn rooted_by(&self, hours: f64) -> u32 {
        self.looks.iter().filter(|l| l.hours <= hours).map(|l| l.rooted).sum()
    }

    pub fn rooted(&self) -> u32 {
        self.rooted_by(f64::INFINITY)
    }

    /// Seeds rooted at the look nearest to `hours`, which a day away is near enough, as in the club table; all where
    /// no seed was left to look at. `None` without such a look.
    pub fn rooted_near(&self, hours: f64) -> Option<u32> {
        if self.left() == 0 && self.last() <= hours {
            return Some(self.rooted());
        }
        let off = |l: &table::Look| (l.hours - hours).abs();
        let near = self.looks.iter().filter(|l| off(l) <= HOURS).min_by(|a, b| off(a).total_cmp(&off(b)))?;
        Some(self.rooted_by(near.hours))
    }

    /// Hours of the last look.
    pub fn last(&self) -> f64 {
        self.looks.last().map_or(0.0, |l| l.hours)
    }

    /// Seeds of which the last look could not say what becomes of them.
    pub fn left(&self) -> u32 {
        self.looks.iter().fold(self.seeds, |n, l| n.saturating_sub(l.rooted + l.abnormal + l.dead))
    }

    /// Some roots were out when the seeds went on paper.
    pub fn rooted_in_soak(&self) -> bool {
        self.rooted_by(A_MINUTE) > 0
    }

    /// Days of the looks and how many were new at each.
    pub fn days(&self) -> (Vec<f64>, Vec<u64>) {
        self.looks.iter().map(|l| (l.hours / HOURS, u64::from(l.rooted))).unzip()
    }

    /// The bag, and a part of its own for seeds sown unrooted: not rooted at any look until they left.
    fn parts(&self) -> Vec<(u32, Vec<table::Look>)> {
        let sown = self.sown.iter().map(|&(left, seeds)| (seeds, seen::until_sown(&self.looks, left)));
        std::iter::once((self.seeds, self.looks.clone())).chain(sown).collect()
    }
}

/// The measures' view of the days and counts of a bag; `None` where no seed is left in it.
pub fn measured<'a>(seen: &Seen, (days, counts): &'a (Vec<f64>, Vec<u64>)) -> Option<Looks<'a>> {
    Looks::new(u64::from(seen.seeds), days, counts).ok()
}

/// The curve of the bags that count, in hours.
pub fn curve(bags: &[Seen]) -> Curve {
    let mut parts: Vec<_> = bags.iter().filter(|b| b.counts()).flat_map(Seen::parts).collect();
    looked_together(&mut parts);
    Curve::fit(&intervals(parts.iter().map(|(seeds, looks)| (*seeds, looks.as_slice()))))
}

/// Looks into several bags on one round are one look, at its end: the minutes between them would otherwise
/// decide how much the last bag of the round counts for.
fn looked_together(parts: &mut [(u32, Vec<table::Look>)]) {
    let mut all: Vec<(f64, usize, usize)> = Vec::new();
    for (p, (_, looks)) in parts.iter().enumerate() {
        all.extend(looks.iter().enumerate().map(|(l, look)| (look.hours, p, l)));
    }
    all.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
    let mut rest = all.as_slice();
    while let Some(&(start, ..)) = rest.first() {
        let fits = |i: &usize| {
            let (hours, part, _) = rest[*i];
            hours - start <= A_ROUND && rest[..*i].iter().all(|before| before.1 != part)
        };
        let (round, later) = rest.split_at((0..rest.len()).take_while(fits).count());
        let end = round.last().map_or(start, |last| last.0);
        for &(_, part, look) in round {
            parts[part].1[look].hours = end;
        }
        rest = later;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::db::ids::{At, BagId};

    fn bag(seeds: i64, sown_unrooted: i64) -> Bag {
        Bag {
            id: BagId("b".into()),
            mark: "JB 1 a".into(),
            floaters: false,
            on_paper_at: At(0),
            place: String::new(),
            warmth_c: None,
            seeds,
            rooted: 0,
            on_paper: 0,
            lost: 0,
            moved_in: 0,
            moved_out: 0,
            sown_unrooted,
            findings: String::new(),
            in_doubt: false,
            closed_at: None,
            ending: String::new(),
        }
    }

    fn look(day: i64, rooted: i64, sown: i64) -> Finding {
        Finding { at: At(0).plus_days(day), rooted, abnormal: 0, dead: 0, sown }
    }

    #[test]
    fn seeds_that_rooted_in_the_soak_are_seen_a_minute_after_the_paper() {
        let seen = Seen::new(&bag(10, 0), &[look(0, 2, 0), look(1, 3, 0)]);
        assert_eq!((seen.rooted(), seen.left(), seen.standing), (5, 5, Standing::Counts));
        assert!(seen.rooted_in_soak() && seen.looks[0].hours < 0.02);
        let nothing = Seen::new(&bag(10, 0), &[look(0, 0, 0)]);
        assert_eq!(nothing.standing, Standing::Unseen);
    }

    #[test]
    fn looks_on_one_round_are_one_look() {
        let look = |hours, rooted| table::Look { hours, rooted, abnormal: 0, dead: 0 };
        let of = |looks: &[(f64, u32)]| (11, looks.iter().map(|l| look(l.0, l.1)).collect::<Vec<_>>());
        let mut parts =
            [of(&[(24.0, 0), (48.0, 2)]), of(&[(50.0, 8), (52.0, 1)]), of(&[(26.0, 0), (54.5, 0)])];
        looked_together(&mut parts);
        let hours = parts.map(|p| p.1.iter().map(|l| l.hours).collect::<Vec<_>>());
        assert_eq!(hours, [vec![26.0, 50.0], vec![50.0, 54.5], vec![26.0, 54.5]]);
    }

    #[test]
    fn a_look_a_day_away_is_near_enough() {
        let seen = Seen::new(&bag(10, 0), &[look(1, 2, 0), look(3, 3, 0), look(9, 1, 0)]);
        assert_eq!(
            [2.0, 3.9, 5.0, 9.0].map(|d| seen.rooted_near(24.0 * d)),
            [Some(2), Some(5), None, Some(6)]
        );
        let done = Seen::new(&bag(5, 0), &[look(1, 5, 0)]);
        assert_eq!(done.rooted_near(200.0), Some(5));
    }

    #[test]
    fn seeds_sown_unrooted_are_not_known_rather_than_failed() {
        let looks = [look(1, 4, 0), look(2, 0, 0), look(2, 0, 5), look(4, 1, 0)];
        let seen = Seen::new(&bag(10, 5), &looks);
        assert_eq!((seen.seeds, seen.rooted(), seen.left()), (5, 5, 0));
        let curve = curve(&[seen]);
        assert_eq!(curve.seeds(), 10.0);
        // 4 of 10 by day 1; the 5 that left after day 2 say nothing more, and the last of the other one rooted.
        assert!((curve.at(24.0).low - 0.4).abs() < 1e-9 && (curve.at(96.0).low - 1.0).abs() < 1e-9);
    }
}
