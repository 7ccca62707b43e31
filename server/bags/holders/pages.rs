use super::store::{self, Holder};
use crate::app::App;
use crate::bags::model::{Bag, Choice, beside, choices};
use crate::bags::{happened, store as bags, warmth};
use crate::db::Conn;
use crate::db::ids::{At, BagId, HolderId};
use crate::error::AppError;
use crate::notebook::bag::{self, Event};
use crate::notebook::{self, Act};
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::said::Said;
use crate::web::{once, page};
use askama::Template;
use axum::extract::{Path, State};
use axum::response::Response;

/// A holder as listed.
struct Shown {
    holder: Holder,
    place: String,
    bags: String,
}

impl Shown {
    fn new(holder: Holder, chrome: &Chrome) -> Self {
        let place = warmth::place_words(&chrome.member, &holder.place, holder.warmth_c);
        Self { bags: t!("holders-open-bags", n = holder.bags), place, holder }
    }
}

#[derive(Template)]
#[template(path = "bags/holders.html")]
struct List<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    holders: &'a [Shown],
    unit: &'a str,
}

/// GET /holders
pub async fn list(State(app): State<App>, chrome: Chrome) -> Result<Response, AppError> {
    draw_list(&app, &chrome, &Form::new()).await
}

async fn draw_list(app: &App, chrome: &Chrome, form: &Form) -> Result<Response, AppError> {
    let all = store::all(&mut app.db.read().await?, &chrome.member.id).await?;
    let holders: Vec<Shown> = all.into_iter().map(|h| Shown::new(h, chrome)).collect();
    let unit = warmth::label(&chrome.member);
    let shown = List { chrome, form, holders: &holders, unit };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

/// POST /holders: makes a holder.
pub async fn add(State(app): State<App>, chrome: Chrome, mut form: Form) -> Result<Response, AppError> {
    let place = form.text("place", 80);
    let warmth = warmth::typed(&mut form, "warmth", &chrome.member);
    if form.failed() {
        return draw_list(&app, &chrome, &form).await;
    }
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "holder", &form).await? {
        return Ok(again);
    }
    let added = store::add(&mut conn, &chrome.member.id, &place, warmth, chrome.now).await;
    let Some(holder) = form.take(added)? else {
        drop(conn);
        return draw_list(&app, &chrome, &form).await;
    };
    let said = Said::new(t!("holders-write-on-holder", mark = holder.mark));
    once::done(conn, &app, &form, &format!("/holders/{}", holder.id), said).await
}

#[derive(Template)]
#[template(path = "bags/holder.html")]
struct One<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    shown: &'a Shown,
    inside: &'a [Bag],
    outside: &'a [Bag],
    choices: &'a [(&'static str, &'static str)],
    unit: &'a str,
}

/// What can be done with a holder and all its bags at once.
const WORK: [Choice; 4] = [
    ("put in", || t!("holders-put-in")),
    ("damped", || t!("holders-damp")),
    ("moved", || t!("holders-move")),
    ("taken out", || t!("holders-take-out")),
];

/// GET /holders/{id}
pub async fn show(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<HolderId>,
) -> Result<Response, AppError> {
    draw(&app, &chrome, &id, &Form::new()).await
}

async fn draw(app: &App, chrome: &Chrome, id: &HolderId, form: &Form) -> Result<Response, AppError> {
    let mut conn = app.db.read().await?;
    let holder = store::holder(&mut conn, &chrome.member.id, id).await?;
    let open = bags::open(&mut conn, &chrome.member.id).await?;
    drop(conn);
    let (inside, outside): (Vec<Bag>, Vec<Bag>) =
        open.into_iter().partition(|b| b.holder_id.as_ref() == Some(id));
    let shown = One {
        chrome,
        form,
        shown: &Shown::new(holder, chrome),
        inside: &inside,
        outside: &outside,
        choices: &choices(WORK),
        unit: warmth::label(&chrome.member),
    };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

/// What was typed.
struct Work {
    what: &'static str,
    place: String,
    warmth: Option<f64>,
    ticked: Vec<BagId>,
    at: At,
}

impl Work {
    fn parse(form: &mut Form, chrome: &Chrome) -> Self {
        let what = form.one_of("what", &WORK.map(|(what, _)| what));
        let place = form.text("place", 80);
        let warmth = warmth::typed(form, "warmth", &chrome.member);
        let at = form.moment("at", chrome.member.zone(), chrome.now);
        let ticked: Vec<BagId> = form.values("bag").into_iter().map(|id| BagId(id.to_owned())).collect();
        if matches!(what, "put in" | "taken out") && ticked.is_empty() {
            form.refuse("bag", t!("holders-tick-the-bags"));
        }
        if what == "moved" && place.is_empty() && warmth.is_none() {
            form.refuse("place", t!("bags-place-or-warmth"));
        }
        Self { what, place, warmth, ticked, at }
    }

    fn words(&self) -> &'static str {
        match self.what {
            "put in" => t!("holders-were-put-in"),
            "taken out" => t!("holders-were-taken-out"),
            event => notebook::words::sort(event),
        }
    }
}

/// POST /holders/{id}: each bag gets an act of its own, all in one save.
pub async fn save(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<HolderId>,
    mut form: Form,
) -> Result<Response, AppError> {
    let work = Work::parse(&mut form, &chrome);
    store::holder(&mut app.db.read().await?, &chrome.member.id, &id).await?;
    if form.failed() {
        return draw(&app, &chrome, &id, &form).await;
    }
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "holder's work", &form).await? {
        return Ok(again);
    }
    let result = record(&mut conn, &chrome, form.key(), &id, &work).await;
    let Some(bags) = form.take(result)? else {
        drop(conn);
        return draw(&app, &chrome, &id, &form).await;
    };
    let mut said = Said::new(t!("holders-done", what = work.words(), n = bags));
    if work.what != "moved" {
        said = said.undo(form.key());
    }
    once::done(conn, &app, &form, &format!("/holders/{id}"), said).await
}

async fn record(
    conn: &mut Conn,
    chrome: &Chrome,
    key: &str,
    id: &HolderId,
    work: &Work,
) -> Result<i64, AppError> {
    let holder = store::lock(conn, &chrome.member.id, id).await?;
    let mut ids = work.ticked.clone();
    if matches!(work.what, "moved" | "damped") {
        let inside = bags::in_holder(conn, &chrome.member.id, id).await?;
        ids = inside.into_iter().map(|b| b.id).collect();
    }
    ids.sort_unstable();
    ids.dedup();
    let place = if work.place.is_empty() { &holder.place } else { &work.place };
    let warmth = work.warmth.or(holder.warmth_c);
    if work.what == "moved" {
        store::put(conn, &chrome.member.id, id, place, warmth).await?;
    }
    let mut done = 0;
    for each in &ids {
        bag::lock(conn, each).await?;
        let b = bags::bag(conn, &chrome.member.id, each).await?;
        if work.what != "put in" && b.holder_id.as_ref() != Some(id) {
            continue;
        }
        done += 1;
        let act = Act::new(&chrome.member.id, key, work.at, chrome.now);
        let event = match work.what {
            "damped" => Event { sort: "damped", ..Event::default() },
            "moved" => Event { sort: "moved", place, warmth, ..Event::default() },
            _ => Event { sort: "out of holder", ..Event::default() },
        };
        if work.what == "put in" {
            happened::into_holder(conn, &act, &b, id, "").await?;
        } else {
            bag::add_event(conn, &act, b.about(), event).await?;
        }
        beside(bag::keep(conn, each).await, "at")?;
    }
    Ok(done)
}
