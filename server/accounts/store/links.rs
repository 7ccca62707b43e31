//! One-time links. Only a hash of the secret in each is kept.

use super::MemberRow;
use crate::accounts::model::{Link, OpenLink, UsedLink};
use crate::args;
use crate::db::Conn;
use crate::db::ids::{At, LinkId, MemberId};
use crate::error::AppError;
use crate::web::session;

const MAKE: &str =
    "INSERT INTO links (id, token_hash, purpose, role, member_id, made_by, made_at, expires_at)
    VALUES ($1, $2, $3, $4, $5, $6, $7, $8)";
const GOOD: &str = "SELECT l.id, l.purpose, l.role, l.member_id, m.name, m.sign_in
    FROM links l LEFT JOIN members m ON m.id = l.member_id
    WHERE l.token_hash = $1 AND l.used_at IS NULL AND l.expires_at > $2 AND m.left_at IS NULL";
const USED: &str = "SELECT m.sign_in_key, m.name FROM links l JOIN members m ON m.id = l.used_by
    WHERE l.token_hash = $1 AND l.purpose <> 'reset' AND m.left_at IS NULL";
const CLAIM: &str = "UPDATE links SET used_at = $2 WHERE id = $1 AND used_at IS NULL AND expires_at > $2";
const USED_BY: &str = "UPDATE links SET used_by = $2 WHERE id = $1";
const OPEN: &str = "SELECT l.id, l.purpose, l.role, l.expires_at, COALESCE(b.name, '') AS made_by,
    COALESCE(m.name, '') AS member
    FROM links l LEFT JOIN members b ON b.id = l.made_by LEFT JOIN members m ON m.id = l.member_id
    WHERE l.purpose <> 'set-up' AND l.used_at IS NULL AND l.expires_at > $1
    ORDER BY l.expires_at, l.id";
const WITHDRAW: &str = "UPDATE links SET expires_at = $2
    WHERE id = $1 AND purpose <> 'set-up' AND used_at IS NULL AND expires_at > $2";
const END_OF_MEMBER: &str = "UPDATE links SET expires_at = $2
    WHERE (member_id = $1 OR made_by = $1) AND used_at IS NULL AND expires_at > $2";
const END_RESETS: &str = "UPDATE links SET expires_at = $2
    WHERE member_id = $1 AND purpose = 'reset' AND used_at IS NULL AND expires_at > $2";
const END_EVERYBODYS: &str = "UPDATE links SET expires_at = $1 WHERE used_at IS NULL AND expires_at > $1";

pub const ALL: &[&str] =
    &[MAKE, GOOD, USED, CLAIM, USED_BY, OPEN, WITHDRAW, END_OF_MEMBER, END_RESETS, END_EVERYBODYS];

/// For so long a reset link is good.
pub const RESET_DAYS: i64 = 1;

/// A link to be made.
#[derive(Debug)]
pub struct NewLink<'a> {
    pub purpose: &'a str,
    pub role: &'a str,
    pub member: Option<&'a MemberId>,
    pub by: Option<&'a MemberId>,
    pub days: i64,
}

/// Makes a one-time link; gives the secret in it.
pub async fn make(conn: &mut Conn, new: &NewLink<'_>, now: At) -> Result<String, AppError> {
    let token = session::secret();
    let until = now.plus_days(new.days);
    let row =
        args![&LinkId::new(), session::hash(&token), new.purpose, new.role, new.member, new.by, now, until];
    conn.run(MAKE, row).await?;
    Ok(token)
}

/// Makes a reset link of a member, whose earlier ones end; gives the secret in it. `by` is the organiser who asks, `None`
/// the host.
pub async fn make_reset(
    conn: &mut Conn,
    member: &MemberRow,
    by: Option<&MemberId>,
    now: At,
) -> Result<String, AppError> {
    end_resets(conn, &member.id, now).await?;
    let (role, member) = (member.role.as_str(), Some(&member.id));
    make(conn, &NewLink { purpose: "reset", role, member, by, days: RESET_DAYS }, now).await
}

/// The link behind `token`, if it is still good.
pub async fn good(conn: &mut Conn, token: &str, now: At) -> Result<Option<Link>, AppError> {
    Ok(conn.maybe(GOOD, args![session::hash(token), now]).await?)
}

/// Who joined by `token`, if somebody did.
pub async fn used(conn: &mut Conn, token: &str) -> Result<Option<UsedLink>, AppError> {
    Ok(conn.maybe(USED, args![session::hash(token)]).await?)
}

/// Uses a link up, first thing in its transaction: `false` where somebody was faster. Others with the same link
/// wait until the transaction ends.
pub async fn claim(conn: &mut Conn, link: &LinkId, now: At) -> Result<bool, AppError> {
    Ok(conn.run(CLAIM, args![link, now]).await? == 1)
}

/// Notes who used a link.
pub async fn used_by(conn: &mut Conn, link: &LinkId, by: &MemberId) -> Result<(), AppError> {
    conn.run(USED_BY, args![link, by]).await?;
    Ok(())
}

/// Every invitation and reset link that could still be used, those that end soonest first.
pub async fn open(conn: &mut Conn, now: At) -> Result<Vec<OpenLink>, AppError> {
    Ok(conn.all(OPEN, args![now]).await?)
}

/// Ends an open link.
pub async fn withdraw(conn: &mut Conn, link: &LinkId, now: At) -> Result<(), AppError> {
    match conn.run(WITHDRAW, args![link, now]).await? {
        1 => Ok(()),
        _ => Err(AppError::NotFound),
    }
}

/// Ends every open link that a member made or that is for them.
pub async fn end_of_member(conn: &mut Conn, member: &MemberId, now: At) -> Result<(), AppError> {
    conn.run(END_OF_MEMBER, args![member, now]).await?;
    Ok(())
}

/// Ends every open reset link of a member.
pub async fn end_resets(conn: &mut Conn, member: &MemberId, now: At) -> Result<(), AppError> {
    conn.run(END_RESETS, args![member, now]).await?;
    Ok(())
}

/// Ends every open link; how many that were.
pub async fn end_everybodys(conn: &mut Conn, now: At) -> Result<u64, AppError> {
    Ok(conn.run(END_EVERYBODYS, args![now]).await?)
}
