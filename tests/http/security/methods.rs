//! What each address takes, by which method and how much of it.

use super::{club, data, walk};
use crate::csrf::filled;
use crate::support::{Browser, Club, routes};
use axum::Router;
use axum::body::Body;
use axum::http::header::{ALLOW, CONTENT_TYPE, HOST, ORIGIN};
use axum::http::{Request, Response, StatusCode};
use axum::routing::get;
use hilum::web::{log, page};
use http_body_util::BodyExt;
use tower::ServiceExt;
use tower_http::catch_panic::CatchPanicLayer;

/// Forms that may carry a file; their limit is looked at in tests of photos and lists.
const UPLOADS: &[&str] = &[
    "/bags/{id}/count",
    "/packets/import",
    "/packets/import/confirm",
    "/counts/import",
    "/counts/import/confirm",
    "/clubs/table.zip",
    "/clubs/import",
    "/clubs/import/confirm",
];

async fn send(by: &Browser, method: &str, path: &str, body: Vec<u8>) -> Response<Body> {
    let request = Request::builder()
        .method(method)
        .uri(path)
        .header(HOST, "club.test")
        .header(ORIGIN, "http://club.test")
        .header(CONTENT_TYPE, "application/x-www-form-urlencoded")
        .body(Body::from(body))
        .unwrap();
    by.raw(request).await
}

#[tokio::test]
async fn a_method_that_an_address_does_not_take_is_refused_with_those_it_takes() {
    let (s, lea) = club().await;
    for route in routes::all() {
        let path = filled(&route.path);
        let wrong =
            ["PUT", "DELETE", "PATCH", "TRACE", "TRACK"].into_iter().chain((!route.post).then_some("POST"));
        for method in wrong {
            s.club.pass_minutes(1);
            let answer = send(&lea, method, &path, Vec::new()).await;
            assert_eq!(answer.status(), StatusCode::METHOD_NOT_ALLOWED, "{method} {path}");
            let allow = answer.headers().get(ALLOW).map(|v| v.to_str().unwrap()).unwrap_or_default();
            assert_eq!(
                (allow.contains("GET"), allow.contains("POST")),
                (route.get, route.post),
                "{path}: {allow}"
            );
        }
    }
}

#[tokio::test]
async fn a_form_that_is_too_large_is_refused_wherever_it_is_sent() {
    let (s, lea) = club().await;
    let large = format!("note={}", "x".repeat(300 * 1024)).into_bytes();
    let posts: Vec<_> =
        routes::all().into_iter().filter(|r| r.post && !UPLOADS.contains(&r.path.as_str())).collect();
    assert!(posts.len() > 60);
    for route in posts {
        s.club.pass_minutes(1);
        let answer = send(&lea, "POST", &filled(&route.path), large.clone()).await;
        assert_eq!(answer.status(), StatusCode::PAYLOAD_TOO_LARGE, "{}", route.path);
    }
}

#[tokio::test]
async fn looking_changes_nothing() {
    let (s, lea) = club().await;
    // the day on which a token was last used is noted at its first use of the day
    s.get("/api/v1/due").await;
    let before = kept(&s.club).await;
    for who in [&s.jo, &lea] {
        walk::pages(who).await;
    }
    for path in
        ["me", "due", "packets", "trials", "bags", "trays", "counts", "tallies", "outcomes", "kinds", "table"]
    {
        assert_eq!(s.get(&format!("/api/v1/{path}")).await.status, StatusCode::OK, "{path}");
    }
    for route in routes::all().iter().filter(|r| r.post && !r.get) {
        let answer = send(&lea, "GET", &filled(&route.path), Vec::new()).await;
        assert_eq!(answer.status(), StatusCode::SEE_OTHER, "{} opened by itself leads on", route.path);
    }
    assert_eq!(kept(&s.club).await, before);
}

/// All but when each session was last used, which is noted once an hour.
async fn kept(club: &Club) -> Vec<String> {
    let rows = data::everything(club).await;
    rows.into_iter().filter(|row| !row.starts_with("sessions: ")).collect()
}

async fn falls() -> &'static str {
    panic!("secret words of the inside")
}

#[tokio::test]
async fn a_panic_tells_its_number_and_nothing_of_the_inside() {
    let router = Router::new()
        .route("/falls", get(falls))
        .layer(CatchPanicLayer::custom(page::panicked))
        .layer(axum::middleware::from_fn_with_state(Club::new().await.app, log::keep));
    let answer = router.oneshot(Request::get("/falls").body(Body::empty()).unwrap()).await.unwrap();
    assert_eq!(answer.status(), StatusCode::INTERNAL_SERVER_ERROR);
    let number = answer.headers()["hilum-request"].to_str().unwrap().to_owned();
    let body = answer.into_body().collect().await.unwrap().to_bytes();
    let body = String::from_utf8_lossy(&body);
    assert!(body.contains(&number) && body.contains("Something went wrong"), "{body}");
    assert!(!body.contains("secret") && !body.contains("panic"), "{body}");
}
