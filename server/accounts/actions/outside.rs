//! Coming in and going out.

use super::enter::{Sender, asked_for_passkey, enter};
use crate::accounts::model::{self, Link, NewMember};
use crate::accounts::pages::outside as pages;
use crate::accounts::passwords;
use crate::accounts::proof::{self, Asker, Proof};
use crate::accounts::store::{self, links, passkeys, sessions};
use crate::app::App;
use crate::audit::{self, Deed, What};
use crate::db::Conn;
use crate::db::ids::MemberId;
use crate::error::AppError;
use crate::web::forms::Form;
use crate::web::session;
use axum::extract::{Path, State};
use axum::http::HeaderMap;
use axum::http::header::SET_COOKIE;
use axum::response::{IntoResponse, Redirect, Response};

/// POST /sign-in
pub async fn sign_in(
    State(app): State<App>,
    asker: Asker,
    headers: HeaderMap,
    mut form: Form,
) -> Result<Response, AppError> {
    let name = form.must_text("sign_in", 60);
    if form.failed() {
        return pages::show_sign_in(&app, &form).await;
    }
    match proof::prove(&app, &name, form.value("password"), &asker).await? {
        Proof::Member(id) if has_to_use_passkey(&app, &id).await? => {
            form.refuse("password", t!("accounts-use-your-passkey"));
            pages::show_sign_in(&app, &form).await
        }
        Proof::Member(id) => {
            let next = model::safe_next(form.value("next"));
            enter(&app, app.db.write().await?, &(headers, asker), &id, "password", next).await
        }
        Proof::Wrong => {
            form.refuse("password", t!("accounts-do-not-go-together"));
            pages::show_sign_in(&app, &form).await
        }
        Proof::Wait(seconds) => pages::show_wait(&app, &mut form, seconds).await,
    }
}

/// Whether nothing but a passkey lets this member in, who has one.
async fn has_to_use_passkey(app: &App, member: &MemberId) -> Result<bool, AppError> {
    let mut conn = app.db.read().await?;
    Ok(asked_for_passkey(app, &mut conn, member).await? && !passkeys::of(&mut conn, member).await?.is_empty())
}

/// POST /sign-out
pub async fn sign_out(State(app): State<App>, headers: HeaderMap, _form: Form) -> Result<Response, AppError> {
    if let Some(token) = session::token(&app, &headers) {
        let mut conn = app.db.write().await?;
        sessions::close(&mut conn, &token).await?;
        conn.commit().await?;
    }
    Ok(([(SET_COOKIE, session::set_cookie(&app, ""))], Redirect::to("/sign-in")).into_response())
}

/// POST /join/{token}
pub async fn join(
    State(app): State<App>,
    Path(token): Path<String>,
    asker: Asker,
    headers: HeaderMap,
    mut form: Form,
) -> Result<Response, AppError> {
    let from = (headers, asker);
    let mut conn = app.db.read().await?;
    let link = links::good(&mut conn, &token, app.now()).await?.filter(|l| l.purpose != "reset");
    let name = store::club_name(&mut conn).await?;
    drop(conn);
    let Some(link) = link else { return joined_before(&app, &token, &from, &form).await };
    let club = (link.purpose == "set-up").then(|| club(&mut form));
    let new = NewMember::parse(&mut form, &link.role, club.as_ref().map_or(&name, |c| &c.0));
    if form.failed() {
        return pages::show_join(&app, &link, &form).await;
    }
    let hash = passwords::hashed(&app, new.password.clone()).await?;
    let mut conn = app.db.write().await?;
    let joined = add(&app, &mut conn, &link, club, &new, &hash).await;
    match form.take(joined)? {
        Some(Some(id)) => enter(&app, conn, &from, &id, "invitation", "/").await,
        Some(None) => {
            drop(conn);
            joined_before(&app, &token, &from, &form).await
        }
        None => {
            drop(conn);
            pages::show_join(&app, &link, &form).await
        }
    }
}

fn club(form: &mut Form) -> (String, String) {
    let (name, typed) = (form.must_text("club", 80), form.must_text("time_zone", 60));
    let zone = model::time_zone(&typed);
    if zone.is_none() {
        form.refuse("time_zone", t!("accounts-no-such-time-zone"));
    }
    (name, zone.map(|zone| zone.name().to_owned()).unwrap_or_default())
}

/// `None` where the link was used meanwhile, or somebody else set the club up.
async fn add(
    app: &App,
    conn: &mut Conn,
    link: &Link,
    club: Option<(String, String)>,
    new: &NewMember,
    hash: &str,
) -> Result<Option<MemberId>, AppError> {
    if !links::claim(conn, &link.id, app.now()).await? {
        return Ok(None);
    }
    if let Some((name, zone)) = club {
        store::make_club(conn, &name, &zone, app.now()).await?;
        if store::has_members(conn).await? {
            return Ok(None);
        }
        app.name_kinds(conn).await?;
    }
    let id = store::add(conn, new, hash, app.now()).await?;
    links::used_by(conn, &link.id, &id).await?;
    let what = if link.purpose == "set-up" { What::ClubSetUp } else { What::Joined };
    audit::note(conn, Deed::by(what, &id).more(&link.role), app.now()).await?;
    Ok(Some(id))
}

/// The form came a second time: whoever joined by this link and knows the password just comes in.
async fn joined_before(app: &App, token: &str, from: &Sender, form: &Form) -> Result<Response, AppError> {
    let used = links::used(&mut app.db.read().await?, token).await?;
    let typed = form.value("sign_in");
    let Some(used) = used.filter(|u| u.sign_in_key == model::sign_in_key(typed)) else {
        return pages::gone();
    };
    match proof::prove(app, &used.sign_in_key, form.value("password"), &from.1).await? {
        Proof::Member(id) if !has_to_use_passkey(app, &id).await? => {
            enter(app, app.db.write().await?, from, &id, "password", "/").await
        }
        Proof::Member(_) | Proof::Wrong | Proof::Wait(_) => pages::gone(),
    }
}

/// POST /reset/{token}
pub async fn reset(
    State(app): State<App>,
    Path(token): Path<String>,
    asker: Asker,
    headers: HeaderMap,
    mut form: Form,
) -> Result<Response, AppError> {
    let mut conn = app.db.read().await?;
    let link = links::good(&mut conn, &token, app.now()).await?.filter(|l| l.purpose == "reset");
    let club = store::club_name(&mut conn).await?;
    drop(conn);
    let Some(link) = link else { return pages::gone() };
    let (Some(id), Some(name), Some(sign_in)) = (&link.member_id, &link.name, &link.sign_in) else {
        return pages::gone();
    };
    let password = passwords::new(&mut form, "password", &[&club, sign_in, name]);
    if form.failed() {
        return pages::show_reset(&link, &form);
    }
    let hash = passwords::hashed(&app, password).await?;
    let mut conn = app.db.write().await?;
    // the member first and the link after, in the order in which changing a role locks them
    store::set_password(&mut conn, id, &hash).await?;
    if !links::claim(&mut conn, &link.id, app.now()).await? {
        return pages::gone();
    }
    links::used_by(&mut conn, &link.id, id).await?;
    links::end_resets(&mut conn, id, app.now()).await?;
    store::shut_out(&mut conn, id, app.now()).await?;
    // whoever got in before may have left one of their own
    passkeys::remove_all(&mut conn, id).await?;
    app.throttle.forgive(&model::sign_in_key(sign_in));
    audit::note(&mut conn, Deed::by(What::PasswordReset, id), app.now()).await?;
    enter(&app, conn, &(headers, asker), id, "reset link", "/").await
}
