//! The season's list and the shopping list as files: RFC 4180 in UTF-8, cells safe in spreadsheets, in English.

use super::pages::plan::{state_words, takes};
use super::read::Season;
use super::shopping::{Want, list};
use crate::app::App;
use crate::compare::read::Club;
use crate::error::AppError;
use crate::texts::{Language, speak};
use crate::transfer::cells::guarded;
use crate::web::chrome::Chrome;
use axum::extract::{Query, State};
use axum::http::header::{CONTENT_DISPOSITION, CONTENT_TYPE};
use axum::response::{IntoResponse, Response};
use chrono::NaiveDate;

type Asked = Query<Vec<(String, String)>>;

const SEASON: [&str; 17] = [
    "kind",
    "variety",
    "source",
    "plants",
    "ready",
    "certainty",
    "seeds",
    "rate from",
    "bags",
    "cells",
    "start",
    "on paper",
    "in cells",
    "packets",
    "short",
    "state",
    "season",
];
const SHOPPING: [&str; 10] = [
    "kind",
    "variety",
    "source wanted",
    "seeds short",
    "seeds taken by the plan",
    "seeds held",
    "source",
    "adjusted",
    "counted",
    "note",
];

/// GET /plan.csv?plan=
pub async fn season(
    State(app): State<App>,
    chrome: Chrome,
    Query(query): Asked,
) -> Result<Response, AppError> {
    speak(Language::English);
    let season = Season::read(&app, &chrome, &query).await?;
    let rows = season.iter().flat_map(rows).collect();
    file("season", chrome.now.day(chrome.member.zone()), &SEASON, rows)
}

fn rows(season: &Season) -> Vec<Vec<String>> {
    let row = |e: &super::model::Entry| {
        let r = &e.reckoned;
        vec![
            e.line.kind.clone(),
            e.line.variety.clone(),
            e.line.source.clone().unwrap_or_default(),
            e.line.plants.to_string(),
            e.line.ready_on.to_string(),
            format!("{} %", r.certainty),
            r.seeds.map(|n| n.to_string()).unwrap_or_default(),
            r.rooting.as_ref().map_or("", |b| b.sign).to_owned(),
            r.bags.to_string(),
            r.cells.to_string(),
            r.start.to_string(),
            r.paper.to_string(),
            r.fill.to_string(),
            takes(e),
            e.short.to_string(),
            state_words(e).to_owned(),
            season.plan.name.clone(),
        ]
    };
    season.entries.iter().map(row).collect()
}

/// GET /shopping.csv?plan=
pub async fn shopping(
    State(app): State<App>,
    chrome: Chrome,
    Query(query): Asked,
) -> Result<Response, AppError> {
    speak(Language::English);
    let season = Season::read(&app, &chrome, &query).await?;
    let club = Club::read(&app, &chrome, &[]).await?;
    let wants = season.as_ref().map(|season| list(season, &club)).unwrap_or_default();
    let rows = wants.iter().flat_map(sources).collect();
    file("shopping", chrome.now.day(chrome.member.zone()), &SHOPPING, rows)
}

/// A row for each source that was counted, in the order of the page; one row where none was.
fn sources(want: &Want) -> Vec<Vec<String>> {
    let row = |source: [String; 3], note: String| {
        let numbers = [want.short, want.wanted, want.held].map(|n| n.to_string());
        [
            vec![want.kind.clone(), want.variety.clone(), want.source.clone()],
            numbers.to_vec(),
            source.to_vec(),
            vec![note],
        ]
        .concat()
    };
    if want.sources.is_empty() {
        return vec![row(Default::default(), want.lead.clone())];
    }
    let of = |s: &super::shopping::Source| {
        let group = if s.group.is_empty() {
            String::new()
        } else {
            format!(" Group {}: only compared within it.", s.group)
        };
        row([s.name.clone(), s.adjusted.clone(), s.behind.clone()], format!("{}{group}", want.lead))
    };
    want.sources.iter().map(of).collect()
}

fn file(name: &str, day: NaiveDate, head: &[&str], rows: Vec<Vec<String>>) -> Result<Response, AppError> {
    let text = written(head, rows).map_err(|e| AppError::Internal(e.into()))?;
    let as_file = format!("attachment; filename=\"{name}-{day}.csv\"");
    let headers = [(CONTENT_TYPE, "text/csv; charset=utf-8".to_owned()), (CONTENT_DISPOSITION, as_file)];
    Ok((headers, text).into_response())
}

fn written(head: &[&str], rows: Vec<Vec<String>>) -> Result<Vec<u8>, csv::Error> {
    let mut out = csv::WriterBuilder::new()
        .terminator(csv::Terminator::CRLF)
        .from_writer("\u{feff}".as_bytes().to_vec());
    out.write_record(head)?;
    for row in rows {
        out.write_record(row.iter().map(|cell| guarded(cell)))?;
    }
    out.into_inner().map_err(|e| e.into_error().into())
}
