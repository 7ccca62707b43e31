use super::book::{Book, day_number};
use super::cache;
use super::choice::Choice;
use super::counts;
use crate::app::App;
use crate::error::AppError;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use anyhow::anyhow;
use axum::extract::{Query, State};
use axum::http::header::{CONTENT_DISPOSITION, CONTENT_TYPE};
use axum::response::{IntoResponse, Response};
use chrono::NaiveDate;
use hilum_calc::analyse;

type Pairs = Query<Vec<(String, String)>>;

/// The rows of the table, with the adjusted rates: what `hilum analyse --table` prints of the counts.
pub async fn table(
    State(app): State<App>,
    chrome: Chrome,
    Query(query): Pairs,
) -> Result<Response, AppError> {
    let choice = chosen(query)?;
    let today = chrome.now.day(chrome.member.zone());
    let read = cache::book(&app, chrome.member.zone()).await?;
    let text = cache::file(&app, &read, &choice, today, analysed).await?;
    Ok(download("club-table", today, text.to_string()))
}

/// The long table of counts.
pub async fn counts(
    State(app): State<App>,
    chrome: Chrome,
    Query(query): Pairs,
) -> Result<Response, AppError> {
    let choice = chosen(query)?;
    let (_, book) = cache::book(&app, chrome.member.zone()).await?;
    let today = chrome.now.day(chrome.member.zone());
    Ok(download("counts", today, counts::csv(&book, &choice)?))
}

fn chosen(query: Vec<(String, String)>) -> Result<Choice, AppError> {
    let mut form = Form::from_pairs(query);
    let choice = Choice::read(&mut form);
    match form.errors().first() {
        None => Ok(choice),
        Some(_) => Err(AppError::Bad(
            "The address asks for a table that there is not. Choose on the page of the table.",
        )),
    }
}

fn analysed(book: &Book, choice: &Choice, today: NaiveDate) -> Result<String, anyhow::Error> {
    let options = analyse::Options { of: choice.of(), at: choice.at(), as_of: Some(day_number(today)) };
    let analysis = analyse::run(&counts::csv(book, choice)?, options).map_err(|faults| {
        anyhow!(
            "the exported counts do not read back: {}",
            faults.first().map_or_else(String::new, ToString::to_string)
        )
    })?;
    Ok(if choice.is_whole() { analysis.table_csv() } else { analysis.raw_table_csv() })
}

fn download(name: &str, day: NaiveDate, text: String) -> Response {
    let as_file = format!("attachment; filename=\"{name}-{day}.csv\"");
    let headers = [(CONTENT_TYPE, "text/csv; charset=utf-8".to_owned()), (CONTENT_DISPOSITION, as_file)];
    (headers, text).into_response()
}
