use super::take::Taken;
use crate::args;
use crate::db::ids::{At, BackupId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;

const RECORD: &str = "INSERT INTO backups (id, made_at, file, bytes, problem, tried_at, tried_problem) VALUES ($1, $2, $3, $4, $5, NULL, '')";
const TRIED: &str = "UPDATE backups SET tried_at = $1, tried_problem = $2 WHERE id = $3";
const LATEST: &str = "SELECT id, made_at, file, bytes, problem, tried_at, tried_problem FROM backups
    ORDER BY made_at DESC, id DESC LIMIT 20";
const GOOD: &str = "SELECT id, made_at, file, bytes, problem, tried_at, tried_problem FROM backups
    WHERE file <> '' AND problem = '' ORDER BY made_at DESC, id DESC LIMIT 1";
const TRIED_LAST: &str = "SELECT id, made_at, file, bytes, problem, tried_at, tried_problem FROM backups
    WHERE tried_at IS NOT NULL AND tried_problem = '' ORDER BY tried_at DESC, id DESC LIMIT 1";

pub const ALL: &[&str] = &[RECORD, TRIED, LATEST, GOOD, TRIED_LAST];

const LONGEST: usize = 2000;

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

/// What is written down of a backup.
#[derive(Debug, Default)]
pub struct Outcome {
    pub file: String,
    pub bytes: i64,
    pub problem: String,
}

pub fn taken(taken: &Taken) -> Outcome {
    let file = taken.path.file_name().map(|n| n.to_string_lossy().into_owned()).unwrap_or_default();
    let bytes = i64::try_from(taken.bytes).unwrap_or(i64::MAX);
    Outcome { file, bytes, problem: said(&taken.breaches) }
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

pub async fn last_good(conn: &mut Conn) -> Result<Option<Row>, AppError> {
    Ok(conn.maybe(GOOD, args![]).await?)
}

/// The last that was restored to a scratch place and found good.
pub async fn last_tried(conn: &mut Conn) -> Result<Option<Row>, AppError> {
    Ok(conn.maybe(TRIED_LAST, args![]).await?)
}
