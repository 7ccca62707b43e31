//! What is printed: labels that tell nothing, and the key that tells all.

use crate::app::App;
use crate::db::ids::RingId;
use crate::error::AppError;
use crate::marks;
use crate::rings::model::{Lot, Part, Ring, Stage};
use crate::rings::store;
use crate::web::chrome::Chrome;
use crate::web::{code, page, words};
use askama::Template;
use axum::extract::{Path, Query, State};
use axum::response::Response;

type Asked = Query<Vec<(String, String)>>;

/// Labels on one sheet: 3 by 8 on A4, 3 by 10 on Letter.
const A4: usize = 24;
const LETTER: usize = 30;

struct Label {
    mark: String,
    code: String,
}

#[derive(Template)]
#[template(path = "rings/labels.html")]
struct Labels<'a> {
    chrome: &'a Chrome,
    ring: &'a Ring,
    letter: bool,
    sheets: Vec<Vec<Label>>,
}

/// GET /rings/{id}/labels?paper=a4|letter
pub async fn labels(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<RingId>,
    Query(query): Asked,
) -> Result<Response, AppError> {
    let (ring, parts) = drawn(&app, &chrome, &id).await?;
    let letter = letter(&chrome, &query);
    let label = |p: &Part| {
        let address = format!("{}/L/{}", app.config.base(), marks::fold(&p.mark));
        let code = code::svg(&address, &t!("rings-code-opens", mark = p.mark)).unwrap_or_default();
        Label { mark: p.mark.clone(), code }
    };
    let mut labels = parts.iter().map(label).peekable();
    let mut sheets = Vec::new();
    while labels.peek().is_some() {
        sheets.push(labels.by_ref().take(if letter { LETTER } else { A4 }).collect());
    }
    page::page(&Labels { chrome: &chrome, ring: &ring, letter, sheets })
}

fn letter(chrome: &Chrome, query: &[(String, String)]) -> bool {
    let asked = query.iter().find(|(n, _)| n == "paper").map(|(_, v)| v.as_str());
    asked.map_or(chrome.member.us(), |p| p == "letter")
}

/// A ring trial with its marks, for organisers.
async fn drawn(app: &App, chrome: &Chrome, id: &RingId) -> Result<(Ring, Vec<Part>), AppError> {
    chrome.member.must_organise()?;
    let mut conn = app.db.read().await?;
    let ring = store::ring(&mut conn, id).await?;
    if !matches!(ring.stage(), Stage::Running | Stage::Opened) {
        return Err(AppError::NotFound);
    }
    let parts = store::parts(&mut conn, id).await?;
    Ok((ring, parts))
}

/// One packet to fill from, and the blind packets it fills.
struct Filled<'a> {
    lot: &'a Lot,
    parts: Vec<&'a Part>,
    seeds: i64,
}

#[derive(Template)]
#[template(path = "rings/key.html")]
struct Key<'a> {
    chrome: &'a Chrome,
    ring: &'a Ring,
    letter: bool,
    printed: String,
    filled: Vec<Filled<'a>>,
    /// The organiser grows in it, and did not say that they want to see it all the same.
    asks_first: bool,
}

/// GET /rings/{id}/key?paper=a4|letter&see=yes
pub async fn key(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<RingId>,
    Query(query): Asked,
) -> Result<Response, AppError> {
    let (ring, parts) = drawn(&app, &chrome, &id).await?;
    let mut conn = app.db.read().await?;
    let lots = store::lots(&mut conn, &id).await?;
    let grows = store::takes_part(&mut conn, &id, &chrome.member.id).await?;
    drop(conn);
    let filled = (0_i64..).zip(&lots).map(|(place, lot)| {
        let parts: Vec<&Part> = parts.iter().filter(|p| p.place == place).collect();
        Filled { lot, seeds: ring.seeds_each() * parts.len() as i64, parts }
    });
    let sees = query.iter().any(|(n, v)| n == "see" && v == "yes");
    page::page(&Key {
        chrome: &chrome,
        ring: &ring,
        letter: letter(&chrome, &query),
        printed: words::date(chrome.now.day(chrome.member.zone())),
        filled: filled.collect(),
        asks_first: grows && !sees && ring.stage() == Stage::Running,
    })
}
