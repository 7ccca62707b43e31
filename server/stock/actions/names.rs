use crate::app::App;
use crate::db::ids::MergeId;
use crate::error::AppError;
use crate::stock::pages::names::{Which, draw};
use crate::stock::store;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::once;
use crate::web::said::Said;
use axum::extract::{Path, State};
use axum::response::Response;

/// POST /varieties/{id}/merge
pub async fn merge_variety(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<String>,
    form: Form,
) -> Result<Response, AppError> {
    merge(&app, &chrome, Which::Varieties, &id, form).await
}

/// POST /sources/{id}/merge
pub async fn merge_source(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<String>,
    form: Form,
) -> Result<Response, AppError> {
    merge(&app, &chrome, Which::Sources, &id, form).await
}

/// POST /varieties/{id}/unmerge
pub async fn unmerge_variety(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<String>,
    form: Form,
) -> Result<Response, AppError> {
    unmerge(&app, &chrome, Which::Varieties, &id, form).await
}

/// POST /sources/{id}/unmerge
pub async fn unmerge_source(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<String>,
    form: Form,
) -> Result<Response, AppError> {
    unmerge(&app, &chrome, Which::Sources, &id, form).await
}

async fn merge(
    app: &App,
    chrome: &Chrome,
    which: Which,
    id: &str,
    mut form: Form,
) -> Result<Response, AppError> {
    chrome.member.must_organise()?;
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, app, &chrome.member, "merge", &form).await? {
        return Ok(again);
    }
    let into = form.value("into").to_owned();
    let merged = store::merge(&mut conn, which.about(), (id, &into), &chrome.member.id, app.now()).await;
    if form.take(merged)?.is_none() {
        return draw(&mut conn, chrome, which, id, &form).await;
    }
    let (one, other) = (which.one(&mut conn, id).await?, which.one(&mut conn, &into).await?);
    let said = Said::new(t!("stock-counts-under-now", name = one.name, other = other.name));
    once::done(conn, app, &form, &format!("{}/{id}", which.root()), said).await
}

async fn unmerge(
    app: &App,
    chrome: &Chrome,
    which: Which,
    id: &str,
    form: Form,
) -> Result<Response, AppError> {
    chrome.member.must_organise()?;
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, app, &chrome.member, "unmerge", &form).await? {
        return Ok(again);
    }
    let merge = MergeId(form.value("merge").to_owned());
    store::unmerge(&mut conn, which.about(), (id, &merge), &chrome.member.id, app.now()).await?;
    let name = which.one(&mut conn, id).await?.name;
    let said = Said::new(t!("stock-counts-by-itself", name = name));
    once::done(conn, app, &form, &format!("{}/{id}", which.root()), said).await
}
