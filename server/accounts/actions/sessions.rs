//! Ending sessions: one's own, and by organisers those of a member.

use crate::accounts::proof;
use crate::accounts::store::{self, sessions as open};
use crate::app::App;
use crate::audit::{self, Deed, What};
use crate::db::ids::MemberId;
use crate::error::AppError;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::said::Said;
use crate::web::{once, session};
use axum::extract::{Path, State};
use axum::http::HeaderMap;
use axum::response::Response;

/// POST /me/sessions: signs out everywhere else.
pub async fn elsewhere(
    State(app): State<App>,
    chrome: Chrome,
    headers: HeaderMap,
    form: Form,
) -> Result<Response, AppError> {
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "sessions", &form).await? {
        return Ok(again);
    }
    let own = session::token(&app, &headers).unwrap_or_default();
    let closed = open::close_others(&mut conn, &chrome.member.id, &own).await?;
    audit::note(&mut conn, Deed::by(What::SignedOutElsewhere, &chrome.member.id), app.now()).await?;
    once::done(conn, &app, &form, "/me", Said::new(t!("accounts-signed-out-elsewhere", n = closed))).await
}

/// POST /me/sessions/{id}/end: signs out in one place.
pub async fn end(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<String>,
    form: Form,
) -> Result<Response, AppError> {
    let mut conn = app.db.write().await?;
    let action = format!("end session {id}");
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, &action, &form).await? {
        return Ok(again);
    }
    open::close_one(&mut conn, &chrome.member.id, &id).await?;
    audit::note(&mut conn, Deed::by(What::SignedOutElsewhere, &chrome.member.id), app.now()).await?;
    once::done(conn, &app, &form, "/me#sessions", Said::new(t!("accounts-signed-out-there"))).await
}

/// POST /members/{id}/sessions: ends every session of a member.
pub async fn of_member(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<MemberId>,
    form: Form,
) -> Result<Response, AppError> {
    chrome.member.must_organise()?;
    let page = format!("/members/{id}");
    if let Some(first) = proof::wanted(&app, &chrome, proof::ORGANISER_MINUTES, &page) {
        return Ok(first);
    }
    let member = store::member(&mut app.db.read().await?, &id).await?;
    let mut conn = app.db.write().await?;
    let action = format!("sessions {id}");
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, &action, &form).await? {
        return Ok(again);
    }
    let closed = open::close_all(&mut conn, &id).await?;
    let deed = Deed::by(What::SessionsEnded, &chrome.member.id).about(&id);
    audit::note(&mut conn, deed, app.now()).await?;
    let said = t!("accounts-is-signed-out", name = member.name, n = closed);
    once::done(conn, &app, &form, &page, Said::new(said)).await
}
