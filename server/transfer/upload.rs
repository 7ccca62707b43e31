use crate::app::App;
use crate::error::AppError;
use crate::web::forms::{Form, check_origin};
use crate::web::session;
use axum::extract::{FromRequest, Multipart, Request};
use axum::http::header::CONTENT_TYPE;

const CUT: AppError = AppError::Bad("The list was too large (10 MiB at most) or was cut off on its way.");

/// A form that may carry a file; the file's text stands under its field like anything typed.
pub struct Upload(pub Form);

impl FromRequest<App> for Upload {
    type Rejection = AppError;

    async fn from_request(request: Request, app: &App) -> Result<Self, AppError> {
        let kind = request.headers().get(CONTENT_TYPE).and_then(|v| v.to_str().ok()).unwrap_or_default();
        if !kind.starts_with("multipart/form-data") {
            return Form::from_request(request, app).await.map(Self);
        }
        let (headers, token) = (request.headers().clone(), session::token(app, request.headers()));
        let parts = Multipart::from_request(request, app).await;
        let form = read(parts.map_err(|_| CUT)?).await?;
        check_origin(&headers, token.as_deref(), form.value("csrf"))?;
        Ok(Self(form))
    }
}

async fn read(mut parts: Multipart) -> Result<Form, AppError> {
    let mut pairs = Vec::new();
    let mut refused = None;
    while let Some(part) = parts.next_field().await.map_err(|_| CUT)? {
        let name = part.name().unwrap_or_default().to_owned();
        let bytes = part.bytes().await.map_err(|_| CUT)?;
        match String::from_utf8(bytes.to_vec()) {
            Ok(text) => pairs.push((name, text)),
            Err(_) => refused = Some(name),
        }
    }
    let mut form = Form::from_pairs(pairs);
    if let Some(name) = refused {
        form.refuse(&name, "This file is not UTF-8 text. Save it as \"CSV UTF-8\" and try again.");
    }
    Ok(form)
}
