//! The help pages: for everybody, since they hold nothing of the club.

use super::render::Page;
use super::text;
use crate::error::AppError;
use crate::web::chrome::Chrome;
use crate::web::{page, static_files};
use askama::Template;
use axum::extract::Path;
use axum::response::Response;

#[derive(Template)]
#[template(path = "manual/page.html")]
struct Inside<'a> {
    chrome: &'a Chrome,
    page: &'a Page,
    next: Option<&'a Page>,
}

#[derive(Template)]
#[template(path = "manual/outside.html")]
struct Outside<'a> {
    css: &'a str,
    page: &'a Page,
    next: Option<&'a Page>,
}

/// GET /help
pub async fn contents(chrome: Result<Chrome, AppError>) -> Result<Response, AppError> {
    draw(chrome, text::FIRST)
}

/// GET /help/{page}
pub async fn show(chrome: Result<Chrome, AppError>, Path(name): Path<String>) -> Result<Response, AppError> {
    draw(chrome, &name)
}

fn draw(chrome: Result<Chrome, AppError>, name: &str) -> Result<Response, AppError> {
    let (page, next) = text::page(name).ok_or(AppError::NotFound)?;
    match chrome {
        Ok(chrome) => page::page(&Inside { chrome: &chrome, page, next }),
        Err(_) => page::page(&Outside { css: static_files::css(), page, next }),
    }
}
