//! The computed tables, kept until anything they depend on changes.

use super::book::Book;
use super::choice::Choice;
use super::drawn::Drawings;
use super::reading::Reading;
use super::rows::ClubTable;
use super::standing::Kept as Standing;
use super::store::{self, Settled, Version};
use crate::app::App;
use crate::db::ids::At;
use crate::error::AppError;
use crate::web::away::{aside, away, finished};
use crate::web::made::Files;
use chrono::NaiveDate;
use chrono_tz::Tz;
use hilum_calc::table::Alike;
use std::collections::HashMap;
use std::sync::{Arc, Mutex, PoisonError};
use std::time::{Duration, Instant};

/// How many tables of different filters are kept at once.
const MOST: usize = 64;
/// From so many bags on a club is large: bringing the tables up to date after each count would take the whole machine.
const LARGE: usize = 10_000;
/// From so many bags on, entries that none is added among any more are counted once a minute and not for each visit.
const SETTLES: usize = 1_000;
/// In a large club, so many times as long as it took is left to everything else before it is done again.
const REST: u32 = 10;
const LONGEST: Duration = Duration::from_secs(10);
/// Of a large club, so many tables are kept up to date for those who ask next.
const AHEAD: usize = 4;
const SETTLE: Duration = Duration::from_secs(60);
/// How alike the seeds of one bag are in a large club is not moved by some counts.
const ALIKE_FOR: Duration = Duration::from_secs(600);

/// Shared by all requests of this process; another process has its own and sees the same versions.
#[derive(Clone, Default)]
pub struct Tables {
    kept: Arc<Mutex<Kept>>,
    /// Held while somebody reads the database; the others wait for what comes of it.
    reading: Arc<tokio::sync::Mutex<Held>>,
    /// Held while somebody computes a table; the others wait for what comes of it: the last of each, and when its
    /// bags were taken.
    computing: Arc<tokio::sync::Mutex<HashMap<Key, Computed>>>,
    /// Held while somebody works out how alike seeds are.
    comparing: Arc<tokio::sync::Mutex<()>>,
    standings: Arc<Mutex<HashMap<&'static str, Arc<Standing>>>>,
    pub files: Files<Key>,
    pub drawings: Drawings,
}

/// A table by what was asked for and on which day.
pub type Key = (Choice, NaiveDate);

/// A table, and when its bags were taken.
type Computed = (Instant, Arc<ClubTable>);

/// What was read of the database.
#[derive(Default)]
struct Held {
    reading: Option<Reading>,
    settled: Option<(Instant, Settled)>,
}

/// The club's bags, and the version they were read at.
#[derive(Debug, Clone)]
pub struct Read {
    pub version: Version,
    pub book: Arc<Book>,
    /// Whatever was saved before is in it.
    pub as_of: At,
}

impl Read {
    /// Whether it may be some seconds behind what was saved.
    pub fn may_be_behind(&self) -> bool {
        self.book.bags.len() >= LARGE
    }
}

/// How alike the seeds of one bag are: as of which day, and when it was worked out.
#[derive(Clone, Copy)]
struct KnownAlike {
    today: NaiveDate,
    at: Instant,
    alike: Alike,
}

#[derive(Default)]
struct Kept {
    read: Option<Read>,
    tables: HashMap<Key, Arc<ClubTable>>,
    alike: Option<KnownAlike>,
    /// Of a large club: when it was brought up to date, and how long that took.
    renewed: Option<(Instant, Duration)>,
    /// Somebody is at it.
    renewing: bool,
}

/// What is kept of a large club.
enum Rest {
    /// It is as of a moment ago.
    Good(Read),
    /// It may be shown once more, and is to be brought up to date meanwhile.
    Due(Read),
    /// It is not kept, or of too long ago.
    Over,
}

impl Kept {
    fn rest(&mut self) -> Rest {
        let (Some((when, took)), Some(read)) = (self.renewed, self.read.clone()) else {
            return Rest::Over;
        };
        let (age, rest) = (when.elapsed(), (took * REST).min(LONGEST));
        if age < rest || (self.renewing && age < 6 * rest) {
            return Rest::Good(read);
        }
        if age >= 3 * rest {
            return Rest::Over;
        }
        self.renewing = true;
        Rest::Due(read)
    }

