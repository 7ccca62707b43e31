//! What the page of a plan costs: the statements that it sends to the database, and its time.

use super::{club, paste};
use crate::support::{Browser, Club};
use hilum::db::FromRow;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Debug;
use std::sync::{Mutex, OnceLock};
use std::thread::ThreadId;
use std::time::{Duration, Instant};
use tracing::field::{Field, Visit};
use tracing_subscriber::Layer;
use tracing_subscriber::layer::{Context, SubscriberExt};

/// As many statements as a page may send, however long the plan.
const MOST: usize = 12;
/// Nobody else asks this.
const MARKER: &str = "SELECT CAST(20260302 AS BIGINT) AS n";
/// A debug build on a busy machine.
const LONGEST: Duration = Duration::from_secs(8);

#[derive(Default)]
struct Seen {
    /// Statements by the thread that ran them: with SQLite, each connection has one of its own.
    counts: Vec<(ThreadId, usize)>,
    /// Threads that ran the marker.
    ours: Vec<ThreadId>,
}

fn seen() -> &'static Mutex<Seen> {
    static SEEN: OnceLock<Mutex<Seen>> = OnceLock::new();
    SEEN.get_or_init(Mutex::default)
}

struct Statements;

struct Marked(bool);

impl Visit for Marked {
    fn record_debug(&mut self, _: &Field, value: &dyn Debug) {
        self.0 |= format!("{value:?}").contains("20260302");
    }
}

impl<S: tracing::Subscriber> Layer<S> for Statements {
    fn on_event(&self, event: &tracing::Event<'_>, _: Context<'_, S>) {
        if event.metadata().target() != "sqlx::query" {
            return;
        }
        let mut marked = Marked(false);
        event.record(&mut marked);
        let (mut seen, thread) = (seen().lock().unwrap(), std::thread::current().id());
        if marked.0 {
            seen.ours.push(thread);
        }
        match seen.counts.iter_mut().find(|(id, _)| *id == thread) {
            Some((_, n)) => *n += 1,
            None => seen.counts.push((thread, 1)),
        }
    }
}

#[derive(FromRow)]
struct N {
    n: i64,
}

/// Learns on which threads the statements of this club run.
async fn watch(club: &Club) {
    let mut held = Vec::new();
    for _ in 0..4 {
        held.push(club.app.db.read().await.unwrap());
    }
    for conn in &mut held {
        let row: N = conn.one(MARKER, vec![]).await.unwrap();
        assert_eq!(row.n, 20_260_302);
    }
}

fn sent() -> usize {
    let seen = seen().lock().unwrap();
    seen.counts.iter().filter(|(id, _)| seen.ours.contains(id)).map(|(_, n)| n).sum()
}

/// Statements and time of one page.
async fn cost(by: &Browser, path: &str) -> (usize, Duration) {
    let (before, began) = (sent(), Instant::now());
    by.get(path).await.says("Plan 2026");
    (sent() - before, began.elapsed())
}

#[tokio::test]
async fn thirty_lines_cost_no_more_statements_than_three() {
    tracing::subscriber::set_global_default(tracing_subscriber::registry().with(Statements)).unwrap();
    let (club, jo) = club().await;
    watch(&club).await;
    let mut costs: BTreeMap<usize, BTreeSet<usize>> = BTreeMap::new();
    for lines in [3, 27] {
        for n in 0..lines {
            club.packet(&jo, &format!("Variety {lines} {n}"), 100).await;
        }
        let list: Vec<String> =
            (0..lines).map(|n| format!("Variety {lines} {n}, 24, 2026-06-{:02}", n % 28 + 1)).collect();
        paste(&jo, &list.join("\n")).await.says("Added");
        for path in ["/plan", "/plan/weeks"] {
            cost(&jo, path).await;
            let (statements, time) = cost(&jo, path).await;
            println!("{path} with {lines} more lines: {statements} statements, {} ms", time.as_millis());
            assert!((4..=MOST).contains(&statements), "{path}: {statements} statements");
            assert!(time < LONGEST, "{path}: {time:?}");
            costs.entry(lines).or_default().insert(statements);
        }
    }
    assert_eq!(costs[&3], costs[&27]);
}
