//! Many save at once: what the engine takes back since it met another save is tried again, and nobody is told of it.

use crate::support::{Browser, Club, Page};
use axum::Router;
use axum::body::Body;
use axum::http::Request;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Response};
use axum::routing::post;
use hilum::db::ids::BagId;
use hilum::db::{Db, Trouble};
use hilum::notebook::bag;
use hilum::web::again::try_again;
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::{Duration, Instant};
use tokio::task::JoinSet;
use tower::ServiceExt;

/// How many save side by side.
const WRITERS: usize = 50;

async fn sound(club: &Club) {
    let mut conn = club.app.db.read().await.unwrap();
    let found = hilum::notebook::check::all(&mut conn, club.app.now()).await.unwrap();
    assert!(found.is_empty(), "{found:?}");
}

/// A handler that is taken back so many times before it saves.
fn taken_back(times: usize) -> (Router, Arc<AtomicUsize>) {
    let tries = Arc::new(AtomicUsize::new(0));
    let seen = tries.clone();
    let handler = move |body: String| async move {
        assert_eq!(body, "rooted=3", "each try gets the whole form");
        if seen.fetch_add(1, Ordering::SeqCst) >= times {
            return "saved".into_response();
        }
        let mut response: Response = StatusCode::SERVICE_UNAVAILABLE.into_response();
        response.extensions_mut().insert(Trouble::Contended);
        response
    };
    (Router::new().route("/", post(handler)).layer(axum::middleware::from_fn(try_again)), tries)
}

#[tokio::test]
async fn a_form_is_tried_five_times_and_then_told_to_wait() {
    for (times, status, tries) in
        [(0, StatusCode::OK, 1), (4, StatusCode::OK, 5), (9, StatusCode::SERVICE_UNAVAILABLE, 5)]
    {
        let (router, seen) = taken_back(times);
        let answer = router.oneshot(Request::post("/").body(Body::from("rooted=3")).unwrap()).await.unwrap();
        assert_eq!((answer.status(), seen.load(Ordering::SeqCst)), (status, tries));
    }
}

/// Two bags of one trial of Jo's, in the order in which they are locked.
async fn two_bags(club: &Club, jo: &Browser, seeds: i64) -> [BagId; 2] {
    let packet = club.packet(jo, "Kestrel", seeds * 4).await;
    let trial = club.trial(jo, &packet, seeds * 2).await;
    let mut bags = [club.bag(jo, &trial, seeds).await, club.bag(jo, &trial, seeds).await];
    bags.sort();
    bags
}

async fn moved(jo: &Browser, from: &BagId, to: &BagId, page: &Page) -> Page {
    let fields = [("went", "moved"), ("seeds", "2"), ("other", to.0.as_str())];
    jo.submit(page, &format!("/bags/{from}/elsewhere"), &fields).await
}

/// Somebody holds the second bag and waits for the first, while a save holds the first and waits for the second:
/// PostgreSQL ends the save, which waited for longer, with 40P01.
async fn deadlock(club: &Club, jo: &Browser, [first, second]: &[BagId; 2], page: &Page) -> Page {
    let mut other = club.app.db.write().await.unwrap();
    bag::lock(&mut other, second).await.unwrap();
    let against = async {
        tokio::time::sleep(Duration::from_millis(400)).await;
        bag::lock(&mut other, first).await.expect("the save is the one that is taken back");
        other.commit().await.unwrap();
    };
    tokio::join!(moved(jo, first, second, page), against).0
}

/// Another process holds the file for longer than SQLite waits.
async fn busy(club: &Club, jo: &Browser, [first, second]: &[BagId; 2], page: &Page) -> Page {
    let url = club.app.config.database_url.clone().unwrap();
    let other = Db::open(&url).await.unwrap();
    let held = other.write().await.unwrap();
    let against = async {
        tokio::time::sleep(Duration::from_millis(5600)).await;
        held.commit().await.unwrap();
    };
    let began = Instant::now();
    let answer = tokio::join!(moved(jo, first, second, page), against).0;
    assert!(began.elapsed() > Duration::from_secs(5), "it was busy");
    answer
}

#[tokio::test]
async fn a_save_that_the_engine_takes_back_is_tried_again() {
    let club = Club::new().await;
    let jo = club.grower("Jo", "JB").await;
    let bags = two_bags(&club, &jo, 10).await;
    let page = jo.get(&format!("/bags/{}/elsewhere", bags[0])).await;
    let answer = match club.app.db {
        Db::Postgres { .. } => deadlock(&club, &jo, &bags, &page).await,
        Db::Sqlite { .. } => busy(&club, &jo, &bags, &page).await,
    };
    answer.says("2 seeds moved");
    sound(&club).await;
}

/// The save that writer `n` makes in a round, of things that others save at the same time.
async fn one_save(by: &Browser, n: usize, [one, two]: &[BagId; 2], pages: &[Page; 4]) -> Page {
    let count = format!("/bags/{one}/count");
    match n % 5 {
        0 => moved(by, one, two, &pages[0]).await,
        1 => moved(by, two, one, &pages[1]).await,
        2 => by.submit(&pages[2], &count, &[("rooted", "1")]).await,
        3 => by.submit(&by.get("/holders").await, "/holders", &[("place", "mat")]).await,
        _ => {
            let fields =
                [("kind", "pepper"), ("variety", "Kestrel"), ("source", "Testwood Seeds"), ("seeds", "9")];
            by.submit(&pages[3], "/packets/new", &fields).await
        }
    }
}

async fn pages(by: &Browser, [one, two]: &[BagId; 2]) -> [Page; 4] {
    [
        by.get(&format!("/bags/{one}/elsewhere")).await,
        by.get(&format!("/bags/{two}/elsewhere")).await,
        by.get(&format!("/bags/{one}")).await,
        by.get("/packets/new").await,
    ]
}

#[tokio::test(flavor = "multi_thread", worker_threads = 4)]
async fn fifty_save_at_once_and_nobody_sees_an_error_of_ours() {
    let club = Club::new().await;
    club.app.furnish().await.unwrap();
    let jo = club.grower("Jo", "JB").await;
    let bags = Arc::new(two_bags(&club, &jo, 200).await);
    club.pass_minutes(1);
    let mut writers = JoinSet::new();
    for n in 0..WRITERS {
        let (by, bags) = (club.again(&jo).await, bags.clone());
        let pages = pages(&by, &bags).await;
        writers.spawn(async move { one_save(&by, n, &bags, &pages).await });
    }
    let answers = writers.join_all().await;
    for page in &answers {
        assert!(!page.status.is_server_error(), "{}: {}", page.status, page.text());
    }
    let saved = answers.iter().filter(|p| p.status == StatusCode::OK).count();
    // of the ten counts, typed on pages that others overtook, some are told so
    assert!(saved >= WRITERS - 10, "{saved} of {WRITERS}");
    sound(&club).await;
}
