use super::model::{self, Link, NewMember};
use super::{pages, store};
use crate::app::App;
use crate::db::Conn;
use crate::db::ids::MemberId;
use crate::error::AppError;
use crate::web::forms::Form;
use crate::web::session;
use axum::extract::{Path, State};
use axum::http::HeaderMap;
use axum::http::header::SET_COOKIE;
use axum::response::{IntoResponse, Redirect, Response};

const WRONG: &str = "The sign-in name and the password do not go together.";
/// Compared against when the name is unknown, so that both answers take the same time.
const NOBODY: &str =
    "$argon2id$v=19$m=19456,t=2,p=1$AAAAAAAAAAAAAAAAAAAAAA$AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA";

/// POST /sign-in
pub async fn sign_in(State(app): State<App>, mut form: Form) -> Result<Response, AppError> {
    let name = form.must_text("sign_in", 60);
    let known = store::secret(&mut app.db.read().await?, &name).await?;
    let hash = known.as_ref().map_or(NOBODY, |s| &s.password_hash).to_owned();
    let good = store::matches(&app, form.value("password").to_owned(), hash).await?;
    match known.filter(|_| good) {
        Some(secret) => {
            enter(&app, app.db.write().await?, &secret.id, model::safe_next(form.value("next"))).await
        }
        None => {
            form.refuse("password", WRONG);
            pages::show_sign_in(&app, &form).await
        }
    }
}

/// Opens a session, makes the transaction last, and goes on to `next`.
async fn enter(app: &App, mut conn: Conn, member: &MemberId, next: &str) -> Result<Response, AppError> {
    let token = session::open(&mut conn, member, app.now()).await?;
    conn.commit().await?;
    Ok(([(SET_COOKIE, session::set_cookie(app, &token))], Redirect::to(next)).into_response())
}

/// POST /sign-out
pub async fn sign_out(State(app): State<App>, headers: HeaderMap, _form: Form) -> Result<Response, AppError> {
    if let Some(token) = session::token(&app, &headers) {
        let mut conn = app.db.write().await?;
        store::close_session(&mut conn, &token).await?;
        conn.commit().await?;
    }
    Ok(([(SET_COOKIE, session::set_cookie(&app, ""))], Redirect::to("/sign-in")).into_response())
}

/// POST /join/{token}
pub async fn join(
    State(app): State<App>,
    Path(token): Path<String>,
    mut form: Form,
) -> Result<Response, AppError> {
    let link = store::link(&mut app.db.read().await?, &token, app.now()).await?.ok_or(AppError::NotFound)?;
    let set_up = link.purpose == "set-up";
    let club = set_up.then(|| club(&mut form));
    let new = NewMember::parse(&mut form, &link.role);
    if form.failed() {
        return pages::show_join(set_up, &form);
    }
    let hash = store::hashed(&app, new.password.clone()).await?;
    let mut conn = app.db.write().await?;
    let joined = add(&app, &mut conn, &link, club, &new, &hash).await;
    match form.take(joined)? {
        Some(id) => enter(&app, conn, &id, "/").await,
        None => pages::show_join(set_up, &form),
    }
}

fn club(form: &mut Form) -> (String, String) {
    let (name, zone) = (form.must_text("club", 80), form.must_text("time_zone", 60));
    if zone.parse::<chrono_tz::Tz>().is_err() {
        form.refuse("time_zone", "There is no such time zone. Try one such as Europe/Berlin.");
    }
    (name, zone)
}

async fn add(
    app: &App,
    conn: &mut Conn,
    link: &Link,
    club: Option<(String, String)>,
    new: &NewMember,
    hash: &str,
) -> Result<MemberId, AppError> {
    if let Some((name, zone)) = club {
        store::make_club(conn, &name, &zone, app.now()).await?;
    }
    let id = store::add(conn, new, hash, app.now()).await?;
    store::use_link(conn, &link.id, &id, app.now()).await?;
    Ok(id)
}
