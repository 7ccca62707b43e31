//! /bags/{id}/happened: what happened to a bag, other than seeds leaving the paper.

use super::count::{self, MOST};
use super::model::{Bag, EVENTS, beside, choices};
use super::{holders, store, warmth};
use crate::app::App;
use crate::args;
use crate::db::ids::{At, BagId, HolderId, MemberId};
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use crate::notebook::bag::{self, Event, Look};
use crate::notebook::{self, About, Act, trial};
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::said::Said;
use crate::web::{once, page, words};
use askama::Template;
use axum::extract::{Path, State};
use axum::response::Response;

const MEMBERS: &str = "SELECT id, name FROM members WHERE left_at IS NULL AND id <> $1";

pub const ALL: &[&str] = &[MEMBERS];

#[derive(FromRow)]
struct Named {
    id: String,
    name: String,
}

#[derive(Template)]
#[template(path = "bags/happened.html")]
struct Happened<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    bag: &'a Bag,
    choices: &'a [(&'static str, &'static str)],
    holders: &'a [(String, String)],
    members: &'a [(String, String)],
    unit: &'a str,
}

/// GET /bags/{id}/happened
pub async fn show(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<BagId>,
) -> Result<Response, AppError> {
    draw(&app, &chrome, &id, &Form::new()).await
}

async fn draw(app: &App, chrome: &Chrome, id: &BagId, form: &Form) -> Result<Response, AppError> {
    let mut conn = app.db.read().await?;
    let bag = store::bag(&mut conn, &chrome.member.id, id).await?;
    let mut holders = holders::choices(&mut conn, &chrome.member.id).await?;
    holders.insert(0, (String::new(), t!("bags-choose-a-holder").into()));
    let mut members = members(&mut conn, &chrome.member.id).await?;
    members.insert(0, (String::new(), t!("bags-choose-a-member").into()));
    drop(conn);
    let unit = warmth::label(&chrome.member);
    let choices = &choices(EVENTS);
    let shown = Happened { chrome, form, bag: &bag, choices, holders: &holders, members: &members, unit };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

async fn members(conn: &mut Conn, but: &MemberId) -> Result<Vec<(String, String)>, AppError> {
    let rows: Vec<Named> = conn.all(MEMBERS, args![but]).await?;
    Ok(words::by_name(rows, |m| &m.name).into_iter().map(|m| (m.id, m.name)).collect())
}

/// What was typed.
struct News {
    sort: &'static str,
    removed: i64,
    place: String,
    warmth: Option<f64>,
    holder: HolderId,
    to: MemberId,
    note: String,
}

impl News {
    fn parse(form: &mut Form, chrome: &Chrome) -> Self {
        let sorts = EVENTS.map(|(sort, _)| sort);
        let sort = form.one_of("happened", &sorts);
        let removed = form.whole("removed", 1..=MOST).unwrap_or(0);
        let place = form.text("place", 80);
        let warmth = warmth::typed(form, "warmth", &chrome.member);
        let note = form.text("note", 2000);
        let missing = match sort {
            "mouldy removed" if removed == 0 => Some(("removed", t!("bags-how-many-removed"))),
            "moved" if place.is_empty() && warmth.is_none() => Some(("place", t!("bags-place-or-warmth"))),
            "into holder" if form.value("holder").is_empty() => {
                Some(("holder", t!("bags-choose-the-holder")))
            }
            "handed on" if form.value("member").is_empty() => Some(("member", t!("bags-choose-the-member"))),
            "in doubt" | "resolved" | "note" if note.is_empty() => {
                Some(("note", t!("bags-write-what-happened")))
            }
            _ => None,
        };
        if let Some((field, message)) = missing.filter(|_| !form.failed()) {
            form.refuse(field, message);
        }
        let holder = HolderId(form.value("holder").to_owned());
        let to = MemberId(form.value("member").to_owned());
        Self { sort, removed, place, warmth, holder, to, note }
    }
}

/// POST /bags/{id}/happened
pub async fn save(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<BagId>,
    mut form: Form,
) -> Result<Response, AppError> {
    let seen = store::bag(&mut app.db.read().await?, &chrome.member.id, &id).await?;
    let at = seen.moment(&mut form, "at", chrome.member.zone(), chrome.now);
    let news = News::parse(&mut form, &chrome);
    if form.failed() {
        return draw(&app, &chrome, &id, &form).await;
    }
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "happened", &form).await? {
        return Ok(again);
    }
    let result = record(&mut conn, &chrome, form.key(), (&seen, at), &news).await;
    let Some(()) = form.take(result)? else {
        drop(conn);
        return draw(&app, &chrome, &id, &form).await;
    };
    let said = Said::new(format!("{}: {}.", seen.mark, notebook::words::sort(news.sort))).undo(form.key());
    if news.sort == "handed on" {
        return once::done(conn, &app, &form, "/", said).await;
    }
    let after = store::bag(&mut conn, &chrome.member.id, &id).await?;
    count::done(conn, &app, (&chrome, &form), &after, said).await
}

