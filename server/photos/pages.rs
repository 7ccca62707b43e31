use super::store;
use crate::app::App;
use crate::db::ids::PhotoId;
use crate::error::AppError;
use crate::web::session::Member;
use axum::extract::{Path, State};
use axum::http::header::{CACHE_CONTROL, CONTENT_TYPE, VARY};
use axum::response::{IntoResponse, Response};

/// GET /photos/{id}
pub async fn large(
    State(app): State<App>,
    member: Member,
    Path(id): Path<PhotoId>,
) -> Result<Response, AppError> {
    serve(&app, &member, &id, false).await
}

/// GET /photos/{id}/small
pub async fn small(
    State(app): State<App>,
    member: Member,
    Path(id): Path<PhotoId>,
) -> Result<Response, AppError> {
    serve(&app, &member, &id, true).await
}

async fn serve(app: &App, member: &Member, id: &PhotoId, small: bool) -> Result<Response, AppError> {
    let bytes = store::bytes(&mut app.db.read().await?, &member.id, id, small).await?;
    // the next member on this phone has another cookie: what is kept is not shown to them
    let headers = [(CONTENT_TYPE, "image/jpeg"), (CACHE_CONTROL, "private, max-age=3600"), (VARY, "cookie")];
    Ok((headers, bytes).into_response())
}
