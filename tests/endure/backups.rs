//! Backups while members write: each is restored elsewhere and compared with what the program had answered by then.
//! `HILUM_BACKUPS=1000 cargo test --test endure backups:: -- --nocapture` for the long run.

use crate::support::{Client, Program, START, Told, key, time_is_left, times};
use hilum::args;
use hilum::backups::restore::{self, Order};
use hilum::config::Config;
use hilum::db::ids::At;
use hilum::db::{Db, FromRow};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex};
use std::time::{Duration, Instant};
use tempfile::TempDir;

const WRITERS: usize = 3;
/// A club is begun anew after so many backups: writers that never rest fill it.
const AN_AGE: usize = 20;

#[derive(FromRow)]
struct Text {
    text: String,
}

/// What was answered, outside the program.
#[derive(Clone, Default)]
struct Ledger {
    answered: Arc<Mutex<BTreeSet<String>>>,
    took: Arc<Mutex<Vec<Duration>>>,
    over: Arc<AtomicBool>,
}

impl Ledger {
    async fn write(self, member: Client, bag: String) {
        while !self.over.load(Ordering::SeqCst) {
            let (key, began) = (key(), Instant::now());
            let fields = [("rooted", "0"), ("note", key.as_str())];
            let answer = member.post(&format!("/bags/{bag}/count"), &key, &fields).await.unwrap();
            assert_eq!(answer.status, 303, "{answer:?}");
            self.took.lock().unwrap().push(began.elapsed());
            self.answered.lock().unwrap().insert(key);
        }
    }

    fn answered(&self) -> BTreeSet<String> {
        self.answered.lock().unwrap().clone()
    }
}

async fn texts(db: &Db, sql: &'static str) -> Vec<String> {
    let texts: Vec<Text> = db.read().await.unwrap().all(sql, args![]).await.unwrap();
    texts.into_iter().map(|t| t.text).collect()
}

/// Restores a backup of either engine into a SQLite file; the database there.
async fn restored(backup: &Path, folder: &Path) -> Db {
    let config = Config { data: folder.to_owned(), ..Config::default() };
    std::fs::create_dir(folder).unwrap();
    let order = Order { file: backup.to_owned(), replace: false, despite_breaches: false, as_it_was: false };
    // the check is part of it: a half action is a breach
    let restored = restore::restore(&config, &order, At(START)).await.unwrap();
    assert!(restored.kept.is_none());
    Db::as_it_is(&config.database()).await.unwrap()
}

async fn compare(db: &Db, before: &BTreeSet<String>, after: &BTreeSet<String>) {
    let notes = texts(db, "SELECT note AS text FROM entries WHERE length(note) = 32 ORDER BY note").await;
    let held: BTreeSet<String> = notes.iter().cloned().collect();
    assert_eq!(held.len(), notes.len(), "a count stands twice");
    let lost: Vec<&String> = before.difference(&held).collect();
    assert!(lost.is_empty(), "answered before the backup began, and not in it: {lost:?}");
    assert!(held.difference(after).count() <= WRITERS, "more than was sent");
    const LOOKS: &str = "SELECT e.note AS text FROM entries e JOIN looks l ON l.entry_id = e.id
        WHERE length(e.note) = 32 ORDER BY e.note";
    assert_eq!(texts(db, LOOKS).await, notes, "an entry without its look");
    const KEYS: &str =
        "SELECT o.key AS text FROM once o WHERE o.key IN (SELECT note FROM entries) ORDER BY o.key";
    assert_eq!(texts(db, KEYS).await, notes, "an entry without the key of its save");
}

/// So many backups of a club at work, copies and archives in turn; how long each save took meanwhile.
async fn backed_up(rounds: usize) -> Vec<Duration> {
    let program = Program::demo().await;
    let db = program.db().await;
    let bags = "SELECT b.id AS text FROM bags b JOIN trials t ON t.id = b.trial_id JOIN members m ON m.id = t.owner_id
        WHERE m.sign_in = 'agnes' AND b.closed_at IS NULL ORDER BY b.id";
    let bags = texts(&db, bags).await;
    let agnes = Client::sign_in(&program.base, &db, "agnes", At(START)).await;
    let ledger = Ledger::default();
    let write = |n: usize| tokio::spawn(ledger.clone().write(agnes.clone(), bags[n % bags.len()].clone()));
    let writers: Vec<_> = (0..WRITERS).map(write).collect();
    for round in 0..rounds {
        let folder = TempDir::new().unwrap();
        let before = ledger.answered();
        let archive = if round % 2 == 1 { vec!["--archive"] } else { Vec::new() };
        let mut command = program.command();
        command.args(["backup", "--to", folder.path().to_str().unwrap()]).args(archive);
        let told = tokio::task::spawn_blocking(move || Told::from(command.output().unwrap())).await.unwrap();
        assert!(told.good && told.out.contains("nothing is wrong"), "{told:?}");
        let backup = PathBuf::from(told.out.split(" (").next().unwrap());
        let copy = restored(&backup, &folder.path().join("data")).await;
        compare(&copy, &before, &ledger.answered()).await;
        copy.close().await;
    }
    ledger.over.store(true, Ordering::SeqCst);
    for writer in writers {
        writer.await.unwrap();
    }
    db.close().await;
    assert!(program.check().contains("No breach"));
    ledger.took.lock().unwrap().clone()
}

#[tokio::test(flavor = "multi_thread")]
async fn what_was_answered_before_a_backup_began_is_in_it() {
    let wanted = times("HILUM_BACKUPS", 4);
    let (mut rounds, mut took) = (0, Vec::new());
    while rounds < wanted && (rounds == 0 || time_is_left()) {
        let some = AN_AGE.min(wanted - rounds);
        took.extend(backed_up(some).await);
        rounds += some;
    }
    took.sort();
    let p99 = took[took.len() * 99 / 100];
    println!("{rounds} backups, {} counts answered meanwhile, p99 {p99:?}", took.len());
    assert!(took.len() > rounds, "nothing was written meanwhile");
}
