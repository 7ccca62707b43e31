//! Members' passkeys, and what browsers were asked to sign.

use crate::accounts::passkeys;
use crate::args;
use crate::db::ids::{At, MemberId, PasskeyId};
use crate::db::{Conn, FromRow};
use crate::error::{AppError, taken};
use crate::web::session;
use webauthn_rs::prelude::Passkey;

const LOCK_OWNER: &str = "UPDATE members SET version = version WHERE id = $1";
const COUNT: &str = "SELECT COUNT(*) AS n FROM passkeys WHERE member_id = $1";
const ADD: &str = "INSERT INTO passkeys (id, member_id, credential, name, document, made_at)
    VALUES ($1, $2, $3, $4, $5, $6)";
const OF: &str = "SELECT id, credential, name, made_at, used_at FROM passkeys WHERE member_id = $1
    ORDER BY made_at DESC, id DESC";
const REMOVE: &str = "DELETE FROM passkeys WHERE id = $1 AND member_id = $2";
const REMOVE_ALL: &str = "DELETE FROM passkeys WHERE member_id = $1";
const FIND: &str = "SELECT p.id, p.document FROM passkeys p JOIN members m ON m.id = p.member_id
    WHERE p.credential = $1 AND p.member_id = $2 AND m.left_at IS NULL";
const USED: &str = "UPDATE passkeys SET document = $2, used_at = $3 WHERE id = $1";
const ASK: &str =
    "INSERT INTO passkey_asks (secret_hash, member_id, document, expires_at) VALUES ($1, $2, $3, $4)";
const FORGET_ASKS: &str = "DELETE FROM passkey_asks WHERE expires_at <= $1";
const FORGET_ALL_ASKS: &str = "DELETE FROM passkey_asks";
const ANSWER: &str = "DELETE FROM passkey_asks WHERE secret_hash = $1 AND expires_at > $2
    RETURNING member_id, document";

pub const ALL: &[&str] =
    &[LOCK_OWNER, COUNT, ADD, OF, REMOVE, REMOVE_ALL, FIND, USED, ASK, FORGET_ASKS, ANSWER, FORGET_ALL_ASKS];

/// The most passkeys that a member has.
const MOST: i64 = 20;

#[derive(FromRow)]
struct Counted {
    n: i64,
}

/// A passkey as its member sees it.
#[derive(Debug, Clone, FromRow)]
pub struct PasskeyRow {
    pub id: PasskeyId,
    pub credential: String,
    pub name: String,
    pub made_at: At,
    pub used_at: Option<At>,
}

/// A passkey to prove oneself by.
#[derive(FromRow)]
struct Kept {
    id: PasskeyId,
    document: String,
}

/// What a browser was asked, and for whose new passkey (`None`: to sign in).
#[derive(Debug, FromRow)]
pub struct Asked {
    pub member_id: Option<MemberId>,
    pub document: String,
}

fn internal(error: serde_json::Error) -> AppError {
    AppError::Internal(error.into())
}

/// Keeps a new passkey of a member. Refused in field `name`.
pub async fn add(
    conn: &mut Conn,
    member: &MemberId,
    name: &str,
    passkey: &Passkey,
    now: At,
) -> Result<(), AppError> {
    if number(conn, member).await? >= MOST {
        return Err(AppError::refused("name", t!("accounts-most-passkeys", n = MOST)));
    }
    let document = serde_json::to_string(passkey).map_err(internal)?;
    let row = args![&PasskeyId::new(), member, passkeys::credential(passkey), name, document, now];
    taken(conn.run(ADD, row).await, "name", t!("accounts-passkey-kept-already"))?;
    Ok(())
}

/// How many passkeys a member has; nobody adds or removes one before this transaction ends.
pub async fn number(conn: &mut Conn, member: &MemberId) -> Result<i64, AppError> {
    conn.run(LOCK_OWNER, args![member]).await?;
    Ok(conn.one::<Counted>(COUNT, args![member]).await?.n)
}

/// The passkeys of a member, newest first.
pub async fn of(conn: &mut Conn, member: &MemberId) -> Result<Vec<PasskeyRow>, AppError> {
    Ok(conn.all(OF, args![member]).await?)
}

/// Removes a passkey of the member.
pub async fn remove(conn: &mut Conn, member: &MemberId, id: &PasskeyId) -> Result<(), AppError> {
    match conn.run(REMOVE, args![id, member]).await? {
        1 => Ok(()),
        _ => Err(AppError::NotFound),
    }
}

/// Removes every passkey of a member; how many that were.
pub async fn remove_all(conn: &mut Conn, member: &MemberId) -> Result<u64, AppError> {
    Ok(conn.run(REMOVE_ALL, args![member]).await?)
}

/// The passkey with this credential, where it is of this member, who has not left.
pub async fn find(
    conn: &mut Conn,
    credential: &str,
    member: &MemberId,
) -> Result<Option<(PasskeyId, Passkey)>, AppError> {
    let kept: Option<Kept> = conn.maybe(FIND, args![credential, member]).await?;
    kept.map(|k| Ok((k.id, serde_json::from_str(&k.document).map_err(internal)?))).transpose()
}

/// Keeps a passkey as its use left it.
pub async fn used(conn: &mut Conn, id: &PasskeyId, passkey: &Passkey, now: At) -> Result<(), AppError> {
    let document = serde_json::to_string(passkey).map_err(internal)?;
    conn.run(USED, args![id, document, now]).await?;
    Ok(())
}

/// Keeps what a browser was asked; gives the secret by which its answer is known.
pub async fn ask(
    conn: &mut Conn,
    member: Option<&MemberId>,
    document: &str,
    now: At,
) -> Result<String, AppError> {
    conn.run(FORGET_ASKS, args![now]).await?;
    let secret = session::secret();
    let until = now.plus_minutes(passkeys::ASK_MINUTES);
    conn.run(ASK, args![session::hash(&secret), member, document, until]).await?;
    Ok(secret)
}

/// What the browser with this secret was asked; once.
pub async fn answered(conn: &mut Conn, secret: &str, now: At) -> Result<Option<Asked>, AppError> {
    Ok(conn.maybe(ANSWER, args![session::hash(secret), now]).await?)
}

/// Forgets everything that was asked; how many that were.
pub async fn forget_asks(conn: &mut Conn) -> Result<u64, AppError> {
    Ok(conn.run(FORGET_ALL_ASKS, args![]).await?)
}
