//! Members, their letters, and how they come in.

pub mod actions;
pub mod model;
pub mod pages;
pub mod store;

use crate::app::App;
use crate::error::AppError;
use axum::Router;
use axum::routing::{get, post};

pub fn routes() -> Router<App> {
    Router::new()
        .route("/sign-in", get(pages::sign_in).post(actions::sign_in))
        .route("/sign-out", post(actions::sign_out))
        .route("/join/{token}", get(pages::join).post(actions::join))
}

/// Where to sign in, coming back to `next` afterwards.
pub fn sign_in_path(next: &str) -> String {
    if next == "/" {
        return "/sign-in".to_owned();
    }
    serde_html_form::to_string([("next", next)])
        .map_or_else(|_| "/sign-in".to_owned(), |q| format!("/sign-in?{q}"))
}

/// The address of a new set-up link while nobody has an account; else `None`.
pub async fn set_up_link(app: &App) -> Result<Option<String>, AppError> {
    let mut conn = app.db.write().await?;
    if store::has_members(&mut conn).await? {
        return Ok(None);
    }
    let new = store::NewLink { purpose: "set-up", role: "organiser", member: None, by: None, days: 7 };
    let token = store::make_link(&mut conn, &new, app.now()).await?;
    conn.commit().await?;
    Ok(Some(format!("{}/join/{token}", app.config.base())))
}
