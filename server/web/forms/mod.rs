//! A form as it stands: what was typed, and what is wrong with which field.

mod guard;
mod read;
mod upload;

use crate::app::App;
use crate::error::AppError;
use axum::extract::{FromRequest, Request};

/// Typed values and field errors; drawn again as it is when something is wrong.
#[derive(Debug, Clone, Default)]
pub struct Form {
    pairs: Vec<(String, String)>,
    errors: Vec<(String, String)>,
    abouts: Vec<(String, String)>,
    key: String,
}

impl Form {
    /// A form to be drawn for the first time, with a new entry key.
    pub fn new() -> Self {
        Self { key: uuid::Uuid::new_v4().simple().to_string(), ..Self::default() }
    }

    /// Fields read from pairs such as a query string; made anew, without an entry key of its own.
    pub fn from_pairs(pairs: Vec<(String, String)>) -> Self {
        let key = pairs.iter().find(|(n, _)| n == "key").map(|(_, v)| v.clone()).unwrap_or_default();
        Self { pairs, key, ..Self::default() }
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

    /// What stands in field `name`; empty where nothing does.
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
        self.abouts.push((name.to_owned(), format!("{thing}: ")));
    }

    /// What [`Form::about`] said of the field; empty where nothing.
    pub fn thing(&self, name: &str) -> &str {
        self.abouts.iter().find(|(n, _)| n == name).map_or("", |(_, thing)| thing)
    }

    /// Whether anything is wrong.
    pub fn failed(&self) -> bool {
        !self.errors.is_empty()
    }

    /// Notes an error of field `name`; the first one of a field stays.
    pub fn refuse(&mut self, name: &str, message: impl Into<String>) {
        if self.error(name).is_empty() {
            self.errors.push((name.to_owned(), message.into()));
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

    /// The pairs as they came, but for the keys; the same for the same content.
    pub fn pairs(&self) -> impl Iterator<Item = &(String, String)> {
        self.pairs.iter().filter(|(n, _)| n != "key" && n != "csrf")
    }
}

impl FromRequest<App> for Form {
    type Rejection = AppError;

    async fn from_request(request: Request, app: &App) -> Result<Self, AppError> {
        let (headers, token) =
            (request.headers().clone(), crate::web::session::token(app, request.headers()));
        let body = axum::body::Bytes::from_request(request, app)
            .await
            .map_err(|_| AppError::Bad("The form was too large or was cut off on its way."))?;
        let pairs: Vec<(String, String)> =
            serde_html_form::from_bytes(&body).map_err(|_| AppError::Bad("The form could not be read."))?;
        let form = Self::from_pairs(pairs);
        guard::check(&headers, token.as_deref(), form.value("csrf"))?;
        Ok(form)
    }
}

pub use guard::check as check_origin;
pub use upload::{File, Upload};
