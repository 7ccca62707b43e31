use crate::args;
use crate::db::ids::{At, HolderId, MemberId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use crate::marks;

macro_rules! holders {
    ($condition:literal) => {
        concat!(
            "SELECT h.id, h.mark, h.place, h.warmth_c,
              (SELECT COUNT(*) FROM bags b WHERE b.holder_id = h.id AND b.closed_at IS NULL AND NOT b.voided) AS bags
            FROM holders h WHERE h.owner_id = $1 AND h.gone_at IS NULL",
            $condition,
            " ORDER BY length(h.mark_key), h.mark_key"
        )
    };
}

const HOLDERS: &str = holders!("");
const ONE: &str = holders!(" AND h.id = $2");
const INSERT: &str = "INSERT INTO holders (id, owner_id, mark_key, mark, place, warmth_c, made_at)
    VALUES ($1, $2, $3, $4, $5, $6, $7)";
const LOCK: &str = "UPDATE holders SET place = place WHERE id = $1 AND owner_id = $2";
const MOVE: &str = "UPDATE holders SET place = $3, warmth_c = $4 WHERE id = $1 AND owner_id = $2";

pub const ALL: &[&str] = &[HOLDERS, ONE, INSERT, LOCK, MOVE];

/// A holder and how many open bags are in it.
#[derive(Debug, Clone, FromRow)]
pub struct Holder {
    pub id: HolderId,
    pub mark: String,
    pub place: String,
    /// Degrees C.
    pub warmth_c: Option<f64>,
    pub bags: i64,
}

/// Every holder of `member` that is in use.
pub async fn all(conn: &mut Conn, member: &MemberId) -> Result<Vec<Holder>, AppError> {
    Ok(conn.all(HOLDERS, args![member]).await?)
}

/// One holder of `member`.
pub async fn holder(conn: &mut Conn, member: &MemberId, id: &HolderId) -> Result<Holder, AppError> {
    let found: Option<Holder> = conn.maybe(ONE, args![member, id]).await?;
    found.ok_or(AppError::NotFound)
}

/// [`holder`], held for the rest of the transaction.
pub async fn lock(conn: &mut Conn, member: &MemberId, id: &HolderId) -> Result<Holder, AppError> {
    conn.run(LOCK, args![id, member]).await?;
    holder(conn, member, id).await
}

/// A new holder with the next free mark under the member's newest letters.
pub async fn add(
    conn: &mut Conn,
    member: &MemberId,
    place: &str,
    warmth: Option<f64>,
    now: At,
) -> Result<Holder, AppError> {
    let id = HolderId::new();
    let letters = marks::letters(conn, member).await?;
    let letters = letters.first().ok_or_else(|| AppError::refused("place", t!("holders-no-letters")))?;
    let mark = marks::next_thing(conn, &letters.shown, "holder", &id.0, now).await?;
    conn.run(INSERT, args![&id, member, &mark.key, &mark.shown, place, warmth, now]).await?;
    Ok(Holder { id, mark: mark.shown, place: place.to_owned(), warmth_c: warmth, bags: 0 })
}

/// Where the holder is from now on.
pub async fn put(
    conn: &mut Conn,
    member: &MemberId,
    id: &HolderId,
    place: &str,
    warmth: Option<f64>,
) -> Result<(), AppError> {
    conn.run(MOVE, args![id, member, place, warmth]).await?;
    Ok(())
}
