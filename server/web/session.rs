//! Who is asking: the session cookie, the signed-in member, the token that forms carry.

use crate::app::App;
use crate::args;
use crate::config::Config;
use crate::db::ids::{At, MemberId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use crate::texts;
use crate::web::log;
use axum::extract::FromRequestParts;
use axum::http::header::{COOKIE, HOST, REFERER};
use axum::http::request::Parts;
use axum::http::{HeaderMap, HeaderValue};
use data_encoding::{BASE64URL_NOPAD, HEXLOWER};
use sha2::{Digest, Sha256};
use std::time::Duration;

/// Days without use after which a session ends, long for a shed without signal; and the most it lasts, used or not.
pub const IDLE_DAYS: i64 = 30;
pub const LONGEST_DAYS: i64 = 90;
/// How often the use of a session is noted.
const NOTED_MINUTES: i64 = 60;
/// How long a page waits for that note: reading goes on where nothing can be written.
const NOTE_LIMIT: Duration = Duration::from_millis(500);

/// The member who is signed in, and what of the club every page needs.
#[derive(Debug, Clone, FromRow)]
pub struct Member {
    pub id: MemberId,
    pub name: String,
    pub role: String,
    pub measures: String,
    /// Tag of the language they chose; empty for the browser's.
    pub language: String,
    pub club: String,
    time_zone: String,
    #[sqlx(skip)]
    pub csrf: String,
    /// When they last proved with a password or a passkey who they are, in this session; `None` for a program.
    #[sqlx(skip)]
    pub proved_at: Option<At>,
    /// Whether this session was opened by a passkey; not so for a program.
    #[sqlx(skip)]
    pub by_passkey: bool,
}

impl Member {
    pub fn is_organiser(&self) -> bool {
        self.role == "organiser"
    }

    /// Refuses everybody but organisers.
    pub fn must_organise(&self) -> Result<(), AppError> {
        if self.is_organiser() { Ok(()) } else { Err(AppError::Forbidden(t!("web-only-organiser"))) }
    }

    /// Whether the host lets them in by a passkey alone.
    pub fn asked_for_passkey(&self, config: &Config) -> bool {
        config.organisers_by_passkey && self.is_organiser()
    }

    /// Whether they came by a password all the same.
    pub fn lacks_passkey(&self, config: &Config) -> bool {
        self.asked_for_passkey(config) && !self.by_passkey
    }

    /// Whether they proved who they are at most `minutes` ago.
    pub fn proved_within(&self, minutes: i64, now: At) -> bool {
        self.proved_at.is_some_and(|at| at.plus_minutes(minutes) > now)
    }

    /// The club's time zone.
    pub fn zone(&self) -> chrono_tz::Tz {
        self.time_zone.parse().unwrap_or(chrono_tz::UTC)
    }

    /// Whether this member measures in US units.
    pub fn us(&self) -> bool {
        self.measures == "us"
    }
}

/// A session that would last longer than any was opened under a clock that ran ahead: it does not outlive that clock.
/// A day is left for clocks that are set right by hours.
const MEMBER_OF: &str =
    "SELECT m.id, m.name, m.role, m.measures, m.language, c.name AS club, c.time_zone, s.seen_at, s.proved_at, s.by_passkey
    FROM sessions s JOIN members m ON m.id = s.member_id CROSS JOIN club c
    WHERE s.token_hash = $1 AND s.expires_at > $2 AND s.expires_at <= $3 AND s.seen_at > $4 AND m.left_at IS NULL";
const SEEN: &str = "UPDATE sessions SET seen_at = $2 WHERE token_hash = $1 AND seen_at < $2";

pub const ALL: &[&str] = &[MEMBER_OF, SEEN, OPEN];

#[derive(FromRow)]
struct Signed {
    #[sqlx(flatten)]
    member: Member,
    seen_at: At,
    proved_at: At,
    by_passkey: bool,
}

/// Where an organiser adds the first passkey, who can do nothing without one.
const ADDING: [&str; 3] = ["/me/passkeys", "/me/passkeys/ask", "/me/proof"];

/// The member whose session cookie came along, if it is good: an organiser whom only a passkey lets in is nobody
/// without one.
pub async fn member(app: &App, headers: &HeaderMap) -> Result<Option<Member>, AppError> {
    Ok(signed(app, headers).await?.filter(|member| !member.lacks_passkey(&app.config)))
}

async fn signed(app: &App, headers: &HeaderMap) -> Result<Option<Member>, AppError> {
    let Some(token) = token(app, headers) else { return Ok(None) };
    let (hash, now) = (hash(&token), app.now());
    let mut conn = app.db.read().await?;
    let of = args![&hash, now, now.plus_days(LONGEST_DAYS + 1), now.plus_days(-IDLE_DAYS)];
    let found: Option<Signed> = conn.maybe(MEMBER_OF, of).await?;
    drop(conn);
    let Some(signed) = found else { return Ok(None) };
    if signed.seen_at.plus_minutes(NOTED_MINUTES) <= now {
        match tokio::time::timeout(NOTE_LIMIT, seen(app, &hash, now)).await {
            Ok(Ok(())) => {}
            Ok(Err(error)) => tracing::warn!(%error, "the use of a session was not noted"),
            Err(_) => tracing::warn!("the use of a session was not noted in time"),
        }
    }
    texts::speak_as(&signed.member.language);
    let Signed { member, proved_at, by_passkey, .. } = signed;
    Ok(Some(Member { csrf: csrf(&token), proved_at: Some(proved_at), by_passkey, ..member }))
}

async fn seen(app: &App, hash: &str, now: At) -> Result<(), AppError> {
    let mut conn = app.db.write().await?;
    conn.run(SEEN, args![hash, now]).await?;
    Ok(conn.commit().await?)
}

/// The member for whom our own code sends a form on, in the extensions of that request: whoever puts it there has
/// proved who asks. Nothing that comes from outside can.
#[derive(Debug, Clone)]
pub struct Acting(pub Member);

impl FromRequestParts<App> for Member {
    type Rejection = AppError;

    async fn from_request_parts(parts: &mut Parts, app: &App) -> Result<Self, AppError> {
        if let Some(Acting(member)) = parts.extensions.get() {
            log::asks(member);
            return Ok(member.clone());
        }
        let path = parts.uri.path_and_query().map_or("/", |p| p.as_str());
        let sent = parts.method != "GET" && parts.method != "HEAD";
        let next = if sent { form_page(app, &parts.headers).unwrap_or("/") } else { path };
        let first = || AppError::SignIn { next: next.to_owned(), sent };
        let member = signed(app, &parts.headers).await?.ok_or_else(first)?;
        if member.lacks_passkey(&app.config) && !ADDING.contains(&parts.uri.path()) {
            return Err(AppError::Passkey);
        }
        log::asks(&member);
        Ok(member)
    }
}

/// The page of ours from which a form was sent, as the browser says; `None` where it is another site's.
fn form_page<'h>(app: &App, headers: &'h HeaderMap) -> Option<&'h str> {
    let text = |name| headers.get(name).and_then(|v: &HeaderValue| v.to_str().ok());
    let (_, rest) = text(REFERER)?.split_once("://")?;
    let (host, path) = rest.split_at(rest.find('/')?);
    let base = app.config.base();
    let ours = base.split_once("://").is_some_and(|(_, base)| base.eq_ignore_ascii_case(host));
    (ours || text(HOST).is_some_and(|own| own.eq_ignore_ascii_case(host))).then_some(path)
}

