use crate::app::App;
use crate::web::said;
use axum::extract::{Request, State};
use axum::http::Method;
use axum::http::header::{
    CACHE_CONTROL, CONTENT_TYPE, HeaderName, HeaderValue, REFERRER_POLICY, SET_COOKIE,
    STRICT_TRANSPORT_SECURITY,
};
use axum::http::header::{CONTENT_SECURITY_POLICY, X_CONTENT_TYPE_OPTIONS};
use axum::middleware::Next;
use axum::response::Response;

const POLICY: &str = "default-src 'self'; img-src 'self' data:; object-src 'none'; base-uri 'none'; \
                      form-action 'self'; frame-ancestors 'none'";

/// Security headers on every answer; pages are not cached, static files say so themselves.
pub async fn add(State(app): State<App>, request: Request, next: Next) -> Response {
    let had_said = said::came_along(&app, request.headers());
    let signs_out = request.method() == Method::POST && request.uri().path() == "/sign-out";
    let mut response = next.run(request).await;
    let shown = is_page(&response);
    let headers = response.headers_mut();
    if had_said && shown {
        headers.append(SET_COOKIE, said::forget(&app));
    }
    let mut set = |name: HeaderName, value: &'static str| {
        headers.entry(name).or_insert(HeaderValue::from_static(value));
    };
    set(CONTENT_SECURITY_POLICY, POLICY);
    set(X_CONTENT_TYPE_OPTIONS, "nosniff");
    set(REFERRER_POLICY, "same-origin");
    set(HeaderName::from_static("cross-origin-opener-policy"), "same-origin");
    set(HeaderName::from_static("cross-origin-resource-policy"), "same-origin");
    set(HeaderName::from_static("permissions-policy"), "camera=(), geolocation=(), microphone=()");
    set(CACHE_CONTROL, "no-store");
    if signs_out {
        // not "storage": counts that wait on the phone live there
        set(HeaderName::from_static("clear-site-data"), "\"cache\"");
    }
    if app.config.secure() {
        set(STRICT_TRANSPORT_SECURITY, "max-age=31536000");
    }
    response
}

/// A page somebody reads. What a page loads beside itself (the worker, styles) shows no message and must not end one.
fn is_page(response: &Response) -> bool {
    let kind = response.headers().get(CONTENT_TYPE).and_then(|kind| kind.to_str().ok()).unwrap_or_default();
    kind.starts_with("text/html") && (response.status().is_success() || response.status().is_client_error())
}
