//! The short addresses in codes on vials and pots.

use super::store;
use crate::app::App;
use crate::error::AppError;
use crate::marks;
use crate::web::chrome::Chrome;
use axum::extract::{Path, State};
use axum::response::{IntoResponse, Redirect, Response};

/// GET /V/{vial}: the trial whose vial was scanned, such as `JB42-1`.
pub async fn vial(
    State(app): State<App>,
    chrome: Chrome,
    Path(vial): Path<String>,
) -> Result<Response, AppError> {
    let (mark, number) = read(&vial)?;
    let trial = store::of_vial(&mut app.db.read().await?, &chrome.member.id, &mark, number).await?;
    Ok(Redirect::to(&format!("/trials/{trial}")).into_response())
}

/// GET /P/{pot}: the planting whose pot was scanned, such as `JB42A-3`, the third planting of that bag.
pub async fn pot(
    State(app): State<App>,
    chrome: Chrome,
    Path(pot): Path<String>,
) -> Result<Response, AppError> {
    let (mark, number) = read(&pot)?;
    let planting = store::of_pot(&mut app.db.read().await?, &chrome.member.id, &mark, number).await?;
    Ok(Redirect::to(&format!("/plantings/{planting}")).into_response())
}

/// The mark, folded, and the number (from 1).
fn read(code: &str) -> Result<(String, i64), AppError> {
    let (mark, number) = code.rsplit_once('-').ok_or(AppError::NotFound)?;
    let number = number.parse().ok().filter(|n| (1..=100_000).contains(n)).ok_or(AppError::NotFound)?;
    Ok((marks::fold(mark), number))
}
