use super::book::Book;
use super::cache::{self, Key};
use super::choice::Choice;
use super::counts;
use super::rows::{ClubRow, ClubTable};
use super::standing::{self, Kept};
use super::unnamed::Numbers;
use crate::app::App;
use crate::db::ids::At;
use crate::error::{AppError, RETRY_SECONDS};
use crate::stock::store as stock;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::page;
use axum::body::{Body, Bytes};
use axum::extract::{Query, State};
use axum::http::header::{CONTENT_DISPOSITION, CONTENT_TYPE, RETRY_AFTER};
use axum::http::{HeaderValue, StatusCode};
use axum::response::{IntoResponse, Response};
use chrono::NaiveDate;
use chrono_tz::Tz;
use futures_util::stream;
use hilum_calc::analyse;

type Pairs = Query<Vec<(String, String)>>;

/// The place of the source among the columns.
const SOURCE: usize = 2;
/// Beside the columns of `hilum analyse --table`.
const MORE: [&str; 3] = ["as_of", "adjusted_as_of", "adjusted_seeds_of_other_clubs"];

/// The rows of the table with the adjusted rates, as its page has them.
pub async fn table(
    State(app): State<App>,
    chrome: Chrome,
    Query(query): Pairs,
) -> Result<Response, AppError> {
    let choice = chosen(&mut Form::from_pairs(query))?;
    let zone = chrome.member.zone();
    let key = (choice, chrome.now.day(zone));
    let (today, files) = (key.1, app.tables.files.clone());
    let file = files.get(key.clone(), async move { written(&app, zone, &key).await }).await?;
    Ok(file.map_or_else(not_yet, |file| download("club-table", today, file)))
}

/// The long table of counts. Names of others are in it only where an organiser ticked that.
pub async fn counts(
    State(app): State<App>,
    chrome: Chrome,
    Query(query): Pairs,
) -> Result<Response, AppError> {
    let mut form = Form::from_pairs(query);
    let choice = chosen(&mut form)?;
    let member = &chrome.member;
    let book = cache::book(&app, member.zone()).await?.book;
    let named = member.is_organiser() && form.ticked("names");
    let numbers = if named { None } else { Some(numbers(&app, &book).await?.but_for(&member.id.0)) };
    let today = chrome.now.day(member.zone());
    Ok(download("counts", today, Body::from_stream(stream::iter(counts::pieces(book, choice, numbers)))))
}

/// The numbers of all growers of the club, the same whatever is chosen of its counts.
pub async fn numbers(app: &App, book: &Book) -> Result<Numbers, AppError> {
    let saved = stock::saved(&mut app.db.read().await?).await?;
    Ok(Numbers::new(book.own(), &saved, ""))
}

fn chosen(form: &mut Form) -> Result<Choice, AppError> {
    let choice = Choice::read(form);
    match form.errors().first() {
        None => Ok(choice),
        Some(_) => Err(AppError::Bad(t!("rates-no-such-table"))),
    }
}

/// The rows as they are kept, each with the moment that its counts and its adjusted rate are of, and what of other clubs
/// is in the latter: CSV has no place for that above its header.
async fn written(app: &App, zone: Tz, (choice, today): &Key) -> Result<Bytes, AppError> {
    let read = cache::book(app, zone).await?;
    let table = cache::table(app, &read, choice, *today).await?;
    let numbers = numbers(app, &read.book).await?;
    let kept = standing::latest(app, choice.at_close).await?;
    let standing = standing::settled(kept.as_deref()).ok().filter(|_| choice.is_whole());
    Ok(csv(&table, &numbers, read.as_of, standing)?.into())
}

fn csv(
    table: &ClubTable,
    numbers: &Numbers,
    as_of: At,
    kept: Option<&Kept>,
) -> Result<Vec<u8>, anyhow::Error> {
    let mut writer = csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
    writer.write_record(analyse::TABLE_HEADER.into_iter().chain(MORE))?;
    let made = kept.map_or_else(String::new, |k| k.made_at.in_utc());
    for ClubRow { row, .. } in &table.rows {
        let place = (row.kind.as_str(), row.variety.as_str(), row.source.as_str());
        let adjusted = kept.and_then(|kept| kept.standing.adjusted(place));
        let others = adjusted.map(|_| table.besides.with(place).map_or(0.0, |b| b.seeds.round()));
        let more = [as_of.in_utc(), made.clone(), others.map_or_else(String::new, |n| n.to_string())];
        let mut cells = analyse::table_cells(row, adjusted).to_vec();
        if let (Some(cell), Some(source)) = (cells.get_mut(SOURCE), numbers.source(&row.source)) {
            *cell = source;
        }
        writer.write_record(cells.iter().chain(&more))?;
    }
    Ok(writer.into_inner()?)
}

/// The answer where a large club's file is being made.
fn not_yet() -> Response {
    let (title, words) = (t!("rates-file-is-being-made"), t!("rates-file-takes-a-while"));
    let mut response = page::error(StatusCode::SERVICE_UNAVAILABLE, title, words);
    response.headers_mut().insert(RETRY_AFTER, HeaderValue::from(RETRY_SECONDS));
    response
}

fn download(name: &str, day: NaiveDate, file: impl Into<Body>) -> Response {
    let as_file = format!("attachment; filename=\"{name}-{day}.csv\"");
    let headers = [(CONTENT_TYPE, "text/csv; charset=utf-8".to_owned()), (CONTENT_DISPOSITION, as_file)];
    (headers, file.into()).into_response()
}
