//! For whatever watches over the program: whether the process answers, and whether members can work.

use crate::app::App;
use crate::db::{Trouble, migrate, schema};
use crate::web::page::AsItIs;
use axum::extract::State;
use axum::http::StatusCode;
use axum::http::header::CONTENT_TYPE;
use axum::response::{IntoResponse, Response};
use std::time::Duration;

/// Whoever watches does not wait for longer.
const PATIENCE: Duration = Duration::from_secs(3);

pub async fn healthz() -> Response {
    plain(StatusCode::OK, "The program answers.\n")
}

pub async fn readyz(State(app): State<App>) -> Response {
    match tokio::time::timeout(PATIENCE, unready(&app)).await {
        Ok(None) => plain(StatusCode::OK, "Ready.\n"),
        Ok(Some(why)) => plain(StatusCode::SERVICE_UNAVAILABLE, why),
        Err(_) => plain(StatusCode::SERVICE_UNAVAILABLE, "Not ready: the database does not answer.\n"),
    }
}

/// Why members cannot work now; nothing of how it is kept, since anybody may ask.
async fn unready(app: &App) -> Option<&'static str> {
    const DAMAGED: &str = "Not ready: the database is damaged. Pages can be read, nothing is saved.\n";
    const AWAY: &str = "Not ready: the database cannot be reached.\n";
    const OTHER: &str = "Not ready: the database is of another version of Hilum.\n";
    if app.db.damaged() {
        return Some(DAMAGED);
    }
    let step = match app.db.read().await {
        Ok(mut conn) => schema::step(&mut conn).await,
        Err(error) => Err(error),
    };
    match step {
        Ok(step) if step == migrate::newest() => None,
        Ok(_) => Some(OTHER),
        Err(error) if Trouble::of(&error) == Some(Trouble::Damaged) => Some(DAMAGED),
        Err(_) => Some(AWAY),
    }
}

fn plain(status: StatusCode, words: &'static str) -> Response {
    let mut response = (status, [(CONTENT_TYPE, "text/plain; charset=utf-8")], words).into_response();
    response.extensions_mut().insert(AsItIs);
    response
}
