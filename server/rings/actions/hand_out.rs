use super::plan::planned;
use crate::app::App;
use crate::db::Conn;
use crate::db::ids::{LotId, RingId};
use crate::error::AppError;
use crate::notebook::Act;
use crate::rings::model::{Grower, Lot, Part, Ring, Stage};
use crate::rings::pages::{draw_plan, draw_running};
use crate::rings::plan::{self, Known, Plan};
use crate::rings::store::{self, Drawn};
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::said::Said;
use crate::web::{once, words};
use axum::extract::{Path, State};
use axum::response::Response;
use hilum_calc::blocks::Design;

/// POST /rings/{id}/draw: decides by chance which grower tests which lots under which mark.
pub async fn draw(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<RingId>,
    mut form: Form,
) -> Result<Response, AppError> {
    chrome.member.must_organise()?;
    let mut reader = app.db.read().await?;
    let seen = store::ring(&mut reader, &id).await?;
    let growers = store::growers(&mut reader, &id).await?;
    let lots = store::lots(&mut reader, &id).await?;
    drop(reader);
    let design = searched(&seen, lots.len(), growers.len()).await?;
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "draw ring trial", &form).await? {
        return Ok(again);
    }
    let ring = store::lock(&mut conn, &id).await?;
    planned(&ring)?;
    if plan::numbers(&ring) != plan::numbers(&seen) {
        return Err(AppError::Conflict("The numbers were changed meanwhile. Look at the plan again.".into()));
    }
    let done = put(&mut conn, &app, &ring, &growers, &design).await;
    if form.take(done)?.is_none() {
        drop(conn);
        return draw_plan(&app, &chrome, &ring, &form).await;
    }
    let said = Said::new("Drawn. Print the labels and the key, fill the packets, then hand them out.");
    once::done(conn, &app, &form, &format!("/rings/{id}"), said).await
}

async fn searched(ring: &Ring, lots: usize, growers: usize) -> Result<Design, AppError> {
    let each = usize::try_from(ring.lots_each).unwrap_or(2);
    let work = move || Design::find(lots, growers, each);
    let found = tokio::task::spawn_blocking(work).await.map_err(|e| AppError::Internal(e.into()))?;
    found.map_err(|_| AppError::Conflict("There is no plan with these numbers. Change them first.".into()))
}

async fn put(
    conn: &mut Conn,
    app: &App,
    ring: &Ring,
    growers: &[Grower],
    design: &Design,
) -> Result<(), AppError> {
    let lots = store::lots(conn, &ring.id).await?;
    let plan = Plan::new(design.clone(), plan::numbers(ring), Known::of(&[], "", ""));
    if let Some(short) = plan.needs(&lots).iter().find(|n| n.short > 0) {
        return Err(AppError::refused(
            "draw",
            format!(
                "{} of {} is short by {}. Use fewer or smaller bags, or have the packet recounted.",
                short.lot.mark,
                short.lot.owner,
                words::seeds(short.short)
            ),
        ));
    }
    let seed = uuid::Uuid::new_v4().as_u64_pair().0;
    let blocks = design.shuffled(seed);
    let drawn: Vec<Drawn> = growers
        .iter()
        .zip(blocks.blocks())
        .map(|(g, places)| Drawn { member: g.member_id.clone(), places: places.clone() })
        .collect();
    store::put_drawn(conn, ring, &drawn, app.now()).await
}

/// POST /rings/{id}/hand-out: the seeds leave the packets they come from and are with the growers.
pub async fn hand_out(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<RingId>,
    mut form: Form,
) -> Result<Response, AppError> {
    chrome.member.must_organise()?;
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "hand out ring trial", &form).await? {
        return Ok(again);
    }
    let ring = store::lock(&mut conn, &id).await?;
    let blind = running(&ring)?;
    let handed = give(&mut conn, &app, (&chrome, &form), (&ring, &blind)).await;
    let Some(handed) = form.take(handed)? else {
        drop(conn);
        return draw_running(&app, &chrome, &ring, &form).await;
    };
    let packets = words::counted(handed, "packet", "packets");
    let said = Said::new(format!("Handed out: {packets}, {} each.", ring.bags_words())).undo(form.key());
    once::done(conn, &app, &form, &format!("/rings/{id}"), said).await
}

/// The stand-in lot of a running ring trial; refused where it does not run.
pub fn running(ring: &Ring) -> Result<LotId, AppError> {
    match (ring.stage(), &ring.blind_lot) {
        (Stage::Running, Some(blind)) => Ok(blind.clone()),
        (Stage::Planned, _) => {
            Err(AppError::Conflict("The lots of this ring trial are not drawn yet.".into()))
        }
        _ => Err(AppError::Conflict("This ring trial is not running any more.".into())),
    }
}

/// Hands out what the chosen growers have not received; how many packets.
async fn give(
    conn: &mut Conn,
    app: &App,
    (chrome, form): (&Chrome, &Form),
    (ring, blind): (&Ring, &LotId),
) -> Result<i64, AppError> {
    let (lots, parts) = (store::lots(conn, &ring.id).await?, store::parts(conn, &ring.id).await?);
    let to = form.value("to");
    let mut due: Vec<(&Part, &Lot)> = parts
        .iter()
        .filter(|p| p.handed == 0 && (to == "all" || p.member_id.0 == to))
        .filter_map(|p| Some((p, lots.get(usize::try_from(p.place).ok()?)?)))
        .collect();
    if due.is_empty() {
        return Err(AppError::refused("to", "There is nothing left to hand out to them."));
    }
    // packets are locked in one order, whatever else is going on
    due.sort_by(|a, b| (&a.1.packet_id, &a.0.packet_id).cmp(&(&b.1.packet_id, &b.0.packet_id)));
    let day = chrome.now.day(chrome.member.zone());
    for (part, lot) in &due {
        let act = Act::new(&chrome.member.id, form.key(), app.now(), app.now());
        let handed = store::hand_out(conn, &act, (ring, blind), (part, lot), day).await;
        handed.map_err(|e| short(e, lot))?;
    }
    Ok(due.len() as i64)
}

fn short(error: AppError, lot: &Lot) -> AppError {
    match error {
        AppError::Refused { field: "seeds", .. } => AppError::refused(
            "to",
            format!(
                "{} of {} does not hold enough seed any more. Have it recounted, then hand out again.",
                lot.mark, lot.owner
            ),
        ),
        other => other,
    }
}
