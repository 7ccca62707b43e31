//! Seed that ages: what a packet may still root by the age of its seed, when it should be tested again, and which to use
//! first.

use super::sentences;
use crate::rates::{Book, Counted, Standing};
use crate::stock::model::Packet;
use crate::stock::published::{self, Fact};
use crate::web::words::{day, fixed, percent};
use chrono::{Datelike, Months, NaiveDate};
use hilum_calc::ageing::{Aged, Line, Link};
use hilum_calc::retest::{FIRST_TEST_MONTHS, KEEP_SHARE, interval_years, replace_below_percent};
use std::collections::{BTreeMap, BTreeSet};

/// From so many closed bags, of so many ages, on the club's own line is drawn (our own choice, no source).
const ENOUGH_BAGS: usize = 10;
const ENOUGH_AGES: usize = 3;
/// Fewer seeds do not say that a lot fell (our own choice, no source).
const ENOUGH_SEEDS: u32 = 20;
const CONF: f64 = 0.95;
const MONTHS_A_YEAR: f64 = 12.0;

/// What the club's own trials of a kind say of its ageing.
#[derive(Debug, Clone)]
pub enum Own {
    Falls {
        line: Line,
        bags: usize,
    },
    /// Not enough bags or ages.
    Few {
        bags: usize,
        ages: usize,
    },
    /// No fall with age is shown.
    Level {
        bags: usize,
    },
}

/// The trials of one lot.
#[derive(Debug, Clone, Default, PartialEq)]
struct Tests {
    /// Day, rooted and seeds of the first and of the last day of trials.
    first: Option<(NaiveDate, u32, u32)>,
    last: Option<(NaiveDate, u32, u32)>,
}

/// A packet with what is to be expected of it.
#[derive(Debug, Clone)]
pub struct Ageing<'p> {
    pub packet: &'p Packet,
    /// Whole years; `None` where the year is not known.
    pub age: Option<i64>,
    /// `62 % (50 to 73) of them root`, by the club's own line.
    pub expected: String,
    /// `2 years (C. Wilson)`, each list for itself.
    pub published: Vec<String>,
    pub tested: String,
    /// Why it should be tested again; empty where it need not.
    pub retest: String,
    /// Years until it is past its best; below 0 where it is, `None` where nobody knows.
    pub years_left: Option<f64>,
    pub left_words: String,
    /// Why a packet past its best needs no test now; empty where it needs one, or is not past it.
    pub waits: String,
}

/// The lines of every kind that the club counted.
pub fn lines(book: &Book) -> BTreeMap<String, Own> {
    let mut rows: BTreeMap<String, Vec<Aged>> = BTreeMap::new();
    for (bag, age) in told(book).filter_map(|b| Some((b, b.age_years?))) {
        let aged = Aged { age: age as f64, x: f64::from(rooted(bag)), n: f64::from(bag.seeds) };
        rows.entry(bag.kind.to_string()).or_default().push(aged);
    }
    rows.into_iter().map(|(kind, rows)| (kind, own(&rows))).collect()
}

fn own(rows: &[Aged]) -> Own {
    let bags = rows.len();
    let ages = rows.iter().map(|r| r.age as i64).collect::<BTreeSet<_>>().len();
    if bags < ENOUGH_BAGS || ages < ENOUGH_AGES {
        return Own::Few { bags, ages };
    }
    match Line::fit(rows, Link::Probit).map(|line| line.widened()) {
        Ok(line) if line.falls(CONF) => Own::Falls { line, bags },
        _ => Own::Level { bags },
    }
}

/// Closed bags of which everything is known.
fn told(book: &Book) -> impl Iterator<Item = &Counted> {
    book.own().filter(|b| b.standing == Standing::Counts && b.closed && !b.floated && !b.sown && b.seeds > 0)
}

fn rooted(bag: &Counted) -> u32 {
    bag.looks.iter().map(|l| l.rooted).sum::<u32>().min(bag.seeds)
}

fn trials_of_lots(book: &Book) -> BTreeMap<&str, Tests> {
    let mut of_lot: BTreeMap<&str, BTreeMap<NaiveDate, (u32, u32)>> = BTreeMap::new();
    for bag in told(book) {
        let sum = of_lot.entry(&bag.lot).or_default().entry(bag.on_paper).or_default();
        *sum = (sum.0 + rooted(bag), sum.1 + bag.seeds);
    }
    let ends = |days: BTreeMap<NaiveDate, (u32, u32)>| {
        let day = |(day, (x, n)): (&NaiveDate, &(u32, u32))| (*day, *x, *n);
        Tests { first: days.iter().next().map(day), last: days.iter().next_back().map(day) }
    };
    of_lot.into_iter().map(|(lot, days)| (lot, ends(days))).collect()
}

