//! Taking back: an entry with a reason, or the last save in one tap.

use super::show::{Line, lines};
use crate::app::App;
use crate::args;
use crate::db::{Conn, FromRow};
use crate::error::AppError;
use crate::notebook::{history, void};
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::said::Said;
use crate::web::{once, page};
use askama::Template;
use axum::extract::{Path, State};
use axum::response::Response;

const ABOUT: &str = "SELECT packet_id, trial_id, bag_id, tray_id FROM entries WHERE id = $1";
const LED_TO: &str = "SELECT location FROM once WHERE key = $1 AND member_id = $2";

pub const ALL: &[&str] = &[ABOUT, LED_TO];

#[derive(FromRow)]
struct About {
    packet_id: Option<String>,
    trial_id: Option<String>,
    bag_id: Option<String>,
    tray_id: Option<String>,
}

#[derive(FromRow)]
struct LedTo {
    location: String,
}

#[derive(Template)]
#[template(path = "bags/void.html")]
struct Void<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    entry: &'a str,
    history: &'a [Line],
    stands: bool,
    back: &'a str,
}

/// GET /entries/{id}/void
pub async fn show(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<String>,
) -> Result<Response, AppError> {
    draw(&app, &chrome, &id, &Form::new()).await
}

async fn draw(app: &App, chrome: &Chrome, id: &str, form: &Form) -> Result<Response, AppError> {
    let mut conn = app.db.read().await?;
    void::may(&mut conn, &chrome.member.id, id).await?;
    let act = history::of_act(&mut conn, id).await?;
    let back = back(&mut conn, id).await?;
    drop(conn);
    let stands = act.iter().any(|e| e.void_by.is_none());
    let history = lines(&act, chrome);
    let shown = Void { chrome, form, entry: id, history: &history, stands, back: &back };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

/// The page of the thing that an entry is about.
async fn back(conn: &mut Conn, entry: &str) -> Result<String, AppError> {
    let about: Option<About> = conn.maybe(ABOUT, args![entry]).await?;
    let about = about.ok_or(AppError::NotFound)?;
    let pages = [
        ("bags", about.bag_id),
        ("trials", about.trial_id),
        ("packets", about.packet_id),
        ("trays", about.tray_id),
    ];
    let first = pages.into_iter().find_map(|(folder, id)| id.map(|id| format!("/{folder}/{id}")));
    Ok(first.unwrap_or_else(|| "/".to_owned()))
}

/// POST /entries/{id}/void
pub async fn save(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<String>,
    mut form: Form,
) -> Result<Response, AppError> {
    let why = form.must_text("why", 500);
    if form.failed() {
        return draw(&app, &chrome, &id, &form).await;
    }
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "void", &form).await? {
        return Ok(again);
    }
    let voided = void::entry(&mut conn, &chrome.member.id, &id, &why, chrome.now).await;
    let Some(()) = form.take(voided)? else {
        drop(conn);
        return draw(&app, &chrome, &id, &form).await;
    };
    let back = back(&mut conn, &id).await?;
    once::done(conn, &app, &form, &back, Said::new(t!("bags-taken-back"))).await
}

/// POST /undo: takes the save with key `save` back. Twice is once: what is void stays void.
pub async fn undo(State(app): State<App>, chrome: Chrome, form: Form) -> Result<Response, AppError> {
    let key = form.value("save").to_owned();
    let mut conn = app.db.write().await?;
    let led: Option<LedTo> = conn.maybe(LED_TO, args![key.as_str(), &chrome.member.id]).await?;
    let led = led.ok_or(AppError::NotFound)?;
    void::save(&mut conn, &chrome.member.id, &key, chrome.now).await?;
    conn.commit().await?;
    Ok(Said::new(t!("bags-undone")).go(&app, if led.location.is_empty() { "/" } else { &led.location }))
}
