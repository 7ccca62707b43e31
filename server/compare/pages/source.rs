use super::super::model::source::{self, Of};
use super::super::model::{Hundred, Variety};
use super::super::read::{Club, value};
use super::group::{adjusted, behind, raw};
use crate::app::App;
use crate::error::AppError;
use crate::rates::links::Links;
use crate::rates::name;
use crate::web::chrome::Chrome;
use crate::web::page;
use crate::web::words::or;
use askama::Template;
use axum::extract::{Query, State};
use axum::response::Response;

struct Line {
    variety: String,
    kind: String,
    link: String,
    adjusted: String,
    raw: String,
    behind: String,
    /// Beside each other source.
    beside: Vec<String>,
    /// Which it cannot be compared with; empty where none.
    apart: String,
}

#[derive(Template)]
#[template(path = "compare/source.html")]
struct ShowSource<'a> {
    chrome: &'a Chrome,
    club: &'a Club,
    name: &'a str,
    across: String,
    lines: Vec<Line>,
}

/// GET /table/source?source=..&at=close
pub async fn source(
    State(app): State<App>,
    chrome: Chrome,
    Query(query): Query<Vec<(String, String)>>,
) -> Result<Response, AppError> {
    let club = Club::read(&app, &chrome, &query).await?;
    let name = value(&query, "source");
    let standing = club.standing();
    let varieties = standing.map(|s| Variety::all(s, &club.table)).unwrap_or_default();
    let of = source::of(&varieties, name);
    let in_table = club.table.rows.iter().any(|r| r.row.source == name);
    if of.is_empty() && !in_table {
        return Err(AppError::NotFound);
    }
    let across = standing.and_then(|s| source::across(s, &club.table, name)).unwrap_or_default();
    let lines = of.iter().map(|of| line(&club, of)).collect();
    page::page(&ShowSource { chrome: &chrome, club: &club, name, across, lines })
}

fn line(club: &Club, of: &Of) -> Line {
    let beside = |(other, found, finding): &(&str, Hundred, _)| {
        let than = found.than(other);
        source::sure(*finding).map_or_else(|| than.clone(), |sure| format!("{than}: {sure}"))
    };
    Line {
        variety: name::read(of.variety.name),
        kind: of.variety.kind.to_owned(),
        link: Links::of((of.variety.kind, of.variety.name, ""), club.at_close).variety,
        adjusted: adjusted(of.own),
        raw: raw(of.own),
        behind: behind(of.own),
        beside: of.beside.iter().map(beside).collect(),
        apart: or(&of.apart),
    }
}
