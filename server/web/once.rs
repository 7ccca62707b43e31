//! A request sent twice counts once: the key a form carries is kept for ever with what it led to.

use crate::app::App;
use crate::args;
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use crate::web::forms::Form;
use crate::web::log;
use crate::web::said::Said;
use crate::web::session::{self, Member};
use axum::response::{IntoResponse, Redirect, Response};

const CLAIM: &str = "INSERT INTO once (key, member_id, action, digest, location, at)
    VALUES ($1, $2, $3, $4, '', $5) ON CONFLICT (key) DO NOTHING";
const FOUND: &str = "SELECT member_id, action, digest, location FROM once WHERE key = $1";
const DONE: &str = "UPDATE once SET location = $2 WHERE key = $1";

pub const ALL: &[&str] = &[CLAIM, FOUND, DONE];

#[derive(FromRow)]
struct Found {
    member_id: String,
    action: String,
    digest: String,
    location: String,
}

/// Claims the form's key inside the write transaction. `Some` is the answer to give when this very form was
/// saved before; `None` means go on and end with [`done`].
pub async fn claim(
    conn: &mut Conn,
    app: &App,
    member: &Member,
    action: &str,
    form: &Form,
) -> Result<Option<Response>, AppError> {
    let key = form.key();
    if !is_key(key) {
        return Err(AppError::Bad(t!("web-no-key")));
    }
    let digest = digest(action, form);
    let fresh = conn.run(CLAIM, args![key, &member.id, action, &digest, app.now()]).await? == 1;
    if fresh {
        return Ok(None);
    }
    let found: Found = conn.one(FOUND, args![key]).await?;
    let to = found.location_of(member, &digest)?;
    log::repeated();
    Ok(Some(Redirect::to(&to).into_response()))
}

/// Where this very form led when it was saved before, whatever its action; `None` where its key is new.
pub async fn before(conn: &mut Conn, member: &Member, form: &Form) -> Result<Option<String>, AppError> {
    if !is_key(form.key()) {
        return Ok(None);
    }
    let found: Option<Found> = conn.maybe(FOUND, args![form.key()]).await?;
    found.map(|f| f.location_of(member, &digest(&f.action, form))).transpose()
}

/// Whether it can be kept: each database counts the characters of other text in its own way.
fn is_key(key: &str) -> bool {
    (16..=64).contains(&key.len()) && key.bytes().all(|b| b.is_ascii_graphic())
}

impl Found {
    fn location_of(&self, member: &Member, digest: &str) -> Result<String, AppError> {
        if self.member_id == member.id.0 && self.digest == digest {
            return Ok(self.location.clone());
        }
        Err(AppError::Conflict(t!("web-saved-before").into()))
    }
}

/// Notes where the save leads, makes it last, and answers with what to say there.
pub async fn done(
    conn: Conn,
    app: &App,
    form: &Form,
    location: &str,
    said: Said,
) -> Result<Response, AppError> {
    keep(conn, form, location).await?;
    Ok(said.go(app, location))
}

/// Notes where the same form leads when it comes again, and makes the save last; the answer is the caller's.
pub async fn keep(mut conn: Conn, form: &Form, location: &str) -> Result<(), AppError> {
    conn.later(DONE, args![form.key(), location]).await?;
    conn.commit().await?;
    log::saved();
    Ok(())
}

/// What was told, without what the page or the phone added of itself: that may differ when it is sent again.
fn digest(action: &str, form: &Form) -> String {
    let mut text = action.to_owned();
    let by_phone = form.at_by_phone();
    let added = |name: &str| {
        name == "seen" || name.starts_with("seen-") || by_phone && (name == "at" || name == "at_by")
    };
    for (name, value) in form.pairs().filter(|(name, _)| !added(name)) {
        text.push_str(&format!("\u{1f}{name}\u{1e}{value}"));
    }
    session::hash(&text)
}
