//! Nobody wears the program out, and a work day's counts pass all the same.

use super::club;
use crate::support::Club;
use axum::body::Body;
use axum::http::header::{CONTENT_TYPE, HOST, ORIGIN, RETRY_AFTER};
use axum::http::{Request, Response, StatusCode};
use std::time::Duration;
use tokio::time::timeout;

fn asks(path: &str) -> Request<Body> {
    Request::get(path).header(HOST, "club.test").body(Body::empty()).unwrap()
}

#[track_caller]
fn asks_to_wait(answer: &Response<Body>) {
    assert_eq!(answer.status(), StatusCode::TOO_MANY_REQUESTS);
    let seconds: i64 = answer.headers()[RETRY_AFTER].to_str().unwrap().parse().unwrap();
    assert!((1..=60).contains(&seconds), "{seconds}");
}

#[tokio::test]
async fn an_outbox_of_two_hundred_counts_goes_out_at_once() {
    let (s, _) = club().await;
    for n in 0..200 {
        let body = format!(
            "key=outbox-{n:020}&rooted=0&dead=0&at_by=phone&at=2026-03-05T0{}:{:02}:00Z",
            n / 60,
            n % 60
        );
        let request = Request::post(format!("/bags/{}/count", s.bag))
            .header(HOST, "club.test")
            .header(ORIGIN, "http://club.test")
            .header("hilum-outbox", s.jo.id().0.as_str())
            .header(CONTENT_TYPE, "application/x-www-form-urlencoded");
        let answer = s.jo.raw(request.body(Body::from(body)).unwrap()).await;
        assert!(
            [StatusCode::OK, StatusCode::UNPROCESSABLE_ENTITY].contains(&answer.status()),
            "{n}: {}",
            answer.status()
        );
    }
}

#[tokio::test]
async fn a_flood_of_saves_is_held_back_and_only_its_sender() {
    let club = Club::new().await;
    let (jo, kim) = (club.grower("Jo", "JB").await, club.grower("Kim", "KL").await);
    let save = || {
        let request = Request::post("/me").header(HOST, "club.test").header(ORIGIN, "http://club.test");
        request.header(CONTENT_TYPE, "application/x-www-form-urlencoded").body(Body::from("name=")).unwrap()
    };
    let mut passed = 0;
    let held = loop {
        let answer = jo.raw(save()).await;
        if answer.status() != StatusCode::UNPROCESSABLE_ENTITY {
            break answer;
        }
        passed += 1;
    };
    assert_eq!(passed, 600);
    asks_to_wait(&held);
    assert_eq!(jo.raw(asks("/")).await.status(), StatusCode::OK, "reading goes on");
    assert_eq!(kim.raw(save()).await.status(), StatusCode::UNPROCESSABLE_ENTITY, "others are not held up");
    club.pass_minutes(1);
    assert_eq!(jo.raw(save()).await.status(), StatusCode::UNPROCESSABLE_ENTITY);
}

#[tokio::test]
async fn files_prints_and_finding_cost_more() {
    let (s, _) = club().await;
    for path in ["/counts.csv", "/find?mark=nothing", "/labels/print"] {
        let jo = s.club.again(&s.jo).await;
        for n in 0..60 {
            let answer = jo.raw(asks(path)).await;
            assert_ne!(answer.status(), StatusCode::TOO_MANY_REQUESTS, "{path} {n}");
        }
        asks_to_wait(&jo.raw(asks(path)).await);
        s.club.pass_minutes(1);
    }
    let burst = s.club.stranger();
    for _ in 0..60 {
        let request = Request::post("/api/v1/kinds").header("authorization", "Bearer hilum_guess");
        burst.raw(request.body(Body::empty()).unwrap()).await;
    }
    let kinds = Request::get("/api/v1/kinds").header("authorization", format!("Bearer {}", s.token));
    let read = s.club.stranger().raw(kinds.body(Body::empty()).unwrap()).await;
    assert_eq!(read.status(), StatusCode::OK);
}

#[tokio::test]
async fn few_costly_things_are_made_at_a_time_and_the_rest_goes_on() {
    let (s, _) = club().await;
    let all = s.club.app.pace.costly.available_permits();
    let held = s.club.app.pace.costly.acquire_many(u32::try_from(all).unwrap()).await.unwrap();
    let waits = timeout(Duration::from_millis(300), s.jo.raw(asks("/counts.csv"))).await;
    assert!(waits.is_err(), "a file waits for its turn");
    assert_eq!(s.jo.raw(asks(&format!("/bags/{}", s.bag))).await.status(), StatusCode::OK);
    drop(held);
    assert_eq!(s.jo.raw(asks("/counts.csv")).await.status(), StatusCode::OK);
}
