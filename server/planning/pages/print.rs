//! The season's list on paper.

use super::plan::{seeds, state_words, takes_and_short, whole};
use crate::app::App;
use crate::error::AppError;
use crate::planning::model::Entry;
use crate::planning::read::Season;
use crate::routines::said;
use crate::web::chrome::Chrome;
use crate::web::{page, words};
use askama::Template;
use axum::extract::{Query, State};
use axum::response::Response;

struct Row<'s> {
    e: &'s Entry,
    start: String,
    seeds: String,
    takes: String,
    fill: String,
    ready: String,
    state: &'static str,
}

#[derive(Template)]
#[template(path = "planning/print.html")]
struct Print<'a> {
    chrome: &'a Chrome,
    season: &'a Season,
    letter: bool,
    printed: String,
    rows: Vec<Row<'a>>,
}

impl Print<'_> {
    fn reckoned_with(&self) -> String {
        let plan = &self.season.plan;
        t!(
            "planning-list-reckoned-with",
            routine = said::name(&plan.routine),
            seeds = plan.bag_seeds,
            cells = plan.cells(),
            day = self.printed
        )
    }
}

/// GET /plan/print?plan=&paper=a4|letter
pub async fn show(
    State(app): State<App>,
    chrome: Chrome,
    Query(query): Query<Vec<(String, String)>>,
) -> Result<Response, AppError> {
    let Some(season) = Season::read(&app, &chrome, &query).await? else {
        return super::season::first(&app, &chrome).await;
    };
    let asked = query.iter().find(|(n, _)| n == "paper").map(|(_, v)| v.as_str());
    let mut by_start: Vec<&Entry> = season.entries.iter().collect();
    by_start.sort_by_key(|e| e.reckoned.start);
    let day = |d| whole(d, season.today);
    let row = |e: &'_ Entry| (day(e.reckoned.start), day(e.reckoned.fill), day(e.line.ready_on));
    let rows = by_start
        .into_iter()
        .map(|e| {
            let (start, fill, ready) = row(e);
            Row {
                e,
                start,
                seeds: seeds(e),
                takes: takes_and_short(e),
                fill,
                ready,
                state: if e.is_open() { "" } else { state_words(e) },
            }
        })
        .collect();
    page::page(&Print {
        chrome: &chrome,
        letter: asked.map_or(chrome.member.us(), |p| p == "letter"),
        printed: words::date(chrome.now.day(chrome.member.zone())),
        season: &season,
        rows,
    })
}
