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
            Self::SignIn { .. } => StatusCode::SEE_OTHER,
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
            Self::NotFound => ("Not here", "There is no such page, or it is not yours to open."),
            Self::Forbidden(why) => ("Not allowed", *why),
            Self::Refused { message, .. } => return ("That cannot be saved".into(), message.clone()),
            Self::Conflict(message) => return ("Changed already".into(), message.clone()),
            Self::Bad(why) => ("That did not come through", *why),
            Self::TooLarge(why) => ("That is too large", *why),
            Self::TooMany(why) => ("Too many tries", *why),
            Self::SignIn { .. } | Self::Internal(_) => self.trouble().map_or(WENT_WRONG, words),
        };
        (title.to_owned(), text.to_owned())
    }
}

/// Seconds after which it is worth trying again.
pub const RETRY_SECONDS: u16 = 30;

const WENT_WRONG: (&str, &str) =
    ("Something went wrong", "Nothing was saved. Go back and try again; what you typed is still there.");

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
        Trouble::Full => (
            "The disk is full",
            "There is no room left on the disk of the club's computer. Tell whoever looks after it. Once there is \
             room, save again: it counts once.",
        ),
        Trouble::Disk => (
            "The disk gives errors",
            "The disk of the club's computer did not take this. Tell whoever looks after it. Save again later: it \
             counts once.",
        ),
        Trouble::Damaged => (
            "The club's data is damaged",
            "Nothing is saved any more, so that it does not get worse. Tell whoever looks after the club's computer \
             to restore the last backup. Keep your counts on paper or on your phone until then.",
        ),
        Trouble::Contended => (
            "Too many at once",
            "Others are saving at the same moment. Nothing was saved. Save again in a moment: it counts once.",
        ),
        Trouble::Away | Trouble::Busy => (
            "The club's data cannot be reached just now",
            "Wait a moment and try again. Saving the same again is safe: it counts once.",
        ),
    }
}

/// What a phone says of a count that the trouble leaves on it; `None` where waiting is all there is to do.
pub fn on_phone(trouble: Trouble) -> Option<&'static str> {
    match trouble {
        Trouble::Full => Some(
            "The disk of the club's computer is full: tell whoever looks after it. The count stays on this phone and \
             is sent once there is room.",
        ),
        Trouble::Disk => Some(
            "The disk of the club's computer gives errors: tell whoever looks after it. The count stays on this phone \
             and is sent once the disk is well.",
        ),
        Trouble::Damaged => Some(
            "The data on the club's computer is damaged, so nothing is saved there: tell whoever looks after it. The \
             count stays on this phone and is sent once the last backup is restored.",
        ),
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