/// 256 random bits as text.
pub fn secret() -> String {
    let mut bytes = [0u8; 32];
    getrandom::fill(&mut bytes).expect("the operating system gives random bytes");
    BASE64URL_NOPAD.encode(&bytes)
}

/// What the database keeps of a secret.
pub fn hash(secret: &str) -> String {
    HEXLOWER.encode(&Sha256::digest(secret.as_bytes()))
}

/// The token that forms of this session carry.
pub fn csrf(token: &str) -> String {
    hash(&format!("form:{token}"))
}

const NAME: &str = "hilum";

/// The name of a cookie as browsers keep it. By https its prefix binds it to this host: no other host of the
/// same domain can set it.
fn full_name(app: &App, name: &str) -> String {
    if app.config.secure() { format!("__Host-{name}") } else { name.to_owned() }
}

/// The session token in the cookie header.
pub fn token(app: &App, headers: &HeaderMap) -> Option<String> {
    cookie(app, headers, NAME)
}

/// The value of cookie `name`, a name as given to [`bake`].
pub fn cookie(app: &App, headers: &HeaderMap, name: &str) -> Option<String> {
    let name = full_name(app, name);
    let all = headers.get_all(COOKIE).iter().filter_map(|v| v.to_str().ok());
    all.flat_map(|line| line.split(';'))
        .filter_map(|pair| pair.trim().split_once('='))
        .find(|(key, _)| *key == name)
        .map(|(_, value)| value.to_owned())
}

/// A `Set-Cookie` value for the session; an empty token ends it.
pub fn set_cookie(app: &App, token: &str) -> String {
    let age = if token.is_empty() { 0 } else { LONGEST_DAYS * 86_400 };
    bake(app, NAME, token, age)
}

/// A `Set-Cookie` value: not for scripts, for this host only.
pub fn bake(app: &App, name: &str, value: &str, max_age: i64) -> String {
    let secure = if app.config.secure() { "; Secure" } else { "" };
    let name = full_name(app, name);
    format!("{name}={value}; Path=/; HttpOnly; SameSite=Lax; Max-Age={max_age}{secure}")
}

const OPEN: &str =
    "INSERT INTO sessions (token_hash, member_id, device, by_passkey, made_at, seen_at, proved_at, expires_at)
    VALUES ($1, $2, $3, $4, $5, $5, $5, $6)";

/// Opens a session in a browser that is not known; gives the secret for the cookie.
pub async fn open(conn: &mut Conn, member: &MemberId, now: At) -> Result<String, AppError> {
    open_in(conn, member, ("", false), now).await
}

/// Opens a session in the browser that `device` tells in words, for a member who has just proved who they are; whether
/// by a passkey.
pub async fn open_in(
    conn: &mut Conn,
    member: &MemberId,
    (device, by_passkey): (&str, bool),
    now: At,
) -> Result<String, AppError> {
    let token = secret();
    let row = args![hash(&token), member, device, by_passkey, now, now.plus_days(LONGEST_DAYS)];
    conn.run(OPEN, row).await?;
    Ok(token)
}
