use crate::app::App;
use crate::web::said;
use axum::extract::{Request, State};
use axum::http::Method;
use axum::http::header::{
    CACHE_CONTROL, HeaderName, HeaderValue, REFERRER_POLICY, SET_COOKIE, STRICT_TRANSPORT_SECURITY,
};
use axum::http::header::{CONTENT_SECURITY_POLICY, X_CONTENT_TYPE_OPTIONS};
use axum::middleware::Next;
use axum::response::Response;

const POLICY: &str = "default-src 'self'; img-src 'self' data:; object-src 'none'; base-uri 'none'; \
                      form-action 'self'; frame-ancestors 'none'";

/// Security headers on every answer; pages are not cached, static files say so themselves.
pub async fn add(State(app): State<App>, mut request: Request, next: Next) -> Response {
    let said = said::watched(&mut request);
    let signs_out = request.method() == Method::POST && request.uri().path() == "/sign-out";
    let mut response = next.run(request).await;
    let shown = said.was_taken() && !response.status().is_redirection();
    let headers = response.headers_mut();
    if shown {
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
