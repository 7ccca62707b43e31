//! Whether the database is sound. Once it was found damaged nothing is written any more, so that the damage does not
//! grow and backups are not made of it; only a start with a sound file ends that.

use super::trouble::Damaged;
use super::{Conn, Db, FromRow, Trouble};
use crate::metrics::Waits;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Duration;

/// So long a file may be looked over before the rest goes on.
const PATIENCE: Duration = Duration::from_secs(5);

/// Whether a statement fails, for tests of what happens then.
pub type Fault = Arc<dyn Fn(&'static str) -> bool + Send + Sync>;

/// What was found of the database since the start; clones share it.
#[derive(Clone, Default)]
pub struct Health {
    damaged: Arc<AtomicBool>,
    /// Not the club's own database.
    aside: bool,
    fault: Option<Fault>,
    waits: Waits,
}

impl Health {
    /// Whether damage was found.
    pub fn damaged(&self) -> bool {
        self.damaged.load(Ordering::SeqCst)
    }

    pub(super) fn waits(&self) -> &Waits {
        &self.waits
    }

    pub(super) fn with(self, fault: Fault) -> Self {
        Self { fault: Some(fault), ..self }
    }

    /// Of a database that is not the club's: what is found in it is for whoever asked.
    pub(super) fn aside(self) -> Self {
        Self { aside: true, ..self }
    }

    /// Refuses what a test wants to fail.
    pub(super) fn lets(&self, statement: &'static str) -> Result<(), sqlx::Error> {
        match &self.fault {
            Some(fault) if fault(statement) => Err(sqlx::Error::Protocol("a fault of a test".into())),
            _ => Ok(()),
        }
    }

    pub(super) fn must_be_sound(&self) -> Result<(), sqlx::Error> {
        if self.damaged() { Err(sqlx::Error::Configuration(Box::new(Damaged))) } else { Ok(()) }
    }

    /// The same result, its error noted where it tells of damage.
    pub(super) fn seen<T>(&self, result: Result<T, sqlx::Error>) -> Result<T, sqlx::Error> {
        if let Err(error) = &result
            && Trouble::of(error) == Some(Trouble::Damaged)
        {
            self.found(&error.to_string());
        }
        result
    }

    fn found(&self, what: &str) {
        tracing::debug!(what, aside = self.aside, "damage was found");
        if !self.damaged.swap(true, Ordering::SeqCst) && !self.aside {
            tracing::error!("the database is damaged; nothing is written any more. Restore the last backup");
        }
    }
}

#[derive(FromRow)]
struct Line {
    line: String,
}

/// What SQLite finds wrong in its file: each page, each row, and with `whole` also each index and each reference.
/// Empty where it is sound, and on PostgreSQL, which has its own tools for that (`pg_amcheck`).
pub(super) async fn faults(conn: &mut Conn, whole: bool) -> Result<Vec<String>, sqlx::Error> {
    match found(conn, whole).await {
        // too damaged to be looked over
        Err(error) if Trouble::of(&error) == Some(Trouble::Damaged) => Ok(vec![error.to_string()]),
        other => other,
    }
}

async fn found(conn: &mut Conn, whole: bool) -> Result<Vec<String>, sqlx::Error> {
    const QUICK: &str = "SELECT quick_check AS line FROM pragma_quick_check LIMIT 20";
    const WHOLE: &str = "SELECT integrity_check AS line FROM pragma_integrity_check LIMIT 20";
    const REFERENCES: &str = "SELECT \"table\" || ' refers to what is not in ' || \"parent\" AS line
        FROM pragma_foreign_key_check LIMIT 20";
    if !conn.is_sqlite() {
        return Ok(Vec::new());
    }
    let mut found: Vec<Line> = conn.all(if whole { WHOLE } else { QUICK }, vec![]).await?;
    found.retain(|found| found.line != "ok");
    if whole {
        found.extend(conn.all::<Line>(REFERENCES, vec![]).await?);
    }
    Ok(found.into_iter().map(|found| found.line).collect())
}

/// Looks the file over; a `large` one while it is served already.
pub(super) async fn look_over(db: &Db, large: bool) {
    let looking = tokio::spawn(quick(db.clone()));
    if large || tokio::time::timeout(PATIENCE, looking).await.is_err() {
        tracing::info!("the database is large: the rest of it is looked over while it is served");
    }
}

async fn quick(db: Db) {
    let found = match db.read().await {
        Ok(mut conn) => faults(&mut conn, false).await,
        Err(error) => Err(error),
    };
    match found {
        Ok(lines) if lines.is_empty() => {}
        Ok(lines) => db.health().found(&lines.join("; ")),
        Err(error) => tracing::warn!("the database could not be looked over: {error}"),
    }
}
