use crate::app::App;
use crate::db::ids::TrayId;
use crate::error::AppError;
use crate::trays::model::Tray;
use crate::trays::pages::planting::whys;
use crate::trays::pages::tray::{Cell, drawn};
use crate::trays::store;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::{page, words};
use askama::Template;
use axum::extract::{Path, Query, State};
use axum::response::Response;

/// What a whole tray may be told at once.
fn sorts() -> [(&'static str, &'static str); 4] {
    [
        ("up", t!("trays-news-up")),
        ("lost", t!("trays-news-lost")),
        ("thinned", t!("trays-news-thinned")),
        ("potted on", t!("trays-news-potted-on")),
    ]
}

#[derive(Template)]
#[template(path = "trays/outcomes.html")]
struct Outcomes<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    tray: &'a Tray,
    cells: Vec<Cell<'a>>,
    any: bool,
    sorts: [(&'static str, &'static str); 4],
    why: Vec<(&'static str, &'static str)>,
}

/// GET /trays/{id}/outcomes; `?bag=` ticks the cells of that bag.
pub async fn tray(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<TrayId>,
    Query(query): Query<Vec<(String, String)>>,
) -> Result<Response, AppError> {
    let bag = query.into_iter().find(|(n, _)| n == "bag").map(|(_, v)| v).unwrap_or_default();
    let plantings = store::plantings::of_tray(&mut app.db.read().await?, &chrome.member.id, &id).await?;
    let ticked = plantings.iter().filter(|p| p.here && p.bag_id.0 == bag);
    let form =
        Form::new().with("sort", "up").with("at", words::input_moment(chrome.now, chrome.member.zone()));
    let form = ticked.fold(form, |form, p| form.with("planting", &p.id));
    show(&app, &chrome, &id, &form).await
}

pub(in crate::trays) async fn show(
    app: &App,
    chrome: &Chrome,
    id: &TrayId,
    form: &Form,
) -> Result<Response, AppError> {
    let mut conn = app.db.read().await?;
    let tray = store::tray::tray(&mut conn, &chrome.member.id, id).await?;
    let plantings = store::plantings::of_tray(&mut conn, &chrome.member.id, id).await?;
    let shown = Outcomes {
        chrome,
        form,
        tray: &tray,
        any: plantings.iter().any(|p| p.here),
        cells: drawn(tray.geometry(), &plantings, false),
        sorts: sorts(),
        why: whys(),
    };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}
