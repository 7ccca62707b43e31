//! What members change about themselves.

use super::enter;
use crate::accounts::model::{self, Settings};
use crate::accounts::pages::me::{self as page, MyForms, show_me};
use crate::accounts::passwords;
use crate::accounts::proof::{self, Asker, Proof};
use crate::accounts::store;
use crate::app::App;
use crate::audit::{self, Deed, What};
use crate::error::AppError;
use crate::texts;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::once;
use crate::web::said::Said;
use axum::extract::State;
use axum::http::HeaderMap;
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
    let stands = page::settings(&stands.name, &stands.measures, &stands.language);
    if form.meets(&stands, None, |_, value| Settings::words(value)) {
        drop(conn);
        let forms = MyForms { settings: form, ..MyForms::new(&chrome) };
        return show_me(&app, &chrome, &headers, &forms).await;
    }
    store::set_own(&mut conn, &chrome.member.id, &settings).await?;
    audit::note(&mut conn, Deed::by(What::SettingsChanged, &chrome.member.id), app.now()).await?;
    texts::speak_to(settings.language, &headers);
    once::done(conn, &app, &form, "/me", Said::new(t!("accounts-saved"))).await
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
            audit::note(&mut conn, Deed::by(What::LettersTaken, &chrome.member.id), app.now()).await?;
            let said = t!("accounts-letters-are-yours", letters = letters);
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
    asker: Asker,
    headers: HeaderMap,
    mut form: Form,
) -> Result<Response, AppError> {
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "password", &form).await? {
        return Ok(again);
    }
    // hashing is slow: let others write meanwhile, and claim the key again after it
    drop(conn);
    let hash = checked(&app, &chrome, &asker, &mut form).await?;
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
    }
    audit::note(&mut conn, Deed::by(What::PasswordChanged, &chrome.member.id), app.now()).await?;
    let whose = (&chrome.member.id, chrome.member.by_passkey);
    let cookies = enter::change_session(&app, &mut conn, &(headers, asker), whose).await?;
    let said = Said::new(t!("accounts-new-password-holds"));
    let mut response = once::done(conn, &app, &form, "/me", said).await?;
    enter::add(&mut response, &cookies)?;
    Ok(response)
}

/// The hash of the new password, where it will do and the current one is right.
async fn checked(
    app: &App,
    chrome: &Chrome,
    asker: &Asker,
    form: &mut Form,
) -> Result<Option<String>, AppError> {
    let member = store::member(&mut app.db.read().await?, &chrome.member.id).await?;
    let names = [chrome.member.club.as_str(), &member.sign_in, &member.name];
    let new = passwords::new(form, "password", &names);
    if form.failed() {
        return Ok(None);
    }
    match proof::prove(app, &member.sign_in, form.value("current"), asker).await? {
        Proof::Member(_) => Ok(Some(passwords::hashed(app, new).await?)),
        Proof::Wrong => {
            form.refuse("current", t!("accounts-not-your-current-password"));
            Ok(None)
        }
        Proof::Wait(seconds) => {
            form.refuse("current", proof::wait_words(seconds));
            Ok(None)
        }
    }
}
