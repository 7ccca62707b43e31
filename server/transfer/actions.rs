use super::pages::{draw_ask, draw_preview};
use super::season::Season;
use super::upload::Upload;
use crate::app::App;
use crate::error::AppError;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::said::Said;
use crate::web::{once, words};
use axum::extract::State;
use axum::response::Response;

/// The list: from the file where one came along, else as typed.
fn text(form: &Form) -> String {
    let file = form.value("file");
    if file.trim().is_empty() { form.value("list").to_owned() } else { file.to_owned() }
}

/// POST /packets/import: shows the list as it will be; writes nothing.
pub async fn preview(
    State(app): State<App>,
    chrome: Chrome,
    Upload(mut form): Upload,
) -> Result<Response, AppError> {
    let mut conn = app.db.read().await?;
    let text = text(&form);
    if text.trim().is_empty() && !form.failed() {
        form.refuse("list", "Choose a file, or paste the list here.");
    }
    if form.failed() {
        return draw_ask(&mut conn, &chrome, &form).await;
    }
    let wanted = (form.value("letters"), text.as_str());
    let season = Season::plan(&mut conn, &chrome.member.id, wanted, &form, app.now()).await?;
    draw_preview(&mut conn, &chrome, &form, &text, &season).await
}

/// POST /packets/import/confirm: imports the whole list, once, or nothing.
pub async fn confirm(
    State(app): State<App>,
    chrome: Chrome,
    Upload(form): Upload,
) -> Result<Response, AppError> {
    let text = text(&form);
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "import", &form).await? {
        return Ok(again);
    }
    let wanted = (form.value("letters"), text.as_str());
    let mut season = Season::plan(&mut conn, &chrome.member.id, wanted, &form, app.now()).await?;
    // an answer may lead to a question that was not asked yet
    if season.choices.iter().any(|choice| form.values(&choice.field).is_empty()) {
        return draw_preview(&mut conn, &chrome, &form, &text, &season).await;
    }
    match season.import(&mut conn, &chrome.member.id, form.key(), app.now()).await? {
        Ok(added) => {
            let count = words::counted(added.len() as i64, "packet", "packets");
            once::done(conn, &app, &form, "/packets", Said::new(format!("Brought in: {count}."))).await
        }
        Err(faults) => {
            drop(conn);
            season.list.faults = faults;
            draw_preview(&mut app.db.read().await?, &chrome, &form, &text, &season).await
        }
    }
}