/// Every packet with seed left, those to use first first.
pub fn packets<'p>(
    book: &Book,
    own: &BTreeMap<String, Own>,
    packets: &'p [Packet],
    today: NaiveDate,
) -> Vec<Ageing<'p>> {
    let tests = trials_of_lots(book);
    let none = Tests::default();
    let of = |p: &'p Packet| one(p, own.get(&p.kind), tests.get(p.lot_id.0.as_str()).unwrap_or(&none), today);
    let mut all: Vec<Ageing> = packets.iter().filter(|p| p.balance > 0 && !p.blind).map(of).collect();
    let key = |a: &Ageing| a.years_left.unwrap_or(f64::INFINITY);
    all.sort_by(|a, b| key(a).total_cmp(&key(b)).then(b.age.cmp(&a.age)));
    all
}

fn one<'p>(packet: &'p Packet, own: Option<&Own>, tests: &Tests, today: NaiveDate) -> Ageing<'p> {
    let age = (packet.year != 0).then(|| (i64::from(today.year()) - packet.year).max(0));
    let line =
        own.and_then(|own| if let Own::Falls { line, bags } = own { Some((line, *bags)) } else { None });
    let lives: &[Fact<i64>] = published::of(&packet.kind).map_or(&[], |k| &k.storage_years);
    let good_for = line.and_then(|(line, _)| line.age_at_share(KEEP_SHARE));
    let shortest = lives.iter().map(|f| f.value as f64).reduce(f64::min);
    let years_left = age.and_then(|age| Some(good_for.or(shortest)? - age as f64));
    let retest = retest(packet, (age, lives), tests, (good_for, today));
    let is_past = years_left.is_some_and(|years| years < 0.0);
    let waits = if is_past && retest.is_empty() {
        waits(packet, (age, lives), tests, (good_for, today))
    } else {
        String::new()
    };
    Ageing {
        packet,
        age,
        expected: age
            .zip(line)
            .map_or_else(String::new, |(age, (line, bags))| expected(packet, age, line, bags)),
        published: lives.iter().map(life).collect(),
        tested: tests.last.map_or_else(|| t!("ageing-not-tested").to_owned(), |t| tested(t, today)),
        retest,
        waits,
        left_words: left_words(years_left, good_for.is_some()),
        years_left,
    }
}

fn expected(packet: &Packet, age: i64, line: &Line, bags: usize) -> String {
    let rate = line.at(age as f64, CONF);
    t!(
        "ageing-root-by-bags",
        rate = percent(rate.rate),
        low = percent(rate.low),
        high = percent(rate.high),
        n = bags,
        kind = packet.kind
    )
}

/// `2 years (C. Wilson)`; the page names the list in full below.
fn life(fact: &Fact<i64>) -> String {
    let who = fact.source.split(',').next().unwrap_or_default();
    t!("ageing-life-by-list", n = fact.value, who = who)
}

/// The lists of storage lives that these packets are judged by, in full.
pub fn lists(packets: &[Ageing]) -> BTreeSet<String> {
    let facts = packets.iter().filter_map(|a| published::of(&a.packet.kind)).flat_map(|k| &k.storage_years);
    facts.map(named).collect()
}

fn named(fact: &Fact<i64>) -> String {
    if fact.from_memory { t!("ageing-list-from-memory", list = fact.source) } else { fact.source.clone() }
}

fn tested((on, x, n): (NaiveDate, u32, u32), today: NaiveDate) -> String {
    t!("ageing-tested", rooted = x, seeds = n, day = day(on, today))
}

fn left_words(years: Option<f64>, own: bool) -> String {
    let Some(years) = years else { return t!("planning-not-known").to_owned() };
    let whole = years.floor() as i64;
    match (whole, own) {
        (..0, true) => t!("ageing-past-by-trials").to_owned(),
        (..0, false) => t!("ageing-past-by-lists").to_owned(),
        (0, true) => t!("ageing-last-season-by-trials").to_owned(),
        (0, false) => t!("ageing-last-season-by-lists").to_owned(),
        (_, true) => t!("ageing-more-years-by-trials", n = whole),
        (_, false) => t!("ageing-more-years-by-lists", n = whole),
    }
}

