//! What was fitted, kept until the bags it was made from change.

use super::model::Outlook;
use super::own::Own;
use super::pool::{Key, Pool, Shelf, rows};
use super::verdict::asks_own;
use super::waiting::Waiting;
use crate::app::App;
use crate::error::AppError;
use crate::rates::{self, Book};
use crate::web::away::{away, finished};
use chrono_tz::Tz;
use std::collections::HashMap;
use std::sync::{Arc, Mutex, PoisonError};
use std::time::{Duration, Instant};
use tokio::sync::Semaphore;

/// How long a page waits; what is not fitted by then is fitted for the next page.
const PATIENCE: Duration = Duration::from_millis(60);
/// A pool of so many bags is not moved by a few counts, and its outlook is good for this long.
const MANY: usize = 300;
const GOOD_FOR: Duration = Duration::from_secs(600);
/// So many pages may wait for their turn to fit; those beyond show what is kept. Each would hold up the rest.
const WAITING: usize = 4;
/// How many pools, and how many bags, are kept at once.
const MOST: usize = 5000;

/// Shared by all requests of this process.
#[derive(Clone)]
pub struct Outlooks {
    patience: Duration,
    kept: Arc<Mutex<Kept>>,
    /// Held while somebody fits; the others wait for what comes of it.
    turn: Arc<tokio::sync::Mutex<()>>,
    queue: Arc<Semaphore>,
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
    fitted: Instant,
    pool: Arc<Pool>,
    /// `None`: the pool is too small.
    outlook: Option<Arc<Outlook>>,
}

impl Entry {
    fn rests(&self) -> bool {
        self.pool.basis.bags >= MANY && self.fitted.elapsed() < GOOD_FOR
    }
}

/// What is known about one bag by now.
#[derive(Debug, Clone, Default)]
pub struct View {
    pub outlook: Option<Arc<Outlook>>,
    pub own: Option<Arc<Own>>,
    /// Whether the club's bags have been asked at all.
    pub ready: bool,
    /// The bag is not among the club's: of a running ring trial, say.
    pub apart: bool,
}

/// A variety whose seeds are to go on paper, at degrees C.
#[derive(Debug, Clone, PartialEq)]
pub struct Sought {
    pub kind_id: String,
    pub variety: String,
    pub warmth_c: f64,
}

/// What is known about these bags, in their order. Waits a little for what is not fitted yet.
pub async fn views(app: &App, zone: Tz, waiting: Vec<Waiting>) -> Vec<View> {
    if waiting.is_empty() {
        return Vec::new();
    }
    let book = app.tables.lately();
    if let Some(views) = book.and_then(|book| app.outlooks.with(|kept| kept.settled(&book, &waiting))) {
        return views;
    }
    let waiting = Arc::new(waiting);
    let asked = waiting.clone();
    prepare(app, zone, move |outlooks| asked.iter().for_each(|w| outlooks.fit(w))).await;
    app.outlooks.with(|kept| waiting.iter().map(|w| kept.view(w)).collect())
}

/// What the club's bags say of seed that is to go on paper, in the order asked; and whether they were asked at all.
/// Waits a little for what is not fitted yet.
pub async fn paces(app: &App, zone: Tz, sought: Vec<Sought>) -> Vec<(Option<Arc<Outlook>>, bool)> {
    if sought.is_empty() {
        return Vec::new();
    }
    let keys: Vec<[Key; 2]> =
        sought.iter().map(|s| Key::sought(&s.kind_id, &s.variety, s.warmth_c)).collect();
    let keys = Arc::new(keys);
    let asked = keys.clone();
    let fit = move |outlooks: &Outlooks| {
        let (shelf, edition) = outlooks.shelf();
        for pair in asked.iter() {
            pair.iter().cloned().find_map(|key| outlooks.outlook(&shelf, edition, key));
        }
    };
    prepare(app, zone, fit).await;
    app.outlooks.with(|kept| keys.iter().map(|pair| kept.pace(pair)).collect())
}

