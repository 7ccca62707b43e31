use crate::app::App;
use crate::compare::read::Club;
use crate::error::AppError;
use crate::planning::read::Season;
use crate::planning::shopping::{Want, list};
use crate::web::chrome::Chrome;
use crate::web::page;
use askama::Template;
use axum::extract::{Query, State};
use axum::response::Response;

#[derive(Template)]
#[template(path = "planning/shopping.html")]
struct Show<'a> {
    chrome: &'a Chrome,
    season: &'a Season,
    club: &'a Club,
    wants: Vec<Want>,
}

/// GET /plan/shopping?plan=
pub async fn show(
    State(app): State<App>,
    chrome: Chrome,
    Query(query): Query<Vec<(String, String)>>,
) -> Result<Response, AppError> {
    let Some(season) = Season::read(&app, &chrome, &query).await? else {
        return super::season::first(&app, &chrome).await;
    };
    let club = Club::read(&app, &chrome, &[]).await?;
    let wants = list(&season, &club);
    page::page(&Show { chrome: &chrome, season: &season, club: &club, wants })
}
