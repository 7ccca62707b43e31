//! Members, their letters, and how they come in.

pub mod actions;
pub mod model;
pub mod pages;
pub mod passkeys;
pub mod passwords;
pub mod proof;
pub mod store;
pub mod throttle;

use crate::app::App;
use crate::error::AppError;
use axum::Router;
use axum::routing::{get, post};
use store::links;

/// Where passkeys are added.
pub const PASSKEYS: &str = "/me/passkeys";

pub fn routes() -> Router<App> {
    Router::new()
        .route("/sign-in", get(pages::outside::sign_in).post(actions::outside::sign_in))
        .route("/sign-in/passkey", post(actions::passkeys::sign_in))
        .route("/sign-in/passkey/ask", post(actions::passkeys::ask_any))
        .route("/sign-out", post(actions::outside::sign_out))
        .route("/join/{token}", get(pages::outside::join).post(actions::outside::join))
        .route("/reset/{token}", get(pages::outside::reset).post(actions::outside::reset))
        .route("/members", get(pages::members::list))
        .route("/members/invite", post(actions::members::invite))
        .route("/members/links/{id}/withdraw", post(actions::members::withdraw))
        .route("/members/record", get(pages::audit::show))
        .route("/members/{id}/sessions", post(actions::sessions::of_member))
        .route("/members/{id}", get(pages::members::show))
        .route("/members/{id}/reset", post(actions::members::reset))
        .route("/members/{id}/role", post(actions::members::role))
        .route("/members/{id}/leave", post(actions::members::leave))
        .route("/me", get(pages::me::show).post(actions::me::settings))
        .route("/me/letters", post(actions::me::letters))
        .route("/me/password", post(actions::me::password))
        .route("/me/calendar", post(actions::calendar::make))
        .route("/me/calendar/end", post(actions::calendar::end))
        .route("/me/tokens", get(pages::tokens::show).post(actions::tokens::make))
        .route("/me/tokens/{id}/end", post(actions::tokens::end))
        .route("/me/passkeys", get(pages::passkeys::show).post(actions::passkeys::add))
        .route("/me/passkeys/ask", post(actions::passkeys::ask_new))
        .route("/me/passkeys/{id}/remove", post(actions::passkeys::remove))
        .route("/me/sessions", post(actions::sessions::elsewhere))
        .route("/me/sessions/{id}/end", post(actions::sessions::end))
        .route("/me/proof", get(pages::proof::show).post(actions::proof::prove))
}

pub fn all_sql() -> Vec<&'static str> {
    [
        store::ALL,
        links::ALL,
        store::sessions::ALL,
        store::devices::ALL,
        store::feeds::ALL,
        store::tokens::ALL,
        store::passkeys::ALL,
    ]
    .concat()
}

/// Where to sign in, coming back to `next` afterwards; `sent` where something was sent and not taken.
pub fn sign_in_path(next: &str, sent: bool) -> String {
    let next = Some(("next", next)).filter(|(_, next)| *next != "/");
    let asked: Vec<(&str, &str)> = next.into_iter().chain(sent.then_some(("said", "out"))).collect();
    match serde_html_form::to_string(&asked) {
        Ok(query) if !query.is_empty() => format!("/sign-in?{query}"),
        _ => "/sign-in".to_owned(),
    }
}

/// The address of a new set-up link while nobody has an account; else `None`.
pub async fn set_up_link(app: &App) -> Result<Option<String>, AppError> {
    let mut conn = app.db.write().await?;
    if store::has_members(&mut conn).await? {
        return Ok(None);
    }
    let new = links::NewLink { purpose: "set-up", role: "organiser", member: None, by: None, days: 7 };
    let token = links::make(&mut conn, &new, app.now()).await?;
    conn.commit().await?;
    Ok(Some(format!("{}/join/{token}", app.config.base())))
}