    /// What is kept, where the database is still at its version: then it is as of now.
    fn still(&mut self, version: &Version, now: Instant, as_of: At) -> Option<Read> {
        let read = self.read.as_mut().filter(|read| read.version == *version)?;
        read.as_of = as_of;
        if let Some((when, _)) = &mut self.renewed {
            *when = now;
        }
        Some(read.clone())
    }

    fn alike_on(&self, today: NaiveDate) -> Option<Alike> {
        self.alike.filter(|known| known.today == today).map(|known| known.alike)
    }

    fn is_of(&self, version: &Version) -> bool {
        self.read.as_ref().is_some_and(|read| read.version == *version)
    }
}

impl Tables {
    fn with<T>(&self, what: impl FnOnce(&mut Kept) -> T) -> T {
        what(&mut self.kept.lock().unwrap_or_else(PoisonError::into_inner))
    }

    /// The bags of a large club, where they are as of a moment ago and nobody has to bring them up to date.
    pub fn lately(&self) -> Option<Arc<Book>> {
        self.with(|kept| {
            let (when, took) = kept.renewed?;
            let rests = when.elapsed() < (took * REST).min(LONGEST);
            kept.read.as_ref().filter(|_| rests).map(|read| read.book.clone())
        })
    }

    pub(super) fn with_standings<T>(
        &self,
        what: impl FnOnce(&mut HashMap<&'static str, Arc<Standing>>) -> T,
    ) -> T {
        what(&mut self.standings.lock().unwrap_or_else(PoisonError::into_inner))
    }

    /// Keeps what was computed, unless a newer version came meanwhile.
    fn keep(&self, version: &Version, put: impl FnOnce(&mut Kept)) {
        self.with(|kept| {
            if kept.is_of(version) {
                if kept.tables.len() >= MOST {
                    kept.tables.clear();
                }
                put(kept);
            }
        });
    }
}

/// The club's bags as they are now. Of a large club: as they were some seconds ago, while others bring them up to
/// date.
pub async fn book(app: &App, zone: Tz) -> Result<Read, AppError> {
    match app.tables.with(Kept::rest) {
        Rest::Good(read) => Ok(read),
        Rest::Due(read) => {
            let app = app.clone();
            tokio::spawn(async move {
                if let Err(error) = renewed(&app, zone, Haste::Aside).await {
                    tracing::warn!("the club table was not brought up to date: {error}");
                }
                app.tables.with(|k| k.renewing = false);
            });
            Ok(read)
        }
        Rest::Over => {
            let app = app.clone();
            finished(async move { renewed(&app, zone, Haste::Awaited).await }).await
        }
    }
}

/// Whether somebody waits for what is computed.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Haste {
    Awaited,
    Aside,
}

