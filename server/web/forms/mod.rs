//! A form as it stands: what was typed, and what is wrong with which field.

mod guard;
mod labels;
mod meanwhile;
mod read;
mod upload;

use crate::app::App;
use crate::error::AppError;
use crate::web::session::Acting;
use axum::extract::{FromRequest, Request};
use axum::http::StatusCode;
use labels::Labels;
use std::sync::{Arc, Mutex, PoisonError};

/// Typed values and field errors; drawn again as it is when something is wrong.
#[derive(Debug, Clone, Default)]
pub struct Form {
    pairs: Vec<(String, String)>,
    errors: Vec<(String, String)>,
    abouts: Vec<(String, String)>,
    labels: Labels,
    key: String,
    faults: Faults,
    held: Option<Held>,
}

/// In the extensions of a request: why the form in it cannot be saved just now, and which fields held a file. The
/// form is drawn again with that.
#[derive(Debug, Clone)]
pub struct Held {
    pub why: &'static str,
    pub files: Vec<String>,
}

/// What was sent from a page of ours.
#[derive(Debug, Clone)]
pub struct Sent {
    pub form: Form,
    /// The fields that held a file.
    pub files: Vec<String>,
}

/// In the extensions of a request: what was read from it, for when it has to go back.
#[derive(Debug, Clone, Default)]
pub struct Typed(Arc<Mutex<Option<Sent>>>);

impl Typed {
    /// What was sent, where it was read.
    pub fn sent(&self) -> Option<Sent> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner).clone()
    }

    fn keep(&self, form: &Form, files: &[File]) {
        let files = files.iter().map(|file| file.field.clone()).collect();
        *self.0.lock().unwrap_or_else(PoisonError::into_inner) = Some(Sent { form: form.clone(), files });
    }
}

/// The errors of a form, for those who answer without drawing it.
#[derive(Debug, Clone, Default)]
pub struct Faults(Arc<Mutex<Vec<(String, String)>>>);

impl Faults {
    /// Each field with its error, in the order found.
    pub fn said(&self) -> Vec<(String, String)> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner).clone()
    }

    fn note(&self, name: &str, message: &str) {
        let mut all = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        all.push((name.to_owned(), message.to_owned()));
    }

    fn about(&self, name: &str, thing: &str) {
        let mut all = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        for (_, message) in all.iter_mut().filter(|(n, _)| n == name) {
            message.insert_str(0, thing);
        }
    }
}

impl Form {
    /// A form to be drawn for the first time, with a new entry key.
    pub fn new() -> Self {
        Self { key: uuid::Uuid::new_v4().simple().to_string(), ..Self::default() }
    }

    /// Fields read from pairs such as a query string; made anew, without an entry key of its own.
    pub fn from_pairs(pairs: Vec<(String, String)>) -> Self {
        let pairs: Vec<_> =
            pairs.into_iter().map(|(name, value)| (keepable(name), keepable(value))).collect();
        let key = pairs.iter().find(|(n, _)| n == "key").map(|(_, v)| v.clone()).unwrap_or_default();
        Self { pairs, key, ..Self::default() }
    }

    /// Fields read from the body of a sent form.
    pub fn from_body(body: &[u8]) -> Result<Self, AppError> {
        let pairs = serde_html_form::from_bytes(body).map_err(|_| unreadable())?;
        Ok(Self::from_pairs(pairs))
    }

    /// Whether the phone, not the member, gave the moment: its clock, corrected.
    pub fn at_by_phone(&self) -> bool {
        self.value("at_by") == "phone"
    }

    /// Presets field `name`.
    pub fn with(mut self, name: &str, value: impl ToString) -> Self {
        self.pairs.push((name.to_owned(), value.to_string()));
        self
    }

    /// The key that makes this save happen once.
    pub fn key(&self) -> &str {
        &self.key
    }

    /// What stands in field `name`; empty where nothing does. Where it came twice, the first counts.
    pub fn value(&self, name: &str) -> &str {
        self.pairs.iter().find(|(n, _)| n == name).map_or("", |(_, v)| v)
    }

    /// Everything that came under `name`.
    pub fn values(&self, name: &str) -> Vec<&str> {
        self.pairs.iter().filter(|(n, _)| n == name).map(|(_, v)| v.as_str()).collect()
    }

    /// Whether `value` is chosen in field `name`.
    pub fn has(&self, name: &str, value: &str) -> bool {
        self.pairs.iter().any(|(n, v)| n == name && v == value)
    }

