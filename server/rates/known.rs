//! What other pages may ask of the club's own seeds.

use super::book::{Book, Counted, Standing, day_number};
use super::cache;
use super::choice::Choice;
use super::name;
use super::rows::ClubRow;
use super::store;
use crate::app::App;
use crate::db::ids::At;
use crate::error::AppError;
use chrono_tz::Tz;
use hilum_calc::standard_day::final_count_day;
use hilum_calc::table::{Alike, At as When, Bag, Of, Options, Reading};

/// Rooted seeds planted more lately than so many days ago may still come up, and are left out.
pub const TRAY_DAYS: i64 = 21;
/// Bags say how unlike they are from so many trials on (more than there are sources).
const ENOUGH: f64 = 10.0;

/// A row of the club table: of seeds started, by the standard day.
#[derive(Debug, Clone, PartialEq)]
pub struct Known {
    pub kind: String,
    pub variety: String,
    pub source: String,
    /// Share rooted, 0 to 1.
    pub rate: f64,
    pub low: f64,
    pub high: f64,
    pub seeds: u64,
    pub bags: usize,
    pub growers: usize,
    /// Independent seeds that tell as much as these.
    pub independent: f64,
}

impl Known {
    /// Tells the row in an address.
    pub fn key(&self) -> String {
        [&self.kind, &self.variety, &self.source].map(String::as_str).join(" / ")
    }

    /// `Ember, Testwood Seeds`
    pub fn name(&self) -> String {
        format!("{}, {}", name::read(&self.variety), self.source)
    }

    /// Rooted and all seeds of a test that tells as much as the club's bags do.
    pub fn as_test(&self) -> (u64, u64) {
        let n = self.independent.floor().max(1.0);
        ((self.rate * n).round() as u64, n as u64)
    }

    fn of(row: &ClubRow) -> Option<Self> {
        let r = &row.row;
        Some(Self {
            kind: r.kind.clone(),
            variety: r.variety.clone(),
            source: r.source.clone(),
            rate: r.rate?,
            low: r.low,
            high: r.high,
            seeds: r.soaked,
            bags: r.bags,
            growers: r.growers,
            independent: r.independent,
        })
    }
}

/// Every row with a rate, by kind, variety and source.
pub async fn rates(app: &App, zone: Tz, now: At) -> Result<Vec<Known>, AppError> {
    let read = cache::book(app, zone).await?;
    let table = cache::table(app, &read, &Choice::default(), now.day(zone)).await?;
    Ok(table.rows.iter().filter_map(Known::of).collect())
}

/// How many of how many rooted seeds became plants; `None` where no tray tells.
pub async fn grown(app: &App, known: &Known, now: At) -> Result<Option<(u64, u64)>, AppError> {
    let row = (known.kind.as_str(), known.variety.as_str(), known.source.as_str());
    let before = now.plus_days(-TRAY_DAYS);
    let found = store::grown(&mut app.db.read().await?, before, row).await?;
    let planted = u64::try_from(found.planted).unwrap_or(0);
    let grown = u64::try_from(found.grown).unwrap_or(0).min(planted);
    Ok((planted > 0).then_some((grown, planted)))
}

/// Rooted seeds of one kind, variety and source that were planted long enough ago, and what became of them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Grown {
    pub kind: String,
    pub variety: String,
    pub source: String,
    /// Became plants; no more than `planted`.
    pub grown: u64,
    pub planted: u64,
}

/// [`grown`] of every row at once.
pub async fn all_grown(app: &App, now: At) -> Result<Vec<Grown>, AppError> {
    let found = store::all_grown(&mut app.db.read().await?, now.plus_days(-TRAY_DAYS)).await?;
    let of = |row: store::GrownRow| {
        let planted = u64::try_from(row.planted).unwrap_or(0);
        let grown = u64::try_from(row.grown).unwrap_or(0).min(planted);
        Grown { kind: row.kind, variety: row.variety, source: row.source, grown, planted }
    };
    Ok(found.into_iter().map(of).collect())
}

/// The club's bags as a plan of more of them needs to know them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Habit {
    /// How alike the seeds of one bag are, 0 to 1; `None` while too few trials tell.
    pub alike: Option<f64>,
    /// Seeds in the bag of the middle; `None` without bags.
    pub bag: Option<u32>,
}

/// Bags of floaters aside.
pub async fn habit(app: &App, zone: Tz, now: At) -> Result<Habit, AppError> {
    let read = cache::book(app, zone).await?;
    let alike = cache::alike(app, &read, now.day(zone)).await?;
    let mut sizes: Vec<u32> = plain(&read.book).map(|b| b.seeds).collect();
    sizes.sort_unstable();
    Ok(Habit {
        alike: (alike.df >= ENOUGH).then_some(alike.in_bag),
        bag: sizes.get(sizes.len() / 2).copied(),
    })
}

pub(super) fn alike_of(book: &Book, today: chrono::NaiveDate) -> Alike {
    let bags: Vec<Bag> = plain(book).map(Counted::bag).collect();
    let as_of = Some(day_number(today));
    let options = Options { of: Of::Paper, at: When::Day, as_of, standard_day: &final_count_day };
    Reading::new(bags, &options).alike()
}

fn plain(book: &Book) -> impl Iterator<Item = &Counted> {
    book.own().filter(|b| b.standing == Standing::Counts && !b.floated && !b.sown)
}
