//! What went wrong, as `application/problem+json` (RFC 9457).

use crate::db::Trouble;
use crate::error::{AppError, RETRY_SECONDS, words};
use axum::Json;
use axum::http::header::{ALLOW, CONTENT_TYPE, RETRY_AFTER, WWW_AUTHENTICATE};
use axum::http::{HeaderName, HeaderValue, StatusCode};
use axum::response::{IntoResponse, Response};
use schemars::JsonSchema;
use serde::Serialize;
use std::any::Any;

pub const MEDIA: &str = "application/problem+json";

/// A sort of problem; its name is the end of its `type`, which leads to /api.
#[derive(Debug)]
pub struct Kind {
    pub name: &'static str,
    pub title: &'static str,
    pub status: u16,
    pub about: &'static str,
}

/// Every sort of problem.
pub mod kinds {
    use super::Kind;

    const fn kind(name: &'static str, status: u16, title: &'static str, about: &'static str) -> Kind {
        Kind { name, title, status, about }
    }

    pub const BAD: Kind = kind(
        "not-understood",
        400,
        "Not understood",
        "The request could not be read. Its JSON may be cut off.",
    );
    pub const TOKEN: Kind = kind(
        "no-good-token",
        401,
        "No good token",
        "Send a token that has not ended, as the header Authorization: Bearer. Members make tokens on their page of \
         settings.",
    );
    pub const READ_ONLY: Kind = kind(
        "read-only-token",
        403,
        "The token only reads",
        "This token may not record. Make another that may.",
    );
    pub const FORBIDDEN: Kind =
        kind("not-allowed", 403, "Not allowed", "The member of this token may not do this.");
    pub const NOT_FOUND: Kind =
        kind("not-found", 404, "Not here", "There is no such thing, or it is not this member's.");
    pub const METHOD: Kind =
        kind("wrong-method", 405, "Not by this method", "See the header Allow for what this address takes.");
    pub const ACCEPT: Kind = kind(
        "only-json",
        406,
        "Only JSON",
        "Answers are JSON. Accept application/json, or leave the header out.",
    );
    pub const CONFLICT: Kind = kind(
        "id-taken",
        409,
        "The id was used before",
        "Something else was saved under this id, and that stands. Make a new id for each new save.",
    );
    pub const LARGE: Kind =
        kind("too-large", 413, "Too large", "The body is larger than any save needs to be.");
    pub const NOT_JSON: Kind =
        kind("not-json", 415, "Not JSON", "Send the body as JSON, with Content-Type: application/json.");
    pub const REFUSED: Kind = kind(
        "refused",
        422,
        "That cannot be saved",
        "Nothing was saved. Each of the errors says where it is and what to do.",
    );
    pub const MANY: Kind =
        kind("too-many", 429, "Too many tries", "Wait for as many seconds as Retry-After says.");
    pub const FAILED: Kind = kind(
        "failed",
        500,
        "Something went wrong",
        "The fault is on this side. Send the same again later: with the same id it counts once.",
    );
    pub const BUSY: Kind =
        kind("busy", 503, "Not now", "Send the same again later: with the same id it counts once.");

    pub const FULL: Kind = kind(
        "disk-full",
        507,
        "The disk is full",
        "The disk of the club's computer is full. Send the same again later: with the same id it counts once.",
    );

    pub const ALL: [&Kind; 15] = [
        &BAD, &TOKEN, &READ_ONLY, &FORBIDDEN, &NOT_FOUND, &METHOD, &ACCEPT, &CONFLICT, &LARGE, &NOT_JSON,
        &REFUSED, &MANY, &FAILED, &BUSY, &FULL,
    ];
}

/// What went wrong.
#[derive(Debug)]
pub struct Problem {
    kind: &'static Kind,
    detail: String,
    errors: Vec<Fault>,
    header: Option<Box<(HeaderName, String)>>,
}

/// What went wrong (RFC 9457).
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Problem")]
pub struct Told<'p> {
    /// The sort of problem: an address that explains it.
    #[serde(rename = "type")]
    kind: String,
    title: &'p str,
    /// The status of the answer.
    status: u16,
    /// What to do about it.
    detail: &'p str,
    /// Where in what was sent, and what is wrong there.
    #[serde(skip_serializing_if = "<[Fault]>::is_empty")]
    errors: &'p [Fault],
}

/// One fault of what was sent.
#[derive(Debug, Serialize, JsonSchema)]
pub struct Fault {
    /// Where in the body (a JSON pointer); empty for the whole.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pointer: Option<String>,
    /// Which name in the query.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub parameter: Option<String>,
    pub detail: String,
}

