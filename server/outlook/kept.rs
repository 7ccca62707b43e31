//! What was fitted, kept until the bags it was made from change.

use super::model::Outlook;
use super::own::Own;
use super::pool::{Key, Pool, Shelf, rows};
use super::verdict::asks_own;
use super::waiting::Waiting;
use crate::app::App;
use crate::error::AppError;
use crate::rates::{self, Book};
use chrono_tz::Tz;
use std::collections::HashMap;
use std::sync::{Arc, Mutex, PoisonError};
use std::time::Duration;

/// How long a page waits; what is not fitted by then is fitted for the next page.
const PATIENCE: Duration = Duration::from_millis(150);
/// How many pools, and how many bags, are kept at once.
const MOST: usize = 5000;

/// Shared by all requests of this process.
#[derive(Clone)]
pub struct Outlooks {
    patience: Duration,
    kept: Arc<Mutex<Kept>>,
    /// Held while somebody fits; the others wait for what comes of it.
    turn: Arc<tokio::sync::Mutex<()>>,
}

impl Default for Outlooks {
    fn default() -> Self {
        Self::patient(PATIENCE)
    }
}

#[derive(Default)]
struct Kept {
    shelf: Arc<Shelf>,
    /// Grows with every book.
    edition: u64,
    pools: HashMap<Key, Entry>,
    own: HashMap<String, Arc<Own>>,
}

#[derive(Clone)]
struct Entry {
    edition: u64,
    pool: Arc<Pool>,
    /// `None`: the pool is too small.
    outlook: Option<Arc<Outlook>>,
}

/// What is known about one bag by now.
#[derive(Debug, Clone, Default)]
pub struct View {
    pub outlook: Option<Arc<Outlook>>,
    pub own: Option<Arc<Own>>,
    /// Whether the club's bags have been asked at all.
    pub ready: bool,
}

/// What is known about these bags, in their order. Waits a little for what is not fitted yet.
pub async fn views(app: &App, zone: Tz, waiting: Vec<Waiting>) -> Vec<View> {
    if waiting.is_empty() {
        return Vec::new();
    }
    let waiting = Arc::new(waiting);
    // a task of its own, so that it ends its work when the page no longer waits for it
    let work = tokio::spawn(prepare(app.clone(), zone, waiting.clone()));
    match tokio::time::timeout(app.outlooks.patience, work).await {
        Ok(Ok(Err(e))) => tracing::warn!(error = ?e, "no outlook"),
        Ok(Err(e)) => tracing::error!(error = ?e, "no outlook"),
        Ok(Ok(Ok(()))) | Err(_) => {}
    }
    app.outlooks.with(|kept| waiting.iter().map(|w| kept.view(w)).collect())
}

async fn prepare(app: App, zone: Tz, waiting: Arc<Vec<Waiting>>) -> Result<(), AppError> {
    let (_, book) = rates::book(&app, zone).await?;
    let outlooks = app.outlooks.clone();
    let _turn = outlooks.turn.clone().lock_owned().await;
    let fit = move || {
        outlooks.take_up(book);
        waiting.iter().for_each(|w| outlooks.fit(w));
    };
    tokio::task::spawn_blocking(fit).await.map_err(|e| AppError::Internal(e.into()))
}

impl Outlooks {
    /// Outlooks for whose fitting a page waits this long.
    pub fn patient(patience: Duration) -> Self {
        Self { patience, kept: Arc::default(), turn: Arc::default() }
    }

    fn with<T>(&self, what: impl FnOnce(&mut Kept) -> T) -> T {
        what(&mut self.kept.lock().unwrap_or_else(PoisonError::into_inner))
    }

    fn take_up(&self, book: Arc<Book>) {
        if self.with(|kept| Arc::ptr_eq(&kept.shelf.book, &book)) {
            return;
        }
        let shelf = Arc::new(Shelf::new(book));
        self.with(|kept| {
            kept.shelf = shelf;
            kept.edition += 1;
            if kept.pools.len() > MOST || kept.own.len() > MOST {
                kept.pools.clear();
                kept.own.clear();
            }
        });
    }

    /// Fits what one bag needs and is not kept.
    fn fit(&self, waiting: &Waiting) {
        let (shelf, edition) = self.with(|kept| (kept.shelf.clone(), kept.edition));
        let Some(bag) = shelf.bag(&waiting.mark) else { return };
        let mut keys = Key::of(bag, waiting.warmth_c).into_iter();
        let outlook = keys.find_map(|key| self.outlook(&shelf, edition, key));
        if asks_own(outlook.as_deref(), waiting) {
            let seeds = rows(bag, 0);
            let kept = self.with(|kept| kept.own.get(&waiting.mark).cloned());
            if kept.is_none_or(|own| own.seeds != seeds) {
                let own = Arc::new(Own::of(seeds));
                self.with(|kept| kept.own.insert(waiting.mark.clone(), own));
            }
        }
    }

    fn outlook(&self, shelf: &Shelf, edition: u64, key: Key) -> Option<Arc<Outlook>> {
        let kept = self.with(|kept| kept.pools.get(&key).cloned());
        if let Some(entry) = kept.as_ref().filter(|e| e.edition == edition) {
            return entry.outlook.clone();
        }
        let pool = shelf.pool(&key);
        let entry = match kept.filter(|e| *e.pool == pool) {
            Some(same) => Entry { edition, ..same },
            None => Entry { edition, outlook: Outlook::of(&pool).map(Arc::new), pool: Arc::new(pool) },
        };
        let outlook = entry.outlook.clone();
        self.with(|kept| kept.pools.insert(key, entry));
        outlook
    }
}

impl Kept {
    /// What is kept for a bag, be it of an older book.
    fn view(&self, waiting: &Waiting) -> View {
        let Some(bag) = self.shelf.bag(&waiting.mark) else { return View::default() };
        for key in Key::of(bag, waiting.warmth_c) {
            let Some(entry) = self.pools.get(&key) else { return View::default() };
            if entry.outlook.is_some() {
                return self.seen(entry.outlook.clone(), waiting);
            }
        }
        self.seen(None, waiting)
    }

    fn seen(&self, outlook: Option<Arc<Outlook>>, waiting: &Waiting) -> View {
        let own = asks_own(outlook.as_deref(), waiting).then(|| self.own.get(&waiting.mark).cloned());
        View { outlook, own: own.flatten(), ready: true }
    }
}
