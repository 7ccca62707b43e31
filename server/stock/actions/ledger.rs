use crate::app::App;
use crate::db::Conn;
use crate::db::ids::{MemberId, PacketId};
use crate::error::AppError;
use crate::notebook::{About, Act, packet as ledger};
use crate::stock::model::{BY_HAND, MOST_SEEDS, Packet};
use crate::stock::pages::ledger::{draw_give, draw_seeds};
use crate::stock::store;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::said::Said;
use crate::web::{once, words};
use axum::extract::{Path, State};
use axum::response::Response;

/// POST /packets/{id}/seeds: recount, found, returned or spoiled.
pub async fn seeds(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<PacketId>,
    mut form: Form,
) -> Result<Response, AppError> {
    let packet = store::packet(&mut app.db.read().await?, &chrome.member.id, &id).await?;
    let sort = form.one_of("sort", &BY_HAND);
    let least = i64::from(sort != "recount");
    let seeds = form.must_whole("seeds", least..=MOST_SEEDS);
    let note = form.text("note", 2000);
    let at = form.moment("at", chrome.member.zone(), app.now());
    if form.failed() {
        return draw_seeds(&chrome, &packet, &form);
    }
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "packet seeds", &form).await? {
        return Ok(again);
    }
    let act = Act::new(&chrome.member.id, form.key(), at, app.now());
    let line = ledger::Line { sort, seeds, other: None, note: &note };
    let (rough, seen) = (form.ticked("rough"), form.value("seen").parse().ok());
    let Some(left) = form.take(add(&mut conn, &act, &packet, line, (rough, seen)).await)? else {
        drop(conn);
        let stands = store::packet(&mut app.db.read().await?, &chrome.member.id, &id).await?;
        return draw_seeds(&chrome, &stands, &form);
    };
    let said = Said::new(t!("stock-saved-seeds-left", mark = packet.mark, seeds = words::seeds(left)));
    once::done(conn, &app, &form, &format!("/packets/{id}"), said.undo(form.key())).await
}

async fn add(
    conn: &mut Conn,
    act: &Act<'_>,
    packet: &Packet,
    mut line: ledger::Line<'_>,
    (rough, seen): (bool, Option<i64>),
) -> Result<i64, AppError> {
    let balance = ledger::lock(conn, &packet.id).await?;
    match line.sort {
        "recount" => {
            must_be_as(seen, balance)?;
            line.seeds -= balance;
            store::set_rough(conn, &packet.id, rough).await?;
        }
        "spoiled" => line.seeds = -line.seeds,
        _ => {}
    }
    let left = balance + line.seeds;
    ledger::add(conn, act, About { packet: Some(&packet.id), ..About::default() }, line).await?;
    Ok(left)
}

/// Refuses a recount typed on a page that no longer shows the packet as it is: who counted before what was taken or
/// returned meanwhile would undo it. A form that does not tell what was seen passes.
fn must_be_as(seen: Option<i64>, balance: i64) -> Result<(), AppError> {
    let Some(seen) = seen.filter(|n| *n != balance) else { return Ok(()) };
    let (then, now) = (words::seeds(seen), words::seeds(balance));
    Err(AppError::refused("seeds", t!("stock-saved-meanwhile", then = then, now = now)))
}

/// POST /packets/{id}/give
pub async fn give(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<PacketId>,
    mut form: Form,
) -> Result<Response, AppError> {
    let mut reader = app.db.read().await?;
    let packet = store::packet(&mut reader, &chrome.member.id, &id).await?;
    let others = store::other_members(&mut reader, &chrome.member.id).await?;
    drop(reader);
    let to = others.iter().find(|m| m.id.0 == form.value("to")).cloned();
    if to.is_none() {
        form.refuse("to", t!("stock-who-gets-the-seed"));
    }
    let seeds = form.must_whole("seeds", 1..=MOST_SEEDS);
    let (Some(to), false) = (to, form.failed()) else {
        return draw_give(&chrome, &packet, &others, &form);
    };
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "give", &form).await? {
        return Ok(again);
    }
    let given = hand_over(&mut conn, &app, (&chrome, &form), &packet, &to.id, seeds).await;
    let Some(new) = form.take(given)? else { return draw_give(&chrome, &packet, &others, &form) };
    let mark = store::any_packet(&mut conn, &new).await?.mark;
    let seeds = words::seeds(seeds);
    let text = t!("stock-given-to", seeds = seeds, mark = packet.mark, to = to.name, theirs = mark);
    once::done(conn, &app, &form, &format!("/packets/{id}"), Said::new(text).undo(form.key())).await
}

async fn hand_over(
    conn: &mut Conn,
    app: &App,
    (chrome, form): (&Chrome, &Form),
    packet: &Packet,
    to: &MemberId,
    seeds: i64,
) -> Result<PacketId, AppError> {
    let act = Act::new(&chrome.member.id, form.key(), app.now(), app.now());
    store::give(conn, &act, packet, to, seeds, &chrome.member.name).await
}
