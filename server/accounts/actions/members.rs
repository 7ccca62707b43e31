//! What organisers do about members.

use crate::accounts::model::{self, Role};
use crate::accounts::pages::members::{self as pages, MemberForms};
use crate::accounts::proof;
use crate::accounts::store::{self, MemberRow, links};
use crate::app::App;
use crate::audit::{self, Deed, What};
use crate::db::ids::{LinkId, MemberId};
use crate::error::AppError;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::once;
use crate::web::said::Said;
use axum::extract::{Path, State};
use axum::response::Response;

const INVITATION_DAYS: i64 = 7;
/// Where the form of a link leads when it comes again: the link itself is not shown twice.
const SHOWN: &str = "/members?link=shown";

/// POST /members/invite
pub async fn invite(State(app): State<App>, chrome: Chrome, mut form: Form) -> Result<Response, AppError> {
    chrome.member.must_organise()?;
    if let Some(first) = proof::wanted(&app, &chrome, proof::ORGANISER_MINUTES, "/members") {
        return Ok(first);
    }
    let role = Role::parse(&mut form);
    if form.failed() {
        return pages::show_list(&app, &chrome, &form, false).await;
    }
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "invite", &form).await? {
        return Ok(again);
    }
    let by = Some(&chrome.member.id);
    let new =
        links::NewLink { purpose: "invitation", role: role.word(), member: None, by, days: INVITATION_DAYS };
    let token = links::make(&mut conn, &new, app.now()).await?;
    let deed = Deed::by(What::Invited, &chrome.member.id).more(role.word());
    audit::note(&mut conn, deed, app.now()).await?;
    once::keep(conn, &form, SHOWN).await?;
    let text = t!("accounts-invitation-text", role = role.word());
    let link = format!("{}/join/{token}", app.config.base());
    pages::show_link(&chrome, (t!("accounts-invitation"), &text), &link, INVITATION_DAYS)
}

/// POST /members/links/{id}/withdraw
pub async fn withdraw(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<LinkId>,
    form: Form,
) -> Result<Response, AppError> {
    chrome.member.must_organise()?;
    let mut conn = app.db.write().await?;
    let action = format!("withdraw {id}");
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, &action, &form).await? {
        return Ok(again);
    }
    links::withdraw(&mut conn, &id, app.now()).await?;
    audit::note(&mut conn, Deed::by(What::LinkWithdrawn, &chrome.member.id), app.now()).await?;
    once::done(conn, &app, &form, "/members", Said::new(t!("accounts-link-withdrawn"))).await
}

/// The member an organiser works on; somebody who left is not worked on any more.
async fn present(app: &App, id: &MemberId) -> Result<MemberRow, AppError> {
    let member = store::member(&mut app.db.read().await?, id).await?;
    if member.left_at.is_some() { Err(AppError::NotFound) } else { Ok(member) }
}

/// POST /members/{id}/reset
pub async fn reset(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<MemberId>,
    form: Form,
) -> Result<Response, AppError> {
    chrome.member.must_organise()?;
    if let Some(first) = proof::wanted(&app, &chrome, proof::ORGANISER_MINUTES, &format!("/members/{id}")) {
        return Ok(first);
    }
    let member = present(&app, &id).await?;
    let mut conn = app.db.write().await?;
    let action = format!("reset {id}");
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, &action, &form).await? {
        return Ok(again);
    }
    let by = Some(&chrome.member.id);
    let token = links::make_reset(&mut conn, &member, by, app.now()).await?;
    let deed = Deed::by(What::ResetMade, &chrome.member.id).about(&id);
    audit::note(&mut conn, deed, app.now()).await?;
    once::keep(conn, &form, SHOWN).await?;
    let text = t!("accounts-reset-link-text", name = member.name);
    let link = format!("{}/reset/{token}", app.config.base());
    pages::show_link(&chrome, (t!("accounts-reset-link"), &text), &link, links::RESET_DAYS)
}

/// POST /members/{id}/role
pub async fn role(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<MemberId>,
    mut form: Form,
) -> Result<Response, AppError> {
    chrome.member.must_organise()?;
    if let Some(first) = proof::wanted(&app, &chrome, proof::ORGANISER_MINUTES, &format!("/members/{id}")) {
        return Ok(first);
    }
    let mut member = present(&app, &id).await?;
    let role = Role::parse(&mut form);
    if !form.failed() {
        let mut conn = app.db.write().await?;
        let action = format!("role {id}");
        if let Some(again) = once::claim(&mut conn, &app, &chrome.member, &action, &form).await? {
            return Ok(again);
        }
        member = store::hold_role(&mut conn, &id).await?;
        let word = |_: &str, value: &str| Some(model::with_article(value).to_owned());
        if member.left_at.is_some() {
            return Err(AppError::NotFound);
        }
        if form.meets(&pages::role_of(&member), None, word) {
            // both values are told beside the field
        } else if role.word() == member.role {
            form.refuse("role", t!("accounts-has-that-role-already", name = member.name, role = role.word()));
        } else if form.take(store::set_role(&mut conn, &id, role, app.now()).await)?.is_some() {
            let deed = Deed::by(What::RoleChanged, &chrome.member.id).about(&id).more(role.word());
            audit::note(&mut conn, deed, app.now()).await?;
            let said = t!("accounts-role-is-changed", name = member.name, role = role.word());
            return once::done(conn, &app, &form, "/members", Said::new(said)).await;
        }
    }
    let forms = MemberForms { role: form, ..MemberForms::new(&member) };
    pages::show_member(&app, &chrome, &member, &forms).await
}

/// POST /members/{id}/leave
pub async fn leave(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<MemberId>,
    mut form: Form,
) -> Result<Response, AppError> {
    chrome.member.must_organise()?;
    if let Some(first) = proof::wanted(&app, &chrome, proof::ORGANISER_MINUTES, &format!("/members/{id}")) {
        return Ok(first);
    }
    let mut conn = app.db.write().await?;
    let action = format!("leave {id}");
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, &action, &form).await? {
        return Ok(again);
    }
    let member = present(&app, &id).await?;
    if !form.ticked("sure") {
        form.refuse("sure", t!("accounts-tick-if-sure"));
    } else if form.take(store::leave(&mut conn, &id, app.now()).await)?.is_some() {
        audit::note(&mut conn, Deed::by(What::Left, &chrome.member.id).about(&id), app.now()).await?;
        let said = t!("accounts-is-no-longer-a-member", name = member.name);
        return once::done(conn, &app, &form, "/members", Said::new(said)).await;
    }
    drop(conn);
    let forms = MemberForms { leave: form, ..MemberForms::new(&member) };
    pages::show_member(&app, &chrome, &member, &forms).await
}
