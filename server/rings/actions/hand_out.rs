use super::plan::planned;
use crate::app::App;
use crate::db::Conn;
use crate::db::ids::{LotId, MemberId, RingId};
use crate::error::AppError;
use crate::notebook::{Act, packet};
use crate::rings::model::{Grower, Lot, Part, Ring, Stage};
use crate::rings::pages::{draw_plan, draw_running};
use crate::rings::plan::{self, Known, Plan};
use crate::rings::store::{self, Drawn};
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::once;
use crate::web::said::Said;
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
    let shown = form.value("numbers");
    if plan::numbers(&ring) != plan::numbers(&seen) || !shown.is_empty() && shown != plan::stamp(&ring) {
        return Err(AppError::Conflict(t!("rings-numbers-changed").into()));
    }
    let here = store::members(&mut conn).await?;
    if let Some(gone) = growers.iter().find(|g| here.iter().all(|m| m.member_id != g.member_id)) {
        return Err(AppError::Conflict(t!("rings-has-left", name = gone.name)));
    }
    let done = put(&mut conn, &app, &ring, &growers, &design).await;
    if form.take(done)?.is_none() {
        drop(conn);
        return draw_plan(&app, &chrome, &ring, &form).await;
    }
    let said = Said::new(t!("rings-drawn"));
    once::done(conn, &app, &form, &format!("/rings/{id}"), said).await
}

async fn searched(ring: &Ring, lots: usize, growers: usize) -> Result<Design, AppError> {
    let each = usize::try_from(ring.lots_each).unwrap_or(2);
    let work = move || Design::find(lots, growers, each);
    let found = tokio::task::spawn_blocking(work).await.map_err(|e| AppError::Internal(e.into()))?;
    found.map_err(|_| AppError::Conflict(t!("rings-no-such-plan").into()))
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
        let (mark, owner) = (&short.lot.mark, &short.lot.owner);
        let why = t!("rings-packet-is-short", mark = mark, owner = owner, n = short.short);
        return Err(AppError::refused("draw", why));
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
    let text = t!("rings-handed-out-to", packets = handed, bags = ring.bags_words());
    let said = Said::new(text).undo(form.key());
    once::done(conn, &app, &form, &format!("/rings/{id}"), said).await
}

/// The stand-in lot of a running ring trial; refused where it does not run.
pub fn running(ring: &Ring) -> Result<LotId, AppError> {
    match (ring.stage(), &ring.blind_lot) {
        (Stage::Running, Some(blind)) => Ok(blind.clone()),
        (Stage::Planned, _) => Err(AppError::Conflict(t!("rings-not-drawn-yet").into())),
        _ => Err(AppError::Conflict(t!("rings-not-running").into())),
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
    let here: Vec<MemberId> = store::members(conn).await?.into_iter().map(|m| m.member_id).collect();
    let to = form.value("to");
    let mut due: Vec<(&Part, &Lot)> = parts
        .iter()
        .filter(|p| p.handed == 0 && here.contains(&p.member_id) && (to == "all" || p.member_id.0 == to))
        .filter_map(|p| Some((p, lots.get(usize::try_from(p.place).ok()?)?)))
        .collect();
    if due.is_empty() {
        return Err(AppError::refused("to", t!("rings-nothing-left-for-them")));
    }
    // packets are locked in one order, whatever else is going on
    let mut from: Vec<_> = due.iter().map(|(_, lot)| &lot.packet_id).collect();
    from.sort();
    from.dedup();
    for packet in from {
        packet::lock(conn, packet).await?;
    }
    // ids tell the order in which they were made: it must tell nothing of the lots
    due.sort_by_cached_key(|_| uuid::Uuid::new_v4());
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
        AppError::Refused { field: "seeds", .. } => {
            AppError::refused("to", t!("rings-not-enough-any-more", mark = lot.mark, owner = lot.owner))
        }
        other => other,
    }
}
