//! What the last save said, carried over one redirect in a short-lived cookie.

use crate::app::App;
use crate::web::{outbox, session};
use axum::extract::{FromRequestParts, Request};
use axum::http::header::SET_COOKIE;
use axum::http::request::Parts;
use axum::http::{HeaderMap, HeaderValue};
use axum::response::{IntoResponse, Redirect, Response};
use data_encoding::BASE64URL_NOPAD;
use serde::{Deserialize, Serialize};
use std::convert::Infallible;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

const COOKIE: &str = "hilum-said";
const SECONDS: i64 = 20;

/// A message, the save it can undo, and the next useful thing.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
pub struct Said {
    pub text: String,
    /// Key of the save that the 10 second undo takes back.
    pub undo: Option<String>,
    /// Address and words of the next useful thing.
    pub next: Option<(String, String)>,
}

impl Said {
    pub fn new(text: impl Into<String>) -> Self {
        Self { text: text.into(), ..Self::default() }
    }

    pub fn undo(mut self, key: &str) -> Self {
        self.undo = Some(key.to_owned());
        self
    }

    pub fn next(mut self, address: impl Into<String>, words: impl Into<String>) -> Self {
        self.next = Some((address.into(), words.into()));
        self
    }

    /// 303 to `location`, where the message will be shown.
    pub fn go(&self, app: &App, location: &str) -> Response {
        let json = serde_json::to_vec(self).unwrap_or_default();
        let cookie = session::bake(app, COOKIE, &BASE64URL_NOPAD.encode(&json), SECONDS);
        let mut response = ([(SET_COOKIE, cookie)], Redirect::to(location)).into_response();
        response.extensions_mut().insert(self.clone());
        response
    }
}

/// Marks requests whose answer nobody reads now: pages fetched to be kept on the phone.
const UNREAD: &str = "hilum-keep";

fn is_read(headers: &HeaderMap) -> bool {
    !headers.contains_key(UNREAD) && !headers.contains_key(outbox::HEADER)
}

/// Whether the page that answers a request took the message. What a page loads beside itself (the worker, styles) shows
/// no message and must not end one.
#[derive(Debug, Clone, Default)]
pub struct Taken(Arc<AtomicBool>);

impl Taken {
    pub fn was_taken(&self) -> bool {
        self.0.load(Ordering::Relaxed)
    }
}

/// Lets a request tell later whether its message was taken.
pub fn watched(request: &mut Request) -> Taken {
    let taken = Taken::default();
    request.extensions_mut().insert(taken.clone());
    taken
}

/// The `Set-Cookie` value that ends the message once it was shown.
pub fn forget(app: &App) -> HeaderValue {
    HeaderValue::from_str(&session::bake(app, COOKIE, "", 0)).expect("a cookie of ours is a header value")
}

/// The message that came along, once.
pub struct LastSaid(pub Option<Said>);

impl FromRequestParts<App> for LastSaid {
    type Rejection = Infallible;

    async fn from_request_parts(parts: &mut Parts, app: &App) -> Result<Self, Infallible> {
        let raw =
            session::cookie(app, &parts.headers, COOKIE).filter(|v| !v.is_empty() && is_read(&parts.headers));
        let bytes = raw.and_then(|v| BASE64URL_NOPAD.decode(v.as_bytes()).ok());
        let said: Option<Said> = bytes.and_then(|b| serde_json::from_slice(&b).ok());
        if let (Some(_), Some(taken)) = (&said, parts.extensions.get::<Taken>()) {
            taken.0.store(true, Ordering::Relaxed);
        }
        Ok(Self(said))
    }
}
