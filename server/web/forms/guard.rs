use crate::error::AppError;
use crate::web::session;
use axum::http::HeaderMap;
use axum::http::header::{HOST, ORIGIN};

fn foreign() -> AppError {
    AppError::Bad(t!("web-foreign"))
}

/// Lets a writing request in only from our own pages: by the browser's own word where it gives one, else by
/// the form's token.
pub fn check(headers: &HeaderMap, session: Option<&str>, csrf: &str) -> Result<(), AppError> {
    let checked = is_ours(headers, session, csrf);
    if checked.is_err() {
        tracing::warn!("a form came from another site");
    }
    checked
}

fn is_ours(headers: &HeaderMap, session: Option<&str>, csrf: &str) -> Result<(), AppError> {
    let text =
        |value: Option<&axum::http::HeaderValue>| value.and_then(|v| v.to_str().ok()).map(str::to_owned);
    let site = text(headers.get("sec-fetch-site"));
    let origin = text(headers.get(ORIGIN));
    if let Some(site) = site {
        return if site == "same-origin" || site == "none" { Ok(()) } else { Err(foreign()) };
    }
    if let Some(origin) = origin {
        let host = text(headers.get(HOST)).unwrap_or_default();
        let own = origin.split_once("://").is_some_and(|(_, rest)| rest.eq_ignore_ascii_case(&host));
        return if own { Ok(()) } else { Err(foreign()) };
    }
    match session {
        Some(token) if session::csrf(token) == csrf => Ok(()),
        _ => Err(foreign()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn headers(pairs: &[(&'static str, &'static str)]) -> HeaderMap {
        pairs.iter().map(|(k, v)| (k.parse().unwrap(), v.parse().unwrap())).collect()
    }

    #[test]
    fn only_our_own_pages_may_write() {
        let own = headers(&[("host", "a.test"), ("origin", "http://a.test")]);
        let foreign = headers(&[("host", "a.test"), ("origin", "http://b.test")]);
        let cross =
            headers(&[("sec-fetch-site", "cross-site"), ("host", "a.test"), ("origin", "http://a.test")]);
        let bare = headers(&[("host", "a.test")]);
        assert!(check(&own, None, "").is_ok());
        assert!(check(&foreign, Some("t"), &session::csrf("t")).is_err());
        assert!(check(&cross, Some("t"), &session::csrf("t")).is_err());
        assert!(check(&bare, Some("t"), &session::csrf("t")).is_ok());
        assert!(check(&bare, Some("t"), "guess").is_err());
        assert!(check(&bare, None, "").is_err());
    }
}
