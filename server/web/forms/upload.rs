use super::{Faults, Form, Typed, check_origin, cut, unreadable};
use crate::app::App;
use crate::error::AppError;
use crate::web::session;
use axum::body::{Body, Bytes};
use axum::extract::multipart::{Field, Multipart, MultipartError};
use axum::extract::{FromRequest, Request};
use axum::http::HeaderMap;
use axum::http::header::CONTENT_TYPE;
use data_encoding::HEXLOWER;
use sha2::{Digest, Sha256};

fn cut_off(error: &MultipartError) -> AppError {
    cut(error.status(), t!("web-file-cut"))
}

/// The most that is kept of one file, in bytes.
const MOST: usize = 12 * 1024 * 1024;

/// A form that may carry files; one without files may come as any other form.
pub struct Upload {
    pub form: Form,
    /// Those that were chosen: a field without a name and without content is no file.
    pub files: Vec<File>,
}

/// A file as it came.
pub struct File {
    pub field: String,
    /// What it is called where it came from; may be empty.
    pub name: String,
    pub bytes: Vec<u8>,
    /// Whether it was longer than is kept.
    pub cut: bool,
}

impl File {
    /// The same for the same content.
    pub fn digest(&self) -> String {
        HEXLOWER.encode(&Sha256::digest(&self.bytes))
    }
}

impl Upload {
    /// What a body of this type holds, whoever sent it.
    pub async fn from_body(headers: &HeaderMap, body: Bytes) -> Result<Self, AppError> {
        if !is_multipart(headers) {
            return Ok(Self { form: Form::from_body(&body)?, files: Vec::new() });
        }
        let mut request = Request::new(Body::from(body));
        *request.headers_mut() = headers.clone();
        read(Multipart::from_request(request, &()).await.map_err(|_| unreadable())?).await
    }

    /// The files beside a form that names them by their digests: the same form with another file is another form.
    pub fn sealed(self) -> (Form, Vec<File>) {
        let form = self.files.iter().fold(self.form, |form, f| form.with(&f.field, f.digest()));
        (form, self.files)
    }
}

/// Whether a request with these headers may carry files.
pub fn is_multipart(headers: &HeaderMap) -> bool {
    let kind = headers.get(CONTENT_TYPE).and_then(|v| v.to_str().ok());
    kind.is_some_and(|kind| kind.starts_with("multipart/form-data"))
}

impl FromRequest<App> for Upload {
    type Rejection = AppError;

    async fn from_request(request: Request, app: &App) -> Result<Self, AppError> {
        if !is_multipart(request.headers()) {
            let form = Form::from_request(request, app).await?;
            return Ok(Self { form, files: Vec::new() });
        }
        let (headers, token) = (request.headers().clone(), session::token(app, request.headers()));
        let faults = request.extensions().get::<Faults>().cloned().unwrap_or_default();
        let typed = request.extensions().get::<Typed>().cloned().unwrap_or_default();
        let parts = Multipart::from_request(request, app).await.map_err(|_| unreadable())?;
        let mut upload = read(parts).await?;
        upload.form.faults = faults;
        check_origin(&headers, token.as_deref(), upload.form.value("csrf"))?;
        typed.keep(&upload.form, &upload.files);
        Ok(upload)
    }
}

async fn read(mut parts: Multipart) -> Result<Upload, AppError> {
    let (mut pairs, mut files) = (Vec::new(), Vec::new());
    while let Some(part) = parts.next_field().await.map_err(|e| cut_off(&e))? {
        let name = part.name().unwrap_or_default().to_owned();
        if part.file_name().is_some() {
            files.push(file(name, part).await?);
        } else {
            let bytes = part.bytes().await.map_err(|e| cut_off(&e))?;
            pairs.push((name, String::from_utf8(bytes.to_vec()).map_err(|_| unreadable())?));
        }
    }
    files.retain(|f: &File| f.cut || !f.bytes.is_empty() || !f.name.is_empty());
    Ok(Upload { form: Form::from_pairs(pairs), files })
}

/// Reads a file to its end, so that a browser hears the answer, and keeps no more than [`MOST`] of it.
async fn file(field: String, mut part: Field<'_>) -> Result<File, AppError> {
    let name = part.file_name().unwrap_or_default().to_owned();
    let mut file = File { field, name, bytes: Vec::new(), cut: false };
    while let Some(chunk) = part.chunk().await.map_err(|e| cut_off(&e))? {
        file.cut |= file.bytes.len() + chunk.len() > MOST;
        if file.cut {
            file.bytes = Vec::new();
        } else {
            file.bytes.extend_from_slice(&chunk);
        }
    }
    Ok(file)
}
