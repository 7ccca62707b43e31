use super::adjusted::Column;
use super::cache::{self, Read};
use super::choice::{Choice, FILTERS, address};
use super::drawn::{self, Asked, Drawn, Source};
use super::order::Order;
use super::rows::ClubTable;
use super::{say, standing};
use crate::app::App;
use crate::error::AppError;
use crate::texts::spoken;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::{page, words};
use askama::Template;
use axum::extract::{Query, State};
use axum::response::Response;
use std::sync::Arc;

#[derive(Template)]
#[template(path = "rates/table.html")]
struct ShowTable<'a> {
    /// Whether other clubs' results are in the adjusted column.
    others: bool,
    chrome: &'a Chrome,
    /// What to choose from, and the rows.
    drawn: &'a Drawn,
    meaning: &'static str,
    by_day: bool,
    /// As of when a large club's rates are.
    behind: String,
    column: &'a Column<'a>,
    /// The end of addresses that count by the same day.
    at: &'static str,
    table_csv: String,
    counts_csv: String,
    /// What is chosen, to be sent along.
    chosen: Vec<(&'static str, String)>,
}

/// The club table: filters, sorting and pages come in the address.
pub async fn table(
    State(app): State<App>,
    chrome: Chrome,
    Query(query): Query<Vec<(String, String)>>,
) -> Result<Response, AppError> {
    let zone = chrome.member.zone();
    let read = cache::book(&app, zone).await?;
    let mut form = Form::from_pairs(query);
    let choice = Choice::read(&mut form);
    let order = Order::read(&mut form);
    let at = form.whole("page", 1..=100_000).unwrap_or(1);
    let choice = if form.failed() { Choice::default() } else { choice };
    let table = cache::table(&app, &read, &choice, chrome.now.day(zone)).await?;
    let (kept, since) = standing::latest_and_since(&app, choice.at_close, &read.version).await?;
    let column = Column::new(kept.as_deref(), &read.version, &chrome, (&choice, &table.besides));
    let said = address("/table", &form, &[&FILTERS[..], &["sort", "way"]].concat(), &[]);
    let asked = Asked { choice, order, page: at, language: spoken(), said };
    let source = Source {
        book: read.book.clone(),
        table: table.clone(),
        standing: kept.clone(),
        current: column.current(),
    };
    let draw = || drawn::draw(&form, &asked, &source, &column);
    // what was typed wrong stands in the form for once
    let drawn =
        if form.failed() { Arc::new(draw()?) } else { app.tables.drawings.kept(&asked, &source, draw)? };
    let behind = behind(&read, since, &chrome);
    let shown = ShowTable { behind, ..show(&chrome, &form, &drawn, (&table, &column), &asked.choice) };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

/// How far a large club's table is behind, in words; empty where it is always as of now.
fn behind(read: &Read, since: i64, chrome: &Chrome) -> String {
    if !read.may_be_behind() {
        return String::new();
    }
    let when = words::moment(read.as_of, chrome.now, chrome.member.zone());
    say::behind(&when, since)
}

fn show<'a>(
    chrome: &'a Chrome,
    form: &Form,
    drawn: &'a Drawn,
    (table, column): (&ClubTable, &'a Column<'a>),
    choice: &Choice,
) -> ShowTable<'a> {
    ShowTable {
        others: table.besides.whole().is_some(),
        chrome,
        drawn,
        meaning: say::meaning(choice),
        by_day: !choice.at_close,
        behind: String::new(),
        column,
        at: if choice.at_close { "?at=close" } else { "" },
        table_csv: address("/table.csv", form, &FILTERS, &[]),
        counts_csv: address("/counts.csv", form, &FILTERS, &[]),
        chosen: FILTERS
            .iter()
            .map(|n| (*n, form.value(n).to_owned()))
            .filter(|(_, v)| !v.is_empty())
            .collect(),
    }
}
