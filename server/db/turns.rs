//! The one connection that writes to a SQLite file, and its turns. Saves that wait for it at the same moment last by one
//! commit, which is one sync of the disk. Each stands behind a savepoint: one that is given up takes no other with it.
//! Nobody hears that a save lasts before the commit is done, nor who saw it and gave up ("this was saved before").

use super::Arg;
use super::trouble::Together;
use sqlx::error::ErrorKind;
use sqlx::sqlite::SqliteConnection;
use sqlx::{AssertSqlSafe, SqlSafeStr, Sqlite, SqlitePool, Transaction};
use std::cell::RefCell;
use std::ops::{Deref, DerefMut};
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::Duration;
use tokio::sync::{Mutex, OwnedMutexGuard, watch};

/// For so long a save waits for its turn; then it says that the disk is slow.
pub const TURN: Duration = Duration::from_secs(10);
/// So many statements are put off at most.
const MOST: usize = 8;
/// So many saves share a commit at most: the next are prepared while it is made.
const TOGETHER: usize = 8;

const BEGIN: &str = "BEGIN IMMEDIATE";
const OPEN: &str = "SAVEPOINT save";
const CLOSE: &str = "RELEASE save";
const BACK: &str = "ROLLBACK TO save";

/// What became of a commit; nothing yet at first.
type Told = Option<Result<(), Arc<sqlx::Error>>>;

tokio::task_local! {
    /// The commit of what this request saw of others' saves.
    static SEEN: RefCell<Option<watch::Receiver<Told>>>;
}

/// Gives the turns, in the order in which they were asked for; clones share them.
#[derive(Clone)]
pub struct Writer {
    pub pool: SqlitePool,
    turn: Arc<Mutex<Option<Group>>>,
    groups: Arc<AtomicU64>,
}

/// Saves that last by the same commit.
struct Group {
    number: u64,
    transaction: Transaction<'static, Sqlite>,
    /// Those of them wait here. While there is one, a commit of the group waits for its turn too.
    done: watch::Sender<Told>,
    /// What the last one did is to be taken back first.
    given_up: bool,
}

