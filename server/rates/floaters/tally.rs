use crate::rates::book::{Book, Counted, Standing};
use hilum_calc::floaters::{Finding, Judgement, LotFloat, judge};
use hilum_calc::standard_day::final_count_day;
use std::collections::BTreeMap;

const CONF: f64 = 0.95;
const HOURS: f64 = 24.0;

/// The floaters of one lot that had bags of their own, and the sunk seeds of the same trials.
#[derive(Debug, Clone)]
pub struct Lot {
    pub variety: String,
    pub source: String,
    pub year: Option<i64>,
    pub code: String,
    pub trials: usize,
    pub counts: LotFloat,
}

impl Lot {
    /// Whether it has floated and sunk seeds.
    pub fn has_both(&self) -> bool {
        self.counts.floated() > 0 && self.counts.sank() > 0
    }
}

/// Seeds and bags that are in no figure.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct LeftOut {
    /// Seeds of trials of which some bag still runs.
    pub running: u64,
    /// Seeds sown unrooted.
    pub sown: u64,
    /// Bags.
    pub in_doubt: usize,
    /// Bags.
    pub abandoned: usize,
}

/// Every trial that put its floaters in a bag of their own.
#[derive(Debug)]
pub struct Floats {
    /// By variety, source and year.
    pub lots: Vec<Lot>,
    pub left_out: LeftOut,
    pub trials: usize,
    pub judged: Judgement,
    /// What the trials say that gave no bag up before the standard day, where some did.
    pub patient: Option<Finding>,
}

impl Floats {
    /// Of one kind, or of all where `kind` is empty.
    pub fn of(book: &Book, kind: &str) -> Self {
        let mut trials: BTreeMap<&str, Vec<&Counted>> = BTreeMap::new();
        for bag in book.own().filter(|b| kind.is_empty() || b.kind_id == kind) {
            trials.entry(&bag.trial).or_default().push(bag);
        }
        trials.retain(|_, bags| bags.iter().any(|b| b.floated));
        let left_out = LeftOut::of(&trials);
        let ready: Vec<&Vec<&Counted>> = trials.values().filter(|bags| is_ready(bags)).collect();
        let lots = lots(ready.iter().copied());
        let patient: Vec<&Vec<&Counted>> =
            ready.iter().copied().filter(|bags| !counting(bags).any(given_up_early)).collect();
        let judged = verdict(&lots);
        let some_early = patient.len() < ready.len();
        Self {
            patient: some_early.then(|| verdict(&self::lots(patient.into_iter())).finding),
            trials: ready.len(),
            lots,
            left_out,
            judged,
        }
    }
}

impl LeftOut {
    fn of(trials: &BTreeMap<&str, Vec<&Counted>>) -> Self {
        let mut out = Self::default();
        for bags in trials.values() {
            let standing = |s: Standing| bags.iter().filter(|b| b.standing == s && !b.sown).count();
            out.in_doubt += standing(Standing::InDoubt);
            out.abandoned += standing(Standing::Abandoned);
            out.sown += bags.iter().filter(|b| b.sown).map(|b| u64::from(b.seeds)).sum::<u64>();
            if !is_ready(bags) {
                let waiting = bags.iter().filter(|b| waits_or_counts(b));
                out.running += waiting.map(|b| u64::from(b.seeds)).sum::<u64>();
            }
        }
        out
    }
}

fn waits_or_counts(bag: &Counted) -> bool {
    !bag.sown && matches!(bag.standing, Standing::Counts | Standing::Unseen)
}

fn counting<'b>(bags: &'b [&'b Counted]) -> impl Iterator<Item = &'b Counted> {
    bags.iter().copied().filter(|b| b.standing == Standing::Counts && !b.sown)
}

/// Some floaters count, and no bag still runs: quick bags would come first.
fn is_ready(bags: &[&Counted]) -> bool {
    counting(bags).any(|b| b.floated)
        && bags.iter().filter(|b| waits_or_counts(b) && b.seeds > 0).all(|b| is_done(b))
}

/// Closed, without seeds left to root, or seen at the standard day of its kind or later.
fn is_done(bag: &Counted) -> bool {
    bag.standing == Standing::Counts && (bag.closed || left(bag) == 0 || seen_to_the_day(bag))
}

/// A look within a day of the standard day is as good as one on it.
fn seen_to_the_day(bag: &Counted) -> bool {
    let last = bag.looks.last().map_or(0.0, |l| l.hours);
    final_count_day(&bag.kind).is_some_and(|day| last >= (day - 1.0) * HOURS)
}

fn given_up_early(bag: &Counted) -> bool {
    bag.closed && left(bag) > 0 && final_count_day(&bag.kind).is_some() && !seen_to_the_day(bag)
}

/// Seeds neither rooted nor abnormal nor dead.
fn left(bag: &Counted) -> u32 {
    bag.looks.iter().fold(bag.seeds, |left, l| left.saturating_sub(l.rooted + l.abnormal + l.dead))
}

fn lots<'b>(trials: impl Iterator<Item = &'b Vec<&'b Counted>>) -> Vec<Lot> {
    let mut lots: BTreeMap<(&str, &str, Option<i64>, &str), Lot> = BTreeMap::new();
    for bags in trials {
        for (i, bag) in counting(bags).enumerate() {
            let lot =
                lots.entry((&bag.variety, &bag.source, bag.lot_year, &bag.lot)).or_insert_with(|| Lot {
                    variety: bag.variety.to_string(),
                    source: bag.source.to_string(),
                    year: bag.lot_year,
                    code: bag.lot_code.to_string(),
                    trials: 0,
                    counts: LotFloat { floated_failed: 0, floated_rooted: 0, sank_failed: 0, sank_rooted: 0 },
                });
            lot.trials += usize::from(i == 0);
            add(&mut lot.counts, bag);
        }
    }
    lots.into_values().collect()
}

fn add(counts: &mut LotFloat, bag: &Counted) {
    let rooted: u64 = bag.looks.iter().map(|l| u64::from(l.rooted)).sum();
    let failed = u64::from(bag.seeds).saturating_sub(rooted);
    let (to_rooted, to_failed) = if bag.floated {
        (&mut counts.floated_rooted, &mut counts.floated_failed)
    } else {
        (&mut counts.sank_rooted, &mut counts.sank_failed)
    };
    *to_rooted += rooted;
    *to_failed += failed;
}

fn verdict(lots: &[Lot]) -> Judgement {
    let counts: Vec<LotFloat> = lots.iter().map(|l| l.counts).collect();
    judge(&counts, CONF)
}
