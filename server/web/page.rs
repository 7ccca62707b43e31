use crate::error::AppError;
use askama::Template;
use axum::http::{Method, StatusCode, Uri};
use axum::response::{Html, IntoResponse, Redirect, Response};
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

/// An address that only takes a sent form, opened by itself (a tab brought back): on to the page it belongs to.
pub async fn only_sent(method: Method, uri: Uri) -> Response {
    if method != Method::GET && method != Method::HEAD {
        return AppError::Bad("This address does not take that.").into_response();
    }
    let parent = uri.path().trim_end_matches('/').rsplit_once('/').map_or("", |(parent, _)| parent);
    Redirect::to(if parent.is_empty() { "/" } else { parent }).into_response()
}

pub fn panicked(_: Box<dyn Any + Send + 'static>) -> Response {
    AppError::Internal(anyhow::anyhow!("a handler panicked")).into_response()
}
