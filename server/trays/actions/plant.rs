use crate::app::App;
use crate::db::Conn;
use crate::db::ids::{BagId, TrayId};
use crate::error::AppError;
use crate::notebook::Act;
use crate::trays::model::Tray;
use crate::trays::pages::plant::{Asked, show};
use crate::trays::store;
use crate::trays::store::plant::{self, Placed, Ready};
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::once;
use crate::web::said::Said;
use crate::web::words;
use axum::extract::{Path, State};
use axum::response::Response;

/// POST /bags/{id}/plant; with `show` only says which cells it would take.
pub async fn plant(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<BagId>,
    mut form: Form,
) -> Result<Response, AppError> {
    let member = &chrome.member;
    let mut conn = app.db.read().await?;
    let ready = plant::ready(&mut conn, &member.id, &id).await?;
    let typed = TrayId(form.value("tray").to_owned());
    let found = match store::tray::tray(&mut conn, &member.id, &typed).await {
        Err(AppError::NotFound) => Err(AppError::refused("tray", t!("trays-choose-or-make"))),
        other => other,
    };
    let tray = form.take(found)?;
    let asked = tray.as_ref().map(|tray| Asked::read(&mut form, tray));
    let at = form.moment("at", member.zone(), app.now());
    let (Some(tray), Some(asked), false) = (tray, asked, form.failed() || form.ticked("show")) else {
        return show(&mut conn, &chrome, &ready, form).await;
    };
    drop(conn);
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, member, "plant", &form).await? {
        return Ok(again);
    }
    let act = Act::new(&member.id, form.key(), at, app.now());
    let planted = store::plant(&mut conn, &act, &asked.plan(&id)).await;
    match form.take(planted)? {
        Some(placed) => {
            let said = said(&mut conn, &chrome, &ready, &tray, &placed).await?.undo(form.key());
            once::done(conn, &app, &form, &format!("/trays/{}", tray.id), said).await
        }
        None => {
            drop(conn);
            show(&mut app.db.read().await?, &chrome, &ready, form).await
        }
    }
}

async fn said(
    conn: &mut Conn,
    chrome: &Chrome,
    ready: &Ready,
    tray: &Tray,
    placed: &[Placed],
) -> Result<Said, AppError> {
    let cells: Vec<i64> = placed.iter().map(|p| p.cell).collect();
    let seeds = words::seeds(placed.iter().map(|p| p.seeds).sum());
    let said = Said::new(t!(
        "trays-seeds-in-cells",
        seeds = seeds,
        bag = ready.mark,
        n = cells.len(),
        cells = tray.geometry().words(&cells),
        tray = tray.mark,
    ));
    Ok(match plant::next_bag(conn, &chrome.member.id, &ready.id).await? {
        Some(next) => said.next(
            format!("/bags/{}/plant?tray={}", next.id, tray.id),
            t!("trays-plant-rooted-of", n = next.ready, bag = next.mark),
        ),
        None => said.next("/", t!("web-place-due-now")),
    })
}
