use crate::app::App;
use crate::db::ids::PlantingId;
use crate::error::AppError;
use crate::notebook::history;
use crate::trays::model::{LOST, Planting, Tray, reason};
use crate::trays::pages::tray::day;
use crate::trays::store;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::{page, words};
use askama::Template;
use axum::extract::{Path, State};
use axum::response::Response;

/// Another planting of the same cell.
pub struct Other {
    pub id: PlantingId,
    pub bag: String,
    pub words: String,
}

#[derive(Template)]
#[template(path = "trays/planting.html")]
struct Show<'a> {
    chrome: &'a Chrome,
    news: &'a Form,
    end: &'a Form,
    tray: &'a Tray,
    p: &'a Planting,
    cell: String,
    planted: String,
    seeds: String,
    ended: Option<String>,
    why: Vec<(&'static str, &'static str)>,
    history: Vec<(String, history::Entry)>,
    others: Vec<Other>,
}

/// GET /plantings/{id}
pub async fn show(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<PlantingId>,
) -> Result<Response, AppError> {
    show_planting(&app, &chrome, &id, Forms::default()).await
}

/// The forms on the page, each with a key of its own.
pub struct Forms {
    pub news: Form,
    pub end: Form,
}

impl Default for Forms {
    fn default() -> Self {
        let news = Form::new().with("up", 0).with("lost", 0).with("thinned", 0).with("potted", 0);
        Self { news, end: Form::new() }
    }
}

pub(in crate::trays) async fn show_planting(
    app: &App,
    chrome: &Chrome,
    id: &PlantingId,
    forms: Forms,
) -> Result<Response, AppError> {
    let (member, zone) = (&chrome.member.id, chrome.member.zone());
    let mut conn = app.db.read().await?;
    let p = store::plantings::planting(&mut conn, member, id).await?;
    let tray = store::tray::tray(&mut conn, member, &p.tray_id).await?;
    let entries = history::of_planting(&mut conn, id).await?;
    let cell = store::plantings::of_cell(&mut conn, member, &p).await?;
    let shown = Show {
        chrome,
        news: &forms.news,
        end: &forms.end,
        tray: &tray,
        p: &p,
        cell: tray.geometry().name(p.cell),
        planted: words::moment(p.planted_at, chrome.now, zone),
        seeds: words::seeds(p.seeds),
        ended: p
            .ended_at
            .map(|at| format!("{}, {}", words::moment(at, chrome.now, zone), reason(&p.end_why))),
        why: whys(),
        history: entries.into_iter().map(|e| (words::moment(e.at, chrome.now, zone), e)).collect(),
        others: cell.iter().filter(|o| o.id != *id).map(|o| other(o, chrome)).collect(),
    };
    if forms.news.failed() || forms.end.failed() { page::refused(&shown) } else { page::page(&shown) }
}

fn other(p: &Planting, chrome: &Chrome) -> Other {
    let words = t!("trays-planted-on", day = day(chrome, p.planted_at), state = p.state());
    Other { id: p.id.clone(), bag: p.bag.clone(), words }
}

/// The reasons for loss, as choices.
pub fn whys() -> Vec<(&'static str, &'static str)> {
    LOST.map(|why| (why, reason(why))).to_vec()
}
