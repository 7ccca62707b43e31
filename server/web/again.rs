//! A save that met another one in the database is tried again before anybody hears of it.

use crate::error::Told;
use crate::web::page;
use axum::body::{Body, HttpBody, to_bytes};
use axum::extract::Request;
use axum::http::header::{CONTENT_LENGTH, RETRY_AFTER};
use axum::http::request::Parts;
use axum::http::{HeaderValue, Method, StatusCode};
use axum::middleware::Next;
use axum::response::Response;
use std::time::Duration;

const TRIES: u32 = 5;
/// About how long the first wait is, in ms; each one after it is twice as long.
const WAIT: u64 = 20;
/// Bytes of a form that is kept for another try; any form with a photo made smaller by the phone is within it.
pub const MOST: u64 = 4 * 1024 * 1024;

/// In the extensions of an answer: the engine took the whole save back, since others were at the same things.
#[derive(Debug, Clone, Copy)]
pub struct Contended;

/// Sends a form to its handler again, a few times and after waits of no fixed length, while the engine takes its save
/// back; nothing of it is kept then, so that another try counts once.
pub async fn try_again(request: Request, next: Next) -> Response {
    let (parts, body) = request.into_parts();
    if parts.method != Method::POST || length(&parts, &body).is_none_or(|bytes| bytes > MOST) {
        return next.run(Request::from_parts(parts, body)).await;
    }
    let Ok(body) = to_bytes(body, MOST as usize).await else {
        return page::error(
            StatusCode::BAD_REQUEST,
            "That did not come through",
            "The form was too large or was cut off on its way.",
        );
    };
    for n in 0..TRIES {
        if n > 0 {
            tokio::time::sleep(wait(n - 1)).await;
        }
        let request = Request::from_parts(parts.clone(), Body::from(body.clone()));
        let response = next.clone().run(request).await;
        if response.extensions().get::<Contended>().is_none() {
            return response;
        }
    }
    in_vain()
}

fn length(parts: &Parts, body: &Body) -> Option<u64> {
    let told = parts.headers.get(CONTENT_LENGTH).and_then(|v| v.to_str().ok()).and_then(|v| v.parse().ok());
    told.or_else(|| body.size_hint().upper())
}

/// From one to two times [`WAIT`], doubled with each try: two that met once do not meet again by the clock.
fn wait(tries: u32) -> Duration {
    let base = WAIT << tries.min(10);
    let mut random = [0; 2];
    // without chance the waits are the same for all, and still waits
    let chance = getrandom::fill(&mut random).map_or(0, |()| u64::from(u16::from_le_bytes(random)));
    Duration::from_millis(base + chance % base)
}

fn in_vain() -> Response {
    let text =
        "Too many are saving at the same moment. Nothing was saved. Save again in a moment: it counts once.";
    let mut response = page::error(StatusCode::SERVICE_UNAVAILABLE, "Not just now", text);
    response.headers_mut().insert(RETRY_AFTER, HeaderValue::from_static("5"));
    response.extensions_mut().insert(Told(text.to_owned()));
    response
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
