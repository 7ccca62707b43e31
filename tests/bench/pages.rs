//! How long the heavy pages take in a large club, and how much memory: printed, not asserted.
//!
//! `cargo bench --bench pages` makes a club of 500 packets, 2,000 trials and 400 open bags in a scratch SQLite
//! file and asks for the pages through the router, without sockets.

mod club;

use axum::Router;
use axum::body::Body;
use axum::http::Request;
use axum::http::header::{COOKIE, HOST};
use hilum::app::App;
use hilum::clock::Clock;
use hilum::config::Config;
use hilum::db::Db;
use http_body_util::BodyExt;
use std::time::{Duration, Instant};
use tower::ServiceExt;

const TIMES: usize = 20;

#[tokio::main]
async fn main() {
    let folder = tempfile::TempDir::new().unwrap();
    let config = Config {
        data: folder.path().to_path_buf(),
        database_url: None,
        listen: "127.0.0.1:8420".parse().unwrap(),
        base_url: None,
        trusted_proxies: vec!["127.0.0.1".parse().unwrap(), "::1".parse().unwrap()],
        no_offline: false,
        saves_a_minute: hilum::config::SAVES_A_MINUTE,
        clock_file: None,
    };
    let db = Db::open(&config.database()).await.unwrap();
    let app = App::new(db, config, Clock::fixed(club::NOW));
    let began = Instant::now();
    let session = club::make(&app).await;
    println!("made the club in {:.1} s", began.elapsed().as_secs_f64());
    let router = app.clone().router();
    for path in [
        "/packets",
        "/",
        "/table",
        "/table?sort=rate&way=down",
        "/table?of=paper",
        "/counts.csv",
        "/table.csv",
    ] {
        ask(&router, &session, path).await;
    }
    after_a_save(&app, &router, &session, "/table", 60).await;
    // a day later every open bag is due for a look
    app.clock.set(club::NOW.plus_days(1));
    ask(&router, &session, "/").await;
    after_a_save(&app, &router, &session, "/", 120).await;
    let began = Instant::now();
    let breaches = hilum::upkeep::check::breaches(&app).await.unwrap();
    println!("check: {} breaches in {:.1} s", breaches.len(), began.elapsed().as_secs_f64());
    println!("memory: {} now, {} at most", memory("VmRSS"), memory("VmHWM"));
}

async fn ask(router: &Router, session: &str, path: &str) {
    let mut took = Vec::new();
    let mut said = String::new();
    for _ in 0..TIMES {
        let (time, status, bytes) = get(router, session, path).await;
        took.push(time);
        said = format!("status {status}, {:6.1} kB", bytes as f64 / 1000.0);
    }
    print(path, &said, took);
}

/// A page, each time after somebody looked into a bag, `minutes` ago for the first.
async fn after_a_save(app: &App, router: &Router, session: &str, path: &str, minutes: i64) {
    let mut took = Vec::new();
    for n in 0..TIMES {
        club::look(app, n as i64 - minutes).await;
        took.push(get(router, session, path).await.0);
    }
    print(path, "after a save", took);
}

async fn get(router: &Router, session: &str, path: &str) -> (Duration, u16, usize) {
    let request = Request::get(path)
        .header(HOST, "club.test")
        .header(COOKIE, format!("hilum={session}"))
        .body(Body::empty())
        .unwrap();
    let began = Instant::now();
    let response = router.clone().oneshot(request).await.unwrap();
    let status = response.status().as_u16();
    let bytes = response.into_body().collect().await.unwrap().to_bytes();
    (began.elapsed(), status, bytes.len())
}

fn print(path: &str, said: &str, mut took: Vec<Duration>) {
    let first = took[0];
    took.sort();
    println!(
        "{path:28} {said:24}: first {:7.1} ms, then {:6.1} ms (median), {:6.1} ms (best)",
        ms(first),
        ms(took[TIMES / 2]),
        ms(took[0])
    );
}

fn ms(took: Duration) -> f64 {
    took.as_secs_f64() * 1000.0
}

fn memory(what: &str) -> String {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find_map(|l| l.strip_prefix(what).and_then(|rest| rest.strip_prefix(':')));
    line.map_or_else(|| "not known".into(), |l| l.trim().to_owned())
}
