//! What is written down of requests: what was asked by whom from where, and how it ended; never what was typed.

use crate::app::App;
use crate::config::LogFormat;
use crate::web::address::Address;
use crate::web::session::Member;
use axum::extract::{MatchedPath, Request, State};
use axum::http::header::HOST;
use axum::http::{HeaderMap, HeaderName, HeaderValue, Method, StatusCode, Uri};
use axum::middleware::Next;
use axum::response::Response;
use std::future::Future;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Instant;
use tracing::field::Empty;
use tracing::{Instrument, Level, Span, Subscriber};
use tracing_subscriber::Registry;
use tracing_subscriber::filter::Targets;
use tracing_subscriber::fmt::{self, MakeWriter};
use tracing_subscriber::layer::SubscriberExt;

/// Carries the request's number to whoever reads the answer's headers.
const HEADER: HeaderName = HeaderName::from_static("hilum-request");
/// Digits of the number: enough to find its lines, few enough to read out.
const DIGITS: usize = 12;

tokio::task_local! {
    static ASKED: Arc<Asked>;
}

/// What is noted of a request while it is answered.
#[derive(Debug, Default)]
struct Asked {
    number: String,
    by_member: AtomicBool,
    saved: AtomicBool,
    repeated: AtomicBool,
}

/// The number of the request that is being answered; error pages show it and every line of its log has it.
pub fn number() -> Option<String> {
    ASKED.try_with(|asked| asked.number.clone()).ok()
}

/// Lines of time (UTC, RFC 3339), level, request, words and result, without colours; as JSON, an object in each.
pub fn lines<W>(filter: Targets, format: LogFormat, to: W) -> Box<dyn Subscriber + Send + Sync>
where
    W: for<'w> MakeWriter<'w> + Send + Sync + 'static,
{
    let all = Registry::default().with(filter);
    let lines = fmt::layer().with_writer(to).with_ansi(false);
    match format {
        LogFormat::Text => Box::new(all.with(lines)),
        LogFormat::Json => Box::new(all.with(lines.json().flatten_event(true).with_span_list(false))),
    }
}

/// Notes that a form was saved, once its save is in the database.
pub fn saved() {
    note(|asked| &asked.saved);
}

/// Notes that a form came again that had been saved before.
pub fn repeated() {
    note(|asked| &asked.repeated);
}

/// Outside of a request there is nothing to note it on.
fn note(what: impl Fn(&Asked) -> &AtomicBool) {
    let _ = ASKED.try_with(|asked| what(asked).store(true, Ordering::Relaxed));
}

/// Notes on the request's lines who asks.
pub fn asks(member: &Member) {
    Span::current().record("member", member.id.0.as_str());
    note(|asked| &asked.by_member);
}

/// Gives each request a number and writes down how it ended. Names the route's pattern, not the address: that may hold
/// a secret.
pub async fn keep(State(app): State<App>, Address(from): Address, request: Request, next: Next) -> Response {
    let began = Instant::now();
    let number: String = uuid::Uuid::new_v4().simple().to_string().chars().take(DIGITS).collect();
    let route = request.extensions().get::<MatchedPath>().map_or("", MatchedPath::as_str).to_owned();
    let method = request.method().clone();
    let span = tracing::info_span!("request", number, %method, route, from, member = Empty);
    let elsewhere = !is_ours(&app.config.base(), request.headers());
    let asked = Arc::new(Asked { number: number.clone(), ..Asked::default() });
    let mut response = noted(asked.clone(), next.run(request)).instrument(span.clone()).await;
    span.in_scope(|| write_down(&method, response.status()));
    app.metrics.answered(&route, &method, response.status(), began.elapsed());
    count(&app, &asked, &route, elsewhere);
    if let Ok(number) = HeaderValue::from_str(&number) {
        response.headers_mut().insert(HEADER, number);
    }
    response
}

async fn noted(asked: Arc<Asked>, answer: impl Future<Output = Response>) -> Response {
    ASKED.scope(asked, answer).await
}

fn count(app: &App, asked: &Asked, route: &str, elsewhere: bool) {
    if asked.saved.load(Ordering::Relaxed) {
        app.metrics.saved(route);
    }
    if asked.repeated.load(Ordering::Relaxed) {
        app.metrics.repeated();
    }
    if elsewhere && asked.by_member.load(Ordering::Relaxed) {
        app.metrics.came_elsewhere();
    }
}

/// Whether a request was sent to the address that is in links and codes; where it does not say, it counts as ours.
fn is_ours(base: &str, headers: &HeaderMap) -> bool {
    let host = headers.get(HOST).and_then(|v| v.to_str().ok());
    let ours = base.parse::<Uri>().ok().and_then(|uri| uri.authority().map(|a| a.as_str().to_owned()));
    match (host, ours) {
        (Some(host), Some(ours)) => host.eq_ignore_ascii_case(&ours),
        _ => true,
    }
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_address_of_links_is_told_from_others() {
        let sent = |host: &str| HeaderMap::from_iter([(HOST, host.parse().unwrap())]);
        assert!(is_ours("https://hilum.example.org", &sent("Hilum.example.org")));
        assert!(is_ours("http://127.0.0.1:8420", &sent("127.0.0.1:8420")));
        assert!(!is_ours("http://127.0.0.1:8420", &sent("hilum.example.org")));
        assert!(!is_ours("https://hilum.example.org", &sent("192.168.1.20:8420")));
        assert!(is_ours("https://hilum.example.org", &HeaderMap::new()));
    }
}
