//! Who is signed in where.

use crate::args;
use crate::db::ids::{At, MemberId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use crate::web::session;

const CLOSE: &str = "DELETE FROM sessions WHERE token_hash = $1";
const CLOSE_ALL: &str = "DELETE FROM sessions WHERE member_id = $1";
const CLOSE_OTHERS: &str = "DELETE FROM sessions WHERE member_id = $1 AND token_hash <> $2";
const OF: &str = "SELECT token_hash, made_at, expires_at FROM sessions
    WHERE member_id = $1 AND expires_at > $2 ORDER BY made_at DESC, token_hash";

pub const ALL: &[&str] = &[CLOSE, CLOSE_ALL, CLOSE_OTHERS, OF];

/// One place where a member is signed in.
#[derive(Debug, Clone, FromRow)]
pub struct SessionRow {
    pub token_hash: String,
    pub made_at: At,
    pub expires_at: At,
}

/// Ends the session of `token`.
pub async fn close(conn: &mut Conn, token: &str) -> Result<(), AppError> {
    conn.run(CLOSE, args![session::hash(token)]).await?;
    Ok(())
}

/// Ends every session of a member.
pub async fn close_all(conn: &mut Conn, member: &MemberId) -> Result<(), AppError> {
    conn.run(CLOSE_ALL, args![member]).await?;
    Ok(())
}

/// Ends every session of a member but that of `token`; how many that were.
pub async fn close_others(conn: &mut Conn, member: &MemberId, token: &str) -> Result<u64, AppError> {
    Ok(conn.run(CLOSE_OTHERS, args![member, session::hash(token)]).await?)
}

/// The good sessions of a member, newest first.
pub async fn of(conn: &mut Conn, member: &MemberId, now: At) -> Result<Vec<SessionRow>, AppError> {
    Ok(conn.all(OF, args![member, now]).await?)
}
