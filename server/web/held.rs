//! A save that the disk or the database does not take just now goes back as what it was: its own form, with what was
//! typed, under the same key, so that it can be sent again as soon as the trouble is over.

use super::forms::{Held, Sent, Typed, Upload, check_origin, is_multipart};
use super::{again, outbox, page, session, static_files};
use crate::app::App;
use crate::db::Trouble;
use crate::error::{AppError, RETRY_SECONDS, Told, words};
use askama::Template;
use axum::body::{Body, BodyDataStream, Bytes, to_bytes};
use axum::extract::{Request, State};
use axum::http::header::{CONTENT_LENGTH, CONTENT_TYPE, RETRY_AFTER};
use axum::http::request::Parts;
use axum::http::{HeaderValue, Method, StatusCode};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};
use futures_util::StreamExt;
use std::sync::Arc;
use tokio::sync::Mutex;

/// The most that is read of a form that nobody read before its save failed, in bytes; the larger where it holds files.
const MOST: usize = 256 * 1024;
const MOST_WITH_FILES: usize = 48 * 1024 * 1024;
/// The most that is looked through of a page drawn again.
const MOST_PAGE: usize = 16 * 1024 * 1024;

/// Gives forms back whose save failed for no fault of theirs (500, 503, 507), and says in words where time ran out.
pub async fn give_back(State(app): State<App>, request: Request, next: Next) -> Response {
    let for_programs =
        request.headers().contains_key(outbox::HEADER) || request.uri().path().starts_with("/api/");
    if request.method() != Method::POST || for_programs {
        return in_words(next.run(request).await);
    }
    let (mut parts, body) = request.into_parts();
    let typed = Typed::default();
    let body = match Lent::of(&parts, body).await {
        Ok(body) => body,
        Err(cut) => return cut.into_response(),
    };
    parts.extensions.insert(typed.clone());
    let response = in_words(next.clone().run(Request::from_parts(parts.clone(), body.lend())).await);
    if !failed(&response) {
        return response;
    }
    let Some(sent) = (match typed.sent() {
        Some(sent) => Some(sent),
        None => read(&app, &parts, &body).await,
    }) else {
        return response;
    };
    let trouble = response.extensions().get::<Trouble>().copied().filter(|trouble| *trouble != Trouble::Away);
    let redrawn = match trouble {
        Some(trouble) => drawn(parts.clone(), &sent, trouble, next).await,
        None => None,
    };
    redrawn.unwrap_or_else(|| plain(&parts, &sent, response))
}

fn failed(response: &Response) -> bool {
    let status = response.status();
    let not_now = [StatusCode::SERVICE_UNAVAILABLE, StatusCode::INSUFFICIENT_STORAGE];
    status == StatusCode::INTERNAL_SERVER_ERROR || not_now.contains(&status)
}

/// A request that took too long was given up without a word.
fn in_words(response: Response) -> Response {
    let told = response.extensions().get::<Told>().is_some() || response.headers().contains_key(CONTENT_TYPE);
    if told || response.status() != StatusCode::SERVICE_UNAVAILABLE {
        return response;
    }
    let (title, text) = words(Trouble::Busy);
    let mut page = page::error(StatusCode::SERVICE_UNAVAILABLE, title, text);
    page.headers_mut().insert(RETRY_AFTER, HeaderValue::from(RETRY_SECONDS));
    page.extensions_mut().insert(Told(text.to_owned()));
    page
}

/// What was sent, where the save failed before anybody read it; `None` where it did not come from our own page.
async fn read(app: &App, parts: &Parts, body: &Lent) -> Option<Sent> {
    let most = if is_multipart(&parts.headers) { MOST_WITH_FILES } else { MOST };
    let bytes: Bytes = to_bytes(body.lend(), most).await.ok()?;
    let Upload { form, files } = Upload::from_body(&parts.headers, bytes).await.ok()?;
    check_origin(&parts.headers, session::token(app, &parts.headers).as_deref(), form.value("csrf")).ok()?;
    Some(Sent { form, files: files.into_iter().map(|file| file.field).collect() })
}

/// The form's own page with what was typed, drawn by the form's own handler: it sees a form that cannot be saved, as
/// where a field is wrong. `None` where it answers otherwise; where it does save after all, that answer.
async fn drawn(mut parts: Parts, sent: &Sent, trouble: Trouble, next: Next) -> Option<Response> {
    let body = serde_html_form::to_string(sent.form.all().collect::<Vec<_>>()).ok()?;
    parts.headers.remove(CONTENT_LENGTH);
    parts.headers.insert(CONTENT_TYPE, HeaderValue::from_static("application/x-www-form-urlencoded"));
    parts.extensions.insert(Held { why: words(trouble).1, files: sent.files.clone() });
    let response = next.run(Request::from_parts(parts, Body::from(body))).await;
    if response.status().is_redirection() {
        return Some(response);
    }
    if response.status() != StatusCode::UNPROCESSABLE_ENTITY {
        return None;
    }
    let (mut parts, body) = response.into_parts();
    let bytes = to_bytes(body, MOST_PAGE).await.ok()?;
    parts.status = crate::error::status(trouble);
    parts.headers.insert(RETRY_AFTER, HeaderValue::from(RETRY_SECONDS));
    let says = bytes.windows(MARK.len()).any(|part| part == MARK);
    says.then(|| Response::from_parts(parts, Body::from(bytes)))
}

