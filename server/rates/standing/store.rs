use crate::args;
use crate::db::ids::At;
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use crate::rates::store::Version;
use chrono::NaiveDate;

const STAMP: &str = "SELECT of_version, as_of, made_at FROM standings WHERE by_when = $1";
/// The stamp, also where there is none, and how many counts were told since entry `$2`.
const STAMP_AND_SINCE: &str = "SELECT s.of_version, s.as_of, s.made_at,
      (SELECT COUNT(*) FROM entries WHERE id > $2 AND what IN ('look', 'closing')) AS since
    FROM (SELECT 1 AS one) o LEFT JOIN standings s ON s.by_when = $1";
const WHOLE: &str = "SELECT of_version, as_of, made_at, document FROM standings WHERE by_when = $1";
const KEEP: &str =
    "INSERT INTO standings (by_when, of_version, as_of, made_at, document) VALUES ($1, $2, $3, $4, $5)
    ON CONFLICT (by_when) DO UPDATE SET of_version = excluded.of_version, as_of = excluded.as_of,
      made_at = excluded.made_at, document = excluded.document";

pub const ALL: &[&str] = &[STAMP, STAMP_AND_SINCE, WHOLE, KEEP];

/// What a standing was made from, and when.
#[derive(Debug, Clone, PartialEq, Eq, FromRow)]
pub struct Stamp {
    pub of_version: String,
    pub as_of: NaiveDate,
    pub made_at: At,
}

#[derive(FromRow)]
struct StampAndSince {
    of_version: Option<String>,
    as_of: Option<NaiveDate>,
    made_at: Option<At>,
    since: i64,
}

#[derive(FromRow)]
pub struct Whole {
    pub of_version: String,
    pub as_of: NaiveDate,
    pub made_at: At,
    pub document: String,
}

pub async fn stamp(conn: &mut Conn, by_when: &str) -> Result<Option<Stamp>, AppError> {
    Ok(conn.maybe(STAMP, args![by_when]).await?)
}

/// The stamp, and how many counts were told since `version`.
pub async fn stamp_and_since(
    conn: &mut Conn,
    by_when: &str,
    version: &Version,
) -> Result<(Option<Stamp>, i64), AppError> {
    let row: StampAndSince = conn.one(STAMP_AND_SINCE, args![by_when, version.newest()]).await?;
    let stamp = |((of_version, as_of), made_at)| Stamp { of_version, as_of, made_at };
    Ok((row.of_version.zip(row.as_of).zip(row.made_at).map(stamp), row.since))
}

pub async fn whole(conn: &mut Conn, by_when: &str) -> Result<Option<Whole>, AppError> {
    Ok(conn.maybe(WHOLE, args![by_when]).await?)
}

pub async fn keep(conn: &mut Conn, by_when: &str, stamp: &Stamp, document: &str) -> Result<(), AppError> {
    conn.run(KEEP, args![by_when, &stamp.of_version, stamp.as_of, stamp.made_at, document]).await?;
    Ok(())
}
