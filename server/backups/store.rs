use super::take::{self, Taken};
use crate::args;
use crate::config::Config;
use crate::db::ids::{At, BackupId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use std::path::Path;

const RECORD: &str = "INSERT INTO backups (id, made_at, file, bytes, problem, tried_at, tried_problem) VALUES ($1, $2, $3, $4, $5, NULL, '')";
const TRIED: &str = "UPDATE backups SET tried_at = $1, tried_problem = $2 WHERE id = $3";
const LATEST: &str = "SELECT id, made_at, file, bytes, problem, tried_at, tried_problem FROM backups
    ORDER BY made_at DESC, id DESC LIMIT 20";
const GOOD: &str = "SELECT id, made_at, file, bytes, problem, tried_at, tried_problem FROM backups
    WHERE file <> '' AND problem = '' ORDER BY made_at DESC, id DESC LIMIT 400";
const TRIED_LAST: &str = "SELECT id, made_at, file, bytes, problem, tried_at, tried_problem FROM backups
    WHERE tried_at IS NOT NULL AND tried_problem = '' ORDER BY tried_at DESC, id DESC LIMIT 1";
const LAST_SAVED: &str = "SELECT MAX(at) AS at FROM (SELECT MAX(recorded_at) AS at FROM entries
    UNION ALL SELECT MAX(at) AS at FROM audit UNION ALL SELECT MAX(seen_at) AS at FROM sessions) AS moments";

pub const ALL: &[&str] = &[RECORD, TRIED, LATEST, GOOD, TRIED_LAST, LAST_SAVED];

const LONGEST: usize = 2000;
const LONGEST_PATH: usize = 200;

/// A backup, or one that did not come about.
#[derive(Debug, Clone, FromRow)]
pub struct Row {
    pub id: BackupId,
    pub made_at: At,
    pub file: String,
    pub bytes: i64,
    pub problem: String,
    pub tried_at: Option<At>,
    pub tried_problem: String,
}

impl Row {
    /// Whether it was put into another folder than that of its club; then `file` is a path.
    pub fn elsewhere(&self) -> bool {
        self.file.contains('/')
    }
}

/// What is written down of a backup.
#[derive(Debug, Default)]
pub struct Outcome {
    pub file: String,
    pub bytes: i64,
    pub problem: String,
}

/// A backup that lies in the folder of its club, by its name; one that was put elsewhere, by its path.
pub fn taken(taken: &Taken, config: &Config) -> Outcome {
    let whole = |path: &Path| std::fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
    let here = taken.path.parent().map(whole) == Some(whole(&take::folder(config)));
    let name = taken.path.file_name().map(|n| n.to_string_lossy().into_owned()).unwrap_or_default();
    let path = whole(&taken.path).to_string_lossy().into_owned();
    let bytes = i64::try_from(taken.bytes).unwrap_or(i64::MAX);
    Outcome { file: if here { name } else { shortened(&path) }, bytes, problem: said(&taken.breaches) }
}

/// The end of a path that is too long for its column.
fn shortened(path: &str) -> String {
    let over = path.chars().count().saturating_sub(LONGEST_PATH);
    if over == 0 {
        path.to_owned()
    } else {
        format!("…/{}", path.chars().skip(over + 2).collect::<String>())
    }
}

/// Breaches in a few words.
pub fn said(breaches: &[String]) -> String {
    let first: Vec<&str> = breaches.iter().take(3).map(String::as_str).collect();
    match breaches.len() {
        0 => String::new(),
        n @ 1..=3 => format!("The check finds {n}: {}", first.join("; ")),
        n => format!("The check finds {n}, the first of them: {}", first.join("; ")),
    }
}

pub async fn record(conn: &mut Conn, outcome: &Outcome, now: At) -> Result<BackupId, AppError> {
    let id = BackupId::new();
    let problem: String = outcome.problem.chars().take(LONGEST).collect();
    conn.run(RECORD, args![&id, now, &outcome.file, outcome.bytes, problem]).await?;
    Ok(id)
}

pub async fn tried(conn: &mut Conn, id: &BackupId, problem: &str, now: At) -> Result<(), AppError> {
    let problem: String = problem.chars().take(LONGEST).collect();
    conn.run(TRIED, args![now, problem, id]).await?;
    Ok(())
}

/// The last twenty, newest first.
pub async fn latest(conn: &mut Conn) -> Result<Vec<Row>, AppError> {
    Ok(conn.all(LATEST, args![]).await?)
}

/// Those that came about and are good, newest first.
pub async fn good(conn: &mut Conn) -> Result<Vec<Row>, AppError> {
    Ok(conn.all(GOOD, args![]).await?)
}

#[derive(FromRow)]
struct Moment {
    at: Option<At>,
}

/// When the club last saved anything.
pub async fn last_saved(conn: &mut Conn) -> Result<Option<At>, AppError> {
    Ok(conn.one::<Moment>(LAST_SAVED, args![]).await?.at)
}

/// The last that was restored to a scratch place and found good.
pub async fn last_tried(conn: &mut Conn) -> Result<Option<Row>, AppError> {
    Ok(conn.maybe(TRIED_LAST, args![]).await?)
}
