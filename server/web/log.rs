//! What is written down of requests: what was asked by whom from where, and how it ended; never what was typed.

use crate::web::address::Address;
use crate::web::session::Member;
use axum::extract::{MatchedPath, Request};
use axum::http::{HeaderName, HeaderValue, Method, StatusCode};
use axum::middleware::Next;
use axum::response::Response;
use std::future::Future;
use tracing::field::Empty;
use tracing::{Instrument, Level, Span, Subscriber};
use tracing_subscriber::EnvFilter;
use tracing_subscriber::fmt::MakeWriter;

/// Carries the request's number to whoever reads the answer's headers.
const HEADER: HeaderName = HeaderName::from_static("hilum-request");
/// Digits of the number: enough to find its lines, few enough to read out.
const DIGITS: usize = 12;

tokio::task_local! {
    static NUMBER: String;
}

/// The number of the request that is being answered; error pages show it and every line of its log has it.
pub fn number() -> Option<String> {
    NUMBER.try_with(Clone::clone).ok()
}

/// Lines of time (UTC, RFC 3339), level, request, words and result, without colours.
pub fn lines<W>(filter: EnvFilter, to: W) -> impl Subscriber + Send + Sync + 'static
where
    W: for<'w> MakeWriter<'w> + Send + Sync + 'static,
{
    tracing_subscriber::fmt().with_env_filter(filter).with_writer(to).with_ansi(false).finish()
}

/// Notes on the request's lines who asks.
pub fn asks(member: &Member) {
    Span::current().record("member", member.id.0.as_str());
}

/// Gives each request a number and writes down how it ended. Names the route's pattern, not the address: that may hold
/// a secret.
pub async fn keep(Address(from): Address, request: Request, next: Next) -> Response {
    let number: String = uuid::Uuid::new_v4().simple().to_string().chars().take(DIGITS).collect();
    let route = request.extensions().get::<MatchedPath>().map_or("", MatchedPath::as_str).to_owned();
    let method = request.method().clone();
    let span = tracing::info_span!("request", number, %method, route, from, member = Empty);
    let mut response = numbered(number.clone(), next.run(request)).instrument(span.clone()).await;
    span.in_scope(|| write_down(&method, response.status()));
    if let Ok(number) = HeaderValue::from_str(&number) {
        response.headers_mut().insert(HEADER, number);
    }
    response
}

async fn numbered(number: String, answer: impl Future<Output = Response>) -> Response {
    NUMBER.scope(number, answer).await
}

fn write_down(method: &Method, status: StatusCode) {
    let result = status.as_u16();
    let (level, words) = outcome(method, result);
    match level {
        Level::ERROR => fault(result, words),
        Level::WARN => warning(result, words),
        Level::INFO => news(result, words),
        _ => tracing::debug!(result, "{words}"),
    }
}

fn fault(result: u16, words: &str) {
    tracing::error!(result, "{words}");
}

fn warning(result: u16, words: &str) {
    tracing::warn!(result, "{words}");
}

fn news(result: u16, words: &str) {
    tracing::info!(result, "{words}");
}

fn outcome(method: &Method, result: u16) -> (Level, &'static str) {
    match result {
        429 => (Level::WARN, "held back"),
        400 | 401 | 403 | 404 | 405 | 413 | 415 => (Level::WARN, "refused"),
        500.. => (Level::ERROR, "failed"),
        _ if method.is_safe() => (Level::DEBUG, "shown"),
        _ => (Level::INFO, "answered"),
    }
}
