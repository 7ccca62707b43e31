use crate::app::App;
use crate::audit::{self, Deed, What};
use crate::db::ids::KindId;
use crate::error::AppError;
use crate::stock::pages::kinds::{KindForms, draw, name_form, show_kind};
use crate::stock::{names, store};
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::once;
use crate::web::said::Said;
use axum::extract::{Path, State};
use axum::response::Response;

/// POST /kinds
pub async fn add(State(app): State<App>, chrome: Chrome, mut form: Form) -> Result<Response, AppError> {
    let name = name_of(&mut form);
    if form.failed() {
        return draw(&app, &chrome, &form).await;
    }
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "new kind", &form).await? {
        return Ok(again);
    }
    if let Some(there) = store::find_kind(&mut conn, &name).await? {
        let there = store::kind(&mut conn, &there).await?.name;
        drop(conn);
        form.refuse("name", t!("stock-kind-is-here", name = there));
        return draw(&app, &chrome, &form).await;
    }
    let id = store::make_kind(&mut conn, &name, app.now()).await?;
    let said = Said::new(t!("stock-added-kind", name = name));
    once::done(conn, &app, &form, &format!("/kinds/{id}"), said).await
}

fn name_of(form: &mut Form) -> String {
    let name = form.must_text("name", 80);
    if names::key(&name).is_empty() {
        form.refuse("name", t!("stock-name-with-letters"));
    }
    name
}

/// POST /kinds/{id}/name
pub async fn rename(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<KindId>,
    mut form: Form,
) -> Result<Response, AppError> {
    chrome.member.must_organise()?;
    let name = name_of(&mut form);
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "rename kind", &form).await? {
        return Ok(again);
    }
    let stands = store::own_kind(&mut conn, &id).await?;
    if !form.failed() && !form.meets(&name_form(&stands.name), None, |_, _| None) {
        let renamed = store::rename_kind(&mut conn, &stands, &name, app.now()).await;
        if form.take(renamed)?.is_some() {
            audit::note(&mut conn, Deed::by(What::KindRenamed, &chrome.member.id), app.now()).await?;
            let said = Said::new(t!("stock-kind-is-called", name = stands.name, other = name));
            return once::done(conn, &app, &form, &format!("/kinds/{id}"), said).await;
        }
    }
    drop(conn);
    show_kind(&app, &chrome, &stands, &KindForms { name: form, ..KindForms::new(&stands) }).await
}

/// POST /kinds/{id}/join
pub async fn join(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<KindId>,
    mut form: Form,
) -> Result<Response, AppError> {
    chrome.member.must_organise()?;
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "join kind", &form).await? {
        return Ok(again);
    }
    let from = store::own_kind(&mut conn, &id).await?;
    let all = store::kinds(&mut conn).await?;
    let into = all.iter().find(|kind| kind.id.0 == form.value("into") && kind.id != from.id);
    if into.is_none() {
        form.refuse("into", t!("stock-choose-a-name"));
    }
    if !form.ticked("sure") {
        form.refuse("sure", t!("accounts-tick-if-sure"));
    }
    if let Some(into) = into.filter(|_| !form.failed()) {
        store::join(&mut conn, &from, &into.id, &chrome.member.id, app.now()).await?;
        let said = Said::new(t!("stock-kind-was-joined", name = from.name, other = into.name));
        return once::done(conn, &app, &form, &format!("/kinds/{}", into.id), said).await;
    }
    drop(conn);
    show_kind(&app, &chrome, &from, &KindForms { join: form, ..KindForms::new(&from) }).await
}
