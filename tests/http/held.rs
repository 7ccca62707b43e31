//! The database cannot be reached: every answer says so in its own way, and no form is lost. The API's answer is tried
//! in `api/saves.rs`; full and broken disks, and damage, in `tests/endure`.

use crate::bags::Bench;
use crate::support::Club;
use axum::body::Body;
use axum::http::header::{CONTENT_TYPE, HOST, RETRY_AFTER};
use axum::http::{Request, StatusCode};
use http_body_util::BodyExt;

const KEY: &str = "0123456789abcdef0123456789abcdef";

/// What comes back for a form sent with `more` headers: status, whether it says when to try again, and the body.
async fn sent(
    b: &Bench,
    path: &str,
    fields: &[(&str, &str)],
    more: &[(&'static str, &str)],
) -> (StatusCode, bool, String) {
    let mut request = Request::post(path)
        .header(HOST, "club.test")
        .header(CONTENT_TYPE, "application/x-www-form-urlencoded");
    for (name, value) in more {
        request = request.header(*name, *value);
    }
    let body = Body::from(serde_html_form::to_string(fields).unwrap());
    let response = b.jo.raw(request.body(body).unwrap()).await;
    let (parts, body) = response.into_parts();
    let bytes = body.collect().await.unwrap().to_bytes();
    (parts.status, parts.headers.contains_key(RETRY_AFTER), String::from_utf8_lossy(&bytes).into_owned())
}

#[tokio::test]
async fn a_form_comes_back_with_what_was_typed_under_its_key() {
    let b = Bench::new().await;
    b.club.app.db.close().await;
    let fields = [("key", KEY), ("rooted", "3"), ("note", "two look <weak>"), ("password", "between us")];
    let (status, retry, page) = sent(&b, &b.under("count"), &fields, &[("origin", "http://club.test")]).await;
    assert!(status == StatusCode::SERVICE_UNAVAILABLE && retry, "{status} {page}");
    assert!(page.contains(&format!("action=\"{}\"", b.under("count"))), "{page}");
    for kept in [format!("value=\"{KEY}\""), "Rooted".into(), "two look &#60;weak&#62;".into()] {
        assert!(page.contains(&kept), "{kept}: {page}");
    }
    assert!(page.contains("type=\"password\"") && !page.contains("between us"), "{page}");
}

#[tokio::test]
async fn a_form_of_another_site_is_not_offered_again() {
    let b = Bench::new().await;
    b.club.app.db.close().await;
    let foreign = [("origin", "http://elsewhere.test")];
    let (status, _, page) = sent(&b, &b.under("count"), &[("key", KEY), ("rooted", "3")], &foreign).await;
    assert_eq!(status, StatusCode::SERVICE_UNAVAILABLE);
    assert!(page.contains("cannot be reached") && !page.contains(KEY) && !page.contains("<form"), "{page}");
}

#[tokio::test]
async fn pages_and_the_outbox_are_told_to_come_later() {
    let b = Bench::new().await;
    b.club.app.db.close().await;
    let page = b.jo.get("/").await;
    assert_eq!(page.status, StatusCode::SERVICE_UNAVAILABLE);
    assert!(page.text().contains("cannot be reached"), "{}", page.text());
    let maker = b.jo.id().0.clone();
    let headers = [("hilum-outbox", maker.as_str()), ("origin", "http://club.test")];
    let (status, retry, body) = sent(&b, &b.under("count"), &[("key", KEY), ("rooted", "3")], &headers).await;
    assert!(status == StatusCode::SERVICE_UNAVAILABLE && retry, "{status} {body}");
    assert!(body.starts_with("{\"later\":"), "{body}");
}

#[tokio::test]
async fn a_database_that_is_well_is_sound() {
    let club = Club::new().await;
    assert!(!club.app.db.damaged());
    assert_eq!(club.app.db.faults().await.unwrap(), Vec::<String>::new());
}
