//! Saves sent by the phone's outbox. They go to the same handlers as the forms; only the answer differs: never a
//! redirect, never a page, always JSON that says whether the entry with this key is kept for ever.

use crate::app::App;
use crate::db::Trouble;
use crate::error::{AppError, Told, on_phone};
use crate::web::forms::{Faults, Form, Upload, is_multipart};
use crate::web::said::Said;
use crate::web::{once, session};
use axum::body::{Body, to_bytes};
use axum::extract::{Request, State};
use axum::http::header::{RETRY_AFTER, SET_COOKIE};
use axum::http::{HeaderMap, Method, StatusCode};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};
use serde_json::{Value, json};

/// Names the member who made the entry.
pub const HEADER: &str = "hilum-outbox";

/// A page waits to go where the save leads, and will show its message.
const GO: &str = "hilum-outbox-go";

const MOST_BYTES: usize = 256 * 1024;

/// The same with a photo, which phones make smaller before they send it.
const MOST_WITH_PHOTO: usize = 16 * 1024 * 1024;

/// Answers requests that carry [`HEADER`]: 200 `{"saved": key, "to": path, "said": text}`; 422
/// `{"errors": [{"field", "message"}]}`; 401 where nobody is signed in; 409 where it is another member. Anything
/// else (429, 5xx, where it is known with `{"later": why}`) means: not now, send it again; with `"stays"`, what to say of a count that stays
/// on the phone until somebody mends something.
pub async fn answer(State(app): State<App>, request: Request, next: Next) -> Response {
    let Some(maker) = request.headers().get(HEADER).and_then(|v| v.to_str().ok()).map(str::to_owned) else {
        return next.run(request).await;
    };
    if request.method() != Method::POST {
        return next.run(request).await;
    }
    match send(&app, &maker, request, next).await {
        Ok(response) => response,
        Err(error) => told(error.into_response(), &Faults::default()),
    }
}

async fn send(app: &App, maker: &str, request: Request, next: Next) -> Result<Response, AppError> {
    let Some(member) = session::member(app, request.headers()).await? else {
        return Ok(answered(StatusCode::UNAUTHORIZED, &json!({ "sign_in": true })));
    };
    if member.id.0 != maker {
        return Ok(answered(StatusCode::CONFLICT, &json!({ "other_member": true })));
    }
    let (mut parts, body) = request.into_parts();
    let most = if is_multipart(&parts.headers) { MOST_WITH_PHOTO } else { MOST_BYTES };
    let body = to_bytes(body, most).await.map_err(|_| AppError::TooLarge(t!("web-entry-cut")))?;
    let form = Upload::from_body(&parts.headers, body.clone()).await?.sealed().0;
    // kept before, and the answer was lost: what the handler would say now may be another thing
    if let Some(to) = kept(app, &member, &form).await? {
        return Ok(saved(&form, &to, None));
    }
    let faults = Faults::default();
    parts.extensions.insert(faults.clone());
    let goes_on = parts.headers.contains_key(GO);
    let mut response = next.run(Request::from_parts(parts, Body::from(body))).await;
    if !response.status().is_redirection() {
        return Ok(told(response, &faults));
    }
    let said = response.extensions_mut().remove::<Said>();
    let Some(to) = kept(app, &member, &form).await? else {
        return Err(AppError::Bad(t!("web-not-from-outbox")));
    };
    let mut answer = saved(&form, &to, said.as_ref());
    if goes_on {
        pass_on(response.headers(), answer.headers_mut());
    }
    Ok(answer)
}

async fn kept(app: &App, member: &session::Member, form: &Form) -> Result<Option<String>, AppError> {
    once::before(&mut app.db.read().await?, member, form).await
}

fn pass_on(from: &HeaderMap, to: &mut HeaderMap) {
    for cookie in from.get_all(SET_COOKIE) {
        to.append(SET_COOKIE, cookie.clone());
    }
}

fn saved(form: &Form, to: &str, said: Option<&Said>) -> Response {
    let text = said.map_or("", |s| s.text.as_str());
    answered(StatusCode::OK, &json!({ "saved": form.key(), "to": to, "said": text }))
}

/// What a handler that did not save had to say.
fn told(response: Response, faults: &Faults) -> Response {
    let status = response.status();
    if let Some(told) = response.extensions().get::<Told>()
        && status.is_server_error()
    {
        let trouble = response.extensions().get::<Trouble>().copied();
        let later = match trouble.and_then(on_phone) {
            Some(stays) => json!({ "later": told.0, "stays": stays }),
            None => json!({ "later": told.0 }),
        };
        let retry = response.headers().get(RETRY_AFTER).map(|after| [(RETRY_AFTER, after.clone())]);
        return (retry, answered(status, &later)).into_response();
    }
    let later = [StatusCode::TOO_MANY_REQUESTS, StatusCode::REQUEST_TIMEOUT].contains(&status);
    if later || !(status.is_client_error() || status.is_success()) {
        return response;
    }
    let mut errors = faults.said();
    if errors.is_empty() {
        let text = response.extensions().get::<Told>().map(|t| t.0.clone());
        errors.push((String::new(), text.unwrap_or_else(|| t!("web-not-saved-open").into())));
    }
    let errors: Vec<Value> =
        errors.iter().map(|(field, message)| json!({ "field": field, "message": message })).collect();
    answered(StatusCode::UNPROCESSABLE_ENTITY, &json!({ "errors": errors }))
}

fn answered(status: StatusCode, json: &Value) -> Response {
    (status, axum::Json(json)).into_response()
}
