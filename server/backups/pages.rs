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
    every: String,
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
    let none = if good.is_empty() { "none yet" } else { "none in the folder “backups”" };
    let every = app.config.backup_every;
    let when = |at| words::moment(at, chrome.now, chrome.member.zone());
    page::page(&Backups {
        chrome: &chrome,
        warnings: warnings(&chrome, every, &here, &rows, last),
        last_good: last.map_or_else(|| none.to_owned(), |row| when(row.made_at)),
        last_tried: tried.and_then(|row| row.tried_at).map_or_else(|| "none yet".to_owned(), when),
        every: if every == 24 { "day".to_owned() } else { format!("{every} hours") },
        keep_days: if every > 0 { app.config.backup_keep } else { 0 },
        lines: rows.iter().map(|row| line(row, &here, when(row.made_at))).collect(),
    })
}

fn line(row: &Row, here: &Here, when: String) -> Line {
    let how = match (row.problem.as_str(), row.tried_problem.as_str(), row.tried_at) {
        ("", "", None) => "Opened and checked.".to_owned(),
        ("", "", Some(_)) => "Opened and checked; restored for a trial and checked again.".to_owned(),
        ("", trial, _) => format!("The trial failed. {trial}"),
        (problem, _, _) => problem.to_owned(),
    };
    let said = if row.file.is_empty() || here.holds(row) {
        how
    } else if row.elsewhere() {
        format!("Kept elsewhere, by hand. {how}")
    } else {
        format!("Not in the folder “backups” now. {how}")
    };
    let (file, size) = if row.file.is_empty() {
        ("none came about".to_owned(), String::new())
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
            let what =
                if last.file.is_empty() { "The last backup failed." } else { "The last backup is doubtful." };
            said.push(format!("{what} {}", last.problem));
        } else if !last.tried_problem.is_empty() {
            said.push(format!("The last backup could not be restored for a trial. {}", last.tried_problem));
        }
    }
    if let Some(gone) =
        rows.iter().find(|row| !row.file.is_empty() && !row.elsewhere()).filter(|r| !here.holds(r))
    {
        let soon = if every > 0 { " The program takes another by itself." } else { "" };
        said.push(format!("The last backup, {}, is not in the folder “backups”.{soon}", gone.file));
    }
    let hours = good.map(|row| (chrome.now.0 - row.made_at.0) / 3600);
    if every > 0 && hours.is_some_and(|hours| hours > 2 * every) {
        let days = words::span(hours.unwrap_or_default() * 60);
        said.push(format!("The last good backup is {days} old. Tell whoever hosts the club."));
    }
    said
}
