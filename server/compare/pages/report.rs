use super::super::model::{Answer, Variety};
use super::super::read::{Club, value};
use super::group::{adjusted, behind, raw};
use crate::app::App;
use crate::error::AppError;
use crate::rates::name;
use crate::rates::standing::adjusted_for;
use crate::web::chrome::Chrome;
use crate::web::{page, words};
use askama::Template;
use axum::extract::{Query, State};
use axum::response::Response;

struct Line {
    source: String,
    /// Its group; empty where all can be compared.
    group: String,
    adjusted: String,
    raw: String,
    behind: String,
}

struct Entry {
    variety: String,
    answer: Answer,
    grouped: bool,
    lines: Vec<Line>,
}

struct Kind {
    name: String,
    entries: Vec<Entry>,
}

#[derive(Template)]
#[template(path = "compare/report.html")]
struct Report<'a> {
    chrome: &'a Chrome,
    club: &'a Club,
    letter: bool,
    printed: String,
    adjusted_for: String,
    /// What to buy again, by variety.
    buy: Vec<(String, String)>,
    kinds: Vec<Kind>,
    /// Varieties of which one source was tried.
    single: usize,
}

/// GET /table/report?paper=a4|letter&at=close
pub async fn report(
    State(app): State<App>,
    chrome: Chrome,
    Query(query): Query<Vec<(String, String)>>,
) -> Result<Response, AppError> {
    let club = Club::read(&app, &chrome, &query).await?;
    let paper = value(&query, "paper");
    let letter = if paper.is_empty() { chrome.member.us() } else { paper == "letter" };
    let (mut kinds, mut single): (Vec<Kind>, usize) = (Vec::new(), 0);
    if let Some(standing) = club.standing() {
        let sd_trial = standing.model.as_ref().map_or(0.0, |m| m.sd.trial);
        for variety in Variety::all(standing, &club.table) {
            // a variety that only other clubs grow is no matter of this club's meeting
            if variety.sources().all(|s| s.row.is_none()) {
                continue;
            }
            if variety.sources().count() < 2 {
                single += 1;
                continue;
            }
            if kinds.last().is_none_or(|k| k.name != variety.kind) {
                kinds.push(Kind { name: variety.kind.to_owned(), entries: Vec::new() });
            }
            if let Some(kind) = kinds.last_mut() {
                kind.entries.push(entry(&variety, sd_trial));
            }
        }
    }
    let entries = kinds.iter().flat_map(|kind| &kind.entries);
    let told = entries.filter(|e| e.answer.differs).map(|e| (e.variety.clone(), e.answer.lead.clone()));
    let buy = told.collect();
    page::page(&Report {
        buy,
        chrome: &chrome,
        club: &club,
        letter,
        printed: words::date(chrome.now.day(chrome.member.zone())),
        adjusted_for: club.standing().map(adjusted_for).unwrap_or_default(),
        kinds,
        single,
    })
}

fn entry(variety: &Variety, sd_trial: f64) -> Entry {
    let grouped = variety.groups.len() > 1;
    let lines = variety.groups.iter().enumerate().flat_map(|(i, group)| {
        group.sources.iter().map(move |source| Line {
            source: source.name.to_owned(),
            group: if grouped { (i + 1).to_string() } else { String::new() },
            adjusted: adjusted(source),
            raw: raw(source),
            behind: behind(source),
        })
    });
    Entry {
        variety: name::read(variety.name),
        answer: Answer::of(variety, sd_trial),
        grouped,
        lines: lines.collect(),
    }
}
