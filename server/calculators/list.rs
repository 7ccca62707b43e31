use crate::error::AppError;
use crate::web::chrome::Chrome;
use crate::web::page;
use askama::Template;
use axum::response::Response;

#[derive(Template)]
#[template(path = "calculators/list.html")]
struct List<'a> {
    chrome: &'a Chrome,
}

/// GET /calculators
pub async fn list(chrome: Chrome) -> Result<Response, AppError> {
    page::page(&List { chrome: &chrome })
}
