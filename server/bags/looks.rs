//! One screen that records looks at many bags in one save.

use super::count::MOST;
use super::model::{Bag, beside};
use super::store;
use crate::app::App;
use crate::db::Conn;
use crate::db::ids::{At, BagId};
use crate::error::AppError;
use crate::notebook::Act;
use crate::notebook::bag::{self, Look};
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::said::Said;
use crate::web::{once, page, words};
use askama::Template;
use axum::extract::{Query, State};
use axum::response::Response;
use std::collections::BTreeMap;

/// One bag on the screen, with the names of its fields.
struct Row {
    bag: Bag,
    words: String,
    rooted: String,
    dead: String,
}

#[derive(Template)]
#[template(path = "bags/looks.html")]
struct Looks<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    filter: &'a Form,
    rows: &'a [Row],
    holders: &'a [(String, String)],
    places: &'a [(String, String)],
}

/// GET /looks?holder=ID&place=...&all=yes
pub async fn show(
    State(app): State<App>,
    chrome: Chrome,
    Query(query): Query<Vec<(String, String)>>,
) -> Result<Response, AppError> {
    let open = store::open(&mut app.db.read().await?, &chrome.member.id).await?;
    let filter = Form::from_pairs(query);
    let rows: Vec<&Bag> = open.iter().filter(|b| fits(b, &filter, &chrome)).collect();
    draw(&chrome, &Form::new(), &filter, &open, &rows)
}

fn fits(bag: &Bag, filter: &Form, chrome: &Chrome) -> bool {
    let (holder, place) = (filter.value("holder"), filter.value("place"));
    let due = filter.value("all") == "yes" || bag.is_due(chrome.now, chrome.member.zone());
    due && bag.on_paper > 0
        && (holder.is_empty() || bag.holder_id.as_ref().is_some_and(|h| h.0 == holder))
        && (place.is_empty() || bag.place == place)
}