/// One save. Dropping it without [`Turn::commit`] takes back all that it did.
pub struct Turn {
    writer: Writer,
    group: OwnedMutexGuard<Option<Group>>,
    later: Vec<(&'static str, Vec<Arg>)>,
    state: State,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum State {
    /// Nothing was sent yet.
    Fresh,
    Begun,
    /// Whole tables were worked on, outside the savepoint.
    Whole,
    /// The engine may have taken the whole transaction back.
    Broken,
    Released,
}

impl Writer {
    pub fn new(pool: SqlitePool) -> Self {
        Self { pool, turn: Arc::default(), groups: Arc::default() }
    }

    /// The next turn; `PoolTimedOut` where it does not come.
    pub async fn turn(&self) -> Result<Turn, sqlx::Error> {
        let turn = tokio::time::timeout(TURN, self.turn.clone().lock_owned()).await;
        let mut group = turn.map_err(|_| sqlx::Error::PoolTimedOut)?;
        *group = match group.take() {
            Some(open) => open.tidied().await,
            None => None,
        };
        if group.is_none() {
            let transaction = self.pool.begin_with(BEGIN).await?;
            let number = self.groups.fetch_add(1, Ordering::Relaxed);
            *group = Some(Group { number, transaction, done: watch::Sender::default(), given_up: false });
        }
        Ok(Turn { writer: self.clone(), group, later: vec![(OPEN, Vec::new())], state: State::Fresh })
    }

    async fn commit(self, number: u64) {
        let mut turn = self.turn.lock().await;
        // another where it broke meanwhile, or had enough saves before
        if let Some(group) = turn.take_if(|group| group.number == number) {
            group.commit().await;
        }
    }
}

impl Group {
    /// Without what was given up last. `None` where that was cut off so early or so late that it cannot be told from the
    /// rest: then all is taken back, and those who wait are tried again.
    async fn tidied(mut self) -> Option<Self> {
        if self.given_up {
            for sql in [BACK, CLOSE] {
                run(&mut self.transaction, sql).await.ok()?;
            }
            self.given_up = false;
        }
        Some(self)
    }

    fn saves(&self) -> usize {
        self.done.receiver_count()
    }

    fn has_saves(&self) -> bool {
        self.saves() > 0
    }

    async fn commit(self) {
        let Some(Self { transaction, done, .. }) = self.tidied().await else { return };
        let told = transaction.commit().await.map_err(Arc::new);
        done.send_replace(Some(told));
    }
}

/// Does the work of one request; what of others' saves was seen in it lasts at the end.
pub async fn attend<T>(work: impl Future<Output = T>) -> Result<T, sqlx::Error> {
    let whole = async {
        let done = work.await;
        settled().await.map(|()| done)
    };
    SEEN.scope(RefCell::default(), whole).await
}

/// Waits until what this request saw of others' saves lasts.
pub async fn settled() -> Result<(), sqlx::Error> {
    let seen = SEEN.try_with(RefCell::take).ok().flatten();
    if let Some(seen) = seen { told(seen).await } else { Ok(()) }
}

async fn told(mut done: watch::Receiver<Told>) -> Result<(), sqlx::Error> {
    let told = done.wait_for(Option::is_some).await.map(|told| told.clone());
    let why = match told {
        Ok(Some(Ok(()))) => return Ok(()),
        Ok(Some(Err(error))) => Together::Failed(error),
        Ok(None) | Err(_) => Together::Undone,
    };
    Err(sqlx::Error::Configuration(Box::new(why)))
}

#[expect(clippy::disallowed_methods, reason = "a statement of SQLite alone")]
async fn run(conn: &mut SqliteConnection, sql: &'static str) -> Result<(), sqlx::Error> {
    sqlx::query(sql).execute(conn).await.map(drop)
}

impl Turn {
    /// Puts a statement off until the next one that gives something: one message to the engine instead of two.
    pub fn put_off(&mut self, sql: &'static str, args: Vec<Arg>) {
        self.later.push((sql, args));
    }

    pub fn has_enough(&self) -> bool {
        self.later.len() >= MOST
    }

    /// The statement behind those that were put off, and the parameters of all.
    pub fn with_later(&mut self, sql: &'static str, args: Vec<Arg>) -> (sqlx::SqlStr, Vec<Arg>) {
        self.state = if self.state == State::Fresh { State::Begun } else { self.state };
        if self.later.is_empty() {
            return (sql.into_sql_str(), args);
        }
        let (mut text, mut all) = (String::new(), Vec::new());
        for (sql, args) in self.later.drain(..).chain([(sql, args)]) {
            put_numbered(&mut text, sql, all.len());
            text.push(';');
            all.extend(args);
        }
        (AssertSqlSafe(text).into_sql_str(), all)
    }

    /// Notes whether the engine may have given up more than the statement.
    pub fn heed<T>(&mut self, result: Result<T, sqlx::Error>) -> Result<T, sqlx::Error> {
        let rule = |e: &sqlx::Error| e.as_database_error().is_some_and(|e| e.kind() != ErrorKind::Other);
        if result.as_ref().is_err_and(|e| !rule(e)) {
            self.state = State::Broken;
        }
        result
    }

    /// The statement that ends a save; all that was put off goes with it.
    pub fn last(&self) -> &'static str {
        CLOSE
    }

    /// Waits until what was done lasts; [`Turn::last`] must have gone well before.
    pub async fn commit(mut self) -> Result<(), sqlx::Error> {
        let Some(group) = self.group.as_mut() else { return Err(sqlx::Error::WorkerCrashed) };
        if !matches!(self.state, State::Begun | State::Whole) {
            return Err(sqlx::Error::WorkerCrashed);
        }
        if !group.has_saves() {
            // whoever waits by then is before it
            tokio::spawn(self.writer.clone().commit(group.number));
        }
        group.given_up = false;
        let done = group.done.subscribe();
        self.state = State::Released;
        if group.saves() >= TOGETHER {
            tokio::spawn(self.close());
        } else {
            drop(self);
        }
        told(done).await
    }

    /// Ends the group with this save. A task of its own, so that it is not cut off when whoever saved gives up.
    async fn close(mut self) {
        if let Some(group) = self.group.take() {
            group.commit().await;
        }
    }
}

impl Drop for Turn {
    fn drop(&mut self) {
        let Some(group) = self.group.as_mut() else { return };
        match self.state {
            State::Released => {}
            State::Fresh if group.has_saves() => {}
            State::Begun if group.has_saves() => {
                group.given_up = true;
                let done = group.done.subscribe();
                let _ = SEEN.try_with(|seen| seen.replace(Some(done)));
            }
            // those who wait hear that it was undone, and are tried again
            _ => *self.group = None,
        }
    }
}

impl Deref for Turn {
    type Target = SqliteConnection;

    fn deref(&self) -> &SqliteConnection {
        self.group.as_ref().map(|g| &*g.transaction).expect("a turn has its group")
    }
}

impl DerefMut for Turn {
    fn deref_mut(&mut self) -> &mut SqliteConnection {
        self.state = if self.state == State::Fresh { State::Whole } else { self.state };
        self.group.as_mut().map(|g| &mut *g.transaction).expect("a turn has its group")
    }
}

/// Writes `sql` with its `$1 ..` counted from `before` on.
fn put_numbered(text: &mut String, sql: &str, before: usize) {
    let mut parts = sql.split('$');
    text.push_str(parts.next().unwrap_or_default());
    for part in parts {
        let digits = part.bytes().take_while(u8::is_ascii_digit).count();
        let (number, rest) = part.split_at(digits);
        match number.parse::<usize>() {
            Ok(n) => text.push_str(&format!("${}{rest}", n + before)),
            Err(_) => text.push_str(&format!("${part}")),
        }
    }
}
