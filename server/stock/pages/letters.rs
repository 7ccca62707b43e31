use crate::app::App;
use crate::error::AppError;
use crate::marks::{self, Letters};
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::page;
use askama::Template;
use axum::extract::State;
use axum::response::Response;

#[derive(Template)]
#[template(path = "stock/letters.html")]
struct Show<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    letters: Vec<Letters>,
}

/// GET /packets/letters
pub async fn show(State(app): State<App>, chrome: Chrome) -> Result<Response, AppError> {
    draw(&app, &chrome, &Form::new()).await
}

pub async fn draw(app: &App, chrome: &Chrome, form: &Form) -> Result<Response, AppError> {
    let letters = marks::letters(&mut app.db.read().await?, &chrome.member.id).await?;
    let shown = Show { chrome, form, letters };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}