    /// The error of field `name`; empty where there is none.
    pub fn error(&self, name: &str) -> &str {
        self.errors.iter().find(|(n, _)| n == name).map_or("", |(_, e)| e)
    }

    /// Every error with its field, in the order found.
    pub fn errors(&self) -> &[(String, String)] {
        &self.errors
    }

    /// Says what field `name` is about, for errors that are read apart from their field.
    pub fn about(&mut self, name: &str, thing: &str) {
        let thing = format!("{thing}: ");
        self.faults.about(name, &thing);
        self.abouts.push((name.to_owned(), thing));
    }

    /// What field `name` is about: as [`Form::about`] said, and its label, once it was drawn; empty where neither.
    pub fn thing(&self, name: &str) -> String {
        let said = self.abouts.iter().find(|(n, _)| n == name).map_or("", |(_, thing)| thing);
        format!("{said}{}", self.labels.before_an_error(name))
    }

    /// Notes the label that field `name` is drawn with; draws nothing. The summary of errors stands before the fields, so
    /// that a page with errors is drawn twice.
    pub fn labelled(&self, name: &str, label: impl std::fmt::Display) -> &'static str {
        if !self.error(name).is_empty() {
            self.labels.note(name, &label);
        }
        ""
    }

    /// Whether anything is wrong.
    pub fn failed(&self) -> bool {
        !self.errors.is_empty() || self.held.is_some()
    }

    /// Why it cannot be saved just now, though nothing is wrong with it; empty where it can.
    pub fn held(&self) -> &str {
        self.held.as_ref().map_or("", |held| held.why)
    }

    /// Notes an error of field `name`; the first one of a field stays.
    pub fn refuse(&mut self, name: &str, message: impl Into<String>) {
        if self.error(name).is_empty() {
            let message = message.into();
            self.faults.note(name, &message);
            self.errors.push((name.to_owned(), message));
        }
    }

    /// The result, or `None` with the broken rule noted on the form; other errors pass on.
    pub fn take<T>(&mut self, result: Result<T, AppError>) -> Result<Option<T>, AppError> {
        match result {
            Ok(value) => Ok(Some(value)),
            Err(AppError::Refused { field, message }) => {
                self.refuse(field, message);
                Ok(None)
            }
            Err(other) => Err(other),
        }
    }

    /// All pairs as they came.
    pub fn all(&self) -> impl Iterator<Item = &(String, String)> {
        self.pairs.iter()
    }

    /// The pairs as they came, but for the keys; the same for the same content.
    pub fn pairs(&self) -> impl Iterator<Item = &(String, String)> {
        self.pairs.iter().filter(|(n, _)| n != "key" && n != "csrf")
    }
}

/// The text with another sign that cannot be printed, and is refused as such, for the one that no database can hold.
fn keepable(text: String) -> String {
    if text.contains('\0') { text.replace('\0', "\u{1}") } else { text }
}

fn unreadable() -> AppError {
    AppError::Bad(t!("web-unreadable"))
}

/// Why a body was not read to its end, by the status that the library gives for it.
fn cut(status: StatusCode, words: &'static str) -> AppError {
    if status == StatusCode::PAYLOAD_TOO_LARGE { AppError::TooLarge(words) } else { AppError::Bad(words) }
}

impl FromRequest<App> for Form {
    type Rejection = AppError;

    async fn from_request(request: Request, app: &App) -> Result<Self, AppError> {
        let (headers, token) =
            (request.headers().clone(), crate::web::session::token(app, request.headers()));
        let faults = request.extensions().get::<Faults>().cloned().unwrap_or_default();
        let held = request.extensions().get::<Held>().cloned();
        let typed = request.extensions().get::<Typed>().cloned().unwrap_or_default();
        let ours = request.extensions().get::<Acting>().is_some();
        let body = axum::body::Bytes::from_request(request, app)
            .await
            .map_err(|e| cut(e.status(), t!("web-form-cut")))?;
        let mut form = Self { faults, held, ..Self::from_body(&body)? };
        if !ours {
            guard::check(&headers, token.as_deref(), form.value("csrf"))?;
        }
        typed.keep(&form, &[]);
        for field in form.held.iter().flat_map(|held| held.files.clone()).collect::<Vec<_>>() {
            form.refuse(&field, t!("web-file-again"));
        }
        Ok(form)
    }
}

pub use guard::check as check_origin;
pub use upload::{File, Upload, is_multipart};