/// Why a packet should be tested again.
fn retest(
    packet: &Packet,
    (age, lives): (Option<i64>, &[Fact<i64>]),
    tests: &Tests,
    (good_for, today): (Option<f64>, NaiveDate),
) -> String {
    let (Some(first), Some(last)) = (tests.first, tests.last) else {
        let year_ago = today.checked_sub_months(Months::new(FIRST_TEST_MONTHS)).unwrap_or(today);
        let waits = packet.received_on.map_or(age.is_some_and(|a| a > 1), |day| day < year_ago);
        return if waits { t!("ageing-not-tested-within-a-year").to_owned() } else { String::new() };
    };
    let rate = |(_, x, n): (NaiveDate, u32, u32)| 100.0 * f64::from(x) / f64::from(n.max(1));
    let enough = first.2 >= ENOUGH_SEEDS && last.2 >= ENOUGH_SEEDS;
    if enough && first.0 < last.0 && rate(last) < replace_below_percent(rate(first)) {
        return t!("ageing-fell", first = fixed(rate(first), 0), last = fixed(rate(last), 0));
    }
    let months = interval_months(good_for);
    if after(last.0, months) <= today {
        return match interval(months) {
            Interval::Years(n) => t!("ageing-tested-years-ago", n = n),
            Interval::Months(n) => t!("ageing-tested-months-ago", n = n),
        };
    }
    if past_every_life(age, lives) && after(last.0, f64::from(FIRST_TEST_MONTHS)) <= today {
        t!("ageing-past-every-life").to_owned()
    } else {
        String::new()
    }
}

fn interval_months(good_for: Option<f64>) -> f64 {
    (MONTHS_A_YEAR * interval_years(good_for)).round()
}

fn after(day: NaiveDate, months: f64) -> NaiveDate {
    day.checked_add_months(Months::new(months as u32)).unwrap_or(day)
}

fn past_every_life(age: Option<i64>, lives: &[Fact<i64>]) -> bool {
    age.is_some_and(|age| !lives.is_empty() && lives.iter().all(|life| age > life.value))
}

/// Why no test is due yet, and from which day on one is.
fn waits(
    packet: &Packet,
    (age, lives): (Option<i64>, &[Fact<i64>]),
    tests: &Tests,
    (good_for, today): (Option<f64>, NaiveDate),
) -> String {
    let day = |on| day(on, today);
    let year = f64::from(FIRST_TEST_MONTHS);
    match (tests.last, packet.received_on) {
        (Some((last, ..)), _) => {
            let usual = interval_months(good_for);
            let months = if past_every_life(age, lives) { usual.min(year) } else { usual };
            t!("ageing-no-test-since-tested", due = day(after(last, months)), day = day(last))
        }
        (None, Some(came)) => {
            t!("ageing-no-test-since-came", due = day(after(came, year)), day = day(came))
        }
        (None, None) => t!("ageing-no-test-first-year").to_owned(),
    }
}

/// A time as people count it.
enum Interval {
    Years(i64),
    Months(i64),
}

fn interval(months: f64) -> Interval {
    let months = months as i64;
    if months % 12 == 0 { Interval::Years(months / 12) } else { Interval::Months(months) }
}

/// What the club's own trials of a kind say, in words.
pub fn own_words(kind: &str, own: &Own) -> String {
    match own {
        Own::Falls { line, bags } => {
            let falls = t!("ageing-falls-with-age", kind = kind, n = *bags);
            let half = line.half_age().map(|(age, _)| age.round_ties_even() as i64);
            let half = half.map(|age| t!("ageing-half-still-root", n = age));
            sentences([Some(falls), Some(good_words(line)), half])
        }
        Own::Few { bags, ages } => t!(
            "ageing-too-little-to-tell",
            kind = kind,
            n = *bags,
            ages = *ages,
            bags_needed = ENOUGH_BAGS,
            ages_needed = ENOUGH_AGES
        ),
        Own::Level { bags } => t!("ageing-no-fall-so-far", kind = kind, n = *bags),
    }
}

