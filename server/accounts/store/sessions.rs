//! Who is signed in where.

use crate::args;
use crate::db::ids::{At, MemberId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use crate::web::session;

const CLOSE: &str = "DELETE FROM sessions WHERE token_hash = $1";
const CLOSE_ALL: &str = "DELETE FROM sessions WHERE member_id = $1";
const CLOSE_EVERYBODYS: &str = "DELETE FROM sessions";
const CLOSE_OTHERS: &str = "DELETE FROM sessions WHERE member_id = $1 AND token_hash <> $2";
const CLOSE_ONE: &str = "DELETE FROM sessions WHERE member_id = $1 AND substr(token_hash, 1, 16) = $2";
const OF: &str = "SELECT token_hash, device, made_at, seen_at, expires_at FROM sessions
    WHERE member_id = $1 AND expires_at > $2 AND seen_at > $3 ORDER BY seen_at DESC, token_hash";
const RENEW: &str = "UPDATE sessions SET token_hash = $2, proved_at = $3, seen_at = $3 WHERE token_hash = $1";

const BY_PASSKEY: &str = "UPDATE sessions SET by_passkey = TRUE WHERE token_hash = $1";

pub const ALL: &[&str] =
    &[CLOSE, CLOSE_ALL, CLOSE_EVERYBODYS, CLOSE_OTHERS, CLOSE_ONE, OF, RENEW, BY_PASSKEY];

/// One place where a member is signed in.
#[derive(Debug, Clone, FromRow)]
pub struct SessionRow {
    pub token_hash: String,
    /// Its browser in words; may be empty.
    pub device: String,
    pub made_at: At,
    pub seen_at: At,
    pub expires_at: At,
}

impl SessionRow {
    /// What the session is called in addresses.
    pub fn id(&self) -> &str {
        &self.token_hash[..16]
    }

    /// When it ends where it is used no more.
    pub fn ends(&self) -> At {
        self.expires_at.min(self.seen_at.plus_days(session::IDLE_DAYS))
    }
}

/// Ends the session of `token`.
pub async fn close(conn: &mut Conn, token: &str) -> Result<(), AppError> {
    conn.run(CLOSE, args![session::hash(token)]).await?;
    Ok(())
}

/// Ends every session of a member; how many that were.
pub async fn close_all(conn: &mut Conn, member: &MemberId) -> Result<u64, AppError> {
    Ok(conn.run(CLOSE_ALL, args![member]).await?)
}

/// Ends every session of everybody; how many that were.
pub async fn close_everybodys(conn: &mut Conn) -> Result<u64, AppError> {
    Ok(conn.run(CLOSE_EVERYBODYS, vec![]).await?)
}

/// Ends every session of a member but that of `token`; how many that were.
pub async fn close_others(conn: &mut Conn, member: &MemberId, token: &str) -> Result<u64, AppError> {
    Ok(conn.run(CLOSE_OTHERS, args![member, session::hash(token)]).await?)
}

/// Ends the member's session of this name.
pub async fn close_one(conn: &mut Conn, member: &MemberId, id: &str) -> Result<(), AppError> {
    match conn.run(CLOSE_ONE, args![member, id]).await? {
        0 => Err(AppError::NotFound),
        _ => Ok(()),
    }
}

/// The good sessions of a member, the last used first.
pub async fn of(conn: &mut Conn, member: &MemberId, now: At) -> Result<Vec<SessionRow>, AppError> {
    Ok(conn.all(OF, args![member, now, now.plus_days(-session::IDLE_DAYS)]).await?)
}

/// Gives the session of `token`, whose member has just proved who they are, a new secret; the old one is dead.
/// `None` where the session is no more.
pub async fn renew(conn: &mut Conn, token: &str, now: At) -> Result<Option<String>, AppError> {
    let new = session::secret();
    let rows = conn.run(RENEW, args![session::hash(token), session::hash(&new), now]).await?;
    Ok((rows == 1).then_some(new))
}

/// The session of `token` counts as opened by a passkey from now on: its member has just made one here.
pub async fn by_passkey(conn: &mut Conn, token: &str) -> Result<(), AppError> {
    conn.run(BY_PASSKEY, args![session::hash(token)]).await?;
    Ok(())
}
