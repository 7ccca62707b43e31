use crate::app::App;
use crate::error::AppError;
use crate::web::{log, session};
use askama::Template;
use axum::extract::State;
use axum::http::header::{ALLOW, CONTENT_TYPE};
use axum::http::{HeaderMap, Method, StatusCode, Uri};
use axum::response::{Html, IntoResponse, Redirect, Response};
use std::any::Any;

/// The page, with status 200.
pub fn page(template: &impl Template) -> Result<Response, AppError> {
    with(StatusCode::OK, template)
}

/// The same page with field errors, status 422. Drawn twice: its summary of errors names the fields that stand below it.
pub fn refused(template: &impl Template) -> Result<Response, AppError> {
    template.render().map_err(|e| AppError::Internal(e.into()))?;
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
    /// By which whoever hosts the club finds the fault in the log; empty where the fault is not ours.
    number: String,
    css: &'a str,
    /// Other places to go on to, each with its words.
    besides: &'a [(&'a str, &'a str)],
}

/// An error page with a way on.
pub fn error(status: StatusCode, title: &str, text: &str) -> Response {
    with_ways(status, title, text, &[])
}

/// The same where the data is damaged: other pages may still be read.
pub fn still_read(status: StatusCode, title: &str, text: &str) -> Response {
    with_ways(
        status,
        title,
        text,
        &[("/packets", t!("web-place-packets")), ("/trays", t!("web-place-trays"))],
    )
}

fn with_ways(status: StatusCode, title: &str, text: &str, besides: &[(&str, &str)]) -> Response {
    let number = log::number().filter(|_| status.is_server_error()).unwrap_or_default();
    let page = ErrorPage { title, text, number, css: super::static_files::css(), besides };
    match page.render() {
        Ok(html) => (status, Html(html)).into_response(),
        Err(_) => (status, text.to_owned()).into_response(),
    }
}

/// Marks an answer for programs, which keeps its own words.
#[derive(Debug, Clone)]
pub struct AsItIs;

/// An error that a library answered in its own words, or without any, gets ours.
pub async fn in_our_words(response: Response) -> Response {
    let status = response.status();
    let sort = response.headers().get(CONTENT_TYPE).and_then(|v| v.to_str().ok());
    let meant = response.extensions().get::<AsItIs>().is_some();
    let ours = meant || sort.is_some_and(|sort| !sort.starts_with("text/plain"));
    if ours || !(status.is_client_error() || status.is_server_error()) {
        return response;
    }
    let (title, text) = match status {
        StatusCode::NOT_FOUND => return AppError::NotFound.into_response(),
        StatusCode::SERVICE_UNAVAILABLE => (t!("web-too-long-title"), t!("web-too-long")),
        s if s.is_server_error() => (t!("web-wrong-title"), t!("web-wrong")),
        _ => (t!("web-not-through-title"), t!("web-not-through")),
    };
    let (mut parts, body) = error(status, title, text).into_parts();
    parts.headers.extend(response.headers().get(ALLOW).map(|allow| (ALLOW, allow.clone())));
    Response::from_parts(parts, body)
}

/// Nothing stands at this address; said as the member speaks who is signed in.
pub async fn not_found(State(app): State<App>, headers: HeaderMap) -> AppError {
    let _ = session::member(&app, &headers).await;
    AppError::NotFound
}

/// An address that only takes a sent form, opened by itself (a tab brought back): on to the page it belongs to.
pub async fn only_sent(State(app): State<App>, headers: HeaderMap, method: Method, uri: Uri) -> Response {
    if method != Method::GET && method != Method::HEAD {
        let _ = session::member(&app, &headers).await;
        return error(StatusCode::METHOD_NOT_ALLOWED, t!("web-not-through-title"), t!("web-not-taken"));
    }
    let parent = uri.path().trim_end_matches('/').rsplit_once('/').map_or("", |(parent, _)| parent);
    Redirect::to(if parent.is_empty() { "/" } else { parent }).into_response()
}

pub fn panicked(_: Box<dyn Any + Send + 'static>) -> Response {
    AppError::Internal(anyhow::anyhow!("a handler panicked")).into_response()
}
