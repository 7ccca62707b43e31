//! The secret address of a member's calendar: made, and ended.

use crate::accounts::pages::me;
use crate::accounts::store::feeds;
use crate::app::App;
use crate::audit::{self, Deed, What};
use crate::error::AppError;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::once;
use crate::web::said::Said;
use axum::extract::State;
use axum::response::Response;

/// POST /me/calendar: makes a new address, which is shown this once.
pub async fn make(State(app): State<App>, chrome: Chrome, form: Form) -> Result<Response, AppError> {
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "calendar", &form).await? {
        return Ok(again);
    }
    let secret = feeds::make(&mut conn, &chrome.member.id, app.now()).await?;
    audit::note(&mut conn, Deed::by(What::CalendarMade, &chrome.member.id), app.now()).await?;
    once::keep(conn, &form, "/me#calendar").await?;
    me::show_calendar(&chrome, &format!("{}/calendar/{secret}.ics", app.config.base()))
}

/// POST /me/calendar/end
pub async fn end(State(app): State<App>, chrome: Chrome, form: Form) -> Result<Response, AppError> {
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "calendar end", &form).await? {
        return Ok(again);
    }
    feeds::end(&mut conn, &chrome.member.id).await?;
    audit::note(&mut conn, Deed::by(What::CalendarEnded, &chrome.member.id), app.now()).await?;
    let said = Said::new(t!("accounts-address-ended"));
    once::done(conn, &app, &form, "/me", said).await
}
