use super::model::{self, Link, NewMember};
use crate::app::App;
use crate::args;
use crate::db::ids::{At, LinkId, MemberId};
use crate::db::{Conn, FromRow};
use crate::error::{AppError, taken};
use crate::web::session;

const CLUB_NAME: &str = "SELECT name FROM club WHERE id = 1";
const ZONE: &str = "SELECT time_zone AS name FROM club WHERE id = 1";
const MAKE_CLUB: &str = "INSERT INTO club (id, name, time_zone, made_at) VALUES (1, $1, $2, $3)
    ON CONFLICT (id) DO UPDATE SET name = excluded.name, time_zone = excluded.time_zone";
const SIGN_IN: &str = "SELECT id, password_hash FROM members WHERE sign_in_key = $1 AND left_at IS NULL";
const INSERT: &str = "INSERT INTO members
    (id, sign_in, sign_in_key, name, role, password_hash, measures, made_at, version)
    VALUES ($1, $2, $3, $4, $5, $6, 'metric', $7, 1)";
const TAKE_LETTERS: &str =
    "INSERT INTO letters (key, shown, member_id, last_number, made_at) VALUES ($1, $2, $3, 0, $4)";
const MAKE_LINK: &str =
    "INSERT INTO links (id, token_hash, purpose, role, member_id, made_by, made_at, expires_at)
    VALUES ($1, $2, $3, $4, $5, $6, $7, $8)";
const GOOD_LINK: &str = "SELECT id, purpose, role, member_id FROM links
    WHERE token_hash = $1 AND used_at IS NULL AND expires_at > $2";
const USE_LINK: &str = "UPDATE links SET used_at = $2, used_by = $3 WHERE id = $1 AND used_at IS NULL";
const CLOSE_SESSION: &str = "DELETE FROM sessions WHERE token_hash = $1";
const HAS_MEMBERS: &str = "SELECT COUNT(*) AS n FROM members";

pub const ALL: &[&str] = &[
    CLUB_NAME,
    ZONE,
    MAKE_CLUB,
    SIGN_IN,
    INSERT,
    TAKE_LETTERS,
    MAKE_LINK,
    GOOD_LINK,
    USE_LINK,
    CLOSE_SESSION,
    HAS_MEMBERS,
];

#[derive(FromRow)]
struct Named {
    name: String,
}

#[derive(FromRow)]
struct Counted {
    n: i64,
}

#[derive(FromRow)]
pub struct Secret {
    pub id: MemberId,
    pub password_hash: String,
}

/// The club's name; "Hilum" before it is set up.
pub async fn club_name(conn: &mut Conn) -> Result<String, AppError> {
    let row: Option<Named> = conn.maybe(CLUB_NAME, vec![]).await?;
    Ok(row.map_or_else(|| "Hilum".to_owned(), |c| c.name))
}

/// The club's time zone; UTC before it is set up.
pub async fn zone(conn: &mut Conn) -> Result<chrono_tz::Tz, AppError> {
    let row: Option<Named> = conn.maybe(ZONE, vec![]).await?;
    Ok(row.and_then(|c| c.name.parse().ok()).unwrap_or(chrono_tz::UTC))
}

/// Names the club and its time zone.
pub async fn make_club(conn: &mut Conn, name: &str, time_zone: &str, now: At) -> Result<(), AppError> {
    conn.run(MAKE_CLUB, args![name, time_zone, now]).await?;
    Ok(())
}

/// Whether anybody has an account yet.
pub async fn has_members(conn: &mut Conn) -> Result<bool, AppError> {
    let row: Counted = conn.one(HAS_MEMBERS, vec![]).await?;
    Ok(row.n > 0)
}

/// What signing in needs to know of `sign_in`.
pub async fn secret(conn: &mut Conn, sign_in: &str) -> Result<Option<Secret>, AppError> {
    Ok(conn.maybe(SIGN_IN, args![model::sign_in_key(sign_in)]).await?)
}

/// Hashes off the async threads, a few at a time.
pub async fn hashed(app: &App, password: String) -> Result<String, AppError> {
    let _turn = app.hashing.acquire().await.map_err(|e| anyhow::anyhow!(e))?;
    tokio::task::spawn_blocking(move || model::hash(&password)).await.map_err(|e| anyhow::anyhow!(e))?
}

/// Compares off the async threads, a few at a time.
pub async fn matches(app: &App, password: String, hash: String) -> Result<bool, AppError> {
    let _turn = app.hashing.acquire().await.map_err(|e| anyhow::anyhow!(e))?;
    Ok(tokio::task::spawn_blocking(move || model::matches(&password, &hash))
        .await
        .map_err(|e| anyhow::anyhow!(e))?)
}

/// Adds a member with letters of their own; `password_hash` comes from [`hashed`].
pub async fn add(
    conn: &mut Conn,
    new: &NewMember,
    password_hash: &str,
    now: At,
) -> Result<MemberId, AppError> {
    let id = MemberId::new();
    let key = model::sign_in_key(&new.sign_in);
    let row = args![&id, &new.sign_in, key, &new.name, &new.role, password_hash, now];
    taken(conn.run(INSERT, row).await, "sign_in", "Somebody has this sign-in name. Please choose another.")?;
    take_letters(conn, &id, &new.letters, now).await?;
    Ok(id)
}

/// Gives `letters` to a member, unless they look like somebody's.
pub async fn take_letters(
    conn: &mut Conn,
    member: &MemberId,
    letters: &str,
    now: At,
) -> Result<(), AppError> {
    let row = args![crate::marks::fold(letters), letters, member, now];
    taken(
        conn.run(TAKE_LETTERS, row).await,
        "letters",
        "These letters look like somebody else's. Please choose others.",
    )?;
    Ok(())
}

/// A link to be made.
pub struct NewLink<'a> {
    pub purpose: &'a str,
    pub role: &'a str,
    pub member: Option<&'a MemberId>,
    pub by: Option<&'a MemberId>,
    pub days: i64,
}

/// Makes a one-time link; gives the secret in it, of which only the hash is kept.
pub async fn make_link(conn: &mut Conn, new: &NewLink<'_>, now: At) -> Result<String, AppError> {
    let token = session::secret();
    let until = now.plus_days(new.days);
    let row =
        args![&LinkId::new(), session::hash(&token), new.purpose, new.role, new.member, new.by, now, until];
    conn.run(MAKE_LINK, row).await?;
    Ok(token)
}

/// The link behind `token`, if it is still good.
pub async fn link(conn: &mut Conn, token: &str, now: At) -> Result<Option<Link>, AppError> {
    Ok(conn.maybe(GOOD_LINK, args![session::hash(token), now]).await?)
}

/// Uses a link up; refused where somebody used it meanwhile.
pub async fn use_link(conn: &mut Conn, link: &LinkId, by: &MemberId, now: At) -> Result<(), AppError> {
    match conn.run(USE_LINK, args![link, now, by]).await? {
        1 => Ok(()),
        _ => Err(AppError::NotFound),
    }
}

/// Ends a session.
pub async fn close_session(conn: &mut Conn, token: &str) -> Result<(), AppError> {
    conn.run(CLOSE_SESSION, args![session::hash(token)]).await?;
    Ok(())
}
