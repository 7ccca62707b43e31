use crate::app::App;
use crate::error::AppError;
use crate::planning::read::Season;
use crate::planning::weeks::{Week, start_words, weeks};
use crate::web::chrome::Chrome;
use crate::web::{page, words};
use askama::Template;
use axum::extract::{Query, State};
use axum::response::Response;

/// A week in words.
struct Row {
    title: String,
    /// Words and address of each line that starts.
    starts: Vec<(String, String)>,
    mat: String,
    fill: String,
    stand: String,
    ready: String,
    over: bool,
}

#[derive(Template)]
#[template(path = "planning/weeks.html")]
struct Show<'a> {
    chrome: &'a Chrome,
    season: &'a Season,
    rows: Vec<Row>,
    /// Lines that have no number of seeds.
    left_out: usize,
}

/// GET /plan/weeks?plan=
pub async fn show(
    State(app): State<App>,
    chrome: Chrome,
    Query(query): Query<Vec<(String, String)>>,
) -> Result<Response, AppError> {
    let Some(season) = Season::read(&app, &chrome, &query).await? else {
        return super::season::first(&app, &chrome).await;
    };
    let rows = weeks(&season.entries).iter().map(|w| row(w, &season)).collect();
    let left_out = season.entries.iter().filter(|e| e.reckoned.seeds.is_none()).count();
    page::page(&Show { chrome: &chrome, season: &season, rows, left_out })
}

fn row(w: &Week, season: &Season) -> Row {
    let plan = &season.plan;
    let start = |i: &usize| (start_words(&season.entries[*i]), season.entries[*i].path());
    let ready = |i: &usize| {
        let line = &season.entries[*i].line;
        format!("{} {}", line.plants, line.variety)
    };
    let ready: Vec<String> = w.ready.iter().map(ready).collect();
    Row {
        title: w.title(season.today),
        starts: w.starts.iter().map(start).collect(),
        mat: w.mat(plan),
        fill: w.fill(plan),
        stand: w.stand(plan),
        ready: words::and(&ready),
        over: w.is_over(plan),
    }
}
