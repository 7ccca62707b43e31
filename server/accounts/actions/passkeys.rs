//! Passkeys: asked for, added, removed, signed in with.

use super::enter::{self, enter};
use crate::accounts::PASSKEYS as PAGE;
use crate::accounts::pages::{outside, passkeys as pages};
use crate::accounts::passkeys::{self, Ask};
use crate::accounts::proof::{self, Asker};
use crate::accounts::store::passkeys as store;
use crate::accounts::store::sessions;
use crate::accounts::{model, store as members};
use crate::app::App;
use crate::audit::{self, Deed, What};
use crate::db::Conn;
use crate::db::ids::{MemberId, PasskeyId};
use crate::error::AppError;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::said::Said;
use crate::web::{once, session};
use axum::extract::{Path, State};
use axum::http::HeaderMap;
use axum::response::{IntoResponse, Response};
use serde_json::json;

/// Binds what was asked to the browser that was asked.
const COOKIE: &str = "hilum-asked";

/// What the browser is to sign, as JSON, and the cookie by which its answer is known.
async fn ask(app: &App, ask: &Ask, member: Option<&MemberId>) -> Result<Response, AppError> {
    let mut conn = app.db.write().await?;
    let secret = store::ask(&mut conn, member, &ask.document, app.now()).await?;
    conn.commit().await?;
    let mut response = axum::Json(&ask.options).into_response();
    let cookie = session::bake(app, COOKIE, &secret, passkeys::ASK_MINUTES * 60);
    enter::add(&mut response, &[cookie])?;
    Ok(response)
}

/// Refuses an organiser who came by a password alone, where one of the passkeys they have is what lets them in.
async fn must_use_theirs(app: &App, conn: &mut Conn, chrome: &Chrome) -> Result<(), AppError> {
    if chrome.member.lacks_passkey(&app.config) && !store::of(conn, &chrome.member.id).await?.is_empty() {
        return Err(AppError::Forbidden(t!("accounts-sign-in-by-yours")));
    }
    Ok(())
}

/// POST /me/passkeys/ask
pub async fn ask_new(State(app): State<App>, chrome: Chrome, _form: Form) -> Result<Response, AppError> {
    if !chrome.member.proved_within(proof::ACCOUNT_MINUTES, chrome.now) {
        return Ok(axum::Json(json!({ "go": proof::path(PAGE) })).into_response());
    }
    let mut conn = app.db.read().await?;
    must_use_theirs(&app, &mut conn, &chrome).await?;
    let member = members::member(&mut conn, &chrome.member.id).await?;
    let had: Vec<String> =
        store::of(&mut conn, &member.id).await?.into_iter().map(|p| p.credential).collect();
    drop(conn);
    let whose = (&member.id, member.sign_in.as_str(), member.name.as_str());
    let asked = passkeys::ask_new(&app.config, &chrome.member.club, whose, &had)?;
    ask(&app, &asked, Some(&member.id)).await
}

/// POST /me/passkeys
pub async fn add(
    State(app): State<App>,
    chrome: Chrome,
    headers: HeaderMap,
    mut form: Form,
) -> Result<Response, AppError> {
    if let Some(first) = proof::wanted(&app, &chrome, proof::ACCOUNT_MINUTES, PAGE) {
        return Ok(first);
    }
    let name = form.must_text("name", 80);
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "passkey", &form).await? {
        return Ok(again);
    }
    must_use_theirs(&app, &mut conn, &chrome).await?;
    let secret = session::cookie(&app, &headers, COOKIE).unwrap_or_default();
    let asked = store::answered(&mut conn, &secret, app.now()).await?;
    let asked = asked.filter(|a| a.member_id.as_ref() == Some(&chrome.member.id));
    let passkey = match asked {
        Some(asked) => passkeys::read_new(&app.config, &asked.document, form.value("answer"))?,
        None => None,
    };
    let Some(passkey) = passkey else {
        drop(conn);
        form.refuse("name", t!("accounts-passkey-did-not-fit"));
        return pages::show_passkeys(&app, &chrome, &form).await;
    };
    if !form.failed() {
        let added = store::add(&mut conn, &chrome.member.id, &name, &passkey, app.now()).await;
        if form.take(added)?.is_some() {
            audit::note(&mut conn, Deed::by(What::PasskeyAdded, &chrome.member.id), app.now()).await?;
            if let Some(token) = session::token(&app, &headers) {
                sessions::by_passkey(&mut conn, &token).await?;
            }
            let said = Said::new(t!("accounts-passkey-added"));
            return once::done(conn, &app, &form, PAGE, said).await;
        }
    }
    drop(conn);
    pages::show_passkeys(&app, &chrome, &form).await
}

