use crate::app::App;
use crate::db::ids::TrayId;
use crate::error::AppError;
use crate::trays::cells::Geometry;
use crate::trays::model::{self, Lot, Planting, Tray};
use crate::trays::store;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::{page, words};
use askama::Template;
use axum::extract::{Path, State};
use axum::response::{IntoResponse, Redirect, Response};

/// A cell as it is drawn.
pub struct Cell<'a> {
    pub name: String,
    /// What is in it, or was last.
    pub last: Option<&'a Planting>,
    pub here: bool,
    pub next: bool,
    pub state: String,
}

/// A lot with its words.
pub struct LotRow<'a> {
    pub lot: &'a Lot,
    pub cells: String,
    pub planted: String,
}

/// The forms on the page, each with a key of its own.
pub struct Forms {
    pub place: Form,
    pub finish: Form,
}

impl Default for Forms {
    fn default() -> Self {
        Self { place: Form::new(), finish: Form::new() }
    }
}

#[derive(Template)]
#[template(path = "trays/tray.html")]
struct Show<'a> {
    chrome: &'a Chrome,
    place: &'a Form,
    finish: &'a Form,
    tray: &'a Tray,
    cells: Vec<Cell<'a>>,
    lots: Vec<LotRow<'a>>,
    next: Option<String>,
    made: String,
    finished: Option<String>,
}

/// GET /trays/{id}
pub async fn show(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<TrayId>,
) -> Result<Response, AppError> {
    show_tray(&app, &chrome, &id, Forms::default()).await
}

pub(in crate::trays) async fn show_tray(
    app: &App,
    chrome: &Chrome,
    id: &TrayId,
    forms: Forms,
) -> Result<Response, AppError> {
    let mut conn = app.db.read().await?;
    let tray = store::tray::tray(&mut conn, &chrome.member.id, id).await?;
    let plantings = store::plantings::of_tray(&mut conn, &chrome.member.id, id).await?;
    let Forms { place, finish } = forms;
    let place = if place.failed() { place } else { place_form(&tray.place) };
    let failed = place.failed() || finish.failed();
    let cells = drawn(tray.geometry(), &plantings, tray.finished_at.is_none());
    let lots = model::lots(plantings.iter());
    let shown = Show {
        chrome,
        place: &place,
        finish: &finish,
        tray: &tray,
        lots: lots.iter().map(|l| row(l, tray.geometry(), chrome)).collect(),
        next: cells.iter().find(|c| c.next).map(|c| c.name.clone()),
        cells,
        made: day(chrome, tray.made_at),
        finished: tray.finished_at.map(|at| day(chrome, at)),
    };
    if failed { page::refused(&shown) } else { page::page(&shown) }
}

/// The form that puts a tray elsewhere, as the tray stands.
pub fn place_form(place: &str) -> Form {
    Form::new().with("place", place).remembered()
}

/// The cells row by row; `open` trays have a next free cell.
pub fn drawn(g: Geometry, plantings: &[Planting], open: bool) -> Vec<Cell<'_>> {
    let mut cells: Vec<Cell<'_>> = (1..=g.cells())
        .map(|c| Cell {
            name: g.name(c),
            last: None,
            here: false,
            next: false,
            state: t!("trays-free").to_owned(),
        })
        .collect();
    // by cell, the oldest first: the last one to come stays, unless one is in the cell now
    for p in plantings {
        let Some(cell) = usize::try_from(p.cell - 1).ok().and_then(|i| cells.get_mut(i)) else { continue };
        if cell.here {
            continue;
        }
        cell.here = p.here;
        cell.state = if p.here { p.state() } else { t!("trays-free-was", state = p.state()) };
        cell.last = Some(p);
    }
    if let Some(cell) = cells.iter_mut().find(|c| open && !c.here) {
        cell.next = true;
    }
    cells
}

fn row<'a>(lot: &'a Lot, g: Geometry, chrome: &Chrome) -> LotRow<'a> {
    LotRow { lot, cells: g.words(&lot.cells), planted: planted(lot, chrome) }
}

/// The day or days a lot was planted on.
pub fn planted(lot: &Lot, chrome: &Chrome) -> String {
    let (first, last) = (day(chrome, lot.first), day(chrome, lot.last));
    if first == last { first } else { t!("trays-days-from-to", first = first, last = last) }
}

pub fn day(chrome: &Chrome, at: crate::db::ids::At) -> String {
    let zone = chrome.member.zone();
    words::day(at.day(zone), chrome.now.day(zone))
}

/// GET /T/{mark}: what the code on a printed sheet opens.
pub async fn by_mark(
    State(app): State<App>,
    chrome: Chrome,
    Path(mark): Path<String>,
) -> Result<Response, AppError> {
    let mut conn = app.db.read().await?;
    let found = crate::marks::find(&mut conn, &mark).await?.filter(|m| m.thing == "tray");
    let id = TrayId(found.ok_or(AppError::NotFound)?.thing_id);
    let tray = store::tray::tray(&mut conn, &chrome.member.id, &id).await?;
    Ok(Redirect::to(&format!("/trays/{}", tray.id)).into_response())
}
