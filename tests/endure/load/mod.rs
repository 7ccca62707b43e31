//! A club at work: 90 reads to 10 writes of signed-in members, at a rate of arrivals that does not wait for answers.
//! Each latency counts from the moment the request was due, so that waiting in a queue counts too.
//!
//! Short: 15 s at 20 requests/s in a small club, for an unoptimised program; no request fails, and `check` finds nothing afterwards. Long:
//!
//! ```sh
//! HILUM_LOAD_SECONDS=3600 HILUM_LOAD_RATE=200 HILUM_LOAD_SIZE=500,50000,5 HILUM_PROGRAM=target/release/hilum \
//!     cargo test --test endure load:: -- --nocapture
//! ```

mod memory;
mod record;
mod visitor;

use crate::support::{Program, START, times};
use hilum::app::App;
use hilum::clock::Clock;
use hilum::config::Config;
use hilum::db::Db;
use hilum::db::ids::At;
use hilum::upkeep::scale::{self, Size};
use memory::Memory;
use record::Record;
use std::sync::Arc;
use std::time::{Duration, Instant};
use visitor::Visitors;

#[tokio::test(flavor = "multi_thread")]
async fn a_club_at_work_is_answered() {
    let seconds = times("HILUM_LOAD_SECONDS", 15);
    let rate = times("HILUM_LOAD_RATE", 20);
    let size = size();
    let mut program = Program::start().await;
    program.stop();
    let db = program.db().await;
    let began = Instant::now();
    scale::fill(&app(&db), size).await.unwrap();
    println!("{size:?} on {}, made in {:.1} s", db.engine(), began.elapsed().as_secs_f64());
    let began = Instant::now();
    program.again().await;
    println!("start to first answer: {:.0} ms", began.elapsed().as_secs_f64() * 1000.0);
    let visitors = Arc::new(Visitors::new(&program.base, &db).await);
    let memory = Memory::watch(program.child.as_ref().unwrap().id(), db.clone());
    let record = run(&visitors, rate, Duration::from_secs(seconds as u64)).await;
    println!("{}", record.table(seconds as f64));
    println!("{}", memory.told().await);
    db.close().await;
    program.stop();
    assert_eq!(record.failed(), Vec::<String>::new());
    assert!(record.answered() > seconds * rate * 9 / 10, "{} answers", record.answered());
    if size.trials < 5000 {
        assert!(program.check().contains("No breach"), "{}", program.check());
    }
}

/// What fills the database that the program is to serve.
fn app(db: &Db) -> App {
    let config = Config::default();
    App::new(db.clone(), config, Clock::fixed(At(START)))
}

/// One request every so often, whether or not those before were answered.
async fn run(visitors: &Arc<Visitors>, rate: usize, length: Duration) -> Record {
    let (send, mut receive) = tokio::sync::mpsc::unbounded_channel();
    let start = tokio::time::Instant::now() + Duration::from_millis(100);
    let all = (length.as_secs_f64() * rate as f64) as usize;
    let sender = tokio::spawn({
        let visitors = visitors.clone();
        async move {
            for n in 0..all {
                let due = start + Duration::from_secs_f64(n as f64 / rate as f64);
                tokio::time::sleep_until(due).await;
                let (visitors, send) = (visitors.clone(), send.clone());
                tokio::spawn(async move {
                    let (what, answer) = visitors.visit(n).await;
                    let _ = send.send((what, due.elapsed(), answer));
                });
            }
        }
    });
    let mut record = Record::default();
    while let Some((what, took, answer)) = receive.recv().await {
        record.add(what, took, answer);
    }
    sender.await.unwrap();
    record
}

#[expect(clippy::disallowed_methods, reason = "how large a club is tried is for whoever runs the tests")]
fn size() -> Size {
    std::env::var("HILUM_LOAD_SIZE")
        .map_or(Size { members: 30, trials: 300, seasons: 1 }, |size| size.parse().unwrap())
}