async fn record(
    conn: &mut Conn,
    chrome: &Chrome,
    key: &str,
    (seen, at): (&Bag, At),
    news: &News,
) -> Result<(), AppError> {
    let act = Act::new(&chrome.member.id, key, at, chrome.now);
    trial::lock(conn, &seen.trial_id).await?;
    bag::lock(conn, &seen.id).await?;
    let b = store::bag(conn, &chrome.member.id, &seen.id).await?;
    if b.voided {
        b.must_be_open()?;
    }
    match news.sort {
        "mouldy removed" => remove(conn, &act, &b, news).await?,
        "into holder" => into_holder(conn, &act, &b, &news.holder, &news.note).await?,
        "handed on" => hand_on(conn, &act, &b, news).await?,
        sort => {
            bag::add_event(conn, &act, b.about(), event(&b, sort, news)).await?;
        }
    }
    if news.sort == "soaked again" {
        let of_trial = About { bag: None, ..b.about() };
        trial::add_event(conn, &act, of_trial, "treated again", &news.note).await?;
        trial::keep(conn, &b.trial_id).await?;
    }
    beside(bag::keep(conn, &b.id).await, "at")?;
    Ok(())
}

/// A move that gives only the place or only the warmth keeps the other.
fn event<'a>(bag: &'a Bag, sort: &'a str, news: &'a News) -> Event<'a> {
    let base = Event { sort, note: &news.note, ..Event::default() };
    if sort != "moved" {
        return base;
    }
    let place = if news.place.is_empty() { &bag.place } else { &news.place };
    Event { place, warmth: news.warmth.or(bag.warmth_c), ..base }
}

async fn remove(conn: &mut Conn, act: &Act<'_>, bag: &Bag, news: &News) -> Result<(), AppError> {
    bag.must_be_open()?;
    let look = Look { dead: news.removed, ..Look::default() };
    beside(bag.must_hold(look), "removed")?;
    let note = if news.note.is_empty() { "mouldy seeds removed" } else { &news.note };
    bag::add_look(conn, act, bag.about(), look, note).await?;
    Ok(())
}

/// Puts a bag into a holder of the member; it is then where the holder is.
pub async fn into_holder(
    conn: &mut Conn,
    act: &Act<'_>,
    bag: &Bag,
    holder: &HolderId,
    note: &str,
) -> Result<(), AppError> {
    let h = match holders::store::holder(conn, act.member, holder).await {
        Err(AppError::NotFound) => {
            return Err(AppError::refused("holder", t!("bags-not-your-holder")));
        }
        found => found?,
    };
    let into = Event { sort: "into holder", holder: Some(holder), note, ..Event::default() };
    bag::add_event(conn, act, bag.about(), into).await?;
    if h.place.is_empty() && h.warmth_c.is_none() {
        return Ok(());
    }
    let place = if h.place.is_empty() { &bag.place } else { &h.place };
    let moved = Event { sort: "moved", place, warmth: h.warmth_c.or(bag.warmth_c), ..Event::default() };
    bag::add_event(conn, act, bag.about(), moved).await?;
    Ok(())
}

/// A bag that is handed on leaves its holder, which stays with the giver.
async fn hand_on(conn: &mut Conn, act: &Act<'_>, bag: &Bag, news: &News) -> Result<(), AppError> {
    let others = members(conn, act.member).await?;
    if !others.iter().any(|(id, _)| *id == news.to.0) {
        return Err(AppError::refused("member", t!("bags-no-such-member")));
    }
    if bag.holder_id.is_some() {
        let out = Event { sort: "out of holder", ..Event::default() };
        bag::add_event(conn, act, bag.about(), out).await?;
    }
    let on = Event { sort: "handed on", to: Some(&news.to), note: &news.note, ..Event::default() };
    bag::add_event(conn, act, bag.about(), on).await?;
    Ok(())
}
