//! The fit is done again after counts came in: off the request path, by one process at a time.

use super::super::book::{Book, Counted, day_number};
use super::super::cache;
use super::super::choice::Choice;
use super::by_when;
use super::store::{self, Stamp};
use crate::accounts;
use crate::app::App;
use crate::error::AppError;
use crate::leases;
use crate::web::away::aside;
use anyhow::Context;
use chrono::NaiveDate;
use hilum_calc::club::{Care, Club};
use hilum_calc::standard_day::final_count_day;
use hilum_calc::table::{Bag, Of, Options};
use std::sync::Arc;
use std::time::{Duration, Instant};

const JOB: &str = "standing";
/// A process that died in a fit blocks the next for so long.
const LEASE_MINUTES: i64 = 5;
const PAUSE: Duration = Duration::from_secs(5);
/// After a fit, so many times its length is left to everything else.
const REST: u32 = 10;

/// Keeps the standing current for as long as the program runs.
pub async fn keep_current(app: App) {
    loop {
        let began = Instant::now();
        match refresh(&app).await {
            Ok(true) => app.metrics.compared(true, began.elapsed()),
            Ok(false) => {}
            Err(error) => {
                app.metrics.compared(false, began.elapsed());
                tracing::warn!("the sources were not compared again: {error}");
            }
        }
        tokio::time::sleep(PAUSE.max(began.elapsed() * REST)).await;
    }
}

/// Fits the model again where anything changed since; true where it did. Leaves it to the process that has the
/// job already.
pub async fn refresh(app: &App) -> Result<bool, AppError> {
    let mut conn = app.db.read().await?;
    let zone = accounts::store::zone(&mut conn).await?;
    drop(conn);
    let cache::Read { version, book, .. } = cache::book(app, zone).await?;
    let stamp = Stamp { of_version: version.text()?, as_of: app.now().day(zone), made_at: app.now() };
    if is_current(app, &stamp).await? {
        return Ok(false);
    }
    let holder = uuid::Uuid::new_v4().simple().to_string();
    let mut conn = app.db.write().await?;
    let until = stamp.made_at.plus_minutes(LEASE_MINUTES);
    let ours = leases::take(&mut conn, JOB, &holder, stamp.made_at, until).await?;
    conn.commit().await?;
    if !ours {
        return Ok(false);
    }
    // Another process may have done it between the look and the lease.
    let due = !is_current(app, &stamp).await?;
    let done = if due { fit(app, book, &stamp).await } else { Ok(()) };
    let mut conn = app.db.write().await?;
    leases::give_back(&mut conn, JOB, &holder).await?;
    conn.commit().await?;
    done.map(|()| due)
}

async fn is_current(app: &App, wanted: &Stamp) -> Result<bool, AppError> {
    let mut conn = app.db.read().await?;
    for at_close in [false, true] {
        let kept = store::stamp(&mut conn, by_when(at_close)).await?;
        let same = |k: Stamp| (k.of_version, k.as_of) == (wanted.of_version.clone(), wanted.as_of);
        if !kept.is_some_and(same) {
            return Ok(false);
        }
    }
    Ok(true)
}

async fn fit(app: &App, book: Arc<Book>, stamp: &Stamp) -> Result<(), AppError> {
    for at_close in [false, true] {
        let (book, today) = (book.clone(), stamp.as_of);
        let document = aside(move || document(&book, at_close, today)).await??;
        let mut conn = app.db.write().await?;
        store::keep(&mut conn, by_when(at_close), stamp, &document).await?;
        conn.commit().await?;
    }
    Ok(())
}

fn document(book: &Book, at_close: bool, today: NaiveDate) -> Result<String, anyhow::Error> {
    let choice = Choice { of_paper: true, at_close, ..Choice::default() };
    let all = || choice.counting(book).chain(book.others.iter());
    let bags: Vec<Bag> = all().map(Counted::bag).collect();
    let cares: Vec<Care> = all().map(Counted::care).collect();
    let options = Options {
        of: Of::Paper,
        at: choice.at(),
        as_of: Some(day_number(today)),
        standard_day: &final_count_day,
    };
    serde_json::to_string(&Club::of(bags, cares, &options).standing).context("a standing can be written")
}