/// Fits what is asked for, as long as a page waits; it ends its work also when the page no longer waits for it.
async fn prepare(app: &App, zone: Tz, fit: impl FnOnce(&Outlooks) + Send + 'static) {
    let Ok(place) = app.outlooks.queue.clone().try_acquire_owned() else { return };
    let app_of_work = app.clone();
    let work = finished(async move {
        let _place = place;
        fitted(app_of_work, zone, fit).await
    });
    if let Ok(Err(e)) = tokio::time::timeout(app.outlooks.patience, work).await {
        tracing::warn!(error = ?e, "no outlook");
    }
}

async fn fitted(app: App, zone: Tz, fit: impl FnOnce(&Outlooks) + Send + 'static) -> Result<(), AppError> {
    let outlooks = app.outlooks.clone();
    let _turn = outlooks.turn.clone().lock_owned().await;
    // only then: whoever waits holds no book of a while ago
    let book = rates::book(&app, zone).await?.book;
    let work = move || {
        outlooks.take_up(book);
        fit(&outlooks);
    };
    away(work).await
}

impl Outlooks {
    /// Outlooks for whose fitting a page waits this long.
    pub fn patient(patience: Duration) -> Self {
        Self {
            patience,
            kept: Arc::default(),
            turn: Arc::default(),
            queue: Arc::new(Semaphore::new(WAITING)),
        }
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

    fn shelf(&self) -> (Arc<Shelf>, u64) {
        self.with(|kept| (kept.shelf.clone(), kept.edition))
    }

    /// Fits what one bag needs and is not kept.
    fn fit(&self, waiting: &Waiting) {
        let (shelf, edition) = self.shelf();
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
        if let Some(entry) = kept.as_ref().filter(|e| e.edition == edition || e.rests()) {
            return entry.outlook.clone();
        }
        let pool = shelf.pool(&key);
        let entry = match kept.filter(|e| *e.pool == pool) {
            Some(same) => Entry { edition, ..same },
            None => {
                let (outlook, fitted) = (Outlook::of(&pool).map(Arc::new), Instant::now());
                Entry { edition, fitted, outlook, pool: Arc::new(pool) }
            }
        };
        let outlook = entry.outlook.clone();
        self.with(|kept| kept.pools.insert(key, entry));
        outlook
    }
}

impl Kept {
    /// What is known about these bags, where nothing is to be fitted for them by this book.
    fn settled(&self, book: &Arc<Book>, waiting: &[Waiting]) -> Option<Vec<View>> {
        if !Arc::ptr_eq(&self.shelf.book, book) {
            return None;
        }
        waiting.iter().map(|w| Some(self.view(w)).filter(|view| self.is_settled(view, w))).collect()
    }

    fn is_settled(&self, view: &View, waiting: &Waiting) -> bool {
        let Some(bag) = self.shelf.bag(&waiting.mark) else { return true };
        let good = |key: &Key| self.pools.get(key).is_some_and(|e| e.edition == self.edition || e.rests());
        let asked = Key::of(bag, waiting.warmth_c);
        let pools = good(&asked[0]) && (self.pools[&asked[0]].outlook.is_some() || good(&asked[1]));
        let own = || view.own.as_ref().is_some_and(|own| own.seeds == rows(bag, 0));
        pools && (!asks_own(view.outlook.as_deref(), waiting) || own())
    }

    /// What is kept of the first of these pools that is large enough, and whether all were asked.
    fn pace(&self, pair: &[Key; 2]) -> (Option<Arc<Outlook>>, bool) {
        for key in pair {
            match self.pools.get(key) {
                None => return (None, false),
                Some(Entry { outlook: Some(found), .. }) => return (Some(found.clone()), true),
                Some(_) => {}
            }
        }
        (None, true)
    }

    /// What is kept for a bag, be it of an older book.
    fn view(&self, waiting: &Waiting) -> View {
        let Some(bag) = self.shelf.bag(&waiting.mark) else {
            return View { ready: self.edition > 0, apart: self.edition > 0, ..View::default() };
        };
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
        View { outlook, own: own.flatten(), ready: true, apart: false }
    }
}