/// POST /me/passkeys/{id}/remove
pub async fn remove(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<PasskeyId>,
    form: Form,
) -> Result<Response, AppError> {
    if let Some(first) = proof::wanted(&app, &chrome, proof::ACCOUNT_MINUTES, PAGE) {
        return Ok(first);
    }
    let mut conn = app.db.write().await?;
    let action = format!("remove passkey {id}");
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, &action, &form).await? {
        return Ok(again);
    }
    let last = store::number(&mut conn, &chrome.member.id).await? == 1;
    if last && chrome.member.asked_for_passkey(&app.config) {
        drop(conn);
        let mut form = Form::new();
        form.refuse("name", t!("accounts-last-passkey-stays"));
        return pages::show_passkeys(&app, &chrome, &form).await;
    }
    store::remove(&mut conn, &chrome.member.id, &id).await?;
    audit::note(&mut conn, Deed::by(What::PasskeyRemoved, &chrome.member.id), app.now()).await?;
    once::done(conn, &app, &form, PAGE, Said::new(t!("accounts-passkey-removed"))).await
}

/// POST /sign-in/passkey/ask
pub async fn ask_any(State(app): State<App>, asker: Asker, _form: Form) -> Result<Response, AppError> {
    let club = members::club_name(&mut app.db.read().await?).await?;
    let asked = passkeys::ask_any(&app.config, &club)?;
    let from = format!("passkey {}", asker.address.0);
    if app.throttle.begin(&from, &from, app.now()).is_err() {
        return Err(AppError::TooMany(t!("accounts-passkeys-asked-too-often")));
    }
    ask(&app, &asked, None).await
}

/// POST /sign-in/passkey
pub async fn sign_in(
    State(app): State<App>,
    asker: Asker,
    headers: HeaderMap,
    mut form: Form,
) -> Result<Response, AppError> {
    let mut conn = app.db.write().await?;
    let secret = session::cookie(&app, &headers, COOKIE).unwrap_or_default();
    let asked = store::answered(&mut conn, &secret, app.now()).await?.filter(|a| a.member_id.is_none());
    let claim = passkeys::claim(form.value("answer"));
    if let (Some(asked), Some(claim)) = (asked, claim)
        && let Some((id, passkey)) = store::find(&mut conn, &claim.credential, &claim.member).await?
    {
        if let Some(passkey) = passkeys::verify(&app.config, &asked.document, &claim, passkey)? {
            store::used(&mut conn, &id, &passkey, app.now()).await?;
            let from = format!("passkey {}", asker.address.0);
            app.throttle.succeeded(&from, &from);
            let next = model::safe_next(form.value("next"));
            return enter(&app, conn, &(headers, asker), &claim.member, "passkey", next).await;
        }
        let deed = Deed::host(What::SignInFailed).about(&claim.member).more("passkey");
        audit::note(&mut conn, deed, app.now()).await?;
    }
    conn.commit().await?;
    tracing::warn!(address = asker.address.0, method = "passkey", "a sign-in failed");
    form.refuse("sign_in", t!("accounts-passkey-did-not-fit"));
    outside::show_sign_in(&app, &form).await
}
