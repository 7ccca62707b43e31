//! Pages for people who are not signed in.

use crate::accounts::model::{self, Link};
use crate::accounts::store::{self, links};
use crate::accounts::{passkeys, proof};
use crate::app::App;
use crate::error::AppError;
use crate::web::forms::Form;
use crate::web::{page, session, static_files};
use askama::Template;
use axum::extract::{Path, Query, State};
use axum::http::header::RETRY_AFTER;
use axum::http::{HeaderMap, HeaderValue, StatusCode};
use axum::response::{IntoResponse, Response};
use chrono_tz::Tz;

#[derive(Template)]
#[template(path = "accounts/sign_in.html")]
struct SignIn<'a> {
    css: &'a str,
    script: &'a str,
    passkeys: bool,
    /// Whether they are what lets organisers in.
    by_passkey: bool,
    damaged: bool,
    club: &'a str,
    form: &'a Form,
}

#[derive(Template)]
#[template(path = "accounts/signed_in.html")]
struct SignedIn<'a> {
    css: &'a str,
    member: &'a session::Member,
    next: &'a str,
}

/// GET /sign-in
pub async fn sign_in(
    State(app): State<App>,
    Query(query): Query<Vec<(String, String)>>,
    headers: HeaderMap,
) -> Result<Response, AppError> {
    let asked = |name: &str| query.iter().find(|(n, _)| n == name).map_or("", |(_, v)| v.as_str());
    let next = asked("next");
    if let Some(member) = session::member(&app, &headers).await? {
        let next = model::safe_next(next);
        return page::page(&SignedIn { css: static_files::css(), member: &member, next });
    }
    show_sign_in(&app, &Form::new().with("next", next).with("said", asked("said"))).await
}

pub async fn show_sign_in(app: &App, form: &Form) -> Result<Response, AppError> {
    let club = store::club_name(&mut app.db.read().await?).await?;
    let (passkeys, damaged) = (passkeys::possible(&app.config), app.db.damaged());
    let (css, script) = (static_files::css(), static_files::passkeys_js());
    let by_passkey = app.config.organisers_by_passkey;
    let shown = SignIn { css, script, passkeys, by_passkey, damaged, club: &club, form };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

/// The sign-in page for somebody who has to wait.
pub async fn show_wait(app: &App, form: &mut Form, seconds: i64) -> Result<Response, AppError> {
    form.refuse("password", proof::wait_words(seconds));
    let mut response = show_sign_in(app, form).await?;
    *response.status_mut() = StatusCode::TOO_MANY_REQUESTS;
    response.headers_mut().insert(RETRY_AFTER, HeaderValue::from(seconds));
    Ok(response)
}

#[derive(Template)]
#[template(path = "accounts/join.html")]
struct Join<'a> {
    css: &'a str,
    title: &'a str,
    intro: String,
    button: &'a str,
    set_up: bool,
    zones: Vec<Tz>,
    form: &'a Form,
}

/// GET /join/{token}
pub async fn join(State(app): State<App>, Path(token): Path<String>) -> Result<Response, AppError> {
    match links::good(&mut app.db.read().await?, &token, app.now()).await? {
        Some(link) if link.purpose != "reset" => show_join(&app, &link, &Form::new()).await,
        _ => gone(),
    }
}

pub async fn show_join(app: &App, link: &Link, form: &Form) -> Result<Response, AppError> {
    let set_up = link.purpose == "set-up";
    let (title, intro, button) = if set_up {
        let intro = t!("accounts-first-organiser").to_owned();
        (t!("accounts-set-up-your-club"), intro, t!("accounts-start-the-club"))
    } else {
        let club = store::club_name(&mut app.db.read().await?).await?;
        let intro = t!("accounts-club-invites-you", club = club, role = link.role);
        (t!("accounts-join-the-club"), intro, t!("accounts-join"))
    };
    let zones = if set_up { model::time_zones().collect() } else { Vec::new() };
    let shown = Join { css: static_files::css(), title, intro, button, set_up, zones, form };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

#[derive(Template)]
#[template(path = "accounts/reset.html")]
struct Reset<'a> {
    css: &'a str,
    name: &'a str,
    sign_in: &'a str,
    form: &'a Form,
}

/// GET /reset/{token}
pub async fn reset(State(app): State<App>, Path(token): Path<String>) -> Result<Response, AppError> {
    match links::good(&mut app.db.read().await?, &token, app.now()).await? {
        Some(link) if link.purpose == "reset" => show_reset(&link, &Form::new()),
        _ => gone(),
    }
}

pub fn show_reset(link: &Link, form: &Form) -> Result<Response, AppError> {
    let name = link.name.as_deref().unwrap_or_default();
    let sign_in = link.sign_in.as_deref().unwrap_or_default();
    let shown = Reset { css: static_files::css(), name, sign_in, form };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

#[derive(Template)]
#[template(path = "accounts/gone.html")]
struct Gone<'a> {
    css: &'a str,
}

/// A link that was used, has expired or was withdrawn, or never was: nobody outside learns which.
pub fn gone() -> Result<Response, AppError> {
    let shown = page::page(&Gone { css: static_files::css() })?;
    Ok((StatusCode::NOT_FOUND, shown).into_response())
}
