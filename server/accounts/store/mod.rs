//! The club, its members and their letters.

pub mod devices;
pub mod feeds;
pub mod links;
pub mod passkeys;
pub mod sessions;
pub mod tokens;

use super::model::{self, NewMember, Role, Settings};
use crate::args;
use crate::db::ids::{At, MemberId};
use crate::db::{Conn, FromRow};
use crate::error::{AppError, taken};
use crate::web::words;

const CLUB_NAME: &str = "SELECT name FROM club WHERE id = 1";
const ZONE: &str = "SELECT time_zone AS name FROM club WHERE id = 1";
const MAKE_CLUB: &str = "INSERT INTO club (id, name, time_zone, made_at) VALUES (1, $1, $2, $3)
    ON CONFLICT (id) DO UPDATE SET name = excluded.name, time_zone = excluded.time_zone";
const LOCK_CLUB: &str = "UPDATE club SET name = name WHERE id = 1";
const SECRET: &str = "SELECT id, password_hash FROM members WHERE sign_in_key = $1 AND left_at IS NULL";
const INSERT: &str = "INSERT INTO members
    (id, sign_in, sign_in_key, name, role, password_hash, measures, made_at, version)
    VALUES ($1, $2, $3, $4, $5, $6, 'metric', $7, 1)";
const TAKE_LETTERS: &str =
    "INSERT INTO letters (key, shown, member_id, last_number, made_at) VALUES ($1, $2, $3, 0, $4)";
const HAS_MEMBERS: &str = "SELECT COUNT(*) AS n FROM members";
const EVERYBODY: &str =
    "SELECT id, sign_in, name, role, measures, language, made_at, left_at FROM members ORDER BY id";
const ONE: &str =
    "SELECT id, sign_in, name, role, measures, language, made_at, left_at FROM members WHERE id = $1";
const ALL_LETTERS: &str = "SELECT member_id, shown FROM letters ORDER BY made_at DESC, key";
const COUNT_LETTERS: &str = "SELECT COUNT(*) AS n FROM letters WHERE member_id = $1";
const OTHER_ORGANISERS: &str = "SELECT COUNT(*) AS n FROM members
    WHERE role = 'organiser' AND left_at IS NULL AND id <> $1";
const SET_ROLE: &str =
    "UPDATE members SET role = $2, version = version + 1 WHERE id = $1 AND left_at IS NULL";
const SET_LEFT: &str =
    "UPDATE members SET left_at = $2, version = version + 1 WHERE id = $1 AND left_at IS NULL";
const LOCK: &str = "UPDATE members SET version = version WHERE id = $1";
const SET_OWN: &str = "UPDATE members SET name = $2, measures = $3, language = $4, version = version + 1
    WHERE id = $1";
/// The password stays what it is, so this is no new version of the member.
const RENEW_PASSWORD: &str = "UPDATE members SET password_hash = $3 WHERE id = $1 AND password_hash = $2";
const SET_PASSWORD: &str = "UPDATE members SET password_hash = $2, version = version + 1
    WHERE id = $1 AND left_at IS NULL";

pub(super) const ALL: &[&str] = &[
    CLUB_NAME,
    ZONE,
    MAKE_CLUB,
    LOCK_CLUB,
    SECRET,
    INSERT,
    TAKE_LETTERS,
    HAS_MEMBERS,
    EVERYBODY,
    ONE,
    ALL_LETTERS,
    COUNT_LETTERS,
    OTHER_ORGANISERS,
    SET_ROLE,
    SET_LEFT,
    LOCK,
    SET_OWN,
    RENEW_PASSWORD,
    SET_PASSWORD,
];

const MOST_LETTERS: i64 = 20;

#[derive(FromRow)]
struct Named {
    name: String,
}

#[derive(FromRow)]
struct Counted {
    n: i64,
}

/// What signing in needs to know of a member.
#[derive(Clone, FromRow)]
pub struct Secret {
    pub id: MemberId,
    pub password_hash: String,
}

/// A member as other members may see them; the sign-in name is for organisers and for that member.
#[derive(Debug, Clone, FromRow)]
pub struct MemberRow {
    pub id: MemberId,
    pub sign_in: String,
    pub name: String,
    pub role: String,
    pub measures: String,
    pub language: String,
    pub made_at: At,
    pub left_at: Option<At>,
}

impl MemberRow {
    pub fn role_words(&self) -> &'static str {
        model::role_words(&self.role)
    }
}

