//! One line changed, accepted, withdrawn, taken off.

use crate::app::App;
use crate::db::Conn;
use crate::db::ids::{LineId, PacketId};
use crate::error::AppError;
use crate::planning::model::{Entry, Line, MOST_PLANTS, Numbers, State as Stands};
use crate::planning::pages::line as page;
use crate::planning::read::{Season, serves};
use crate::planning::{sentences, store};
use crate::routines::model::read_warmth;
use crate::stock::model::Packet;
use crate::stock::promises::{self, New};
use crate::stock::store as stock;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::once;
use crate::web::said::Said;
use axum::extract::{Path, State};
use axum::response::Response;
use chrono::NaiveDate;

/// What is to be promised.
pub struct Wanted {
    pub seeds: i64,
    pub start_on: NaiveDate,
    /// All of it from this packet.
    pub packet: Option<PacketId>,
}

/// POST /plan/lines/{id}: changes its numbers. What was promised is withdrawn, since it was promised for others.
pub async fn change(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<LineId>,
    mut form: Form,
) -> Result<Response, AppError> {
    let (season, place) = Season::of_line(&app, &chrome, &id).await?;
    let entry = &season.entries[place];
    must_not_be_started(entry)?;
    let numbers = numbers(&mut form, &chrome, entry);
    if form.failed() {
        return page::draw(&chrome, &season, place, &form);
    }
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "change line", &form).await? {
        return Ok(again);
    }
    let stands = store::lock(&mut conn, &chrome.member.id, &id).await?;
    if form.meets(&page::numbers(&stands, chrome.member.us()), None, |_, _| None) {
        drop(conn);
        return page::draw(&chrome, &season, place, &form);
    }
    store::change_line(&mut conn, &id, &numbers).await?;
    let accepted = entry.state() == Stands::Accepted;
    promises::withdraw(&mut conn, &id, app.now()).await?;
    let more = accepted.then(|| t!("planning-accept-anew").to_owned());
    let said = Said::new(sentences([Some(t!("planning-saved").to_owned()), more]));
    once::done(conn, &app, &form, &entry.path(), said).await
}

fn must_not_be_started(entry: &Entry) -> Result<(), AppError> {
    if entry.state() == Stands::Started { Err(started()) } else { Ok(()) }
}

fn started() -> AppError {
    AppError::Conflict(t!("planning-trial-was-started").into())
}

fn numbers(form: &mut Form, chrome: &Chrome, entry: &Entry) -> Numbers {
    let today = chrome.now.day(chrome.member.zone());
    let ready_on = form.day("ready");
    match ready_on {
        Some(day) if day < today && day != entry.line.ready_on => {
            form.refuse("ready", t!("planning-day-is-past"))
        }
        None if form.error("ready").is_empty() => form.refuse("ready", t!("planning-ready-which-day")),
        _ => {}
    }
    Numbers {
        plants: form.must_whole("plants", 1..=MOST_PLANTS),
        ready_on: ready_on.unwrap_or(entry.line.ready_on),
        certainty: form.whole("certainty", 50..=99),
        raise_weeks: form.whole("weeks", 0..=52),
        warmth_c: read_warmth(form, "warmth", chrome.member.us(), 60.0),
    }
}

/// POST /plan/lines/{id}/accept: promises its seeds.
pub async fn accept(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<LineId>,
    mut form: Form,
) -> Result<Response, AppError> {
    let (season, place) = Season::of_line(&app, &chrome, &id).await?;
    let entry = &season.entries[place];
    let seeds = form.must_whole("seeds", 1..=100_000);
    let start_on = form.day("start");
    if start_on.is_none() && form.error("start").is_empty() {
        form.refuse("start", t!("planning-start-which-day"));
    }
    let packet = form.value("packet");
    let packet = (!packet.is_empty()).then(|| PacketId(packet.to_owned()));
    if packet.as_ref().is_some_and(|id| !season.packets_for(&entry.line).any(|p| p.id == *id)) {
        form.refuse("packet", t!("planning-choose-one"));
    }
    if form.failed() {
        return page::draw(&chrome, &season, place, &form);
    }
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "accept line", &form).await? {
        return Ok(again);
    }
    let line = store::lock(&mut conn, &chrome.member.id, &id).await?;
    let wanted = Wanted { seeds, start_on: start_on.unwrap_or(entry.reckoned.start), packet };
    let Some(short) = promise(&mut conn, &chrome, &season, (&line, entry), &wanted).await? else {
        return Err(AppError::Conflict(t!("planning-accepted-already").into()));
    };
    let over = (short > 0).then(|| t!("planning-short-see-shopping", n = short));
    let said = Said::new(sentences([Some(t!("planning-accepted-seeds", n = seeds)), over]));
    once::done(conn, &app, &form, &entry.path(), said).await
}

