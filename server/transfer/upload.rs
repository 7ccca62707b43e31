use crate::app::App;
use crate::error::AppError;
use crate::web::forms::{self, Form};
use axum::extract::{FromRequest, Request};

/// A form that may carry a list as a file; its text stands under its field like anything typed.
pub struct Upload(pub Form);

impl FromRequest<App> for Upload {
    type Rejection = AppError;

    async fn from_request(request: Request, app: &App) -> Result<Self, AppError> {
        let forms::Upload { mut form, files } = forms::Upload::from_request(request, app).await?;
        for file in files {
            match String::from_utf8(file.bytes) {
                Ok(text) => form = form.with(&file.field, text),
                Err(_) => form.refuse(
                    &file.field,
                    "This file is not UTF-8 text. Save it as \"CSV UTF-8\" and try again.",
                ),
            }
        }
        Ok(Self(form))
    }
}
