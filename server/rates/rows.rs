use super::book::{Book, Standing, day_number};
use super::choice::Choice;
use super::name::Name;
use super::others::Besides;
use chrono::NaiveDate;
use hilum_calc::standard_day::final_count_day;
use hilum_calc::table::{Bag, Options, Reading, Row};
use std::collections::{BTreeMap, BTreeSet, HashMap};

/// A row of the club table, with what left the rate.
#[derive(Debug, Clone)]
pub struct ClubRow {
    pub row: Row,
    /// Bags that have not reached the standard day.
    pub waiting: usize,
    pub in_doubt: usize,
    pub abandoned: usize,
    /// Trials that threw floaters out.
    pub threw: usize,
    /// Groups of linked sources of this variety.
    pub groups: usize,
}

/// The club table of one choice.
#[derive(Debug, Default)]
pub struct ClubTable {
    pub rows: Vec<ClubRow>,
    /// Bags that left the rate or wait for it, also of sources without a row.
    pub waiting: usize,
    pub in_doubt: usize,
    pub abandoned: usize,
    /// Who grew what, by place of the row, then grower.
    pub grown: Vec<Grown>,
    /// What other clubs found; in no row.
    pub besides: Besides,
}

/// What one grower found with one source.
#[derive(Debug, Clone, PartialEq)]
pub struct Grown {
    /// Its place among the rows.
    pub row: usize,
    pub grower: Name,
    /// Seeds rooted by the chosen time; a fraction where the curve stood in for a look.
    pub rooted: f64,
    /// Seeds on paper, less what open seeds leave unknown.
    pub seeds: f64,
}

#[derive(Default)]
struct Aside<'b> {
    counting: usize,
    in_doubt: usize,
    abandoned: usize,
    threw: BTreeSet<&'b str>,
}

impl ClubTable {
    /// Computes the table as it stands on `today`.
    pub fn of(book: &Book, choice: &Choice, today: NaiveDate) -> Self {
        let bags: Vec<Bag> = choice.counting(book).map(|b| b.bag()).collect();
        let options = Options {
            of: choice.of(),
            at: choice.at(),
            as_of: Some(day_number(today)),
            standard_day: &final_count_day,
        };
        let reading = Reading::new(bags, &options);
        let rows = reading.rows();
        let grown = grown(&reading, &rows, book);
        let mut asides = asides(book, choice);
        let sum = |of: fn(&Aside) -> usize| asides.values().map(of).sum();
        let (counting, in_doubt, abandoned) =
            (sum(|a| a.counting), sum(|a| a.in_doubt), sum(|a| a.abandoned));
        let entered: usize = rows.iter().map(|r| r.bags).sum();
        let mut groups: BTreeMap<(String, String), usize> = BTreeMap::new();
        for r in &rows {
            let most = groups.entry((r.kind.clone(), r.variety.clone())).or_default();
            *most = r.group.max(*most);
        }
        let club = |row: Row| {
            let key = (row.kind.clone(), row.variety.clone(), row.source.clone());
            let aside = asides.remove(&key).unwrap_or_default();
            ClubRow {
                waiting: aside.counting.saturating_sub(row.bags),
                in_doubt: aside.in_doubt,
                abandoned: aside.abandoned,
                threw: aside.threw.len(),
                groups: groups[&(row.kind.clone(), row.variety.clone())],
                row,
            }
        };
        let rows = rows.into_iter().map(club).collect();
        let besides = Besides::of(&book.others, &options);
        Self { rows, waiting: counting - entered, in_doubt, abandoned, grown, besides }
    }
}

fn grown(reading: &Reading, rows: &[Row], book: &Book) -> Vec<Grown> {
    let names: HashMap<&str, &Name> = book.own().map(|bag| (bag.grower.as_str(), &bag.grower)).collect();
    let mut sums: BTreeMap<(usize, &str), (f64, f64)> = BTreeMap::new();
    for t in reading.trials() {
        let place = |r: &Row| (r.kind.as_str(), r.variety.as_str(), r.source.as_str()).cmp(&t.place);
        if let Ok(row) = rows.binary_search_by(place) {
            let sum = sums.entry((row, t.grower)).or_default();
            *sum = (sum.0 + t.rooted, sum.1 + t.seeds);
        }
    }
    let of = |((row, grower), (rooted, seeds)): ((usize, &str), (f64, f64))| {
        let grower = names[grower].clone();
        Grown { row, grower, rooted, seeds }
    };
    sums.into_iter().map(of).collect()
}

fn asides<'b>(book: &'b Book, choice: &Choice) -> BTreeMap<(String, String, String), Aside<'b>> {
    let mut out: BTreeMap<(String, String, String), Aside> = BTreeMap::new();
    for b in book.own().filter(|b| choice.takes(b)) {
        let aside = out.entry((b.kind.to_string(), b.variety.to_string(), b.source.to_string())).or_default();
        match b.standing {
            Standing::Counts => aside.counting += 1,
            Standing::InDoubt => aside.in_doubt += 1,
            Standing::Abandoned => aside.abandoned += 1,
            Standing::Unseen => continue,
        }
        if b.standing == Standing::Counts && b.threw {
            aside.threw.insert(&b.trial);
        }
    }
    out
}
