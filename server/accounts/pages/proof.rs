use crate::accounts::store::{self, MemberRow};
use crate::app::App;
use crate::error::AppError;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::page;
use askama::Template;
use axum::extract::{Query, State};
use axum::response::Response;

#[derive(Template)]
#[template(path = "accounts/proof.html")]
struct ProofPage<'a> {
    chrome: &'a Chrome,
    member: &'a MemberRow,
    form: &'a Form,
}

/// GET /me/proof
pub async fn show(
    State(app): State<App>,
    chrome: Chrome,
    Query(query): Query<Vec<(String, String)>>,
) -> Result<Response, AppError> {
    let next = query.into_iter().find(|(n, _)| n == "next").map(|(_, v)| v).unwrap_or_default();
    show_proof(&app, &chrome, &Form::new().with("next", next)).await
}

pub async fn show_proof(app: &App, chrome: &Chrome, form: &Form) -> Result<Response, AppError> {
    let member = store::member(&mut app.db.read().await?, &chrome.member.id).await?;
    let shown = ProofPage { chrome, member: &member, form };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}
