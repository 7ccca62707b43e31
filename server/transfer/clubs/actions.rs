use super::super::asked;
use super::super::choice::{Choice, ORDER};
use super::super::fault::Fault;
use super::super::read::{List, Row};
use super::super::season::Season;
use super::super::store as kept;
use super::file::{self, Refusal, Shared};
use super::pages::{draw, draw_look};
use super::store;
use crate::accounts;
use crate::app::App;
use crate::audit::{self, Deed, What};
use crate::db::Conn;
use crate::error::AppError;
use crate::rates::others::Names;
use crate::stock::model::{Naming, NewPacket};
use crate::web::away::away;
use crate::web::chrome::Chrome;
use crate::web::forms::{Form, Upload};
use crate::web::once;
use crate::web::said::Said;
use axum::extract::{Path, State};
use axum::response::Response;
use std::collections::BTreeMap;

/// What is kept for this page.
const SORT: &str = "club";

/// Another club's table beside what we know.
pub struct Planned {
    pub upload: String,
    pub shared: Shared,
    /// Near spellings, as a season list asks for them.
    pub season: Season,
    pub names: Names,
}

/// Reads the file, or notes beside `file` why not; faults of its counts are given back.
async fn open(
    conn: &mut Conn,
    chrome: &Chrome,
    form: &mut Form,
    file: Option<(String, kept::File)>,
) -> Result<Result<Planned, Vec<Fault>>, AppError> {
    let Some((upload, file)) = file else {
        if !form.failed() {
            form.refuse("file", t!("transfer-choose-club-file"));
        }
        return Ok(Err(Vec::new()));
    };
    let own = store::known_installation(conn).await?;
    let today = chrome.now.day(accounts::store::zone(conn).await?);
    let shared = match away(move || file::read(&file.bytes, own.as_deref(), today)).await? {
        Ok(shared) => shared,
        Err(Refusal::File(why)) => {
            form.refuse("file", why);
            return Ok(Err(Vec::new()));
        }
        Err(Refusal::Faults(faults)) => {
            form.refuse("file", t!("transfer-counts-do-not-come-out"));
            return Ok(Err(faults));
        }
    };
    let mut season = Season::weighed(conn, &chrome.member.id, listed(&shared), form).await?;
    season.choices.retain(|c| c.what != ORDER);
    Ok(Ok(Planned { upload, shared, season, names: Names::load(conn).await? }))
}

/// The names of the table as a list, for the questions that a list asks.
fn listed(shared: &Shared) -> List {
    let row = |([kind, variety, source], _): &([String; 3], i64)| {
        let naming = Naming {
            kind: kind.clone(),
            variety: variety.clone(),
            source: source.clone(),
            ..Naming::default()
        };
        Row { packet: NewPacket { naming, ..NewPacket::default() }, ..Row::default() }
    };
    List { rows: shared.places.iter().map(row).collect(), ..List::default() }
}

/// POST /clubs/import: shows what is in the file; keeps it, brings nothing in.
pub async fn look(State(app): State<App>, chrome: Chrome, upload: Upload) -> Result<Response, AppError> {
    chrome.member.must_organise()?;
    let (mut form, file) = asked::received(&app, &chrome, SORT, upload).await?;
    let mut conn = app.db.read().await?;
    match open(&mut conn, &chrome, &mut form, file).await? {
        Ok(planned) => draw_look(&mut conn, &chrome, &form, &planned).await,
        Err(faults) => {
            drop(conn);
            super::pages::draw_faults(&app, &chrome, &form, &faults).await
        }
    }
}

/// POST /clubs/import/confirm: the table comes in whole, in place of an earlier one of the same club.
pub async fn bring_in(State(app): State<App>, chrome: Chrome, mut form: Form) -> Result<Response, AppError> {
    chrome.member.must_organise()?;
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "other club", &form).await? {
        return Ok(again);
    }
    let file = asked::kept(&mut conn, &chrome, SORT, &mut form).await?;
    let planned = match open(&mut conn, &chrome, &mut form, file).await? {
        Ok(planned) => planned,
        Err(faults) => {
            drop(conn);
            return super::pages::draw_faults(&app, &chrome, &form, &faults).await;
        }
    };
    let choices = &planned.season.choices;
    if choices.iter().any(|choice| form.values(&choice.field).is_empty()) {
        return draw_look(&mut conn, &chrome, &form, &planned).await;
    }
    let chosen = |c: &Choice| {
        let answer = c.near.iter().find(|n| *n == form.value(&c.field))?;
        Some((c.field.clone(), answer.clone()))
    };
    let names: BTreeMap<String, String> = choices.iter().filter_map(chosen).collect();
    let names = serde_json::to_string(&names).map_err(|e| AppError::Internal(e.into()))?;
    store::put(&mut conn, &planned.shared, &names, &chrome.member.id, app.now()).await?;
    kept::done(&mut conn, &chrome.member.id, &planned.upload).await?;
    audit::note(&mut conn, Deed::by(What::ClubTaken, &chrome.member.id), app.now()).await?;
    let text = t!("transfer-table-brought-in", name = planned.shared.name);
    once::done(conn, &app, &form, "/clubs", Said::new(text)).await
}

/// POST /clubs/{code}/use: whether its table counts in the comparison.
pub async fn set_used(
    State(app): State<App>,
    chrome: Chrome,
    Path(code): Path<String>,
    form: Form,
) -> Result<Response, AppError> {
    chrome.member.must_organise()?;
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "use other club", &form).await? {
        return Ok(again);
    }
    let other = store::other(&mut conn, &code).await?.ok_or(AppError::NotFound)?;
    let used = form.ticked("used");
    store::set_used(&mut conn, &code, used).await?;
    audit::note(&mut conn, Deed::by(What::ClubUsed, &chrome.member.id), app.now()).await?;
    let said = if used {
        t!("transfer-table-counts-again", name = other.name)
    } else {
        t!("transfer-table-is-left-out", name = other.name)
    };
    once::done(conn, &app, &form, "/clubs", Said::new(said)).await
}

/// POST /clubs/{code}/remove: its table goes.
pub async fn remove(
    State(app): State<App>,
    chrome: Chrome,
    Path(code): Path<String>,
    mut form: Form,
) -> Result<Response, AppError> {
    chrome.member.must_organise()?;
    if !form.ticked("sure") {
        form.refuse("sure", t!("transfer-tick-that-it-goes"));
        return draw(&app, &chrome, &form).await;
    }
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "remove other club", &form).await? {
        return Ok(again);
    }
    let other = store::other(&mut conn, &code).await?.ok_or(AppError::NotFound)?;
    store::remove(&mut conn, &code, app.now()).await?;
    audit::note(&mut conn, Deed::by(What::ClubRemoved, &chrome.member.id), app.now()).await?;
    let said = Said::new(t!("transfer-table-is-gone", name = other.name));
    once::done(conn, &app, &form, "/clubs", said).await
}
