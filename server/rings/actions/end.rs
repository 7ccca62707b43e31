use super::hand_out::running;
use crate::app::App;
use crate::db::Conn;
use crate::db::ids::{LotId, RingId};
use crate::error::AppError;
use crate::rings::model::{Part, Ring, Stage};
use crate::rings::pages::open::draw;
use crate::rings::store;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::once;
use crate::web::said::Said;
use axum::extract::{Path, State};
use axum::response::Response;

/// POST /rings/{id}/open: names appear, and the counts enter the club table.
pub async fn open(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<RingId>,
    mut form: Form,
) -> Result<Response, AppError> {
    chrome.member.must_organise()?;
    let why = form.text("why", 500);
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "open ring trial", &form).await? {
        return Ok(again);
    }
    let ring = store::lock(&mut conn, &id).await?;
    let blind = running(&ring)?;
    let parts = store::parts(&mut conn, &id).await?;
    if !parts.iter().all(Part::is_closed) && why.is_empty() {
        form.refuse("why", t!("rings-why-opened-now"));
    }
    if form.failed() {
        return draw(&mut conn, &chrome, &ring, &form).await;
    }
    reveal(&mut conn, (&ring, &blind), &parts, (&app, &chrome, &why)).await?;
    let said = Said::new(t!("rings-opened"));
    once::done(conn, &app, &form, &format!("/rings/{id}"), said).await
}

async fn reveal(
    conn: &mut Conn,
    (ring, blind): (&Ring, &LotId),
    parts: &[Part],
    (app, chrome, why): (&App, &Chrome, &str),
) -> Result<(), AppError> {
    let lots = store::lots(conn, &ring.id).await?;
    store::open(conn, (ring, blind), (&lots, parts), (&chrome.member.id, app.now(), why)).await
}

/// POST /rings/{id}/give-up: only while no seed is with the growers; later it is opened instead.
pub async fn give_up(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<RingId>,
    mut form: Form,
) -> Result<Response, AppError> {
    chrome.member.must_organise()?;
    let why = form.text("why", 500);
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "give up ring trial", &form).await? {
        return Ok(again);
    }
    let ring = store::lock(&mut conn, &id).await?;
    let handed = store::parts(&mut conn, &id).await?.iter().any(|p| p.made);
    if handed || !matches!(ring.stage(), Stage::Planned | Stage::Running) {
        return Err(AppError::Conflict(t!("rings-open-it-instead").into()));
    }
    store::give_up(&mut conn, &id, app.now(), &why).await?;
    let said = Said::new(t!("rings-given-up", name = ring.name));
    once::done(conn, &app, &form, "/rings", said).await
}
