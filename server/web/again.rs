//! A save that met another one in the database is tried again before anybody hears of it.

use crate::db::{Trouble, attend};
use crate::error::AppError;
use axum::body::{Body, Bytes, HttpBody, to_bytes};
use axum::extract::Request;
use axum::http::Method;
use axum::http::header::CONTENT_LENGTH;
use axum::http::request::Parts;
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};
use std::time::Duration;

const TRIES: u32 = 5;
/// About how long the first wait is, in ms; each one after it is twice as long.
const WAIT: u64 = 20;
/// Bytes of a form that is kept for another try; any form with a photo made smaller by the phone is within it.
const MOST: u64 = 4 * 1024 * 1024;

/// Sends a form to its handler again, a few times and after waits of no fixed length, while the engine takes its save
/// back; nothing of it is kept then, so that another try counts once.
pub async fn try_again(request: Request, next: Next) -> Response {
    let (parts, body) = request.into_parts();
    if parts.method != Method::POST || !is_small(&parts, &body) {
        return next.run(Request::from_parts(parts, body)).await;
    }
    let body = match whole(body).await {
        Ok(body) => body,
        Err(cut) => return cut.into_response(),
    };
    let send = || next.clone().run(Request::from_parts(parts.clone(), Body::from(body.clone())));
    let mut response = send().await;
    for n in 0..TRIES - 1 {
        if response.extensions().get::<Trouble>() != Some(&Trouble::Contended) {
            break;
        }
        tokio::time::sleep(wait(n)).await;
        response = send().await;
    }
    response
}

/// An answer that rests on what others are saving goes out once that lasts.
pub async fn once_it_lasts(request: Request, next: Next) -> Response {
    let lasting = attend(next.run(request)).await;
    lasting.unwrap_or_else(|error| AppError::from(error).into_response())
}

/// Whether a form says that it is small enough to be kept for another try.
pub fn is_small(parts: &Parts, body: &Body) -> bool {
    let told = parts.headers.get(CONTENT_LENGTH).and_then(|v| v.to_str().ok()).and_then(|v| v.parse().ok());
    told.or_else(|| body.size_hint().upper()).is_some_and(|bytes| bytes <= MOST)
}

/// All of a small form.
pub async fn whole(body: Body) -> Result<Bytes, AppError> {
    let cut = AppError::Bad(t!("web-form-cut"));
    to_bytes(body, MOST as usize).await.map_err(|_| cut)
}

/// From one to two times [`WAIT`], doubled with each try: two that met once do not meet again by the clock.
fn wait(tries: u32) -> Duration {
    let base = WAIT << tries.min(10);
    let mut random = [0; 2];
    // without chance the waits are the same for all, and still waits
    let chance = getrandom::fill(&mut random).map_or(0, |()| u64::from(u16::from_le_bytes(random)));
    Duration::from_millis(base + chance % base)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn waits_grow_and_differ() {
        let waits: Vec<Duration> = (0..50).map(|_| wait(3)).collect();
        assert!(waits.iter().all(|w| (160..320).contains(&w.as_millis())), "{waits:?}");
        assert!(waits.iter().any(|w| *w != waits[0]));
    }
}