impl Problem {
    pub fn new(kind: &'static Kind, detail: impl Into<String>) -> Self {
        Self { kind, detail: detail.into(), errors: Vec::new(), header: None }
    }

    /// The problem as it is told.
    pub fn told(&self) -> Told<'_> {
        let Kind { name, title, status, .. } = *self.kind;
        Told { kind: format!("/api#{name}"), title, status, detail: &self.detail, errors: &self.errors }
    }

    /// A problem that is said as its sort is explained.
    pub fn of(kind: &'static Kind) -> Self {
        Self::new(kind, kind.about)
    }

    /// Refuses what was sent in the body.
    pub fn refused(pointer: impl Into<String>, detail: impl Into<String>) -> Self {
        let fault = Fault { pointer: Some(pointer.into()), parameter: None, detail: detail.into() };
        Self { errors: vec![fault], ..Self::of(&kinds::REFUSED) }
    }

    /// Refuses a name in the query.
    pub fn query(name: &str, detail: impl Into<String>) -> Self {
        let fault = Fault { pointer: None, parameter: Some(name.to_owned()), detail: detail.into() };
        let about = "The address asks for something that there is not. The errors say what.";
        Self { errors: vec![fault], ..Self::new(&kinds::REFUSED, about) }
    }

    pub fn errors(mut self, errors: Vec<Fault>) -> Self {
        self.errors = errors;
        self
    }

    /// Says by which header a client may get on (RFC 6750, section 3).
    pub fn challenge(mut self, more: &str) -> Self {
        self.header = Some(Box::new((WWW_AUTHENTICATE, format!("Bearer realm=\"hilum\"{more}"))));
        self
    }

    fn later(trouble: Trouble) -> Self {
        let kind = if trouble == Trouble::Full { &kinds::FULL } else { &kinds::BUSY };
        Self::new(kind, words(trouble).1).after_seconds(RETRY_SECONDS.into())
    }

    pub fn after_seconds(mut self, seconds: i64) -> Self {
        self.header = Some(Box::new((RETRY_AFTER, seconds.to_string())));
        self
    }
}

impl From<AppError> for Problem {
    fn from(error: AppError) -> Self {
        match error {
            AppError::NotFound => Self::of(&kinds::NOT_FOUND),
            AppError::Forbidden(why) => Self::new(&kinds::FORBIDDEN, why),
            AppError::SignIn { .. } | AppError::Passkey => Self::of(&kinds::TOKEN).challenge(""),
            AppError::Refused { message, .. } => Self::refused("", message),
            AppError::Conflict(_) => Self::of(&kinds::CONFLICT),
            AppError::Bad(_) => Self::of(&kinds::BAD),
            AppError::TooLarge(_) => Self::of(&kinds::LARGE),
            AppError::TooMany(why) => Self::new(&kinds::MANY, why),
            AppError::Internal(cause) => {
                tracing::error!(cause = format!("{cause:#}"), "request failed");
                Trouble::behind(&cause).map_or_else(|| Self::of(&kinds::FAILED), Self::later)
            }
        }
    }
}

impl IntoResponse for Problem {
    fn into_response(self) -> Response {
        let status = StatusCode::from_u16(self.kind.status).unwrap_or(StatusCode::INTERNAL_SERVER_ERROR);
        let mut response = (status, Json(self.told())).into_response();
        let headers = response.headers_mut();
        headers.insert(CONTENT_TYPE, HeaderValue::from_static(MEDIA));
        if let Some((name, value)) = self.header.map(|h| *h) {
            headers.extend(HeaderValue::from_str(&value).map(|value| (name, value)));
        }
        response
    }
}

pub fn panicked(_: Box<dyn Any + Send + 'static>) -> Response {
    Problem::of(&kinds::FAILED).into_response()
}

/// An error that something below answered in its own way becomes a problem of its status.
pub async fn only(response: Response) -> Response {
    let status = response.status();
    let told = response.headers().get(CONTENT_TYPE).is_some_and(|t| t == MEDIA);
    if told || !(status.is_client_error() || status.is_server_error()) {
        return response;
    }
    let kind = kinds::ALL.into_iter().find(|k| k.status == status.as_u16());
    let trouble = response.extensions().get::<Trouble>().copied();
    let problem = trouble.map_or_else(|| Problem::of(kind.unwrap_or(&kinds::FAILED)), Problem::later);
    let mut problem = problem.into_response();
    for name in [ALLOW, RETRY_AFTER] {
        if let Some(value) = response.headers().get(&name) {
            problem.headers_mut().insert(name, value.clone());
        }
    }
    problem
}
