//! Files between the first look and the last, and which of their rows were brought in.

use crate::args;
use crate::db::ids::{At, BagId, EntryId, MemberId, PacketId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use crate::notebook::bag::Look;
use std::collections::BTreeSet;

const KEEP: &str =
    "INSERT INTO uploads (id, member_id, sort, name, bytes, made_at) VALUES ($1, $2, $3, $4, $5, $6)";
const FILE: &str = "SELECT name, bytes FROM uploads WHERE id = $1 AND member_id = $2 AND sort = $3";
const TIDY: &str = "DELETE FROM uploads WHERE made_at < $1 OR (member_id = $2 AND id NOT IN
      (SELECT id FROM uploads WHERE member_id = $2 ORDER BY made_at DESC, id DESC LIMIT 4))";
const DONE: &str = "DELETE FROM uploads WHERE id = $1 AND member_id = $2";
const STANDING: &str = "SELECT b.line FROM brought_in b WHERE b.member_id = $1 AND b.digest = $2
      AND NOT EXISTS (SELECT 1 FROM voids v WHERE v.entry_id = b.entry_id) ORDER BY b.line";
const NOTE: &str = "INSERT INTO brought_in (member_id, digest, line, entry_id) VALUES ($1, $2, $3, $4)
    ON CONFLICT (member_id, digest, line) DO UPDATE SET entry_id = excluded.entry_id";
const RECEIPT: &str = "SELECT id FROM entries WHERE packet_id = $1 ORDER BY id LIMIT 1";

const LOOKS: &str =
    "SELECT e.at, l.rooted, l.abnormal, l.dead FROM entries e JOIN looks l ON l.entry_id = e.id
    WHERE e.bag_id = $1 AND NOT EXISTS (SELECT 1 FROM voids v WHERE v.entry_id = e.id) ORDER BY e.at, e.id";

const WHOSE: &str = "SELECT member_id AS id FROM letters WHERE key = $1";

pub const ALL: &[&str] = &[KEEP, FILE, TIDY, DONE, STANDING, NOTE, RECEIPT, LOOKS, WHOSE];

/// A file is kept for so many days until it is brought in.
const DAYS: i64 = 1;

/// A file as it came.
#[derive(Debug, Clone, FromRow)]
pub struct File {
    pub name: String,
    pub bytes: Vec<u8>,
}

#[derive(FromRow)]
struct Line {
    line: i64,
}

#[derive(FromRow)]
struct Id {
    id: EntryId,
}

/// Keeps a file for the next steps; those of yesterday, and all but the member's last few, go.
pub async fn keep(
    conn: &mut Conn,
    member: &MemberId,
    sort: &str,
    file: &File,
    now: At,
) -> Result<String, AppError> {
    let id = uuid::Uuid::now_v7().simple().to_string();
    let name: String = file.name.chars().take(120).collect();
    conn.run(KEEP, args![&id, member, sort, name, file.bytes.clone(), now]).await?;
    conn.run(TIDY, args![now.plus_days(-DAYS), member]).await?;
    Ok(id)
}

/// A kept file of the member.
pub async fn file(
    conn: &mut Conn,
    member: &MemberId,
    sort: &str,
    id: &str,
) -> Result<Option<File>, AppError> {
    Ok(conn.maybe(FILE, args![id, member, sort]).await?)
}

/// The file was brought in.
pub async fn done(conn: &mut Conn, member: &MemberId, id: &str) -> Result<(), AppError> {
    conn.run(DONE, args![id, member]).await?;
    Ok(())
}

/// The rows of a list that the member brought in and did not take back.
pub async fn standing(conn: &mut Conn, member: &MemberId, digest: &str) -> Result<BTreeSet<u64>, AppError> {
    let rows: Vec<Line> = conn.all(STANDING, args![member, digest]).await?;
    Ok(rows.into_iter().filter_map(|r| u64::try_from(r.line).ok()).collect())
}

/// Notes that a row was brought in with this entry.
pub async fn note(
    conn: &mut Conn,
    member: &MemberId,
    (digest, line): (&str, u64),
    entry: Option<&EntryId>,
) -> Result<(), AppError> {
    conn.run(NOTE, args![member, digest, i64::try_from(line).unwrap_or(i64::MAX), entry]).await?;
    Ok(())
}

/// The entry with which a packet came; `None` where it came without seeds.
pub async fn receipt(conn: &mut Conn, packet: &PacketId) -> Result<Option<EntryId>, AppError> {
    Ok(conn.maybe::<Id>(RECEIPT, args![packet]).await?.map(|row| row.id))
}

#[derive(FromRow)]
struct Whose {
    id: MemberId,
}

/// The member who has these letters.
pub async fn whose(conn: &mut Conn, letters: &str) -> Result<Option<MemberId>, AppError> {
    let row = conn.maybe::<Whose>(WHOSE, args![crate::marks::fold(letters)]).await?;
    Ok(row.map(|row| row.id))
}

/// A look into a bag.
#[derive(Debug, Clone, Copy, FromRow)]
pub struct KnownLook {
    pub at: At,
    rooted: i64,
    abnormal: i64,
    dead: i64,
}

impl KnownLook {
    pub fn of(at: At, look: Look) -> Self {
        Self { at, rooted: look.rooted, abnormal: look.abnormal, dead: look.dead }
    }

    pub fn look(self) -> Look {
        Look { rooted: self.rooted, abnormal: self.abnormal, dead: self.dead }
    }
}

/// The looks into a bag, by time.
pub async fn looks(conn: &mut Conn, bag: &BagId) -> Result<Vec<KnownLook>, AppError> {
    Ok(conn.all(LOOKS, args![bag]).await?)
}
