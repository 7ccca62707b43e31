//! Tokens by which members' own programs read and record. Only a hash of each is kept; the row stays when it ends.

use crate::accounts::model::NewToken;
use crate::args;
use crate::db::ids::{At, MemberId, TokenId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use crate::web::session::{self, Member};

const LOCK_OWNER: &str = "UPDATE members SET version = version WHERE id = $1";
const COUNT: &str = "SELECT COUNT(*) AS n FROM tokens
    WHERE member_id = $1 AND ended_at IS NULL AND (expires_at IS NULL OR expires_at > $2)";
const MAKE: &str = "INSERT INTO tokens (id, member_id, secret_hash, name, may, made_at, expires_at)
    VALUES ($1, $2, $3, $4, $5, $6, $7)";
const OF: &str = "SELECT id, name, may, made_at, expires_at, used_at FROM tokens
    WHERE member_id = $1 AND ended_at IS NULL AND (expires_at IS NULL OR expires_at > $2)
    ORDER BY made_at DESC, id DESC";
const END: &str = "UPDATE tokens SET ended_at = $3 WHERE id = $1 AND member_id = $2 AND ended_at IS NULL";
const END_OF_MEMBER: &str = "UPDATE tokens SET ended_at = $2 WHERE member_id = $1 AND ended_at IS NULL";
const HOLDER: &str =
    "SELECT m.id, m.name, m.role, m.measures, m.language, c.name AS club, c.time_zone, t.id AS token, t.may, t.used_at
    FROM tokens t JOIN members m ON m.id = t.member_id CROSS JOIN club c
    WHERE t.secret_hash = $1 AND t.ended_at IS NULL AND (t.expires_at IS NULL OR t.expires_at > $2)
      AND m.left_at IS NULL";
const USED: &str = "UPDATE tokens SET used_at = $2 WHERE id = $1 AND (used_at IS NULL OR used_at < $2)";

pub const ALL: &[&str] = &[LOCK_OWNER, COUNT, MAKE, OF, END, END_OF_MEMBER, HOLDER, USED];

/// The most tokens that a member has at a time.
const MOST: i64 = 20;
/// What every token begins with, so that people and programs know one when they see it.
const PREFIX: &str = "hilum_";

#[derive(FromRow)]
struct Counted {
    n: i64,
}

/// A token as its member sees it.
#[derive(Debug, Clone, FromRow)]
pub struct TokenRow {
    pub id: TokenId,
    pub name: String,
    /// `read` or `record`.
    pub may: String,
    pub made_at: At,
    pub expires_at: Option<At>,
    pub used_at: Option<At>,
}

/// Who holds a token, and what it may do.
#[derive(Debug, Clone, FromRow)]
pub struct Holder {
    #[sqlx(flatten)]
    pub member: Member,
    pub token: TokenId,
    may: String,
    used_at: Option<At>,
}

impl Holder {
    /// Whether the token may record, and not only read.
    pub fn may_record(&self) -> bool {
        self.may == "record"
    }

    /// Whether its last use that was noted was on an earlier day of the club.
    pub fn is_new_today(&self, now: At) -> bool {
        let zone = self.member.zone();
        self.used_at.is_none_or(|at| at.day(zone) < now.day(zone))
    }
}

/// Makes a token; gives its secret, which nobody can read again. Refused in field `name` where there are too many.
pub async fn make(
    conn: &mut Conn,
    member: &MemberId,
    new: &NewToken,
    now: At,
) -> Result<(TokenId, String), AppError> {
    conn.run(LOCK_OWNER, args![member]).await?;
    let had: Counted = conn.one(COUNT, args![member, now]).await?;
    if had.n >= MOST {
        return Err(AppError::refused("name", t!("accounts-most-tokens", n = MOST)));
    }
    let (id, secret) = (TokenId::new(), format!("{PREFIX}{}", session::secret()));
    let until = new.days.map(|days| now.plus_days(days));
    let row = args![&id, member, session::hash(&secret), &new.name, new.may, now, until];
    conn.run(MAKE, row).await?;
    Ok((id, secret))
}

/// The good tokens of a member, newest first.
pub async fn of(conn: &mut Conn, member: &MemberId, now: At) -> Result<Vec<TokenRow>, AppError> {
    Ok(conn.all(OF, args![member, now]).await?)
}

/// Ends a token of the member.
pub async fn end(conn: &mut Conn, member: &MemberId, id: &TokenId, now: At) -> Result<(), AppError> {
    match conn.run(END, args![id, member, now]).await? {
        1 => Ok(()),
        _ => Err(AppError::NotFound),
    }
}

/// Ends every token of a member.
pub async fn end_of_member(conn: &mut Conn, member: &MemberId, now: At) -> Result<(), AppError> {
    conn.run(END_OF_MEMBER, args![member, now]).await?;
    Ok(())
}

/// Who holds the token `secret`, if it is good.
pub async fn holder(conn: &mut Conn, secret: &str, now: At) -> Result<Option<Holder>, AppError> {
    Ok(conn.maybe(HOLDER, args![session::hash(secret), now]).await?)
}

/// Notes that a token was used.
pub async fn used(conn: &mut Conn, id: &TokenId, now: At) -> Result<(), AppError> {
    conn.run(USED, args![id, now]).await?;
    Ok(())
}
