//! Label sheets that members measured themselves, and the test page of any sheet.

use super::measures::Measures;
use super::pages::{self, Paper};
use super::store::{self, Kept, Sheet};
use crate::app::App;
use crate::db::ids::SheetId;
use crate::error::AppError;
use crate::labels::sheet;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::said::Said;
use crate::web::{once, page};
use askama::Template;
use axum::extract::{Path, Query, State};
use axum::response::Response;

const LIST: &str = "/labels/sheets";

#[derive(Template)]
#[template(path = "labels/sheets.html")]
struct List<'a> {
    chrome: &'a Chrome,
    papers: Vec<Paper>,
}

/// GET /labels/sheets
pub async fn list(State(app): State<App>, chrome: Chrome) -> Result<Response, AppError> {
    let papers = pages::papers(&mut app.db.read().await?, &chrome).await?;
    page::page(&List { chrome: &chrome, papers })
}

#[derive(Template)]
#[template(path = "labels/measure.html")]
struct Measure<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    action: &'a str,
    /// Whether it is kept already.
    known: bool,
}

fn draw(chrome: &Chrome, form: &Form, action: &str) -> Result<Response, AppError> {
    let shown = Measure { chrome, form, action, known: !action.ends_with("/new") };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

/// GET /labels/sheets/new?from=ID
pub async fn new(
    State(app): State<App>,
    chrome: Chrome,
    Query(query): Query<Vec<(String, String)>>,
) -> Result<Response, AppError> {
    let papers = pages::papers(&mut app.db.read().await?, &chrome).await?;
    let from = query.iter().find(|(n, _)| n == "from").map(|(_, v)| v.as_str());
    let like = papers.iter().find(|p| Some(p.id.as_str()) == from);
    let form =
        like.map_or_else(|| Form::new().with("page", first_page(&chrome)), |p| p.measures.fill(Form::new()));
    draw(&chrome, &form, "/labels/sheets/new")
}

fn first_page(chrome: &Chrome) -> &'static str {
    if chrome.member.us() { "letter" } else { "a4" }
}

/// What was typed: the name, whether it is for all, the measures.
fn typed(chrome: &Chrome, form: &mut Form) -> (String, bool, Measures) {
    let name = form.must_text("name", 60);
    let shared = chrome.member.is_organiser() && form.ticked("shared");
    (name, shared, Measures::parse(form))
}

/// POST /labels/sheets/new
pub async fn add(State(app): State<App>, chrome: Chrome, mut form: Form) -> Result<Response, AppError> {
    let (name, shared, measures) = typed(&chrome, &mut form);
    if form.failed() {
        return draw(&chrome, &form, "/labels/sheets/new");
    }
    let mut conn = app.db.write().await?;
    if let Some(before) = once::claim(&mut conn, &app, &chrome.member, "label sheet", &form).await? {
        return Ok(before);
    }
    let kept = Kept { name: &name, shared, measures: &measures };
    let added = store::add(&mut conn, &chrome.member.id, &kept, chrome.now).await;
    let Some(id) = form.take(added)? else {
        drop(conn);
        return draw(&chrome, &form, "/labels/sheets/new");
    };
    let said = Said::new(t!("labels-is-kept", name = name));
    once::done(conn, &app, &form, &format!("{LIST}/{id}/test"), said).await
}

/// GET /labels/sheets/{id}
pub async fn edit(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<SheetId>,
) -> Result<Response, AppError> {
    let sheet = store::sheet(&mut app.db.read().await?, &chrome.member.id, &id).await?;
    draw(&chrome, &filled(&sheet), &format!("{LIST}/{id}"))
}

/// The form that edits a sheet, as the sheet stands.
fn filled(sheet: &Sheet) -> Form {
    let form = sheet.measures.fill(Form::new()).with("name", &sheet.name);
    form.with("shared", if sheet.shared { "yes" } else { "" }).remembered()
}

/// POST /labels/sheets/{id}
pub async fn change(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<SheetId>,
    mut form: Form,
) -> Result<Response, AppError> {
    store::sheet(&mut app.db.read().await?, &chrome.member.id, &id).await?;
    let action = format!("{LIST}/{id}");
    let (name, shared, measures) = typed(&chrome, &mut form);
    if form.failed() {
        return draw(&chrome, &form, &action);
    }
    let mut conn = app.db.write().await?;
    if let Some(before) = once::claim(&mut conn, &app, &chrome.member, "label sheet", &form).await? {
        return Ok(before);
    }
    let stands = store::lock(&mut conn, &chrome.member.id, &id).await?;
    if form.meets(&filled(&stands), None, |_, _| None) {
        drop(conn);
        return draw(&chrome, &form, &action);
    }
    let kept = Kept { name: &name, shared, measures: &measures };
    let changed = store::change(&mut conn, &chrome.member.id, &id, &kept).await;
    if form.take(changed)?.is_none() {
        drop(conn);
        return draw(&chrome, &form, &action);
    }
    once::done(conn, &app, &form, &format!("{action}/test"), Said::new(t!("labels-is-changed", name = name)))
        .await
}

/// POST /labels/sheets/{id}/remove
pub async fn remove(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<SheetId>,
    form: Form,
) -> Result<Response, AppError> {
    let mut conn = app.db.write().await?;
    if let Some(before) = once::claim(&mut conn, &app, &chrome.member, "label sheet gone", &form).await? {
        return Ok(before);
    }
    let sheet = store::sheet(&mut conn, &chrome.member.id, &id).await?;
    store::remove(&mut conn, &chrome.member.id, &id).await?;
    once::done(conn, &app, &form, LIST, Said::new(t!("labels-is-forgotten", name = sheet.name))).await
}

#[derive(Template)]
#[template(path = "labels/test.html")]
struct Test<'a> {
    chrome: &'a Chrome,
    paper: &'a Paper,
    svg: String,
}

/// GET /labels/sheets/{id}/test: outlines, crosses at the corners and a rule.
pub async fn test(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<String>,
) -> Result<Response, AppError> {
    let papers = pages::papers(&mut app.db.read().await?, &chrome).await?;
    let paper = papers.iter().find(|p| p.id == id).ok_or(AppError::NotFound)?;
    page::page(&Test { chrome: &chrome, paper, svg: sheet::test_page(&paper.measures) })
}
