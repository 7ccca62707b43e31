//! GET /cards/print: cards as they hang on the shed wall.

use super::model::{Card, DATES, ROWS};
use super::store;
use crate::app::App;
use crate::bags::model::Bag;
use crate::bags::store as bags;
use crate::db::ids::CardId;
use crate::error::AppError;
use crate::web::chrome::Chrome;
use crate::web::{code, page, words};
use askama::Template;
use axum::extract::{Query, State};
use axum::response::Response;

/// Letters of a variety's name that stand in two lines of its column.
const NAME: usize = 34;

/// A printed row; without a bag where it is not the member's open bag any more.
struct Row {
    place: i64,
    mark: String,
    variety: String,
    bag: Option<Bag>,
}

struct Leaf {
    card: Card,
    code: String,
    rows: Vec<Row>,
}

#[derive(Template)]
#[template(path = "cards/print.html")]
struct Printed<'a> {
    chrome: &'a Chrome,
    letter: bool,
    /// The same cards on the other paper.
    other: String,
    day: String,
    leaves: Vec<Leaf>,
}

impl Printed<'_> {
    fn dates(&self) -> std::ops::Range<usize> {
        0..DATES
    }
}

/// GET /cards/print?card=..&card=..&paper=a4|letter
pub async fn print(
    State(app): State<App>,
    chrome: Chrome,
    Query(query): Query<Vec<(String, String)>>,
) -> Result<Response, AppError> {
    let paper = query.iter().find(|(n, _)| n == "paper").map(|(_, v)| v.as_str());
    let letter = paper.map_or(chrome.member.us(), |p| p == "letter");
    let mut conn = app.db.read().await?;
    let open = bags::open(&mut conn, &chrome.member.id).await?;
    let mut leaves = Vec::new();
    let mut other = vec![("paper", if letter { "a4" } else { "letter" })];
    for (_, id) in query.iter().filter(|(n, _)| n == "card") {
        let card = store::card(&mut conn, &chrome.member.id, &CardId(id.clone())).await?;
        let lines = store::lines(&mut conn, &chrome.member.id, &card.id).await?;
        let rows = lines.into_iter().map(|line| Row {
            place: line.place,
            bag: open.iter().find(|b| b.id == line.bag_id).cloned(),
            variety: cut(&line.variety),
            mark: line.mark,
        });
        let address = format!("{}/C/{}", app.config.base(), card.card_key);
        let opens = t!("cards-code-that-opens", n = card.number);
        let code = code::svg(&address, &opens).unwrap_or_default();
        leaves.push(Leaf { code, rows: rows.take(ROWS).collect(), card });
        other.push(("card", id));
    }
    drop(conn);
    let other = serde_html_form::to_string(&other).map_err(anyhow::Error::new)?;
    let day = words::date(chrome.now.day(chrome.member.zone()));
    page::page(&Printed { chrome: &chrome, letter, other, day, leaves })
}

fn cut(name: &str) -> String {
    if name.chars().count() <= NAME {
        return name.to_owned();
    }
    let kept: String = name.chars().take(NAME - 1).collect();
    format!("{}…", kept.trim_end())
}
