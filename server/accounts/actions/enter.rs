//! What happens when somebody has proved who they are and comes in.

use crate::accounts::PASSKEYS;
use crate::accounts::proof::{self, Asker};
use crate::accounts::store::{self, devices, sessions};
use crate::app::App;
use crate::audit::{self, Deed, What};
use crate::db::Conn;
use crate::db::ids::MemberId;
use crate::error::AppError;
use crate::web::session;
use axum::http::header::SET_COOKIE;
use axum::http::{HeaderMap, HeaderValue};
use axum::response::{IntoResponse, Redirect, Response};

/// Where a request comes from: its headers, its address and its browser.
pub type Sender = (HeaderMap, Asker);

/// Opens a session in place of the one that came along, makes the transaction last, and goes on to `next`; an organiser
/// who lacks a passkey that the host asks for goes to add one. `how` is what the member proved themselves with.
pub async fn enter(
    app: &App,
    mut conn: Conn,
    from: &Sender,
    member: &MemberId,
    how: &str,
    next: &str,
) -> Result<Response, AppError> {
    audit::note(&mut conn, Deed::by(What::SignedIn, member).more(how), app.now()).await?;
    let by_passkey = how == "passkey";
    let cookies = change_session(app, &mut conn, from, (member, by_passkey)).await?;
    let lacks = !by_passkey && asked_for_passkey(app, &mut conn, member).await?;
    conn.commit().await?;
    let next = if lacks { PASSKEYS } else { next };
    let mut response = Redirect::to(next).into_response();
    add(&mut response, &cookies)?;
    Ok(response)
}

/// Whether the host lets this member in by a passkey alone.
pub async fn asked_for_passkey(app: &App, conn: &mut Conn, member: &MemberId) -> Result<bool, AppError> {
    Ok(app.config.organisers_by_passkey && store::member(conn, member).await?.role == "organiser")
}

/// A new session in place of the one that came along: its cookies.
pub async fn change_session(
    app: &App,
    conn: &mut Conn,
    (headers, asker): &Sender,
    (member, by_passkey): (&MemberId, bool),
) -> Result<Vec<String>, AppError> {
    if let Some(old) = session::token(app, headers) {
        sessions::close(conn, &old).await?;
    }
    let token = session::open_in(conn, member, (&asker.device, by_passkey), app.now()).await?;
    let known = devices::signed_in(conn, member, asker.known.as_deref(), app.now()).await?;
    let known = known.map(|secret| proof::known_cookie(app, &secret));
    Ok(std::iter::once(session::set_cookie(app, &token)).chain(known).collect())
}

/// Sets cookies.
pub fn add(response: &mut Response, cookies: &[String]) -> Result<(), AppError> {
    for cookie in cookies {
        let value = HeaderValue::from_str(cookie).map_err(anyhow::Error::new)?;
        response.headers_mut().append(SET_COOKIE, value);
    }
    Ok(())
}
