//! What members change about themselves.

use crate::accounts::model::{self, Settings};
use crate::accounts::pages::me::{self as page, MyForms, show_me};
use crate::accounts::passwords;
use crate::accounts::proof::{self, Proof};
use crate::accounts::store::{self, sessions};
use crate::accounts::throttle::Address;
use crate::app::App;
use crate::error::AppError;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::said::Said;
use crate::web::{once, session, words};
use axum::extract::State;
use axum::http::header::SET_COOKIE;
use axum::http::{HeaderMap, HeaderValue};
use axum::response::Response;

/// POST /me
pub async fn settings(
    State(app): State<App>,
    chrome: Chrome,
    headers: HeaderMap,
    mut form: Form,
) -> Result<Response, AppError> {
    let settings = Settings::parse(&mut form);
    if form.failed() {
        let forms = MyForms { settings: form, ..MyForms::new(&chrome) };
        return show_me(&app, &chrome, &headers, &forms).await;
    }
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "settings", &form).await? {
        return Ok(again);
    }
    let stands = store::lock(&mut conn, &chrome.member.id).await?;
    let stands = page::settings(&stands.name, &stands.measures);
    if form.meets(&stands, None, |_, value| Settings::words(value)) {
        drop(conn);
        let forms = MyForms { settings: form, ..MyForms::new(&chrome) };
        return show_me(&app, &chrome, &headers, &forms).await;
    }
    store::set_own(&mut conn, &chrome.member.id, &settings).await?;
    once::done(conn, &app, &form, "/me", Said::new("Saved.")).await
}

/// POST /me/letters
pub async fn letters(
    State(app): State<App>,
    chrome: Chrome,
    headers: HeaderMap,
    mut form: Form,
) -> Result<Response, AppError> {
    let letters = model::letters(&mut form);
    if !form.failed() {
        let mut conn = app.db.write().await?;
        if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "letters", &form).await? {
            return Ok(again);
        }
        let taken = store::take_letters(&mut conn, &chrome.member.id, &letters, app.now()).await;
        if form.take(taken)?.is_some() {
            let said = format!("{letters} is yours. New packets take these letters.");
            return once::done(conn, &app, &form, "/me", Said::new(said)).await;
        }
    }
    let forms = MyForms { letters: form, ..MyForms::new(&chrome) };
    show_me(&app, &chrome, &headers, &forms).await
}

/// POST /me/password
pub async fn password(
    State(app): State<App>,
    chrome: Chrome,
    address: Address,
    headers: HeaderMap,
    mut form: Form,
) -> Result<Response, AppError> {
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "password", &form).await? {
        return Ok(again);
    }
    // hashing is slow: let others write meanwhile, and claim the key again after it
    drop(conn);
    let hash = checked(&app, &chrome, &address, &mut form).await?;
    let Some(hash) = hash else {
        let forms = MyForms { password: form, ..MyForms::new(&chrome) };
        return show_me(&app, &chrome, &headers, &forms).await;
    };
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "password", &form).await? {
        return Ok(again);
    }
    store::set_password(&mut conn, &chrome.member.id, &hash).await?;
    if form.ticked("elsewhere") {
        store::shut_out(&mut conn, &chrome.member.id, app.now()).await?;
    } else if let Some(old) = session::token(&app, &headers) {
        sessions::close(&mut conn, &old).await?;
    }
    let token = session::open(&mut conn, &chrome.member.id, app.now()).await?;
    let mut response = once::done(conn, &app, &form, "/me", Said::new("The new password holds.")).await?;
    let cookie = HeaderValue::from_str(&session::set_cookie(&app, &token)).map_err(anyhow::Error::new)?;
    response.headers_mut().append(SET_COOKIE, cookie);
    Ok(response)
}

/// The hash of the new password, where it will do and the current one is right.
async fn checked(
    app: &App,
    chrome: &Chrome,
    address: &Address,
    form: &mut Form,
) -> Result<Option<String>, AppError> {
    let member = store::member(&mut app.db.read().await?, &chrome.member.id).await?;
    let names = [chrome.member.club.as_str(), &member.sign_in, &member.name];
    let new = passwords::new(form, "password", &names);
    if form.failed() {
        return Ok(None);
    }
    match proof::prove(app, &member.sign_in, form.value("current"), address).await? {
        Proof::Member(_) => Ok(Some(passwords::hashed(app, new).await?)),
        Proof::Wrong => {
            form.refuse("current", "This is not your current password.");
            Ok(None)
        }
        Proof::Wait(seconds) => {
            form.refuse("current", proof::wait_words(seconds));
            Ok(None)
        }
    }
}

/// POST /me/sessions: signs out everywhere else.
pub async fn sessions(
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
    let closed = sessions::close_others(&mut conn, &chrome.member.id, &own).await?;
    let places = words::counted(i64::try_from(closed).unwrap_or(0), "other place", "other places");
    once::done(conn, &app, &form, "/me", Said::new(format!("Signed out in {places}."))).await
}
