use crate::accounts::{PASSWORD, set_up, sign_in};
use crate::support::{Browser, Club};
use axum::body::Body;
use axum::extract::ConnectInfo;
use axum::http::header::{CONTENT_TYPE, HOST, ORIGIN};
use axum::http::{Request, StatusCode};
use std::net::SocketAddr;
use std::time::{Duration, Instant};

const WRONG: &str = "a wrong password";

async fn try_by(browser: &Browser, peer: &str, header: (&str, &str), name: &str, word: &str) -> StatusCode {
    let peer: SocketAddr = peer.parse().unwrap();
    let request = Request::post("/sign-in")
        .header(HOST, "club.test")
        .header(ORIGIN, "http://club.test")
        .header(CONTENT_TYPE, "application/x-www-form-urlencoded")
        .header(header.0, header.1)
        .extension(ConnectInfo(peer))
        .body(Body::from(serde_html_form::to_string([("sign_in", name), ("password", word)]).unwrap()))
        .unwrap();
    browser.raw(request).await.status()
}

/// How many of 50 tries at as many names are refused unlooked at, where each claims another address.
async fn refused(peer: &str, header: &str) -> usize {
    let club = Club::new().await;
    set_up(&club).await;
    let mut refused = 0;
    for n in 0..50 {
        let claim = format!("{}203.0.113.{n}", if header == "forwarded" { "for=" } else { "" });
        let name = format!("somebody {n}");
        let status = try_by(&club.stranger(), peer, (header, &claim), &name, WRONG).await;
        refused += usize::from(status == StatusCode::TOO_MANY_REQUESTS);
    }
    refused
}

#[tokio::test]
async fn a_claimed_address_does_not_help_who_guesses() {
    for header in ["x-forwarded-for", "forwarded"] {
        assert_eq!(refused("198.51.100.7:4000", header).await, 10, "a stranger who claims by {header}");
        assert_eq!(refused("127.0.0.1:4000", header).await, 0, "a proxy on this machine says so by {header}");
    }
    assert_eq!(refused("198.51.100.7:4000", "x-real-ip").await, 10);
    assert_eq!(refused("127.0.0.1:4000", "x-real-ip").await, 10, "no other header is read");
}

#[tokio::test]
async fn who_signed_in_here_before_is_not_kept_out_by_others_who_guess() {
    let club = Club::new().await;
    set_up(&club).await;
    let (home, _) = sign_in(&club, "ines", PASSWORD).await;
    home.submit(&home.get("/me").await, "/sign-out", &[]).await;
    // an hour of guessing, at every moment at which a try is free
    let mut tried = 0;
    for _ in 0..3600 {
        let claim = ("x-forwarded-for", "203.0.113.9");
        let status = try_by(&club.stranger(), "127.0.0.1:4000", claim, "ines", WRONG).await;
        tried += usize::from(status == StatusCode::UNPROCESSABLE_ENTITY);
        if status == StatusCode::TOO_MANY_REQUESTS {
            club.app.clock.set(hilum::db::ids::At(club.app.now().0 + 20));
        }
        if tried == 25 {
            break;
        }
    }
    assert_eq!(tried, 25);
    let (_, page) = sign_in(&club, "ines", PASSWORD).await;
    assert_eq!(page.status, StatusCode::TOO_MANY_REQUESTS, "a browser nobody knows waits");
    let page = home.get("/sign-in").await;
    let fields = [("sign_in", "ines"), ("password", PASSWORD)];
    assert_eq!(home.submit(&page, "/sign-in", &fields).await.path, "/", "Ines's own browser does not");
    home.submit(&home.get("/me").await, "/sign-out", &[]).await;

    // a browser that is known may not guess for ever either
    let page = home.get("/sign-in").await;
    let mut slowed = 0;
    for _ in 0..12 {
        let answer = home.submit(&page, "/sign-in", &[("sign_in", "ines"), ("password", WRONG)]).await;
        slowed += usize::from(answer.status == StatusCode::TOO_MANY_REQUESTS);
    }
    assert_eq!(slowed, 2);
}

#[tokio::test]
async fn a_known_browser_is_known_for_its_member_alone() {
    let club = Club::new().await;
    let ines = set_up(&club).await;
    let known = ines.cookie("hilum-known");
    let other = club.organiser("Lea", "LM").await;
    assert!(!known.is_empty());
    for _ in 0..10 {
        sign_in(&club, "lea", WRONG).await;
    }
    let browser = club.stranger().with_cookie("hilum-known", &known);
    let page = browser.get("/sign-in").await;
    let fields = [("sign_in", "lea"), ("password", WRONG)];
    let answer = browser.submit(&page, "/sign-in", &fields).await;
    assert_eq!(answer.status, StatusCode::TOO_MANY_REQUESTS, "Ines's browser is no browser of Lea's");
    assert!(!other.id().0.is_empty());
}

#[tokio::test]
async fn an_unknown_name_takes_as_long_as_a_known_one() {
    let club = Club::new().await;
    set_up(&club).await;
    let mut took = [Vec::new(), Vec::new()];
    for n in 0..12 {
        for (which, name) in ["ines", "nobody"].iter().enumerate() {
            let claim = format!("203.0.113.{n}");
            let begun = Instant::now();
            try_by(&club.stranger(), "127.0.0.1:1", ("x-forwarded-for", &claim), name, WRONG).await;
            took[which].push(begun.elapsed());
            club.pass_minutes(10);
        }
    }
    let [known, unknown] = took.map(|mut times| {
        times.sort();
        times[times.len() / 2].as_secs_f64()
    });
    // a busy machine moves both; without the same work the unknown name would take a hundredth
    assert!(unknown > known * 0.5 && unknown < known * 2.0, "known {known} s, unknown {unknown} s");
}

#[tokio::test]
async fn at_most_four_passwords_are_hashed_at_once() {
    let club = Club::new().await;
    set_up(&club).await;
    let taken = club.app.hashing.clone().try_acquire_many_owned(4).expect("four turns");
    assert_eq!(club.app.hashing.available_permits(), 0, "and no more than four");
    let waiting = sign_in(&club, "ines", PASSWORD);
    tokio::pin!(waiting);
    let early = tokio::time::timeout(Duration::from_secs(2), &mut waiting).await;
    assert!(early.is_err(), "a fifth waits its turn");
    drop(taken);
    assert_eq!(waiting.await.1.path, "/");
}
