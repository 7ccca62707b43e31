//! Several lines at once: rows to type in, or a list to paste.

use crate::app::App;
use crate::db::Conn;
use crate::error::AppError;
use crate::planning::entry::Names;
use crate::planning::model::Plan;
use crate::planning::store;
use crate::stock::store as stock;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::page;
use askama::Template;
use axum::extract::{Query, State};
use axum::response::Response;

pub const MOST_ROWS: i64 = 60;
const ROWS: i64 = 6;

/// The fields of one row.
struct Row {
    n: i64,
    variety: String,
    plants: String,
    ready: String,
    source: String,
}

/// A fault of the pasted list.
pub struct ListFault {
    pub line: usize,
    pub message: String,
}

#[derive(Template)]
#[template(path = "planning/enter.html")]
struct Enter<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    plan: &'a Plan,
    rows: Vec<Row>,
    varieties: Vec<&'a str>,
    sources: Vec<&'a str>,
    faults: &'a [ListFault],
}

/// GET /plan/lines?plan=
pub async fn show(
    State(app): State<App>,
    chrome: Chrome,
    Query(query): Query<Vec<(String, String)>>,
) -> Result<Response, AppError> {
    let mut conn = app.db.read().await?;
    let plans = store::plans(&mut conn, &chrome.member.id).await?;
    let wanted = query.iter().find(|(n, v)| n == "plan" && !v.is_empty()).map(|(_, v)| v.as_str());
    let plan = plans.iter().find(|p| wanted.is_none_or(|id| p.id.0 == id));
    match (plan, wanted) {
        (Some(plan), _) => draw(&mut conn, &chrome, plan, (&Form::new(), &[])).await,
        (None, Some(_)) => Err(AppError::NotFound),
        (None, None) => super::season::first(&app, &chrome).await,
    }
}

/// How many rows the form has.
pub fn rows(form: &Form) -> i64 {
    form.value("rows").parse().unwrap_or(ROWS).clamp(ROWS, MOST_ROWS)
}

/// The names that a member's lines are read with.
pub async fn names(conn: &mut Conn, chrome: &Chrome) -> Result<Names, AppError> {
    Ok(Names {
        kinds: stock::kinds(conn).await?,
        varieties: stock::varieties(conn).await?,
        sources: stock::sources(conn).await?,
        today: chrome.now.day(chrome.member.zone()),
        us: chrome.member.us(),
    })
}

pub async fn draw(
    conn: &mut Conn,
    chrome: &Chrome,
    plan: &Plan,
    (form, faults): (&Form, &[ListFault]),
) -> Result<Response, AppError> {
    let names = names(conn, chrome).await?;
    let row = |n| {
        let name = |field: &str| format!("{field}_{n}");
        Row {
            n,
            variety: name("variety"),
            plants: name("plants"),
            ready: name("ready"),
            source: name("source"),
        }
    };
    let shown = Enter {
        chrome,
        form,
        plan,
        rows: (1..=rows(form)).map(row).collect(),
        varieties: names.varieties.iter().map(|v| v.name.as_str()).collect(),
        sources: names.sources.iter().map(|s| s.name.as_str()).collect(),
        faults,
    };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}
