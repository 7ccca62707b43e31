use super::Listed;
use crate::accounts::model::NewToken;
use crate::accounts::store::tokens::{self, TokenRow};
use crate::app::App;
use crate::error::AppError;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::{page, words};
use askama::Template;
use axum::extract::State;
use axum::response::Response;

#[derive(Template)]
#[template(path = "accounts/tokens.html")]
struct Tokens<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    lines: Vec<Listed>,
    may: [(&'static str, &'static str); 2],
    lasts: [(&'static str, &'static str); 4],
}

/// GET /me/tokens
pub async fn show(State(app): State<App>, chrome: Chrome) -> Result<Response, AppError> {
    let form = Form::new().with("may", NewToken::may()[0].0).with("lasts", NewToken::lasts()[2].0);
    show_tokens(&app, &chrome, &form).await
}

pub async fn show_tokens(app: &App, chrome: &Chrome, form: &Form) -> Result<Response, AppError> {
    let all = tokens::of(&mut app.db.read().await?, &chrome.member.id, chrome.now).await?;
    let lines = all.into_iter().map(|t| line(t, chrome)).collect();
    let (may, lasts) = (NewToken::may(), NewToken::lasts());
    let shown = Tokens { chrome, form, lines, may, lasts };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

fn line(t: TokenRow, chrome: &Chrome) -> Listed {
    let zone = chrome.member.zone();
    let day = |at: crate::db::ids::At| words::day(at.day(zone), chrome.now.day(zone));
    let may =
        if t.may == "record" { t!("accounts-token-reads-and-records") } else { t!("accounts-token-reads") };
    let used = t.used_at.map_or_else(
        || t!("accounts-not-used-yet").to_owned(),
        |at| t!("accounts-token-used", day = day(at)),
    );
    let until = t.expires_at.map_or_else(
        || t!("accounts-token-works-until-ended").to_owned(),
        |at| t!("accounts-token-ends", day = day(at)),
    );
    let made = day(t.made_at);
    Listed {
        path: format!("/me/tokens/{}/end", t.id),
        words: t!("accounts-token-line", may = may, made = made, used = used, until = until),
        name: t.name,
        button: t!("accounts-end-token"),
        end: Form::new(),
    }
}

#[derive(Template)]
#[template(path = "accounts/token.html")]
struct Token<'a> {
    chrome: &'a Chrome,
    name: &'a str,
    secret: &'a str,
    base: &'a str,
}

/// A new token, shown this once.
pub fn show_token(app: &App, chrome: &Chrome, new: &NewToken, secret: &str) -> Result<Response, AppError> {
    page::page(&Token { chrome, name: &new.name, secret, base: &app.config.base() })
}
