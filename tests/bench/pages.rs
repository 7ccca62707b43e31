//! How long the heavy pages take in a large club, and how much memory: printed, not asserted.
//!
//! `cargo bench --bench pages` makes a club of 20 members and 2,000 trials in a scratch SQLite file and asks for the
//! pages through the router, without sockets; `cargo bench --bench pages -- 500,50000,5` makes one of another size.

use axum::Router;
use axum::body::Body;
use axum::http::Request;
use axum::http::header::{COOKIE, HOST};
use hilum::app::App;
use hilum::args;
use hilum::clock::Clock;
use hilum::config::Config;
use hilum::db::ids::{At, BagId, MemberId};
use hilum::db::{Db, FromRow};
use hilum::notebook::{About, Act, bag};
use hilum::upkeep::scale::{self, Size};
use hilum::web::session;
use http_body_util::BodyExt;
use std::time::{Duration, Instant};
use tower::ServiceExt;

const TIMES: usize = 20;
/// 2026-03-02 08:00 UTC.
const NOW: At = At(1_772_438_400);
const OPEN: &str = "SELECT id, owner_id FROM bags WHERE closed_at IS NULL ORDER BY id LIMIT 1";
const USUAL: Size = Size { members: 20, trials: 2000, seasons: 3 };

#[tokio::main]
async fn main() {
    let folder = tempfile::TempDir::new().unwrap();
    let config = Config { data: folder.path().to_path_buf(), ..Config::default() };
    let db = Db::open(&config.database()).await.unwrap();
    let app = App::new(db, config, Clock::fixed(NOW));
    let began = Instant::now();
    let size = std::env::args().skip(1).find_map(|a| a.parse().ok()).unwrap_or(USUAL);
    scale::fill(&app, size).await.unwrap();
    let session = member(&app).await;
    println!("made {size:?} in {:.1} s", began.elapsed().as_secs_f64());
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
    app.clock.set(NOW.plus_days(1));
    ask(&router, &session, "/").await;
    after_a_save(&app, &router, &session, "/", 120).await;
    let began = Instant::now();
    let breaches = hilum::upkeep::check::breaches(&app).await.unwrap();
    println!("check: {} breaches in {:.1} s", breaches.len(), began.elapsed().as_secs_f64());
    println!("memory: {} now, {} at most", memory("VmRSS"), memory("VmHWM"));
}

#[derive(FromRow)]
struct Open {
    id: String,
    owner_id: String,
}

/// A session of the member with the first open bag.
async fn member(app: &App) -> String {
    let mut conn = app.db.write().await.unwrap();
    let open: Open = conn.one(OPEN, args![]).await.unwrap();
    let session = session::open(&mut conn, &MemberId(open.owner_id), NOW).await.unwrap();
    conn.commit().await.unwrap();
    session
}

/// One look into an open bag, without news.
async fn look(app: &App, minutes: i64) {
    let mut conn = app.db.write().await.unwrap();
    let open: Open = conn.one(OPEN, args![]).await.unwrap();
    let (id, owner) = (BagId(open.id), MemberId(open.owner_id));
    let act = Act::new(&owner, "bench", NOW.plus_minutes(minutes), NOW.plus_minutes(minutes));
    let about = About { bag: Some(&id), ..About::default() };
    bag::add_look(&mut conn, &act, about, bag::Look::default(), "").await.unwrap();
    bag::keep(&mut conn, &id).await.unwrap();
    conn.commit().await.unwrap();
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
        look(app, n as i64 - minutes).await;
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
