//! A request sent twice counts once: the key a form carries is kept for ever with what it led to.

use crate::app::App;
use crate::args;
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use crate::web::forms::Form;
use crate::web::said::Said;
use crate::web::session::{self, Member};
use axum::response::{IntoResponse, Redirect, Response};

const CLAIM: &str = "INSERT INTO once (key, member_id, action, digest, location, at)
    VALUES ($1, $2, $3, $4, '', $5) ON CONFLICT (key) DO NOTHING";
const FOUND: &str = "SELECT member_id, digest, location FROM once WHERE key = $1";
const DONE: &str = "UPDATE once SET location = $2 WHERE key = $1";

pub const ALL: &[&str] = &[CLAIM, FOUND, DONE];

#[derive(FromRow)]
struct Found {
    member_id: String,
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
    if !(16..=64).contains(&key.len()) {
        return Err(AppError::Bad("The form came without its key. Open the page again and retry."));
    }
    let digest = digest(action, form);
    let fresh = conn.run(CLAIM, args![key, &member.id, action, &digest, app.now()]).await? == 1;
    if fresh {
        return Ok(None);
    }
    let found: Found = conn.one(FOUND, args![key]).await?;
    if found.member_id != member.id.0 || found.digest != digest {
        return Err(AppError::Conflict(
            "This form was saved before with other values, and those stand. Open the page again to add more."
                .into(),
        ));
    }
    Ok(Some(Redirect::to(&found.location).into_response()))
}

/// Notes where the save leads, makes it last, and answers with what to say there.
pub async fn done(
    mut conn: Conn,
    app: &App,
    form: &Form,
    location: &str,
    said: Said,
) -> Result<Response, AppError> {
    conn.run(DONE, args![form.key(), location]).await?;
    conn.commit().await?;
    Ok(said.go(app, location))
}

fn digest(action: &str, form: &Form) -> String {
    let mut text = action.to_owned();
    for (name, value) in form.pairs() {
        text.push_str(&format!("\u{1f}{name}\u{1e}{value}"));
    }
    session::hash(&text)
}
