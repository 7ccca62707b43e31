//! GET /bags/{id}: the count form first, then everything else about one bag.

use super::model::Bag;
use super::store::Other;
use super::{store, warmth};
use crate::app::App;
use crate::db::Conn;
use crate::db::ids::BagId;
use crate::error::AppError;
use crate::notebook::{self, history};
use crate::outlook::{self, Long};
use crate::photos::{self, store::Shown};
use crate::texts::Markup;
use crate::web::away::away;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::{page, words};
use askama::Template;
use axum::extract::{Path, State};
use axum::response::Response;

/// One line of the history.
pub struct Line {
    pub id: String,
    pub when: String,
    /// The moment for machines.
    pub iso: String,
    pub words: String,
    pub note: String,
    /// Who took it back, and why; empty where it stands.
    pub void: String,
    pub photo: Option<Photo>,
}

/// A photo as it is shown small.
pub struct Photo {
    pub shown: Shown,
    /// `JB 1 a, day 6`.
    pub of: String,
}

/// The history as people read it.
pub fn lines(entries: &[history::Entry], chrome: &Chrome) -> Vec<Line> {
    let (now, zone) = (chrome.now, chrome.member.zone());
    let void = |e: &history::Entry| match (&e.void_by, &e.void_why) {
        (Some(by), Some(why)) => t!("bags-taken-back-by", by = by, why = notebook::words::written(why)),
        _ => String::new(),
    };
    let line = |e: &history::Entry| Line {
        id: e.id.clone(),
        when: words::moment(e.at, now, zone),
        iso: e.at.local(zone).to_rfc3339(),
        words: format!("{}, {}", e.by_name, e.words()),
        note: notebook::words::written(&e.note).to_owned(),
        void: void(e),
        photo: None,
    };
    entries.iter().map(line).collect()
}

#[derive(Template)]
#[template(path = "bags/show.html")]
struct Show<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    bag: &'a Bag,
    stands: &'a str,
    place: &'a str,
    sums: &'a str,
    origin: Markup,
    closed: &'a str,
    signs: &'a [&'static str],
    next: Option<&'a Other>,
    ask_recount: bool,
    outlook: Option<&'a Long>,
    history: &'a [Line],
}

/// GET /bags/{id}
pub async fn show(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<BagId>,
) -> Result<Response, AppError> {
    draw(&app, &chrome, &id, &Form::new()).await
}

/// The page, with the count form or the reopening form as it stands.
pub async fn draw(app: &App, chrome: &Chrome, id: &BagId, form: &Form) -> Result<Response, AppError> {
    let mut conn = app.db.read().await?;
    let bag = store::bag(&mut conn, &chrome.member.id, id).await?;
    let entries = history::of_bag(&mut conn, id).await?;
    let photos = photos::store::of_bag(&mut conn, &chrome.member.id, id).await?;
    let next = next_due(&mut conn, chrome, id).await?;
    drop(conn);
    let (now, zone) = (chrome.now, chrome.member.zone());
    let outlook = outlook(app, chrome, &bag).await?;
    let closed = bag.closed_at.map_or_else(String::new, |at| words::moment(at, now, zone));
    let stands = format!("{}, {}, {}", bag.paper_words(), bag.day_words(now, zone), rooted_words(&bag));
    let place = warmth::place_words(&chrome.member, &bag.place, bag.warmth_c);
    let mut history = lines(&entries, chrome);
    for line in &mut history {
        let photo = photos.iter().find(|p| p.entry_id == line.id).cloned();
        line.photo = photo.map(|shown| Photo { of: shown.of(zone), shown });
    }
    let shown = Show {
        chrome,
        form,
        stands: &stands,
        place: &place,
        sums: &t!("bags-seeds-in-bag", n = bag.seeds),
        origin: origin(&bag),
        closed: &closed,
        signs: &signs(&bag),
        next: next.as_ref(),
        ask_recount: !form.error("there_were").is_empty() || !form.value("there_were").is_empty(),
        outlook: outlook.as_ref(),
        history: &history,
        bag: &bag,
    };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

/// What to expect of a bag with seeds on paper.
async fn outlook(app: &App, chrome: &Chrome, bag: &Bag) -> Result<Option<Long>, AppError> {
    let zone = chrome.member.zone();
    let Some(waiting) = bag.waiting_for_roots(chrome.now, zone) else { return Ok(None) };
    let views = outlook::views(app, zone, vec![waiting.clone()]).await;
    let us = chrome.member.us();
    // intervals take longer than a page may hold up others
    let long = move || views.first().map(|view| outlook::long(view, &waiting, us));
    away(long).await
}

/// The first other bag that is due for a look.
pub async fn next_due(conn: &mut Conn, chrome: &Chrome, but: &BagId) -> Result<Option<Other>, AppError> {
    let zone = chrome.member.zone();
    store::next_due(conn, (&chrome.member.id, but), (chrome.now.day(zone), zone)).await
}

fn rooted_words(bag: &Bag) -> String {
    match bag.waiting() {
        0 => t!("bags-rooted", n = bag.rooted),
        n => t!("bags-rooted-not-planted", rooted = bag.rooted, n = n),
    }
}

/// Where its seeds come from, and the holder it is in.
fn origin(bag: &Bag) -> Markup {
    let Bag { kind, source, .. } = bag;
    let (trial, packet) = (&bag.trial_id.0, &bag.packet_id.0);
    match (&bag.holder_id, &bag.holder) {
        (Some(id), Some(mark)) => h!(
            "bags-origin-in-holder",
            kind = kind,
            source = source,
            trial = trial,
            packet = packet,
            holder = id.0,
            mark = mark
        ),
        _ => h!("bags-origin", kind = kind, source = source, trial = trial, packet = packet),
    }
}

fn signs(bag: &Bag) -> Vec<&'static str> {
    let all = [
        (bag.voided, t!("bags-sign-taken-back")),
        (bag.in_doubt, t!("bags-sign-in-doubt")),
        (bag.floaters, t!("bags-sign-floaters")),
        (bag.treated_again, t!("bags-sign-treated-again")),
        (bag.weekly, t!("bags-sign-weekly")),
        (bag.ending == "abandoned", t!("bags-sign-abandoned")),
        (bag.ending == "final count", t!("bags-sign-final-count")),
    ];
    all.into_iter().filter(|(is, _)| *is).map(|(_, sign)| sign).collect()
}