fn draw(
    chrome: &Chrome,
    form: &Form,
    filter: &Form,
    open: &[Bag],
    shown: &[&Bag],
) -> Result<Response, AppError> {
    let rows: Vec<Row> = shown.iter().map(|b| row(b, chrome)).collect();
    let holders: BTreeMap<&str, &str> =
        open.iter().filter_map(|b| Some((b.holder.as_deref()?, b.holder_id.as_ref()?.0.as_str()))).collect();
    let mut holders: Vec<_> =
        holders.into_iter().map(|(mark, id)| (id.to_owned(), mark.to_owned())).collect();
    holders.insert(0, (String::new(), t!("bags-any-holder").into()));
    let mut places: Vec<&str> = open.iter().map(|b| b.place.as_str()).filter(|p| !p.is_empty()).collect();
    places.sort_unstable();
    places.dedup();
    let mut places: Vec<_> = places.into_iter().map(|p| (p.to_owned(), p.to_owned())).collect();
    places.insert(0, (String::new(), t!("bags-any-place").into()));
    let shown = Looks { chrome, form, filter, rows: &rows, holders: &holders, places: &places };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

fn row(bag: &Bag, chrome: &Chrome) -> Row {
    Row {
        words: format!("{}, {}", bag.variety, bag.day_words(chrome.now, chrome.member.zone())),
        rooted: format!("rooted-{}", bag.id),
        dead: format!("dead-{}", bag.id),
        bag: bag.clone(),
    }
}

/// What was typed for one bag of the screen.
struct Typed {
    id: BagId,
    look: Option<Look>,
}

/// POST /looks
pub async fn save(State(app): State<App>, chrome: Chrome, mut form: Form) -> Result<Response, AppError> {
    let at = form.moment("at", chrome.member.zone(), chrome.now);
    let rest = form.ticked("rest");
    let typed = typed(&mut form);
    if !rest && typed.iter().all(|t| t.look.is_none()) && !form.failed() {
        form.refuse("rest", t!("bags-type-or-tick"));
    }
    // also where something is wrong by now: what does not fit in other rows is told with it
    let mut conn = app.db.write().await?;
    if let Some(before) = once::claim(&mut conn, &app, &chrome.member, "looks", &form).await? {
        return Ok(before);
    }
    let sums = record(&mut conn, &chrome, &mut form, at, &typed).await?;
    if form.failed() {
        drop(conn);
        return again(&app, &chrome, &mut form).await;
    }
    once::done(conn, &app, &form, "/", sums.said().undo(form.key())).await
}

/// Reads the rows, in order of identity, which is the order of locks.
fn typed(form: &mut Form) -> Vec<Typed> {
    let mut ids: Vec<String> = form.values("bag").into_iter().map(str::to_owned).collect();
    ids.sort_unstable();
    ids.dedup();
    let mut all = Vec::with_capacity(ids.len());
    for id in ids {
        let rooted = form.whole(&format!("rooted-{id}"), 0..=MOST);
        let dead = form.whole(&format!("dead-{id}"), 0..=MOST);
        let any = rooted.is_some() || dead.is_some();
        let look = Look { rooted: rooted.unwrap_or(0), dead: dead.unwrap_or(0), abnormal: 0 };
        all.push(Typed { id: BagId(id), look: any.then_some(look) });
    }
    all
}

async fn again(app: &App, chrome: &Chrome, form: &mut Form) -> Result<Response, AppError> {
    let open = store::open(&mut app.db.read().await?, &chrome.member.id).await?;
    for bag in &open {
        form.about(&format!("rooted-{}", bag.id), &bag.mark);
        form.about(&format!("dead-{}", bag.id), &bag.mark);
    }
    let ids: std::collections::BTreeSet<&str> = form.values("bag").into_iter().collect();
    let rows: Vec<&Bag> = open.iter().filter(|b| ids.contains(b.id.0.as_str())).collect();
    draw(chrome, form, &Form::default(), &open, &rows)
}

/// What one save of the screen came to.
#[derive(Default)]
struct Sums {
    changed: i64,
    same: i64,
    rooted: i64,
    dead: i64,
}

impl Sums {
    fn said(&self) -> Said {
        let Self { changed, same, rooted, dead } = *self;
        Said::new(match (changed, same) {
            (0, _) => t!("bags-saved-same", n = same),
            (_, 0) => t!("bags-saved-counts", n = changed, rooted = rooted, dead = dead),
            _ => t!("bags-saved-counts-and-same", n = changed, rooted = rooted, dead = dead, same = same),
        })
    }
}

/// Writes each look as an act of its own; what does not fit is noted beside its row.
async fn record(
    conn: &mut Conn,
    chrome: &Chrome,
    form: &mut Form,
    at: At,
    typed: &[Typed],
) -> Result<Sums, AppError> {
    let mut sums = Sums::default();
    let rest = form.ticked("rest");
    for t in typed.iter().filter(|t| rest || t.look.is_some()) {
        let look = t.look.unwrap_or_default();
        let act = Act::new(&chrome.member.id, form.key(), at, chrome.now);
        let result = one(conn, chrome, &act, (&t.id, form.value(&format!("seen-{}", t.id))), look).await;
        match result {
            Ok(()) => {}
            Err(AppError::Refused { message, .. }) => {
                let only_dead = look.rooted == 0 && look.dead > 0;
                form.refuse(&format!("{}-{}", if only_dead { "dead" } else { "rooted" }, t.id), message);
            }
            Err(other) => return Err(other),
        }
        sums.changed += i64::from(look != Look::default());
        sums.same += i64::from(look == Look::default());
        sums.rooted += look.rooted;
        sums.dead += look.dead;
    }
    Ok(sums)
}

async fn one(
    conn: &mut Conn,
    chrome: &Chrome,
    act: &Act<'_>,
    (id, seen): (&BagId, &str),
    look: Look,
) -> Result<(), AppError> {
    bag::touch(conn, id).await?;
    let b = store::bag(conn, &chrome.member.id, id).await?;
    b.must_be_open()?;
    b.must_be_as(seen)?;
    b.must_hold(look)?;
    let zone = chrome.member.zone();
    if act.at < b.on_paper_at {
        let since = words::moment(b.on_paper_at, chrome.now, zone);
        return Err(AppError::refused("entry", t!("bags-only-since", mark = b.mark, since = since)));
    }
    bag::add_look(conn, act, b.about(), look, "").await?;
    beside(bag::keep(conn, id).await, "entry")?;
    Ok(())
}
