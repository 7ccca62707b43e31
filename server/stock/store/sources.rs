use super::Id;
use crate::args;
use crate::db::ids::{At, MemberId, SourceId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use crate::stock::names::key;

const INSERT: &str = "INSERT INTO sources (id, name, name_key, sort, member_id, root_id, made_at, version)
    VALUES ($1, $2, $3, $4, $5, $1, $6, 1) ON CONFLICT (name_key) DO NOTHING";
const BY_KEY: &str = "SELECT id, name, member_id FROM sources WHERE name_key = $1";
const SAVED_BY: &str = "SELECT id, name, member_id FROM sources WHERE member_id = $1 AND sort = 'saved by'
    ORDER BY made_at, id";
const SAVED: &str = "SELECT r.name, s.member_id FROM sources s JOIN sources r ON r.id = s.root_id
    WHERE s.sort = 'saved by' AND s.member_id IS NOT NULL ORDER BY r.name, s.id";
const MEMBER: &str = "SELECT m.id, m.name, m.id AS member_id FROM members m WHERE m.id = $1";
macro_rules! select {
    ($rest:literal) => {
        concat!(
            "SELECT s.id, s.name, s.name_key, s.sort, s.root_id, r.name AS counts_as,
              (SELECT COUNT(*) FROM lots l WHERE l.source_id = s.id) AS lots,
              (SELECT COUNT(*) FROM packets p JOIN lots l ON l.id = p.lot_id WHERE l.source_id = s.id) AS packets
            FROM sources s JOIN sources r ON r.id = s.root_id ",
            $rest
        )
    };
}
const EVERY: &str = select!("WHERE NOT s.blind ORDER BY s.name_key");
const ONE: &str = select!("WHERE s.id = $1 AND NOT s.blind");

pub(super) const ALL: &[&str] = &[INSERT, BY_KEY, SAVED_BY, SAVED, MEMBER, EVERY, ONE];

#[derive(FromRow)]
struct Found {
    id: String,
    name: String,
    member_id: Option<String>,
}

/// A source, the name it counts under, and what the club has from it.
#[derive(Debug, Clone, FromRow)]
pub struct Source {
    pub id: SourceId,
    pub name: String,
    pub name_key: String,
    pub sort: String,
    pub root_id: SourceId,
    pub counts_as: String,
    pub lots: i64,
    pub packets: i64,
}

/// Own seed: the name its source counts under, and whose it is.
#[derive(Debug, Clone, FromRow)]
pub struct Saved {
    pub name: String,
    pub member_id: String,
}

/// The own seed of all members.
pub async fn saved(conn: &mut Conn) -> Result<Vec<Saved>, AppError> {
    Ok(conn.all(SAVED, args![]).await?)
}

/// The source of that name, made with this `sort` where it is missing.
pub async fn find_or_make_source(
    conn: &mut Conn,
    name: &str,
    sort: &str,
    now: At,
) -> Result<SourceId, AppError> {
    let key = key(name);
    if key.is_empty() {
        return Err(AppError::refused("source", t!("stock-give-source-a-name")));
    }
    let nobody: Option<&MemberId> = None;
    conn.run(INSERT, args![&SourceId::new(), name.trim(), &key, sort, nobody, now]).await?;
    let row: Id = conn.one(BY_KEY, args![&key]).await?;
    Ok(SourceId(row.id))
}

/// The source of a member's own seed, made where it is missing.
pub async fn saved_by(conn: &mut Conn, member: &MemberId, now: At) -> Result<SourceId, AppError> {
    if let Some(found) = conn.maybe::<Found>(SAVED_BY, args![member]).await? {
        return Ok(SourceId(found.id));
    }
    let who: Found = conn.one(MEMBER, args![member]).await?;
    let letters = crate::marks::letters(conn, member).await?;
    let first = letters.last().map(|l| l.shown.clone()).unwrap_or_default();
    for name in [format!("saved by {}", who.name), format!("saved by {} ({first})", who.name)] {
        let key = key(&name);
        conn.run(INSERT, args![&SourceId::new(), &name, &key, "saved by", member, now]).await?;
        let row: Found = conn.one(BY_KEY, args![&key]).await?;
        if row.member_id.as_deref() == Some(&member.0) {
            return Ok(SourceId(row.id));
        }
    }
    Err(AppError::refused("source", t!("stock-another-source-of-name")))
}

pub async fn sources(conn: &mut Conn) -> Result<Vec<Source>, AppError> {
    Ok(conn.all(EVERY, args![]).await?)
}

pub async fn source(conn: &mut Conn, id: &SourceId) -> Result<Source, AppError> {
    conn.maybe(ONE, args![id]).await?.ok_or(AppError::NotFound)
}
