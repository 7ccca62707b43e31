//! /bags/unknown: a bag whose label is lost, or bags that were swapped.

use super::model::{Bag, Choice, choices};
use super::store;
use crate::app::App;
use crate::db::Conn;
use crate::db::ids::BagId;
use crate::error::AppError;
use crate::notebook::bag::{self, Event};
use crate::notebook::{self, Act};
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::said::Said;
use crate::web::{once, page, words};
use askama::Template;
use axum::extract::{Query, State};
use axum::response::Response;
use chrono::NaiveDate;

const OUTCOMES: [Choice; 2] =
    [("resolved", || t!("bags-outcome-resolved")), ("in doubt", || t!("bags-outcome-in-doubt"))];

#[derive(Template)]
#[template(path = "bags/unknown.html")]
struct Unknown<'a> {
    chrome: &'a Chrome,
    filter: &'a Form,
    form: &'a Form,
    bags: &'a [(Bag, String)],
    choices: &'a [(&'static str, &'static str)],
}

/// GET /bags/unknown?seeds=6&from=2026-03-01&to=2026-03-09
pub async fn show(
    State(app): State<App>,
    chrome: Chrome,
    Query(query): Query<Vec<(String, String)>>,
) -> Result<Response, AppError> {
    let mut filter = Form::from_pairs(query);
    let seeds = filter.whole("seeds", 0..=super::count::MOST);
    let days = (filter.day("from"), filter.day("to"));
    let mut bags = store::open(&mut app.db.read().await?, &chrome.member.id).await?;
    if !filter.failed() {
        bags.retain(|b| fits(b, seeds, days, &chrome));
    }
    draw(&chrome, &filter, &Form::new(), bags)
}

fn fits(
    bag: &Bag,
    seeds: Option<i64>,
    (from, to): (Option<NaiveDate>, Option<NaiveDate>),
    chrome: &Chrome,
) -> bool {
    let day = bag.on_paper_at.day(chrome.member.zone());
    seeds.is_none_or(|n| n == bag.on_paper) && from.is_none_or(|d| day >= d) && to.is_none_or(|d| day <= d)
}

fn draw(chrome: &Chrome, filter: &Form, form: &Form, bags: Vec<Bag>) -> Result<Response, AppError> {
    let (now, zone) = (chrome.now, chrome.member.zone());
    let with_words = |b: Bag| {
        let since = words::day(b.on_paper_at.day(zone), now.day(zone));
        let said = t!("bags-on-paper-since", variety = b.variety, paper = b.paper_words(), since = since);
        (b, said)
    };
    let bags: Vec<_> = bags.into_iter().map(with_words).collect();
    let shown = Unknown { chrome, filter, form, bags: &bags, choices: &choices(OUTCOMES) };
    if form.failed() || filter.failed() { page::refused(&shown) } else { page::page(&shown) }
}

/// POST /bags/unknown
pub async fn save(State(app): State<App>, chrome: Chrome, mut form: Form) -> Result<Response, AppError> {
    let sort = form.one_of("outcome", &OUTCOMES.map(|(sort, _)| sort));
    let note = form.must_text("note", 2000);
    let mut ids: Vec<BagId> = form.values("bag").into_iter().map(|id| BagId(id.to_owned())).collect();
    ids.sort_unstable();
    ids.dedup();
    match (sort, ids.len()) {
        (_, 0) => form.refuse("bag", t!("bags-tick-what-it-may-be")),
        ("resolved", 2..) => form.refuse("bag", t!("bags-tick-only-one")),
        _ => {}
    }
    if form.failed() {
        let open = store::open(&mut app.db.read().await?, &chrome.member.id).await?;
        return draw(&chrome, &Form::default(), &form, open);
    }
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "unknown bag", &form).await? {
        return Ok(again);
    }
    let marks = record(&mut conn, &chrome, form.key(), &ids, (sort, &note)).await?;
    let path = if let [only] = ids.as_slice() { format!("/bags/{only}") } else { "/".to_owned() };
    let said = Said::new(format!("{}: {}.", marks.join(", "), notebook::words::sort(sort))).undo(form.key());
    once::done(conn, &app, &form, &path, said).await
}

async fn record(
    conn: &mut Conn,
    chrome: &Chrome,
    key: &str,
    ids: &[BagId],
    (sort, note): (&str, &str),
) -> Result<Vec<String>, AppError> {
    let mut marks = Vec::new();
    for id in ids {
        bag::lock(conn, id).await?;
        let b = store::bag(conn, &chrome.member.id, id).await?;
        let act = Act::new(&chrome.member.id, key, chrome.now, chrome.now);
        bag::add_event(conn, &act, b.about(), Event { sort, note, ..Event::default() }).await?;
        bag::keep(conn, id).await?;
        marks.push(b.mark);
    }
    Ok(marks)
}