/// Promises seeds for a line that is locked; how many of them no packet holds. `None` where the line is accepted or
/// started meanwhile, or no packet can serve it. What is short is promised of the packet with the most seed.
pub async fn promise(
    conn: &mut Conn,
    chrome: &Chrome,
    season: &Season,
    (line, entry): (&Line, &Entry),
    wanted: &Wanted,
) -> Result<Option<i64>, AppError> {
    let member = &chrome.member.id;
    let made = promises::of_plan(conn, &season.plan.id).await?;
    if made.iter().any(|r| r.line_id == line.id && (r.holds() || r.is_started())) {
        return Ok(None);
    }
    // as they are now: a line accepted in the same save took from them
    let order: Vec<&PacketId> = season.packets_for(&entry.line).map(|p| &p.id).collect();
    let mut packets: Vec<Packet> = stock::packets(conn, member).await?;
    packets.retain(|p| {
        order.contains(&&p.id) && serves(p, line) && wanted.packet.as_ref().is_none_or(|id| p.id == *id)
    });
    packets.sort_by_key(|p| order.iter().position(|id| **id == p.id));
    let Some((parts, short)) = shared(&packets, wanted.seeds) else { return Ok(None) };
    for (packet, seeds) in parts {
        let new = New { packet, seeds, start_on: wanted.start_on };
        promises::make(conn, member, &line.id, &new, chrome.now).await?;
    }
    Ok(Some(short))
}

/// So many seeds out of these packets in their order, and how many are short; `None` without a packet.
fn shared(packets: &[Packet], seeds: i64) -> Option<(Vec<(PacketId, i64)>, i64)> {
    let fullest = packets.iter().max_by_key(|p| p.free())?;
    let mut rest = seeds;
    let mut parts: Vec<(PacketId, i64)> = Vec::new();
    for packet in packets {
        let part = packet.free().min(rest);
        rest -= part;
        parts.push((packet.id.clone(), part));
    }
    if let Some(last) = parts.iter_mut().find(|(id, _)| *id == fullest.id) {
        last.1 += rest;
    }
    parts.retain(|(_, part)| *part > 0);
    Some((parts, rest))
}

/// POST /plan/lines/{id}/withdraw: what is promised is free again.
pub async fn withdraw(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<LineId>,
    form: Form,
) -> Result<Response, AppError> {
    let mut conn = app.db.write().await?;
    let line = store::lock(&mut conn, &chrome.member.id, &id).await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "withdraw line", &form).await? {
        return Ok(again);
    }
    promises::withdraw(&mut conn, &id, app.now()).await?;
    let said = Said::new(t!("planning-withdrawn"));
    once::done(conn, &app, &form, &format!("/plan/lines/{}", line.id), said).await
}

/// POST /plan/lines/{id}/delete: takes it off the plan.
pub async fn delete(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<LineId>,
    form: Form,
) -> Result<Response, AppError> {
    let mut conn = app.db.write().await?;
    // sent twice, the line is gone the second time
    if let Some(again) =
        once::claim(&mut conn, &app, &chrome.member, &format!("delete line {id}"), &form).await?
    {
        return Ok(again);
    }
    let line = store::lock(&mut conn, &chrome.member.id, &id).await?;
    let made = promises::of_plan(&mut conn, &line.plan_id).await?;
    if made.iter().any(|r| r.line_id == id && r.is_started()) {
        return Err(started());
    }
    promises::withdraw(&mut conn, &id, app.now()).await?;
    store::remove(&mut conn, &id, app.now()).await?;
    let said = Said::new(t!("planning-taken-off", n = line.plants, variety = line.variety));
    once::done(conn, &app, &form, &format!("/plan?plan={}", line.plan_id), said).await
}
