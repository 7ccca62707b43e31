use crate::app::App;
use crate::error::AppError;
use crate::stock::pages::kinds::draw;
use crate::stock::{names, store};
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::once;
use crate::web::said::Said;
use axum::extract::State;
use axum::response::Response;

/// POST /kinds
pub async fn add(State(app): State<App>, chrome: Chrome, mut form: Form) -> Result<Response, AppError> {
    let name = form.must_text("name", 80);
    if names::key(&name).is_empty() {
        form.refuse("name", t!("stock-name-with-letters"));
    }
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
