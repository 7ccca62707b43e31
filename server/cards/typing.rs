//! A whole card typed in with the keyboard: the same rows in the same order.

use super::model::{self, Card, DATES, Line, Typed};
use super::record::{self, Sums};
use super::store;
use crate::app::App;
use crate::bags::model::Bag;
use crate::bags::store as bags;
use crate::db::ids::CardId;
use crate::error::AppError;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::{once, page};
use askama::Template;
use axum::extract::{Path, Query, State};
use axum::response::{IntoResponse, Redirect, Response};

/// One pair of cells with the names of its fields.
struct Cell {
    rooted: String,
    dead: String,
    again: String,
}

/// One row; without a bag where it is not the member's open bag any more.
struct Row {
    line: Line,
    bag: Option<Bag>,
    cells: Vec<Cell>,
}

#[derive(Template)]
#[template(path = "cards/type.html")]
struct Page<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    card: &'a Card,
    rows: Vec<Row>,
    dates: Vec<String>,
    /// Checked on the way, and nothing was wrong.
    checked: bool,
}

/// GET /C/{card}: the card whose code was scanned, such as `JB-3`.
pub async fn scanned(
    State(app): State<App>,
    chrome: Chrome,
    Path(card): Path<String>,
) -> Result<Response, AppError> {
    let key = card.to_uppercase();
    let card = store::by_key(&mut app.db.read().await?, &chrome.member.id, &key).await?;
    Ok(Redirect::to(&format!("/cards/{}", card.id)).into_response())
}

/// GET /cards/{id}?dates=1..7
pub async fn show(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<CardId>,
    Query(query): Query<Vec<(String, String)>>,
) -> Result<Response, AppError> {
    let card = store::card(&mut app.db.read().await?, &chrome.member.id, &id).await?;
    let mut asked = Form::from_pairs(query);
    let form = Form::new().with("dates", columns(&mut asked));
    draw(&app, &chrome, &card, form, false).await
}

/// How many dates the page has, from 1 to as many as the card.
fn columns(form: &mut Form) -> usize {
    let typed = form.value("dates").trim().parse().ok();
    typed.filter(|n| (1..=DATES).contains(n)).unwrap_or(DATES)
}

async fn draw(
    app: &App,
    chrome: &Chrome,
    card: &Card,
    mut form: Form,
    checked: bool,
) -> Result<Response, AppError> {
    let mut conn = app.db.read().await?;
    let open = bags::open(&mut conn, &chrome.member.id).await?;
    let lines = store::lines(&mut conn, &chrome.member.id, &card.id).await?;
    drop(conn);
    let columns = columns(&mut form);
    for n in 1..=columns {
        form.about(&model::date(n), &t!("cards-date-n", n = n));
    }
    let rows: Vec<Row> = lines.into_iter().map(|line| row(line, &open, columns)).collect();
    for r in &rows {
        for cell in &r.cells {
            for name in [&cell.rooted, &cell.dead, &cell.again] {
                form.about(name, &r.line.mark);
            }
        }
    }
    let dates = (1..=columns).map(model::date).collect();
    let shown = Page { chrome, form: &form, card, rows, dates, checked };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

fn row(line: Line, open: &[Bag], columns: usize) -> Row {
    let place = line.place;
    let cell = |n| Cell {
        rooted: model::rooted(place, n),
        dead: model::dead(place, n),
        again: model::again(place, n),
    };
    Row {
        bag: open.iter().find(|b| b.id == line.bag_id).cloned(),
        cells: (1..=columns).map(cell).collect(),
        line,
    }
}

/// POST /cards/{id}: saves the whole card, or with `do=check` only says what is wrong.
pub async fn save(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<CardId>,
    mut form: Form,
) -> Result<Response, AppError> {
    let mut conn = app.db.read().await?;
    let card = store::card(&mut conn, &chrome.member.id, &id).await?;
    let lines = store::lines(&mut conn, &chrome.member.id, &id).await?;
    drop(conn);
    let columns = columns(&mut form);
    let places: Vec<i64> = lines.iter().map(|l| l.place).collect();
    let typed = model::parse(&mut form, &places, columns, chrome.now.day(chrome.member.zone()));
    if form.failed() {
        return draw(&app, &chrome, &card, form, false).await;
    }
    write(&app, &chrome, &card, (&lines, &typed), form).await
}

async fn write(
    app: &App,
    chrome: &Chrome,
    card: &Card,
    (lines, typed): (&[Line], &[Typed]),
    mut form: Form,
) -> Result<Response, AppError> {
    let check = form.value("do") == "check";
    let mut conn = app.db.write().await?;
    if !check && let Some(before) = once::claim(&mut conn, app, &chrome.member, "card", &form).await? {
        return Ok(before);
    }
    let sums: Sums = record::all(&mut conn, chrome, &mut form, card, (lines, typed)).await?;
    if check || form.failed() {
        drop(conn);
        let checked = !form.failed();
        return draw(app, chrome, card, form, checked).await;
    }
    once::done(conn, app, &form, "/cards", sums.said(card).undo(form.key())).await
}
