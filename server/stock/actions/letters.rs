use crate::accounts;
use crate::app::App;
use crate::error::AppError;
use crate::stock::pages::letters::draw;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::once;
use crate::web::said::Said;
use axum::extract::State;
use axum::response::Response;

/// POST /packets/letters
pub async fn take(State(app): State<App>, chrome: Chrome, mut form: Form) -> Result<Response, AppError> {
    let letters = accounts::model::letters(&mut form);
    if form.failed() {
        return draw(&app, &chrome, &form).await;
    }
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "letters", &form).await? {
        return Ok(again);
    }
    let taken = accounts::store::take_letters(&mut conn, &chrome.member.id, &letters, app.now()).await;
    if form.take(taken)?.is_none() {
        drop(conn);
        return draw(&app, &chrome, &form).await;
    }
    let said = Said::new(t!("stock-letters-yours-now", letters = letters));
    let said = said.next("/packets/new", t!("stock-add-a-packet"));
    once::done(conn, &app, &form, "/packets/letters", said).await
}
