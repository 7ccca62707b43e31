use crate::accounts::proof;
use crate::error::AppError;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::page;
use askama::Template;
use axum::response::Response;

/// Where it stands.
pub const PAGE: &str = "/me/data";

#[derive(Template)]
#[template(path = "own/data.html")]
struct Data<'a> {
    chrome: &'a Chrome,
    save: &'a Form,
    erase: &'a Form,
    proved: bool,
    proof: String,
}

/// GET /me/data
pub async fn show(chrome: Chrome) -> Result<Response, AppError> {
    show_data(&chrome, &Form::new())
}

pub fn show_data(chrome: &Chrome, erase: &Form) -> Result<Response, AppError> {
    let proved = chrome.member.proved_within(proof::ACCOUNT_MINUTES, chrome.now);
    let shown = Data { chrome, save: &Form::new(), erase, proved, proof: proof::path(PAGE) };
    if erase.failed() { page::refused(&shown) } else { page::page(&shown) }
}
