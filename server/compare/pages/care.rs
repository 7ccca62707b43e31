use super::super::model::care::{Question, questions};
use super::super::read::Club;
use crate::app::App;
use crate::error::AppError;
use crate::web::chrome::Chrome;
use crate::web::page;
use askama::Template;
use axum::extract::{Query, State};
use axum::response::Response;

#[derive(Template)]
#[template(path = "compare/care.html")]
struct ShowCare<'a> {
    chrome: &'a Chrome,
    club: &'a Club,
    questions: Vec<Question>,
}

/// GET /table/care?at=close
pub async fn care(
    State(app): State<App>,
    chrome: Chrome,
    Query(query): Query<Vec<(String, String)>>,
) -> Result<Response, AppError> {
    let club = Club::read(&app, &chrome, &query).await?;
    let us = chrome.member.us();
    let questions = club.standing().map(|s| questions(s, &club.book, us)).unwrap_or_default();
    page::page(&ShowCare { chrome: &chrome, club: &club, questions })
}
