//! One error type for stores and handlers, and how it looks to people.

use crate::db::Trouble;
use crate::web::page;
use axum::http::header::RETRY_AFTER;
use axum::http::{HeaderValue, StatusCode};
use axum::response::{IntoResponse, Redirect, Response};

/// What can keep a request from being done.
#[derive(Debug, thiserror::Error)]
pub enum AppError {
    /// No such thing, or not this member's.
    #[error("not found")]
    NotFound,
    /// Signed in, but not allowed.
    #[error("forbidden: {0}")]
    Forbidden(&'static str),
    /// Nobody is signed in; after signing in, go on to this path. Whether something was sent with it.
    #[error("sign in first")]
    SignIn { next: String, sent: bool },
    /// They came by a password, and may do nothing but come by a passkey or add their first one.
    #[error("a passkey is asked for")]
    Passkey,
    /// A rule was broken: which field, and what to do, in plain words.
    #[error("{field}: {message}")]
    Refused { field: &'static str, message: String },
    /// It was changed already, by somebody else or by the same member.
    #[error("conflict: {0}")]
    Conflict(String),
    /// The request itself is not of the form's making.
    #[error("bad request: {0}")]
    Bad(&'static str),
    /// More was sent than this address takes.
    #[error("too large: {0}")]
    TooLarge(&'static str),
    /// Too many tries.
    #[error("too many: {0}")]
    TooMany(&'static str),
    /// Detail for the log, never for the page.
    #[error(transparent)]
    Internal(#[from] anyhow::Error),
}

/// What an error page tells, carried beside the page for those who do not read HTML.
#[derive(Debug, Clone)]
pub struct Told(pub String);

impl AppError {
    /// A broken rule of `field`.
    pub fn refused(field: &'static str, message: impl Into<String>) -> Self {
        Self::Refused { field, message: message.into() }
    }

    fn status(&self) -> StatusCode {
        match self {
            Self::NotFound => StatusCode::NOT_FOUND,
            Self::Forbidden(_) => StatusCode::FORBIDDEN,
            Self::SignIn { .. } | Self::Passkey => StatusCode::SEE_OTHER,
            Self::Refused { .. } => StatusCode::UNPROCESSABLE_ENTITY,
            Self::Conflict(_) => StatusCode::CONFLICT,
            Self::Bad(_) => StatusCode::BAD_REQUEST,
            Self::TooLarge(_) => StatusCode::PAYLOAD_TOO_LARGE,
            Self::TooMany(_) => StatusCode::TOO_MANY_REQUESTS,
            Self::Internal(_) => self.trouble().map_or(StatusCode::INTERNAL_SERVER_ERROR, status),
        }
    }

    /// What is wrong with the place where the book is kept, where that is what stood in the way.
    pub fn trouble(&self) -> Option<Trouble> {
        if let Self::Internal(cause) = self { Trouble::behind(cause) } else { None }
    }

    fn words(&self) -> (String, String) {
        let (title, text) = match self {
            Self::NotFound => (t!("web-not-here-title"), t!("web-not-here")),
            Self::Forbidden(why) => (t!("web-not-allowed-title"), *why),
            Self::Refused { message, .. } => return (t!("web-refused-title").into(), message.clone()),
            Self::Conflict(message) => return (t!("web-changed-title").into(), message.clone()),
            Self::Bad(why) => (t!("web-not-through-title"), *why),
            Self::TooLarge(why) => (t!("web-too-large-title"), *why),
            Self::TooMany(why) => (t!("web-too-many-title"), *why),
            Self::SignIn { .. } | Self::Passkey | Self::Internal(_) => {
                self.trouble().map_or_else(|| (t!("web-wrong-title"), t!("web-wrong-typed")), words)
            }
        };
        (title.to_owned(), text.to_owned())
    }
}

/// Seconds after which it is worth trying again.
pub const RETRY_SECONDS: u16 = 30;

/// What it is answered with.
pub fn status(trouble: Trouble) -> StatusCode {
    match trouble {
        Trouble::Full => StatusCode::INSUFFICIENT_STORAGE,
        Trouble::Disk | Trouble::Damaged | Trouble::Away | Trouble::Busy | Trouble::Contended => {
            StatusCode::SERVICE_UNAVAILABLE
        }
    }
}

/// The trouble for growers: what it is, who mends it, and that saving again is safe.
pub fn words(trouble: Trouble) -> (&'static str, &'static str) {
    match trouble {
        Trouble::Full => (t!("web-full-title"), t!("web-full")),
        Trouble::Disk => (t!("web-disk-title"), t!("web-disk")),
        Trouble::Damaged => (t!("web-damaged-title"), t!("web-damaged")),
        Trouble::Contended => (t!("web-contended-title"), t!("web-contended")),
        Trouble::Away | Trouble::Busy => (t!("web-away-title"), t!("web-away")),
    }
}

/// What a phone says of a count that the trouble leaves on it; `None` where waiting is all there is to do.
pub fn on_phone(trouble: Trouble) -> Option<&'static str> {
    match trouble {
        Trouble::Full => Some(t!("web-phone-full")),
        Trouble::Disk => Some(t!("web-phone-disk")),
        Trouble::Damaged => Some(t!("web-phone-damaged")),
        Trouble::Contended | Trouble::Away | Trouble::Busy => None,
    }
}

impl From<sqlx::Error> for AppError {
    fn from(error: sqlx::Error) -> Self {
        Self::Internal(error.into())
    }
}

impl IntoResponse for AppError {
    fn into_response(self) -> Response {
        match &self {
            Self::SignIn { next, sent } => {
                return Redirect::to(&crate::accounts::sign_in_path(next, *sent)).into_response();
            }
            Self::Passkey => return Redirect::to(crate::accounts::PASSKEYS).into_response(),
            Self::Internal(cause) => tracing::error!(cause = format!("{cause:#}"), "request failed"),
            _ => {}
        }
        let trouble = self.trouble();
        let (title, text) = self.words();
        let mut response = if trouble == Some(Trouble::Damaged) {
            page::still_read(self.status(), &title, &text)
        } else {
            page::error(self.status(), &title, &text)
        };
        response.extensions_mut().insert(Told(text));
        if let Some(trouble) = trouble {
            response.headers_mut().insert(RETRY_AFTER, HeaderValue::from(RETRY_SECONDS));
            response.extensions_mut().insert(trouble);
        }
        response
    }
}

/// Turns a broken unique rule into a broken rule of `field`; other errors stay what they are.
pub fn taken<T>(result: Result<T, sqlx::Error>, field: &'static str, message: &str) -> Result<T, AppError> {
    result.map_err(|e| if crate::db::is_taken(&e) { AppError::refused(field, message) } else { e.into() })
}
