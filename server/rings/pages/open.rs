use crate::app::App;
use crate::db::Conn;
use crate::db::ids::RingId;
use crate::error::AppError;
use crate::rings::model::{Part, Ring, Stage};
use crate::rings::store;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::page;
use askama::Template;
use axum::extract::{Path, State};
use axum::response::{IntoResponse, Redirect, Response};

#[derive(Template)]
#[template(path = "rings/open.html")]
struct Open<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    ring: &'a Ring,
    /// Parts that are not closed.
    still: Vec<&'a Part>,
    all: usize,
}

/// GET /rings/{id}/open
pub async fn open(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<RingId>,
) -> Result<Response, AppError> {
    chrome.member.must_organise()?;
    let mut conn = app.db.read().await?;
    let ring = store::ring(&mut conn, &id).await?;
    if ring.stage() != Stage::Running {
        return Ok(Redirect::to(&format!("/rings/{id}")).into_response());
    }
    draw(&mut conn, &chrome, &ring, &Form::new()).await
}

pub async fn draw(conn: &mut Conn, chrome: &Chrome, ring: &Ring, form: &Form) -> Result<Response, AppError> {
    let parts = store::parts(conn, &ring.id).await?;
    let still = parts.iter().filter(|p| !p.is_closed()).collect();
    let shown = Open { chrome, form, ring, still, all: parts.len() };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}
