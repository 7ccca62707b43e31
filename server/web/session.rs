//! Who is asking: the session cookie, the signed-in member, the token that forms carry.

use crate::app::App;
use crate::args;
use crate::db::ids::{At, MemberId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use crate::web::log;
use axum::extract::FromRequestParts;
use axum::http::HeaderMap;
use axum::http::header::COOKIE;
use axum::http::request::Parts;
use data_encoding::{BASE64URL_NOPAD, HEXLOWER};
use sha2::{Digest, Sha256};

pub const DAYS: i64 = 60;

/// The member who is signed in, and what of the club every page needs.
#[derive(Debug, Clone, FromRow)]
pub struct Member {
    pub id: MemberId,
    pub name: String,
    pub role: String,
    pub measures: String,
    pub club: String,
    time_zone: String,
    #[sqlx(skip)]
    pub csrf: String,
}

impl Member {
    pub fn is_organiser(&self) -> bool {
        self.role == "organiser"
    }

    /// Refuses everybody but organisers.
    pub fn must_organise(&self) -> Result<(), AppError> {
        if self.is_organiser() { Ok(()) } else { Err(AppError::Forbidden("Only an organiser can do this.")) }
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

const MEMBER_OF: &str = "SELECT m.id, m.name, m.role, m.measures, c.name AS club, c.time_zone
    FROM sessions s JOIN members m ON m.id = s.member_id CROSS JOIN club c
    WHERE s.token_hash = $1 AND s.expires_at > $2 AND s.expires_at <= $3 AND m.left_at IS NULL";

/// A session that would last longer than any was opened under a clock that ran ahead: it does not outlive that clock.
/// A day is left for clocks that are set right by hours.
const LONGEST: i64 = DAYS + 1;

pub const ALL: &[&str] = &[MEMBER_OF];

/// The member whose session cookie came along, if it is good.
pub async fn member(app: &App, headers: &HeaderMap) -> Result<Option<Member>, AppError> {
    let Some(token) = token(app, headers) else { return Ok(None) };
    let mut conn = app.db.read().await?;
    let now = app.now();
    let of = args![hash(&token), now, now.plus_days(LONGEST)];
    let found: Option<Member> = conn.maybe(MEMBER_OF, of).await?;
    Ok(found.map(|m| Member { csrf: csrf(&token), ..m }))
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
        let next = if parts.method == "GET" { path } else { "/" };
        let member = member(app, &parts.headers).await?.ok_or_else(|| AppError::SignIn(next.to_owned()))?;
        log::asks(&member);
        Ok(member)
    }
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
    let age = if token.is_empty() { 0 } else { DAYS * 86_400 };
    bake(app, NAME, token, age)
}

/// A `Set-Cookie` value: not for scripts, for this host only.
pub fn bake(app: &App, name: &str, value: &str, max_age: i64) -> String {
    let secure = if app.config.secure() { "; Secure" } else { "" };
    let name = full_name(app, name);
    format!("{name}={value}; Path=/; HttpOnly; SameSite=Lax; Max-Age={max_age}{secure}")
}

const OPEN: &str = "INSERT INTO sessions (token_hash, member_id, made_at, seen_at, expires_at)
    VALUES ($1, $2, $3, $3, $4)";

/// Opens a session; gives the secret for the cookie.
pub async fn open(conn: &mut Conn, member: &MemberId, now: At) -> Result<String, AppError> {
    let token = secret();
    conn.run(OPEN, args![hash(&token), member, now, now.plus_days(DAYS)]).await?;
    Ok(token)
}
