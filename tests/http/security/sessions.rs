//! Coming in and going out.

use crate::accounts::{self, PASSWORD};
use crate::support::{Club, START};
use axum::body::Body;
use axum::http::header::{CONTENT_TYPE, HOST, LOCATION, ORIGIN};
use axum::http::{Request, Response, StatusCode};
use hilum::db::ids::At;

async fn posts(club: &Club, path: &str, pairs: &[(&str, &str)]) -> Response<Body> {
    let request = Request::post(path).header(HOST, "club.test").header(ORIGIN, "http://club.test");
    let request = request.header(CONTENT_TYPE, "application/x-www-form-urlencoded");
    club.stranger().raw(request.body(Body::from(serde_html_form::to_string(pairs).unwrap())).unwrap()).await
}

#[tokio::test]
async fn signing_in_leads_to_our_own_pages_only() {
    let club = Club::new().await;
    accounts::set_up(&club).await;
    for (next, leads_to) in [
        ("/bags/1?x=2", "/bags/1?x=2"),
        ("//evil.test", "/"),
        ("/\\evil.test", "/"),
        ("https://evil.test", "/"),
        ("https:evil.test", "/"),
        ("javascript:alert(1)", "/"),
        ("/\t/evil.test", "/"),
        ("/a\r\nSet-Cookie: x=y", "/"),
    ] {
        let fields = [("sign_in", "ines"), ("password", PASSWORD), ("next", next)];
        let answer = posts(&club, "/sign-in", &fields).await;
        assert_eq!(answer.status(), StatusCode::SEE_OTHER, "{next}");
        assert_eq!(answer.headers()[LOCATION], leads_to, "{next}");
    }
}

#[tokio::test]
async fn signing_out_clears_what_the_browser_keeps_but_not_counts_that_wait() {
    let club = Club::new().await;
    let jo = club.grower("Jo", "JB").await;
    let page = jo.get("/me").await;
    let old = jo.cookie("hilum");
    let csrf = page.form("/sign-out").filled(&[]);
    let request = Request::post("/sign-out").header(HOST, "club.test").header(ORIGIN, "http://club.test");
    let request = request.header(CONTENT_TYPE, "application/x-www-form-urlencoded");
    let answer = jo.raw(request.body(Body::from(serde_html_form::to_string(csrf).unwrap())).unwrap()).await;
    assert_eq!(answer.headers()["clear-site-data"], "\"cache\"", "the outbox is in \"storage\"");
    assert_eq!(jo.with_cookie("hilum", &old).get("/me").await.path, "/sign-in?next=%2Fme");
    assert!(!page.headers.contains_key("clear-site-data"));
}

#[tokio::test]
async fn a_session_is_long_random_and_names_nobody() {
    let club = Club::new().await;
    let jo = club.grower("Jo", "JB").await;
    let tokens: Vec<String> = {
        let mut found = Vec::new();
        for _ in 0..20 {
            found.push(club.again(&jo).await.cookie("hilum"));
        }
        found
    };
    for token in &tokens {
        assert!(token.len() >= 43, "256 bits: {token}");
        assert!(tokens.iter().filter(|other| *other == token).count() == 1);
    }
    let mut starts: Vec<&str> = tokens.iter().map(|t| &t[..6]).collect();
    starts.sort_unstable();
    starts.dedup();
    assert_eq!(starts.len(), tokens.len(), "no common beginning");
    assert!(!super::data::everything(&club).await.concat().contains(&tokens[0]), "only a hash is kept");
}

#[tokio::test]
async fn a_clock_that_is_years_off_neither_keeps_nor_gives_sessions_for_ever() {
    let club = Club::new().await;
    let jo = club.grower("Jo", "JB").await;
    club.app.clock.set(At(START.0 + 10 * 366 * 86_400));
    assert!(jo.get("/me").await.path.starts_with("/sign-in"));
    club.app.clock.set(START);
    jo.get("/me").await.says("Jo");
}
