//! The secret address of a member's calendar. Only a hash of it is kept.

use crate::args;
use crate::db::ids::{At, MemberId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use crate::texts;
use crate::web::session;

const MAKE: &str = "INSERT INTO feeds (member_id, secret_hash, made_at) VALUES ($1, $2, $3)
    ON CONFLICT (member_id) DO UPDATE SET secret_hash = excluded.secret_hash, made_at = excluded.made_at";
const END: &str = "DELETE FROM feeds WHERE member_id = $1";
const MADE: &str = "SELECT made_at FROM feeds WHERE member_id = $1";
const READER: &str = "SELECT f.member_id, m.language, c.name AS club, c.time_zone
    FROM feeds f JOIN members m ON m.id = f.member_id CROSS JOIN club c
    WHERE f.secret_hash = $1 AND m.left_at IS NULL";

pub const ALL: &[&str] = &[MAKE, END, MADE, READER];

#[derive(FromRow)]
struct Made {
    made_at: At,
}

/// Whose calendar an address opens.
#[derive(Debug, Clone, FromRow)]
pub struct Reader {
    pub member_id: MemberId,
    language: String,
    pub club: String,
    time_zone: String,
}

impl Reader {
    /// The club's time zone.
    pub fn zone(&self) -> chrono_tz::Tz {
        self.time_zone.parse().unwrap_or(chrono_tz::UTC)
    }
}

/// Makes a new secret for a member and ends the one before; gives the secret.
pub async fn make(conn: &mut Conn, member: &MemberId, now: At) -> Result<String, AppError> {
    let secret = session::secret();
    conn.run(MAKE, args![member, session::hash(&secret), now]).await?;
    Ok(secret)
}

/// Ends the member's address.
pub async fn end(conn: &mut Conn, member: &MemberId) -> Result<(), AppError> {
    conn.run(END, args![member]).await?;
    Ok(())
}

/// Since when the member has an address; `None` where there is none.
pub async fn made(conn: &mut Conn, member: &MemberId) -> Result<Option<At>, AppError> {
    let row: Option<Made> = conn.maybe(MADE, args![member]).await?;
    Ok(row.map(|r| r.made_at))
}

/// Whose calendar `secret` opens, if it is good; the request is answered in that member's language.
pub async fn reader(conn: &mut Conn, secret: &str) -> Result<Option<Reader>, AppError> {
    let reader: Option<Reader> = conn.maybe(READER, args![session::hash(secret)]).await?;
    reader.iter().for_each(|reader| texts::speak_as(&reader.language));
    Ok(reader)
}
