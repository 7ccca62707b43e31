use super::here::Here;
use super::store::{self, Row};
use crate::app::App;
use crate::error::AppError;
use crate::web::chrome::Chrome;
use crate::web::{page, words};
use askama::Template;
use axum::extract::State;
use axum::response::Response;

/// One backup as the list shows it.
struct Line {
    when: String,
    file: String,
    size: String,
    said: String,
}

#[derive(Template)]
#[template(path = "backups/backups.html")]
struct Backups<'a> {
    chrome: &'a Chrome,
    warnings: Vec<String>,
    last_good: String,
    last_tried: String,
    /// How often one is taken.
    taken: String,
    keep_days: i64,
    lines: Vec<Line>,
}

/// GET /backups: for organisers.
pub async fn show(State(app): State<App>, chrome: Chrome) -> Result<Response, AppError> {
    chrome.member.must_organise()?;
    let mut conn = app.db.read().await?;
    let rows = store::latest(&mut conn).await?;
    let good = store::good(&mut conn).await?;
    let tried = store::last_tried(&mut conn).await?;
    drop(conn);
    let here = Here::look(&app.config);
    let last = good.iter().find(|row| here.holds(row));
    let none = if good.is_empty() { t!("backups-none-yet") } else { t!("backups-none-here") };
    let every = app.config.backup_every;
    let when = |at| words::moment(at, chrome.now, chrome.member.zone());
    page::page(&Backups {
        chrome: &chrome,
        warnings: warnings(&chrome, every, &here, &rows, last),
        last_good: last.map_or_else(|| none.to_owned(), |row| when(row.made_at)),
        last_tried: tried
            .and_then(|row| row.tried_at)
            .map_or_else(|| t!("backups-none-yet").to_owned(), when),
        taken: if every == 24 {
            t!("backups-taken-daily").to_owned()
        } else {
            t!("backups-taken-hourly", n = every)
        },
        keep_days: if every > 0 { app.config.backup_keep } else { 0 },
        lines: rows.iter().map(|row| line(row, &here, when(row.made_at))).collect(),
    })
}

fn line(row: &Row, here: &Here, when: String) -> Line {
    let how = match (row.problem.as_str(), row.tried_problem.as_str(), row.tried_at) {
        ("", "", None) => t!("backups-checked").to_owned(),
        ("", "", Some(_)) => t!("backups-tried").to_owned(),
        ("", trial, _) => t!("backups-trial-failed", problem = trial),
        (problem, _, _) => problem.to_owned(),
    };
    let said = if row.file.is_empty() || here.holds(row) {
        how
    } else if row.elsewhere() {
        t!("backups-elsewhere", how = how)
    } else {
        t!("backups-not-here", how = how)
    };
    let (file, size) = if row.file.is_empty() {
        (t!("backups-none-came").to_owned(), String::new())
    } else {
        (row.file.clone(), super::size(row.bytes))
    };
    Line { when, file, size, said }
}

/// What the organiser must know: failures, that files are gone, and that the last good one is old.
fn warnings(chrome: &Chrome, every: i64, here: &Here, rows: &[Row], good: Option<&Row>) -> Vec<String> {
    let mut said = Vec::new();
    if let Some(last) = rows.first() {
        if !last.problem.is_empty() {
            said.push(if last.file.is_empty() {
                t!("backups-failed", problem = last.problem)
            } else {
                t!("backups-doubtful", problem = last.problem)
            });
        } else if !last.tried_problem.is_empty() {
            said.push(t!("backups-not-restored", problem = last.tried_problem));
        }
    }
    if let Some(gone) =
        rows.iter().find(|row| !row.file.is_empty() && !row.elsewhere()).filter(|r| !here.holds(r))
    {
        said.push(if every > 0 {
            t!("backups-gone-another", file = gone.file)
        } else {
            t!("backups-gone", file = gone.file)
        });
    }
    let hours = good.map(|row| (chrome.now.0 - row.made_at.0) / 3600);
    if every > 0 && hours.is_some_and(|hours| hours > 2 * every) {
        said.push(t!("backups-old", span = words::span(hours.unwrap_or_default() * 60)));
    }
    said
}
