use super::asked::{self, Asked};
use super::choice::all_answered;
use super::columns::PACKETS;
use super::pages::{draw_ask, draw_preview};
use super::season::Season;
use super::store;
use crate::app::App;
use crate::audit::{self, Deed, What};
use crate::error::AppError;
use crate::web::chrome::Chrome;
use crate::web::forms::{Form, Upload};
use crate::web::once;
use crate::web::said::Said;
use axum::extract::State;
use axum::response::Response;

/// What is kept for this page.
const SORT: &str = "packets";
/// Most packets at a time.
const MOST_PACKETS: usize = 20_000;

/// POST /packets/import: shows the list as it will be; keeps the file, brings nothing in.
pub async fn preview(State(app): State<App>, chrome: Chrome, upload: Upload) -> Result<Response, AppError> {
    let (mut form, file) = asked::received(&app, &chrome, SORT, upload).await?;
    let Some(asked) = open(file, &mut form).await? else {
        return draw_ask(&mut app.db.read().await?, &chrome, &form).await;
    };
    let mut conn = app.db.read().await?;
    let read = (&asked.sheet, &asked.matching);
    let season = Season::plan(&mut conn, &chrome.member.id, read, &form, app.now()).await?;
    draw_preview(&mut conn, &chrome, &form, &asked, &season).await
}

async fn open(file: Option<(String, store::File)>, form: &mut Form) -> Result<Option<Asked>, AppError> {
    match file {
        Some(file) => {
            let asked = asked::opened(file, PACKETS, form).await?;
            Ok(asked.filter(|asked| {
                let few = asked.sheet.lines.len() <= MOST_PACKETS;
                if !few {
                    form.refuse("file", t!("transfer-too-many-packets"));
                }
                few
            }))
        }
        None => {
            if !form.failed() {
                form.refuse("list", t!("transfer-choose-or-paste"));
            }
            Ok(None)
        }
    }
}

/// POST /packets/import/confirm: imports the whole list, once, or nothing.
pub async fn confirm(
    State(app): State<App>,
    chrome: Chrome,
    Upload { mut form, .. }: Upload,
) -> Result<Response, AppError> {
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "import", &form).await? {
        return Ok(again);
    }
    let file = asked::kept(&mut conn, &chrome, SORT, &mut form).await?;
    let Some(asked) = open(file, &mut form).await? else {
        return draw_ask(&mut conn, &chrome, &form).await;
    };
    let read = (&asked.sheet, &asked.matching);
    let mut season = Season::plan(&mut conn, &chrome.member.id, read, &form, app.now()).await?;
    // an answer may lead to a question that was not asked yet
    if !all_answered(&season.choices, &mut form) {
        return draw_preview(&mut conn, &chrome, &form, &asked, &season).await;
    }
    match season.import(&mut conn, &chrome.member.id, form.key(), app.now()).await? {
        Ok(added) => {
            store::done(&mut conn, &chrome.member.id, &asked.upload).await?;
            let deed = Deed::by(What::ListBroughtIn, &chrome.member.id).more(SORT);
            audit::note(&mut conn, deed, app.now()).await?;
            let count = t!("stock-packets", n = added.len());
            once::done(conn, &app, &form, "/packets", Said::new(t!("transfer-brought-in", count = count)))
                .await
        }
        Err(faults) => {
            drop(conn);
            season.list.faults = faults;
            draw_preview(&mut app.db.read().await?, &chrome, &form, &asked, &season).await
        }
    }
}
