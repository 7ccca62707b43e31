use crate::app::App;
use crate::db::Conn;
use crate::db::ids::{LotId, PacketId};
use crate::error::AppError;
use crate::notebook::{Act, packet as ledger};
use crate::stock::form as packet_form;
use crate::stock::known::Known;
use crate::stock::model::{Naming, NewPacket, Packet};
use crate::stock::pages::edit::{draw_edit, draw_new, offers};
use crate::stock::{spelling, store};
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::said::Said;
use crate::web::{once, words};
use axum::extract::{Path, State};
use axum::response::Response;
use chrono::NaiveDate;

fn today(chrome: &Chrome) -> NaiveDate {
    chrome.now.day(chrome.member.zone())
}

/// POST /packets/new
pub async fn new(State(app): State<App>, chrome: Chrome, mut form: Form) -> Result<Response, AppError> {
    let mut reader = app.db.read().await?;
    let offers = offers(&mut reader, &chrome, form.value("parent")).await?;
    let known = Known::load(&mut reader, &chrome.member.id).await?;
    drop(reader);
    let mut new = packet_form::new_packet(&mut form, today(&chrome));
    let questions = spelling::settle(&known, &mut form, &mut new.naming);
    if form.failed() {
        return draw_new(&chrome, &offers, &form, &questions);
    }
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "new packet", &form).await? {
        return Ok(again);
    }
    let added = add(&mut conn, &app, &chrome, &form, &new).await;
    let Some(packet) = form.take(added)? else {
        return draw_new(&chrome, &offers, &form, &[]);
    };
    let location = format!("/packets/{}", packet.id);
    let text = t!("stock-added-packet", mark = packet.mark, seeds = words::seeds(packet.balance));
    let said = Said::new(text).next("/packets/new", t!("stock-add-another"));
    once::done(conn, &app, &form, &location, said).await
}

async fn add(
    conn: &mut Conn,
    app: &App,
    chrome: &Chrome,
    form: &Form,
    new: &NewPacket,
) -> Result<Packet, AppError> {
    let act = Act::new(&chrome.member.id, form.key(), app.now(), app.now());
    let id = store::add_packet(conn, &act, new).await?;
    store::packet(conn, &chrome.member.id, &id).await
}

/// POST /packets/{id}/edit
pub async fn edit(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<PacketId>,
    mut form: Form,
) -> Result<Response, AppError> {
    let mut reader = app.db.read().await?;
    let p = store::packet(&mut reader, &chrome.member.id, &id).await?;
    let offers = offers(&mut reader, &chrome, "").await?;
    let known = Known::load(&mut reader, &chrome.member.id).await?;
    drop(reader);
    let own = p.parent_packet.clone().map(|parent| packet_form::saved_from(&mut form, parent));
    let mut naming = (!p.blind).then(|| packet_form::naming(&mut form, today(&chrome), own));
    let details = packet_form::details(&mut form, today(&chrome));
    let questions = match &mut naming {
        Some(naming) => spelling::settle(&known, &mut form, naming),
        None => Vec::new(),
    };
    if form.failed() {
        return draw_edit(&chrome, &offers, &p, (&form, &questions));
    }
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "edit packet", &form).await? {
        return Ok(again);
    }
    ledger::lock(&mut conn, &id).await?;
    let stands = store::packet(&mut conn, &chrome.member.id, &id).await?;
    if packet_form::meets(&mut form, &stands) {
        return draw_edit(&chrome, &offers, &stands, (&form, &[]));
    }
    let lot = match &naming {
        Some(naming) => lot(&mut conn, &chrome, &stands, naming).await,
        None => Ok(stands.lot_id.clone()),
    };
    let Some(lot) = form.take(lot)? else {
        return draw_edit(&chrome, &offers, &p, (&form, &[]));
    };
    store::change(&mut conn, &chrome.member.id, &id, &lot, &details).await?;
    let said = Said::new(t!("stock-saved-mark", mark = p.mark));
    once::done(conn, &app, &form, &format!("/packets/{id}"), said).await
}

/// The lot of the packet: the same where its names stayed, else the one that the new names describe.
async fn lot(conn: &mut Conn, chrome: &Chrome, p: &Packet, n: &Naming) -> Result<LotId, AppError> {
    let same_source = n.own.is_some() || n.source == p.source;
    let stayed =
        same_source && (&n.kind, &n.variety, n.year, &n.code) == (&p.kind, &p.variety, p.year, &p.code);
    let same_parents = n
        .own
        .as_ref()
        .is_none_or(|own| own.pollination == p.pollination && own.doubtful_cross == p.doubtful_cross);
    if n.own.is_some() && p.given_from.is_some() && !(stayed && same_parents) {
        return Err(AppError::refused("variety", t!("stock-names-are-theirs")));
    }
    if !stayed {
        return store::find_or_make_lot(conn, &chrome.member.id, n, chrome.now).await;
    }
    store::note_species(conn, &p.variety_id, &n.species).await?;
    if let (Some(own), false) = (&n.own, same_parents) {
        store::correct_parents(conn, &p.lot_id, &own.pollination, own.doubtful_cross).await?;
    }
    Ok(p.lot_id.clone())
}