/// Whose letters these are.
#[derive(Debug, Clone, FromRow)]
pub struct OwnedLetters {
    pub member_id: MemberId,
    pub shown: String,
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

/// Names the club and its time zone. Others who set up wait until this transaction ends.
pub async fn make_club(conn: &mut Conn, name: &str, time_zone: &str, now: At) -> Result<(), AppError> {
    conn.run(MAKE_CLUB, args![name, time_zone, now]).await?;
    Ok(())
}

/// Whether anybody has, or ever had, an account.
pub async fn has_members(conn: &mut Conn) -> Result<bool, AppError> {
    let row: Counted = conn.one(HAS_MEMBERS, vec![]).await?;
    Ok(row.n > 0)
}

/// What signing in needs to know of `sign_in`.
pub async fn secret(conn: &mut Conn, sign_in: &str) -> Result<Option<Secret>, AppError> {
    Ok(conn.maybe(SECRET, args![model::sign_in_key(sign_in)]).await?)
}

/// Adds a member with letters of their own; `password_hash` comes from `passwords::hashed`.
pub async fn add(
    conn: &mut Conn,
    new: &NewMember,
    password_hash: &str,
    now: At,
) -> Result<MemberId, AppError> {
    let id = MemberId::new();
    let key = model::sign_in_key(&new.sign_in);
    let row = args![&id, &new.sign_in, key, &new.name, &new.role, password_hash, now];
    taken(conn.run(INSERT, row).await, "sign_in", t!("accounts-sign-in-name-taken"))?;
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
    let had: Counted = conn.one(COUNT_LETTERS, args![member]).await?;
    if had.n >= MOST_LETTERS {
        return Err(AppError::refused("letters", t!("accounts-most-sets-of-letters", n = MOST_LETTERS)));
    }
    let row = args![crate::marks::fold(letters), letters, member, now];
    taken(conn.run(TAKE_LETTERS, row).await, "letters", t!("accounts-letters-taken"))?;
    Ok(())
}

/// Everybody who is or was a member: those who left come last.
pub async fn everybody(conn: &mut Conn) -> Result<Vec<MemberRow>, AppError> {
    let mut everybody = words::by_name(conn.all(EVERYBODY, vec![]).await?, |m: &MemberRow| &m.name);
    everybody.sort_by_key(|m| m.left_at.is_some());
    Ok(everybody)
}

/// One member, also one who left.
pub async fn member(conn: &mut Conn, id: &MemberId) -> Result<MemberRow, AppError> {
    conn.maybe(ONE, args![id]).await?.ok_or(AppError::NotFound)
}

/// Everybody's letters, newest first.
pub async fn all_letters(conn: &mut Conn) -> Result<Vec<OwnedLetters>, AppError> {
    Ok(conn.all(ALL_LETTERS, vec![]).await?)
}

/// Holds everybody's roles until the end of the transaction; how this member stands.
pub async fn hold_role(conn: &mut Conn, id: &MemberId) -> Result<MemberRow, AppError> {
    conn.run(LOCK_CLUB, vec![]).await?;
    member(conn, id).await
}

/// Gives a member another role. Their sessions and tokens end, so that more rights need a new proof of who they are.
pub async fn set_role(conn: &mut Conn, id: &MemberId, role: Role, now: At) -> Result<(), AppError> {
    conn.run(LOCK_CLUB, vec![]).await?;
    if role == Role::Grower {
        needs_another_organiser(conn, id, "role").await?;
    }
    found(conn.run(SET_ROLE, args![id, role.word()]).await?)?;
    links::end_of_member(conn, id, now).await?;
    shut_out(conn, id, now).await
}

/// Ends a membership: nobody signs in as them again. Their letters stay taken, their entries stay theirs.
pub async fn leave(conn: &mut Conn, id: &MemberId, now: At) -> Result<(), AppError> {
    conn.run(LOCK_CLUB, vec![]).await?;
    needs_another_organiser(conn, id, "sure").await?;
    found(conn.run(SET_LEFT, args![id, now]).await?)?;
    links::end_of_member(conn, id, now).await?;
    shut_out(conn, id, now).await
}

/// Ends every session and every token of a member, and forgets the browsers they signed in in.
pub async fn shut_out(conn: &mut Conn, id: &MemberId, now: At) -> Result<(), AppError> {
    sessions::close_all(conn, id).await?;
    devices::forget(conn, id).await?;
    tokens::end_of_member(conn, id, now).await
}

/// [`member`], held for the rest of the transaction.
pub async fn lock(conn: &mut Conn, id: &MemberId) -> Result<MemberRow, AppError> {
    conn.run(LOCK, args![id]).await?;
    member(conn, id).await
}

/// Keeps what members change about themselves.
pub async fn set_own(conn: &mut Conn, id: &MemberId, settings: &Settings) -> Result<(), AppError> {
    conn.run(SET_OWN, args![id, &settings.name, settings.measures, settings.language]).await?;
    Ok(())
}

/// Keeps another hash of the same password, unless it was changed meanwhile.
pub async fn renew_password(conn: &mut Conn, of: &Secret, hash: &str) -> Result<(), AppError> {
    conn.run(RENEW_PASSWORD, args![&of.id, &of.password_hash, hash]).await?;
    Ok(())
}

/// Gives a member another password, by its hash.
pub async fn set_password(conn: &mut Conn, id: &MemberId, hash: &str) -> Result<(), AppError> {
    found(conn.run(SET_PASSWORD, args![id, hash]).await?)
}

/// Refuses what would leave the club without an organiser. The club is locked, so that two cannot go at once.
async fn needs_another_organiser(
    conn: &mut Conn,
    id: &MemberId,
    field: &'static str,
) -> Result<(), AppError> {
    let others: Counted = conn.one(OTHER_ORGANISERS, args![id]).await?;
    if others.n > 0 {
        return Ok(());
    }
    Err(AppError::refused(field, t!("accounts-last-organiser")))
}

fn found(rows: u64) -> Result<(), AppError> {
    if rows == 1 { Ok(()) } else { Err(AppError::NotFound) }
}
