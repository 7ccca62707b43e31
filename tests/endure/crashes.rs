//! The program, or PostgreSQL under it, is killed with SIGKILL while members save. What was answered with 303 is there
//! once; what was not is there once or not at all, and whole; sent again under its key it is there once.
//!
//! Long: `HILUM_PROGRAM=target/release/hilum HILUM_CRASHES=10000 cargo test --test endure crashes` (2000 with
//! `TEST_DATABASE_URL`, and there `HILUM_POSTMASTER_CRASHES=500`).

use crate::support::by_lot;
use crate::support::cluster::{Cluster, on_postgres};
use crate::support::hand::{Hand, hands};
use crate::support::ledger::Ledger;
use crate::support::{Program, breaches, time_is_left, times};
use hilum::db::Db;
use std::sync::{Arc, Mutex};
use std::time::Duration;

/// A club is begun anew after so many crashes: nobody has thousands of entries in one bag.
const AN_AGE: usize = 200;

/// A club at work, and the ledger of what it saved.
struct Club {
    program: Program,
    hands: Vec<Hand>,
    ledger: Arc<Mutex<Ledger>>,
}

impl Club {
    async fn at_work(program: Program) -> Self {
        let db = program.db().await;
        let mut hands = hands(&program.base, &db, 4, 2).await;
        let ledger = Arc::new(Mutex::new(Ledger::default()));
        for hand in &mut hands {
            for _ in 0..hand.turns() {
                assert!(hand.save(&ledger).await, "nothing stands in the way yet");
            }
        }
        let mut learned = std::mem::take(&mut *ledger.lock().unwrap());
        learned.learn(&db).await;
        *ledger.lock().unwrap() = learned;
        db.close().await;
        Self { program, hands, ledger }
    }

    /// All save until they get no answer; `crash` comes after `pause`.
    async fn crashed_at(&mut self, pause: Duration, crash: impl FnOnce(&mut Program)) {
        let work: Vec<_> = self
            .hands
            .drain(..)
            .map(|mut hand| {
                let ledger = self.ledger.clone();
                tokio::spawn(async move {
                    while hand.save(&ledger).await {}
                    hand
                })
            })
            .collect();
        tokio::time::sleep(pause).await;
        crash(&mut self.program);
        for hand in work {
            self.hands.push(hand.await.unwrap());
        }
    }

    async fn compare(&self, db: &Db, all: bool) {
        let mut ledger = std::mem::take(&mut *self.ledger.lock().unwrap());
        let wrong = ledger.compare(db, all).await;
        *self.ledger.lock().unwrap() = ledger;
        assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    }

    /// Everything unanswered goes once more, for as long as the database takes to come back.
    async fn send_again(&mut self) {
        for hand in &mut self.hands {
            let mut tries = 0;
            while hand.pending.is_some() && !hand.save(&self.ledger).await {
                tries += 1;
                assert!(tries < 100, "it does not come back: {:?}", hand.pending);
                tokio::time::sleep(Duration::from_millis(100)).await;
            }
        }
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn nothing_that_was_answered_is_lost_when_the_program_is_killed() {
    let mut chance = by_lot("crashes");
    // an unoptimised program takes much longer to start on PostgreSQL
    let crashes = times("HILUM_CRASHES", if on_postgres() { 25 } else { 200 });
    let (mut done, mut answered) = (0, 0);
    for begun in (0..crashes).step_by(AN_AGE).take_while(|_| time_is_left()) {
        let mut club = Club::at_work(Program::demo().await).await;
        for cycle in (begun..crashes.min(begun + AN_AGE)).take_while(|_| time_is_left()) {
            let pause = Duration::from_millis(5 + chance.below(200) as u64);
            club.crashed_at(pause, Program::stop).await;
            club.program.again().await;
            let db = club.program.db().await;
            club.compare(&db, false).await;
            assert_eq!(breaches(&db).await, Vec::<String>::new(), "after crash {cycle}");
            db.close().await;
            club.send_again().await;
            done += 1;
        }
        let db = club.program.db().await;
        club.compare(&db, true).await;
        assert_eq!(breaches(&db).await, Vec::<String>::new());
        answered += club.ledger.lock().unwrap().answered();
    }
    println!("{done} crashes, {answered} saves answered, none lost, doubled or halved");
}

#[tokio::test(flavor = "multi_thread")]
async fn nor_when_postgresql_is() {
    if !on_postgres() {
        return;
    }
    let mut chance = by_lot("crashes of PostgreSQL");
    let crashes = times("HILUM_POSTMASTER_CRASHES", 5);
    let cluster = Cluster::start();
    let database = cluster.database().await;
    let mut club = Club::at_work(Program::demo_in(database, async |_| ()).await).await;
    let mut done = 0;
    for cycle in (0..crashes).take_while(|_| time_is_left()) {
        club.crashed_at(Duration::from_millis(5 + chance.below(300) as u64), |_| cluster.crash()).await;
        cluster.again();
        club.send_again().await;
        let db = club.program.db().await;
        club.compare(&db, false).await;
        assert_eq!(breaches(&db).await, Vec::<String>::new(), "after crash {cycle}");
        db.close().await;
        done += 1;
    }
    let db = club.program.db().await;
    club.compare(&db, true).await;
    db.close().await;
    let answered = club.ledger.lock().unwrap().answered();
    println!("{done} crashes of PostgreSQL, {answered} saves answered, none lost, doubled or halved");
}