/// What new seed roots, and how long most of that lasts.
fn good_words(line: &Line) -> String {
    let rate = percent(line.at(0.0, CONF).rate);
    let good = line.age_at_share(KEEP_SHARE).unwrap_or(0.0);
    match interval((MONTHS_A_YEAR * good).round()) {
        Interval::Years(n) => t!("ageing-down-after-years", rate = rate, n = n),
        Interval::Months(n) => t!("ageing-down-after-months", rate = rate, n = n),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rows(rates: &[(i64, u32)]) -> Vec<Aged> {
        let bags = |(age, x): &(i64, u32)| vec![Aged { age: *age as f64, x: f64::from(*x), n: 20.0 }; 4];
        rates.iter().flat_map(bags).collect()
    }

    #[test]
    fn a_line_is_drawn_only_where_viability_is_shown_to_fall() {
        assert!(matches!(own(&rows(&[(0, 18), (1, 16)])), Own::Few { bags: 8, ages: 2 }));
        assert!(matches!(own(&rows(&[(0, 16), (1, 15), (2, 16)])), Own::Level { bags: 12 }));
        let Own::Falls { line, .. } = own(&rows(&[(0, 18), (2, 14), (4, 8)])) else { panic!("it falls") };
        let good = line.age_at_share(KEEP_SHARE).unwrap();
        assert!((line.at(good, CONF).rate / line.at(0.0, CONF).rate - 0.85).abs() < 1e-9);
    }

    fn packet(year: i64) -> Packet {
        let text = |s: &str| s.to_owned();
        Packet {
            id: crate::db::ids::PacketId(text("p")),
            owner_id: crate::db::ids::MemberId(text("m")),
            mark: text("JB 1"),
            balance: 20,
            rough: false,
            place: text(""),
            state: text("plain"),
            seeds_per_gram: None,
            received_on: None,
            through: text(""),
            note: text(""),
            given_from: None,
            lot_id: crate::db::ids::LotId(text("l")),
            year,
            code: text(""),
            parent_packet: None,
            pollination: text(""),
            doubtful_cross: false,
            kind_id: crate::db::ids::KindId(text("pepper")),
            kind: text("pepper"),
            variety_id: crate::db::ids::VarietyId(text("v")),
            variety: text("Kestrel"),
            species: text(""),
            counts_as: text("Kestrel"),
            source_id: crate::db::ids::SourceId(text("s")),
            source: text("Testwood"),
            source_sort: text("merchant"),
            source_counts_as: text("Testwood"),
            blind: false,
            promised: 0,
        }
    }

    const TODAY: NaiveDate = NaiveDate::from_ymd_opt(2026, 3, 2).unwrap();

    fn on(day: &str, x: u32, n: u32) -> Option<(NaiveDate, u32, u32)> {
        Some((day.parse().unwrap(), x, n))
    }

    fn reason(year: i64, tests: &Tests) -> String {
        one(&packet(year), None, tests, TODAY).retest
    }

    /// storage_life_years.csv: pepper 2 years by one list, 3 by the other.
    #[test]
    fn lists_that_disagree_stand_side_by_side() {
        let p = packet(2024);
        let found = one(&p, None, &Tests::default(), TODAY);
        assert_eq!(found.published.len(), 2);
        assert!(found.published[0].starts_with("2 years (C. Wilson"), "{:?}", found.published);
        assert!(found.published[1].starts_with("3 years (R.L. Watts"), "{:?}", found.published);
        assert_eq!(found.left_words, "its last good season by the shorter published life");
    }

    /// genebank_numbers.csv: tested within 12 months of receipt, every 5 years where no fall is predicted, replaced below
    /// 85 % of the first viability.
    #[test]
    fn packets_are_tested_again_by_the_numbers_of_gene_banks() {
        assert_eq!(reason(2022, &Tests::default()), "Not tested within a year of its coming.");
        assert_eq!(reason(2026, &Tests::default()), "");
        let once = |day| Tests { first: on(day, 18, 20), last: on(day, 18, 20) };
        assert_eq!(reason(2024, &once("2025-06-01")), "");
        assert_eq!(reason(2020, &once("2021-03-01")), "Last tested more than 5 years ago.");
        assert!(reason(2020, &once("2025-02-01")).starts_with("Past every published storage life"));
        let fell = Tests { first: on("2024-02-01", 36, 40), last: on("2026-02-01", 30, 40) };
        assert!(reason(2025, &fell).starts_with("Fell from 90 to 75 %"), "{}", reason(2025, &fell));
        let held = Tests { first: on("2024-02-01", 36, 40), last: on("2026-02-01", 31, 40) };
        assert_eq!(reason(2025, &held), "");
    }
}
