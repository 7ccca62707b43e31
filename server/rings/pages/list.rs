use crate::app::App;
use crate::error::AppError;
use crate::rings::store::{self, Listed};
use crate::web::chrome::Chrome;
use crate::web::page;
use askama::Template;
use axum::extract::State;
use axum::response::Response;

struct Line {
    id: String,
    name: String,
    words: String,
    state: &'static str,
}

#[derive(Template)]
#[template(path = "rings/list.html")]
struct List<'a> {
    chrome: &'a Chrome,
    lines: Vec<Line>,
}

/// GET /rings: organisers see all; others those they take part in, and what was opened.
pub async fn list(State(app): State<App>, chrome: Chrome) -> Result<Response, AppError> {
    let all = store::rings(&mut app.db.read().await?, &chrome.member.id).await?;
    let organiser = chrome.member.is_organiser();
    let seen = |r: &Listed| {
        organiser || r.opened_at.is_some() || r.ours && r.drawn_at.is_some() && r.given_up_at.is_none()
    };
    let lines = all.into_iter().filter(seen).map(|r| line(r, organiser)).collect();
    page::page(&List { chrome: &chrome, lines })
}

fn line(r: Listed, organiser: bool) -> Line {
    let state = match (r.given_up_at, r.opened_at, r.drawn_at) {
        (Some(_), _, _) => t!("rings-stage-given-up"),
        (_, Some(_), _) => t!("rings-stage-opened"),
        (_, _, Some(_)) => t!("rings-stage-running"),
        _ => t!("rings-stage-planned"),
    };
    let what = if organiser || r.opened_at.is_some() { format!("{}, {}", r.variety, r.kind) } else { r.kind };
    let words = if r.ours {
        t!("rings-listed-yours", what = what, lots = r.lots, growers = r.growers)
    } else {
        t!("rings-listed", what = what, lots = r.lots, growers = r.growers)
    };
    Line { id: r.id.0, name: r.name, words, state }
}
