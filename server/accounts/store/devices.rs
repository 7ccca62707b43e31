//! Browsers in which a member signed in before.

use crate::args;
use crate::db::ids::{At, MemberId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use crate::web::session;

const MAKE: &str = "INSERT INTO devices (secret_hash, member_id, made_at, used_at) VALUES ($1, $2, $3, $3)";
const USED: &str = "UPDATE devices SET used_at = $3 WHERE secret_hash = $1 AND member_id = $2";
const OF_ACCOUNT: &str = "SELECT d.secret_hash FROM devices d JOIN members m ON m.id = d.member_id
    WHERE d.secret_hash = $1 AND m.sign_in_key = $2 AND m.left_at IS NULL AND d.used_at > $3";
const FORGET: &str = "DELETE FROM devices WHERE member_id = $1";
const FORGET_EVERYBODYS: &str = "DELETE FROM devices";
const FORGET_OLD: &str = "DELETE FROM devices WHERE member_id = $1 AND secret_hash NOT IN
    (SELECT secret_hash FROM devices WHERE member_id = $1 ORDER BY used_at DESC, secret_hash LIMIT $2)";

pub const ALL: &[&str] = &[MAKE, USED, OF_ACCOUNT, FORGET, FORGET_EVERYBODYS, FORGET_OLD];

/// Days without a sign-in after which a browser is a stranger again.
pub const DAYS: i64 = 365;
/// The most browsers of a member that are known.
const MOST: i64 = 20;

#[derive(FromRow)]
struct Known {
    secret_hash: String,
}

/// A name for the browser with this secret, where the member of `account` signed in in it before.
pub async fn known(
    conn: &mut Conn,
    secret: &str,
    account: &str,
    now: At,
) -> Result<Option<String>, AppError> {
    let row: Option<Known> =
        conn.maybe(OF_ACCOUNT, args![session::hash(secret), account, now.plus_days(-DAYS)]).await?;
    Ok(row.map(|r| r.secret_hash))
}

/// Notes that a member signed in in the browser with this secret; gives a new secret where it was not known.
pub async fn signed_in(
    conn: &mut Conn,
    member: &MemberId,
    secret: Option<&str>,
    now: At,
) -> Result<Option<String>, AppError> {
    if let Some(secret) = secret
        && conn.run(USED, args![session::hash(secret), member, now]).await? == 1
    {
        return Ok(None);
    }
    let new = session::secret();
    conn.run(MAKE, args![session::hash(&new), member, now]).await?;
    conn.run(FORGET_OLD, args![member, MOST]).await?;
    Ok(Some(new))
}

/// Forgets every browser of a member.
pub async fn forget(conn: &mut Conn, member: &MemberId) -> Result<(), AppError> {
    conn.run(FORGET, args![member]).await?;
    Ok(())
}

/// Forgets every browser of everybody; how many that were.
pub async fn forget_everybodys(conn: &mut Conn) -> Result<u64, AppError> {
    Ok(conn.run(FORGET_EVERYBODYS, args![]).await?)
}
