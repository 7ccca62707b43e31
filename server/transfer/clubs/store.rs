//! This installation, and the tables of other clubs.

use super::file::Shared;
use crate::args;
use crate::db::ids::{At, MemberId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use chrono::NaiveDate;

const MAKE: &str = "INSERT INTO installation (id, code) VALUES (1, $1) ON CONFLICT (id) DO NOTHING";
const CODE: &str = "SELECT code FROM installation WHERE id = 1";
macro_rules! others {
    ($condition:literal) => {
        concat!(
            "SELECT o.code, o.name, o.seeds, o.bags, o.growers, o.made_on, o.licence, o.used, o.at, m.name AS by_name
            FROM other_clubs o JOIN members m ON m.id = o.by_member WHERE o.removed_at IS NULL ",
            $condition,
            " ORDER BY o.name, o.code"
        )
    };
}
const OTHERS: &str = others!("");
const OTHER: &str = others!("AND o.code = $1");
const PUT: &str = "INSERT INTO other_clubs
      (code, name, counts, names, seeds, bags, growers, made_on, licence, used, by_member, at, version)
    VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, TRUE, $10, $11, 1)
    ON CONFLICT (code) DO UPDATE SET name = excluded.name, counts = excluded.counts, names = excluded.names,
      seeds = excluded.seeds, bags = excluded.bags, growers = excluded.growers, made_on = excluded.made_on,
      licence = excluded.licence, used = TRUE, by_member = excluded.by_member, at = excluded.at, removed_at = NULL,
      version = other_clubs.version + 1";
const SET_USED: &str =
    "UPDATE other_clubs SET used = $2, version = version + 1 WHERE code = $1 AND removed_at IS NULL";
const REMOVE: &str = "UPDATE other_clubs SET removed_at = $2, counts = '', names = '', version = version + 1
    WHERE code = $1 AND removed_at IS NULL";

pub const ALL: &[&str] = &[MAKE, CODE, OTHERS, OTHER, PUT, SET_USED, REMOVE];

#[derive(FromRow)]
struct Code {
    code: String,
}

/// The table of another club.
#[derive(Debug, Clone, FromRow)]
pub struct Other {
    pub code: String,
    pub name: String,
    pub seeds: i64,
    pub bags: i64,
    pub growers: i64,
    pub made_on: NaiveDate,
    pub licence: String,
    pub used: bool,
    pub at: At,
    pub by_name: String,
}

/// The code of this installation, made when it is first asked for.
pub async fn installation(conn: &mut Conn) -> Result<String, AppError> {
    let new = uuid::Uuid::new_v4().simple().to_string();
    conn.run(MAKE, args![&new]).await?;
    Ok(conn.one::<Code>(CODE, args![]).await?.code)
}

/// The code of this installation, where it has one.
pub async fn known_installation(conn: &mut Conn) -> Result<Option<String>, AppError> {
    Ok(conn.maybe::<Code>(CODE, args![]).await?.map(|row| row.code))
}

/// The clubs whose tables are here, by name.
pub async fn others(conn: &mut Conn) -> Result<Vec<Other>, AppError> {
    Ok(conn.all(OTHERS, args![]).await?)
}

pub async fn other(conn: &mut Conn, code: &str) -> Result<Option<Other>, AppError> {
    Ok(conn.maybe(OTHER, args![code]).await?)
}

/// Puts a club's table in, in place of an earlier one. `names` are ours for theirs, as JSON.
pub async fn put(
    conn: &mut Conn,
    shared: &Shared,
    names: &str,
    by: &MemberId,
    now: At,
) -> Result<(), AppError> {
    let n = &shared.numbers;
    let row = args![
        &shared.code,
        &shared.name,
        &shared.counts,
        names,
        n.seeds,
        n.bags,
        n.growers,
        shared.made_on,
        &shared.licence,
        by,
        now,
    ];
    conn.run(PUT, row).await?;
    Ok(())
}

/// Whether a club's table counts beside ours.
pub async fn set_used(conn: &mut Conn, code: &str, used: bool) -> Result<(), AppError> {
    found(conn.run(SET_USED, args![code, used]).await?)
}

/// Takes a club's table out for good.
pub async fn remove(conn: &mut Conn, code: &str, now: At) -> Result<(), AppError> {
    found(conn.run(REMOVE, args![code, now]).await?)
}

fn found(rows: u64) -> Result<(), AppError> {
    if rows == 1 { Ok(()) } else { Err(AppError::NotFound) }
}
