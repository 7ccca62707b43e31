use super::Listed;
use crate::accounts::passkeys;
use crate::accounts::proof;
use crate::accounts::store::passkeys::{self as store, PasskeyRow};
use crate::app::App;
use crate::error::AppError;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::{page, static_files, words};
use askama::Template;
use axum::extract::State;
use axum::response::Response;

#[derive(Template)]
#[template(path = "accounts/passkeys.html")]
struct Passkeys<'a> {
    chrome: &'a Chrome,
    script: &'a str,
    form: &'a Form,
    lines: Vec<Listed>,
    possible: bool,
    /// Whether a passkey is what lets them in.
    asked: bool,
    /// Whether nothing else opens for them before they come by a passkey.
    lacking: bool,
    base: String,
    proved: bool,
    proof: String,
}

/// GET /me/passkeys
pub async fn show(State(app): State<App>, chrome: Chrome) -> Result<Response, AppError> {
    show_passkeys(&app, &chrome, &Form::new()).await
}

pub async fn show_passkeys(app: &App, chrome: &Chrome, form: &Form) -> Result<Response, AppError> {
    let all = store::of(&mut app.db.read().await?, &chrome.member.id).await?;
    let shown = Passkeys {
        chrome,
        script: static_files::passkeys_js(),
        form,
        lines: all.into_iter().map(|p| line(p, chrome)).collect(),
        asked: chrome.member.asked_for_passkey(&app.config),
        lacking: chrome.member.lacks_passkey(&app.config),
        possible: passkeys::possible(&app.config),
        base: app.config.base(),
        proved: chrome.member.proved_within(proof::ACCOUNT_MINUTES, chrome.now),
        proof: proof::path("/me/passkeys"),
    };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

fn line(passkey: PasskeyRow, chrome: &Chrome) -> Listed {
    let (zone, now) = (chrome.member.zone(), chrome.now);
    let used = passkey.used_at.map_or_else(
        || t!("accounts-not-used-yet").to_owned(),
        |at| t!("accounts-last-used", moment = words::moment(at, now, zone)),
    );
    let added = words::day(passkey.made_at.day(zone), now.day(zone));
    Listed {
        path: format!("/me/passkeys/{}/remove", passkey.id),
        words: t!("accounts-passkey-line", day = added, used = used),
        name: passkey.name,
        button: t!("accounts-remove-passkey"),
        end: Form::new(),
    }
}