/// Stands in a page that says why its form is held (`_parts/field.html`).
const MARK: &[u8] = b"id=\"held\"";

#[derive(Template)]
#[template(path = "held.html")]
struct Page<'a> {
    css: &'a str,
    text: &'a str,
    address: &'a str,
    /// What was typed, for people.
    shown: Vec<(String, &'a str)>,
    /// What goes along unseen.
    hidden: Vec<(&'a str, &'a str)>,
    /// Fields that no page shows: typed again.
    secret: Vec<(&'a str, String)>,
    files: bool,
}

/// A page with nothing but what was typed, for when the form's own cannot be drawn.
fn plain(parts: &Parts, sent: &Sent, failed: Response) -> Response {
    let text = failed.extensions().get::<Told>().map_or_else(String::new, |told| told.0.clone());
    let is_secret = |name: &str| name == "current" || name.contains("password");
    let all: Vec<(&str, &str)> = sent.form.all().map(|(n, v)| (n.as_str(), v.as_str())).collect();
    let (secret, open): (Vec<_>, Vec<_>) = all.into_iter().partition(|(name, _)| is_secret(name));
    let page = Page {
        css: static_files::css(),
        text: &text,
        address: parts.uri.path_and_query().map_or("/", |address| address.as_str()),
        shown: open
            .iter()
            .filter(|(name, value)| for_people(name, value))
            .map(|(n, v)| (label(n), *v))
            .collect(),
        hidden: open,
        secret: secret.into_iter().map(|(name, _)| (name, label(name))).collect(),
        files: !sent.files.is_empty(),
    };
    let Ok(html) = page.render() else { return failed };
    let mut response = (failed.status(), axum::response::Html(html)).into_response();
    if let Some(after) = failed.headers().get(RETRY_AFTER) {
        response.headers_mut().insert(RETRY_AFTER, after.clone());
    }
    response
}

/// Whether somebody would know a field by its value: not what pages add for themselves, and no bare identity.
fn for_people(name: &str, value: &str) -> bool {
    let ours = ["csrf", "key", "at_by", "version", "next", "was"].contains(&name) || name.starts_with("seen");
    let identity = value.len() == 32 && value.bytes().all(|b| b.is_ascii_hexdigit());
    !ours && !identity && !value.trim().is_empty()
}

/// "there_were" as "There were".
fn label(name: &str) -> String {
    let words = name.replace('_', " ");
    let mut letters = words.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}

/// A body that several read, one after the other: a small one each from the start, another on from where the last one
/// stopped.
enum Lent {
    Whole(Bytes),
    Passing(Arc<Mutex<BodyDataStream>>),
}

impl Lent {
    async fn of(parts: &Parts, body: Body) -> Result<Self, AppError> {
        if again::is_small(parts, &body) {
            return Ok(Self::Whole(again::whole(body).await?));
        }
        Ok(Self::Passing(Arc::new(Mutex::new(body.into_data_stream()))))
    }

    fn lend(&self) -> Body {
        match self {
            Self::Whole(bytes) => Body::from(bytes.clone()),
            Self::Passing(rest) => {
                Body::from_stream(futures_util::stream::unfold(rest.clone(), |rest| async move {
                    let chunk = rest.lock().await.next().await?;
                    Some((chunk, rest))
                }))
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_what_was_typed_is_shown() {
        assert!(for_people("rooted", "3") && for_people("note", "two look weak"));
        for (name, value) in [("csrf", "x"), ("seen-0", "3"), ("note", " "), ("tray", &"0f".repeat(16))] {
            assert!(!for_people(name, value), "{name}");
        }
        assert_eq!(label("there_were"), "There were");
    }

    #[tokio::test]
    async fn a_body_can_be_read_by_another() {
        let parts = || ["a", "b", "c"].map(|text| Ok::<_, std::io::Error>(Bytes::from(text)));
        let stream = || Body::from_stream(futures_util::stream::iter(parts()));
        let told = Request::post("/").header(CONTENT_LENGTH, "3").body(()).unwrap().into_parts().0;
        let silent = Request::post("/").body(()).unwrap().into_parts().0;
        for (parts, both) in [(told, ["abc", "abc"]), (silent, ["a", "bc"])] {
            let lent = Lent::of(&parts, stream()).await.unwrap();
            let first = lent.lend().into_data_stream().next().await;
            assert_eq!(first.and_then(Result::ok), Some(Bytes::from(both[0])));
            assert_eq!(to_bytes(lent.lend(), 10).await.ok(), Some(Bytes::from(both[1])));
        }
    }
}
