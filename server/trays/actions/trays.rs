use crate::app::App;
use crate::db::ids::{BagId, TrayId};
use crate::error::AppError;
use crate::notebook::Act;
use crate::trays::cells::{Geometry, LONGEST};
use crate::trays::model::{EMPTIED, reason};
use crate::trays::pages::{self, tray::Forms};
use crate::trays::published::GRIDS;
use crate::trays::store::{self, NewTray};
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::once;
use crate::web::said::Said;
use axum::extract::{Path, State};
use axum::response::Response;

/// POST /trays/new
pub async fn make(State(app): State<App>, chrome: Chrome, mut form: Form) -> Result<Response, AppError> {
    let (name, place) = (form.text("name", 80), form.text("place", 80));
    let geometry = geometry(&mut form);
    let named = |bag: &String| !bag.is_empty() && bag.bytes().all(|b| b.is_ascii_alphanumeric());
    let bag = Some(form.text("bag", 40)).filter(named).map(BagId);
    if form.failed() {
        return pages::list::show_new(&chrome, &form);
    }
    let member = &chrome.member;
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, member, "make tray", &form).await? {
        return Ok(again);
    }
    let new = NewTray { name: &name, rows: geometry.rows, cols: geometry.cols, place: &place };
    let made = store::make(&mut conn, &member.id, &new, app.now()).await;
    let Some((id, mark)) = form.take(made)? else { return pages::list::show_new(&chrome, &form) };
    let said = Said::new(t!("trays-is-ready", tray = mark, n = geometry.cells()));
    let (to, said) = match bag {
        Some(bag) => (format!("/bags/{bag}/plant?tray={id}"), said),
        None => (format!("/trays/{id}"), said),
    };
    once::done(conn, &app, &form, &to, said).await
}

fn geometry(form: &mut Form) -> Geometry {
    let typed = form.value("geometry").to_owned();
    if typed == "own" {
        return Geometry {
            rows: form.must_whole("rows", 1..=LONGEST),
            cols: form.must_whole("cols", 1..=LONGEST),
        };
    }
    let found = GRIDS.iter().find(|p| p.value() == typed);
    if ["rows", "cols"].iter().any(|name| !form.value(name).trim().is_empty()) {
        form.refuse("geometry", t!("trays-one-size-only", other = t!("trays-another-one")));
    }
    if found.is_none() {
        form.refuse("geometry", t!("trays-choose-or-give-rows"));
    }
    found.map_or(Geometry { rows: 1, cols: 1 }, |p| p.geometry)
}

/// POST /trays/{id}/place
pub async fn place(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<TrayId>,
    mut form: Form,
) -> Result<Response, AppError> {
    let place = form.text("place", 80);
    if form.failed() {
        return pages::tray::show_tray(&app, &chrome, &id, Forms { place: form, ..Forms::default() }).await;
    }
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "move tray", &form).await? {
        return Ok(again);
    }
    let stands = store::tray::lock(&mut conn, &chrome.member.id, &id).await?;
    if form.meets(&pages::tray::place_form(&stands.place), None, |_, _| None) {
        drop(conn);
        return pages::tray::show_tray(&app, &chrome, &id, Forms { place: form, ..Forms::default() }).await;
    }
    store::tray::put(&mut conn, &chrome.member.id, &id, &place).await?;
    let said = if place.is_empty() {
        t!("trays-place-cleared").to_owned()
    } else {
        t!("trays-is-at", place = place)
    };
    once::done(conn, &app, &form, &format!("/trays/{id}"), Said::new(said)).await
}

/// POST /trays/{id}/finish
pub async fn finish(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<TrayId>,
    mut form: Form,
) -> Result<Response, AppError> {
    let why = form.text("why", 150);
    let member = &chrome.member;
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, member, "finish tray", &form).await? {
        return Ok(again);
    }
    let tray = store::tray::lock(&mut conn, &member.id, &id).await?;
    if tray.planted > 0 && !form.ticked("end") {
        form.refuse("end", t!("trays-cells-still-hold", n = tray.planted));
    }
    if form.failed() {
        drop(conn);
        return pages::tray::show_tray(&app, &chrome, &id, Forms { finish: form, ..Forms::default() }).await;
    }
    let act = Act::new(&member.id, form.key(), app.now(), app.now());
    let why = if why.is_empty() { EMPTIED } else { why.as_str() };
    let ended = store::outcomes::end_all(&mut conn, &act, &id, why).await;
    let Some(ended) = form.take(ended)? else {
        drop(conn);
        return pages::tray::show_tray(&app, &chrome, &id, Forms { finish: form, ..Forms::default() }).await;
    };
    store::tray::finish(&mut conn, &member.id, &id, Some(app.now())).await?;
    let said = match ended {
        0 => t!("trays-is-finished", tray = tray.mark),
        n => t!("trays-is-finished-and-ended", tray = tray.mark, n = n, why = reason(why)),
    };
    once::done(conn, &app, &form, &format!("/trays/{id}"), Said::new(said)).await
}

/// POST /trays/{id}/reopen
pub async fn reopen(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<TrayId>,
    form: Form,
) -> Result<Response, AppError> {
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "reopen tray", &form).await? {
        return Ok(again);
    }
    store::tray::finish(&mut conn, &chrome.member.id, &id, None).await?;
    once::done(conn, &app, &form, &format!("/trays/{id}"), Said::new(t!("trays-in-use-again"))).await
}
