use crate::error::AppError;
use askama::Template;
use axum::http::StatusCode;
use axum::response::{Html, IntoResponse, Response};
use std::any::Any;

/// The page, with status 200.
pub fn page(template: &impl Template) -> Result<Response, AppError> {
    with(StatusCode::OK, template)
}

/// The same page with field errors, status 422.
pub fn refused(template: &impl Template) -> Result<Response, AppError> {
    with(StatusCode::UNPROCESSABLE_ENTITY, template)
}

fn with(status: StatusCode, template: &impl Template) -> Result<Response, AppError> {
    let html = template.render().map_err(|e| AppError::Internal(e.into()))?;
    Ok((status, Html(html)).into_response())
}

#[derive(Template)]
#[template(path = "error.html")]
struct ErrorPage<'a> {
    title: &'a str,
    text: &'a str,
    css: &'a str,
}

/// An error page with a way on.
pub fn error(status: StatusCode, title: &str, text: &str) -> Response {
    let page = ErrorPage { title, text, css: super::static_files::css() };
    match page.render() {
        Ok(html) => (status, Html(html)).into_response(),
        Err(_) => (status, text.to_owned()).into_response(),
    }
}

pub async fn not_found() -> AppError {
    AppError::NotFound
}

pub fn panicked(_: Box<dyn Any + Send + 'static>) -> Response {
    AppError::Internal(anyhow::anyhow!("a handler panicked")).into_response()
}
