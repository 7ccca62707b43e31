//! PostgreSQL goes away and comes back, or stands still, under a running program: pages say so within their time
//! limit, forms come back with what was typed, and all goes on without a restart.

use crate::support::cluster::{Cluster, on_postgres};
use crate::support::hand::{Hand, hands};
use crate::support::ledger::Ledger;
use crate::support::{Program, breaches};
use std::sync::Mutex;
use std::time::{Duration, Instant};

/// No page takes longer than the time limit of requests, and a little.
const LIMIT: Duration = Duration::from_secs(35);

#[tokio::test(flavor = "multi_thread")]
async fn pages_say_that_the_database_is_away_and_go_on_when_it_is_back() {
    if !on_postgres() {
        return;
    }
    let cluster = Cluster::start();
    let program = Program::demo_in(cluster.database().await, async |_| ()).await;
    let db = program.db().await;
    let mut hands = hands(&program.base, &db, 1, 1).await;
    let ledger = Mutex::new(Ledger::default());
    for hand in &mut hands {
        for _ in 0..hand.turns() {
            assert!(hand.save(&ledger).await);
        }
    }
    let mut learned = std::mem::take(&mut *ledger.lock().unwrap());
    learned.learn(&db).await;
    *ledger.lock().unwrap() = learned;
    db.close().await;
    cluster.crash();
    says_so(&mut hands[0], &ledger).await;
    cluster.again();
    goes_on(&mut hands[0], &ledger).await;
    cluster.hang(true);
    says_so(&mut hands[0], &ledger).await;
    cluster.hang(false);
    goes_on(&mut hands[0], &ledger).await;
    let db = program.db().await;
    let mut ledger = ledger.into_inner().unwrap();
    assert_eq!(ledger.compare(&db, true).await, Vec::<String>::new());
    assert_eq!(breaches(&db).await, Vec::<String>::new());
    db.close().await;
}

/// A page and a form, while nothing can be read.
async fn says_so(hand: &mut Hand, ledger: &Mutex<Ledger>) {
    let began = Instant::now();
    let page = hand.client.get("/").await.unwrap();
    assert!(began.elapsed() < LIMIT, "{:?}", began.elapsed());
    assert!(
        page.status == 503 && !page.retry.is_empty() && page.body.contains("cannot be reached"),
        "{page:?}"
    );
    let began = Instant::now();
    let answer = hand.send(ledger).await.unwrap();
    assert!(began.elapsed() < LIMIT, "{:?}", began.elapsed());
    let act = hand.pending.as_ref().unwrap();
    assert!(answer.status == 503 && !answer.retry.is_empty(), "{answer:?}");
    assert!(answer.body.contains(&act.key) && answer.body.contains("Send it again"), "{answer:?}");
    for (name, value) in &act.fields {
        assert!(answer.body.contains(value), "{name} is lost: {answer:?}");
    }
}

async fn goes_on(hand: &mut Hand, ledger: &Mutex<Ledger>) {
    let until = Instant::now() + LIMIT;
    while !hand.save(ledger).await {
        assert!(Instant::now() < until, "it does not go on");
        tokio::time::sleep(Duration::from_millis(200)).await;
    }
    assert_eq!(hand.client.get("/").await.unwrap().status, 200);
    assert!(hand.save(ledger).await);
}
