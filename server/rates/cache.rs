//! The computed tables, kept until anything they depend on changes.

use super::book::Book;
use super::choice::Choice;
use super::reading::Reading;
use super::rows::ClubTable;
use super::standing::Kept as Standing;
use super::store::{self, Version};
use crate::app::App;
use crate::error::AppError;
use chrono::NaiveDate;
use chrono_tz::Tz;
use hilum_calc::table::Alike;
use std::collections::HashMap;
use std::sync::{Arc, Mutex, PoisonError};

/// How many tables of different filters are kept at once.
const MOST: usize = 64;

/// Shared by all requests of this process; another process has its own and sees the same versions.
#[derive(Clone, Default)]
pub struct Tables {
    kept: Arc<Mutex<Kept>>,
    /// Held while somebody reads the database; the others wait for what comes of it.
    reading: Arc<tokio::sync::Mutex<Option<Reading>>>,
    standings: Arc<Mutex<HashMap<&'static str, Arc<Standing>>>>,
}

#[derive(Default)]
struct Kept {
    version: Option<Version>,
    book: Arc<Book>,
    tables: HashMap<(Choice, NaiveDate), Arc<ClubTable>>,
    files: HashMap<(Choice, NaiveDate), Arc<str>>,
    alike: Option<(NaiveDate, Alike)>,
}

impl Tables {
    fn with<T>(&self, what: impl FnOnce(&mut Kept) -> T) -> T {
        what(&mut self.kept.lock().unwrap_or_else(PoisonError::into_inner))
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
            if kept.version.as_ref() == Some(version) {
                if kept.tables.len() >= MOST || kept.files.len() >= MOST {
                    kept.tables.clear();
                    kept.files.clear();
                }
                put(kept);
            }
        });
    }
}

/// The club's bags as they are now, and the version they were read at.
pub async fn book(app: &App, zone: Tz) -> Result<(Version, Arc<Book>), AppError> {
    let mut reading = app.tables.reading.lock().await;
    let mut conn = app.db.read().await?;
    // The version first: what is written between the two reads is newer than it says, and read again.
    let latest = store::latest(&mut conn, reading.as_ref().map(|r| &r.version)).await?;
    let version = latest.version.clone();
    let kept = app.tables.with(|k| (k.version.as_ref() == Some(&version)).then(|| k.book.clone()));
    if let Some(book) = kept {
        return Ok((version, book));
    }
    let read = match reading.take() {
        Some(older) => older.upto(&mut conn, latest).await?,
        None => Reading::whole(&mut conn, latest.version).await?,
    };
    drop(conn);
    let (read, book) = away(move || {
        let book = Book::new(&read, zone);
        (read, book)
    })
    .await?;
    let book = Arc::new(book);
    *reading = Some(read);
    app.tables.with(|k| {
        *k = Kept { version: Some(version.clone()), book: book.clone(), ..Kept::default() };
    });
    Ok((version, book))
}

/// The table of `choice` on `today`.
pub async fn table(
    app: &App,
    read: &(Version, Arc<Book>),
    choice: &Choice,
    today: NaiveDate,
) -> Result<Arc<ClubTable>, AppError> {
    let key = (choice.clone(), today);
    let kept =
        app.tables.with(|k| k.tables.get(&key).filter(|_| k.version.as_ref() == Some(&read.0)).cloned());
    if let Some(table) = kept {
        return Ok(table);
    }
    let (book, wanted) = (read.1.clone(), choice.clone());
    let table = away(move || ClubTable::of(&book, &wanted, today)).await?;
    let table = Arc::new(table);
    app.tables.keep(&read.0, |k| drop(k.tables.insert(key, table.clone())));
    Ok(table)
}

/// The file that `write` makes of the bags for `choice` on `today`; kept like a table.
pub async fn file(
    app: &App,
    read: &(Version, Arc<Book>),
    choice: &Choice,
    today: NaiveDate,
    write: fn(&Book, &Choice, NaiveDate) -> Result<String, anyhow::Error>,
) -> Result<Arc<str>, AppError> {
    let key = (choice.clone(), today);
    let kept =
        app.tables.with(|k| k.files.get(&key).filter(|_| k.version.as_ref() == Some(&read.0)).cloned());
    if let Some(file) = kept {
        return Ok(file);
    }
    let (book, wanted) = (read.1.clone(), choice.clone());
    let text: Arc<str> = away(move || write(&book, &wanted, today)).await??.into();
    app.tables.keep(&read.0, |k| drop(k.files.insert(key, text.clone())));
    Ok(text)
}

/// How alike the seeds of one bag are in this club.
pub async fn alike(app: &App, read: &(Version, Arc<Book>), today: NaiveDate) -> Result<Alike, AppError> {
    let kept = app.tables.with(|k| k.alike.filter(|a| a.0 == today && k.version.as_ref() == Some(&read.0)));
    if let Some((_, alike)) = kept {
        return Ok(alike);
    }
    let book = read.1.clone();
    let alike = away(move || super::known::alike_of(&book, today)).await?;
    app.tables.keep(&read.0, |k| k.alike = Some((today, alike)));
    Ok(alike)
}

/// Computes on a thread of its own, so that other requests go on.
pub async fn away<T: Send + 'static>(work: impl FnOnce() -> T + Send + 'static) -> Result<T, AppError> {
    tokio::task::spawn_blocking(work).await.map_err(|e| AppError::Internal(e.into()))
}