/// The bags as they are now, or as somebody has just read them.
async fn renewed(app: &App, zone: Tz, haste: Haste) -> Result<Read, AppError> {
    let asked = Instant::now();
    let mut held = app.tables.reading.lock().await;
    let since = |k: &mut Kept| k.renewed.filter(|(when, _)| *when >= asked).and(k.read.clone());
    if let Some(kept) = app.tables.with(since) {
        return Ok(kept);
    }
    let (began, as_of) = (Instant::now(), app.now());
    let mut conn = app.db.read().await?;
    let settles = held.reading.as_ref().is_some_and(|r| r.bags() >= SETTLES);
    let settled = match held.settled.take().filter(|(when, _)| when.elapsed() < SETTLE) {
        _ if !settles => (began, Settled::default()),
        Some(known) => known,
        None => (began, Settled::count(&mut conn).await?),
    };
    // The version first: what is written between the two reads is newer than it says, and read again.
    let latest = store::latest(&mut conn, &settled.1, held.reading.as_ref().map(|r| &r.version)).await?;
    held.settled = Some(settled);
    if let Some(kept) = app.tables.with(|k| k.still(&latest.version, began, as_of)) {
        return Ok(kept);
    }
    let version = latest.version.clone();
    let read = match held.reading.take() {
        Some(older) => older.upto(&mut conn, latest, zone).await?,
        None => Reading::whole(&mut conn, latest.version, zone).await?,
    };
    drop(conn);
    let wanted = app.tables.with(|k| k.tables.keys().take(AHEAD).cloned().collect::<Vec<_>>());
    let work = move || {
        let book = Arc::new(read.book());
        book.offers();
        let large = book.bags.len() >= LARGE;
        let wanted = if large { wanted } else { Vec::new() };
        let table = |key: Key| (key.clone(), Arc::new(ClubTable::of(&book, &key.0, key.1)));
        let tables: HashMap<_, _> = wanted.into_iter().map(table).collect();
        if haste == Haste::Awaited {
            give_back_after(&book);
        }
        (read, book, tables)
    };
    let (reading, book, tables) = if haste == Haste::Aside { aside(work).await? } else { away(work).await? };
    held.reading = Some(reading);
    let renewed = (book.bags.len() >= LARGE).then(|| (Instant::now(), began.elapsed()));
    let read = Read { version, book, as_of };
    app.tables.with(|k| {
        let renewing = k.renewing;
        let alike = k.alike.filter(|a| renewed.is_some() && a.at.elapsed() < ALIKE_FOR);
        *k = Kept { read: Some(read.clone()), tables, renewed, renewing, alike };
    });
    Ok(read)
}

/// The table of `choice` on `today`.
pub async fn table(
    app: &App,
    read: &Read,
    choice: &Choice,
    today: NaiveDate,
) -> Result<Arc<ClubTable>, AppError> {
    let key = (choice.clone(), today);
    let kept = app.tables.with(|k| k.tables.get(&key).filter(|_| k.is_of(&read.version)).cloned());
    if let Some(table) = kept {
        return Ok(table);
    }
    let (app, read) = (app.clone(), read.clone());
    finished(async move { computed(&app, &read, key).await }).await
}

/// The table, as computed now or by somebody who began after it was asked for.
async fn computed(app: &App, read: &Read, key: Key) -> Result<Arc<ClubTable>, AppError> {
    let asked = Instant::now();
    let mut last = app.tables.computing.lock().await;
    if let Some((_, table)) = last.get(&key).filter(|(taken, _)| *taken >= asked) {
        return Ok(table.clone());
    }
    let taken = Instant::now();
    let Read { version, book, .. } = app.tables.with(|k| k.read.clone()).unwrap_or_else(|| read.clone());
    let (choice, today) = key.clone();
    let work = move || {
        let table = ClubTable::of(&book, &choice, today);
        give_back_after(&book);
        table
    };
    let table = Arc::new(away(work).await?);
    app.tables.keep(&version, |k| drop(k.tables.insert(key.clone(), table.clone())));
    if last.len() >= 2 * AHEAD {
        last.clear();
    }
    last.insert(key, (taken, table.clone()));
    Ok(table)
}

/// How alike the seeds of one bag are in this club.
pub async fn alike(app: &App, read: &Read, today: NaiveDate) -> Result<Alike, AppError> {
    if let Some(alike) = app.tables.with(|k| k.alike_on(today)) {
        return Ok(alike);
    }
    let (app, read) = (app.clone(), read.clone());
    finished(async move { compared(&app, &read, today).await }).await
}

async fn compared(app: &App, read: &Read, today: NaiveDate) -> Result<Alike, AppError> {
    let _turn = app.tables.comparing.lock().await;
    if let Some(alike) = app.tables.with(|k| k.alike_on(today)) {
        return Ok(alike);
    }
    let (book, at) = (read.book.clone(), Instant::now());
    let alike = away(move || super::known::alike_of(&book, today)).await?;
    app.tables.with(|k| {
        if read.may_be_behind() || k.is_of(&read.version) {
            k.alike = Some(KnownAlike { today, at, alike });
        }
    });
    Ok(alike)
}

/// A thread keeps what it has freed for its own next work; of a large club's that is much, and the next may be another's.
fn give_back_after(book: &Book) {
    if book.bags.len() >= LARGE {
        hilum_memory::give_back();
    }
}
