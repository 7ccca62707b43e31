use super::pages::{PAGE, show_data};
use super::{copy, erase as eraser};
use crate::accounts::proof;
use crate::app::App;
use crate::audit::{self, Deed, What};
use crate::error::AppError;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::session;
use axum::extract::State;
use axum::http::header::{CONTENT_DISPOSITION, CONTENT_TYPE, SET_COOKIE};
use axum::response::{IntoResponse, Redirect, Response};

/// POST /me/data/copy.zip
pub async fn save(State(app): State<App>, chrome: Chrome, _form: Form) -> Result<Response, AppError> {
    if let Some(first) = proof::wanted(&app, &chrome, proof::ACCOUNT_MINUTES, PAGE) {
        return Ok(first);
    }
    let bytes = copy::zipped(&app, &chrome.member.id).await?;
    let mut conn = app.db.write().await?;
    audit::note(&mut conn, Deed::by(What::DataSaved, &chrome.member.id), app.now()).await?;
    conn.commit().await?;
    let about =
        [(CONTENT_TYPE, "application/zip"), (CONTENT_DISPOSITION, "attachment; filename=\"my-data.zip\"")];
    Ok((about, bytes).into_response())
}

/// POST /me/data/erase: ends the membership; nothing of it can be asked for again, so the form has no second answer.
pub async fn erase(State(app): State<App>, chrome: Chrome, mut form: Form) -> Result<Response, AppError> {
    if let Some(first) = proof::wanted(&app, &chrome, proof::ACCOUNT_MINUTES, PAGE) {
        return Ok(first);
    }
    if !form.ticked("sure") {
        form.refuse("sure", t!("accounts-tick-if-sure"));
        return show_data(&chrome, &form);
    }
    let mut conn = app.db.write().await?;
    let erased = eraser::erase(&mut conn, &chrome.member.id, app.now()).await;
    if form.take(erased)?.is_none() {
        drop(conn);
        return show_data(&chrome, &form);
    }
    conn.commit().await?;
    Ok(([(SET_COOKIE, session::set_cookie(&app, ""))], Redirect::to("/sign-in?said=erased")).into_response())
}
