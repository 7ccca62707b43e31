//! Between the write of a save and its answer stands an fdatasync: seen by strace (SQLite). PostgreSQL does the same
//! for as long as it is not told otherwise, so a server that was is refused.
//!
//! Long: `HILUM_PROGRAM=target/release/hilum HILUM_SYNCS=10000 cargo test --test endure syncs`

use crate::support::cluster::{Cluster, on_postgres};
use crate::support::hand::hands;
use crate::support::ledger::Ledger;
use crate::support::strace::{Call, Strace, WRITES};
use crate::support::{Program, held_off, time_is_left, times};
use hilum::args;
use hilum::db::{Db, FromRow};
use std::sync::Mutex;

/// As many saves to a recording.
const A_REEL: usize = 200;

#[tokio::test(flavor = "multi_thread")]
async fn a_sync_stands_between_each_save_and_its_answer() {
    if on_postgres() {
        return;
    }
    let saves = times("HILUM_SYNCS", 100);
    let mut done = 0;
    for _ in (0..saves).step_by(A_REEL).take_while(|_| time_is_left()) {
        let program = Program::demo_in(crate::support::fresh().await, held_off).await;
        let db = program.db().await;
        let mut hands = hands(&program.base, &db, 1, 1).await;
        let ledger = Mutex::new(Ledger::default());
        let strace = Strace::attach(&program, &["-s", "16", "-e", WRITES]);
        for n in 0..saves.min(A_REEL) {
            let of = n % hands.len();
            assert!(hands[of].save(&ledger).await);
        }
        let calls = strace.detach();
        let answers = synced(&calls).unwrap_or_else(|why| panic!("{why}"));
        assert_eq!(answers, saves.min(A_REEL));
        done += answers;
    }
    println!("{done} saves, an fdatasync before the answer of each");
}

/// How many answers 303 were sent, each after a write to the log and a sync that began after that write and ended
/// before the answer.
fn synced(calls: &[Call]) -> Result<usize, String> {
    let mut in_order: Vec<&Call> = calls.iter().collect();
    in_order.sort_by_key(|call| call.ended);
    let (mut wrote, mut safe, mut answers) = (None, false, 0);
    for call in in_order {
        let log = call.path.ends_with("-wal");
        if log && ["write", "pwrite64"].contains(&call.name.as_str()) {
            (wrote, safe) = (Some(call.ended), false);
        } else if log && call.name.ends_with("sync") && call.result == 0 {
            safe = wrote.is_some_and(|wrote| wrote < call.began);
        } else if call.data.starts_with(b"HTTP/1.1 303") {
            if !safe {
                return Err(format!("answer {answers} went out before its save was synced"));
            }
            (wrote, safe, answers) = (None, false, answers + 1);
        }
    }
    Ok(answers)
}

#[test]
fn a_missing_sync_is_seen() {
    let call = |name: &str, path: &str, data: &[u8], at: usize| Call {
        thread: 1,
        name: name.into(),
        fd: 3,
        path: path.into(),
        data: data.into(),
        numbers: vec![],
        result: 0,
        began: at,
        ended: at,
    };
    let (write, sync) = (call("pwrite64", "/a-wal", b"x", 0), call("fdatasync", "/a-wal", b"", 1));
    let answer = call("write", "socket:[1]", b"HTTP/1.1 303 See", 2);
    assert_eq!(synced(&[write, sync, answer]), Ok(1));
    let answer = || call("write", "socket:[1]", b"HTTP/1.1 303 See", 2);
    assert!(synced(&[call("pwrite64", "/a-wal", b"x", 0), answer()]).is_err());
    assert!(
        synced(&[call("fdatasync", "/a-wal", b"", 0), call("pwrite64", "/a-wal", b"x", 1), answer()])
            .is_err()
    );
}

#[derive(FromRow)]
struct Setting {
    setting: String,
}

#[tokio::test]
async fn a_postgresql_that_does_not_keep_what_it_confirms_is_refused() {
    if !on_postgres() {
        return;
    }
    let cluster = Cluster::start();
    let database = cluster.database().await;
    database.db.close().await;
    for setting in ["fsync", "full_page_writes"] {
        cluster.run(&format!("ALTER SYSTEM SET {setting} = off")).await;
        cluster.run("SELECT pg_reload_conf()").await;
        let refused = opened(&database.url, false).await.err().map(|why| why.to_string()).unwrap_or_default();
        assert!(refused.contains(&format!("{setting} off")), "{refused}");
        cluster.run(&format!("ALTER SYSTEM RESET {setting}")).await;
        cluster.run("SELECT pg_reload_conf()").await;
        opened(&database.url, true).await.unwrap().close().await;
    }
    // our own connections set this one, so that a server that has it off is no danger
    cluster.run("ALTER DATABASE club SET synchronous_commit = off").await;
    let db = Db::open(&database.url).await.unwrap();
    let sql = "SELECT setting FROM pg_settings WHERE name = 'synchronous_commit'";
    let found: Setting = db.write().await.unwrap().one(sql, args![]).await.unwrap();
    assert_eq!(found.setting, "on");
    db.close().await;
}

/// The server takes a moment to read its settings again.
async fn opened(url: &str, should: bool) -> Result<Db, sqlx::Error> {
    for _ in 0..50 {
        match Db::open(url).await {
            Ok(db) if !should => db.close().await,
            Err(_) if should => {}
            other => return other,
        }
        tokio::time::sleep(std::time::Duration::from_millis(50)).await;
    }
    Db::open(url).await
}
