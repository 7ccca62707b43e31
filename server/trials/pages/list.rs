use crate::app::App;
use crate::error::AppError;
use crate::trials::model::Due;
use crate::trials::store::{self, Listed};
use crate::web::chrome::Chrome;
use crate::web::{page, words};
use askama::Template;
use axum::extract::{Query, State};
use axum::response::Response;

const PAGE: i64 = 50;

/// One line as it is read.
pub struct Line {
    pub trial: Listed,
    pub began: String,
    pub state: String,
    pub late: bool,
}

#[derive(Template)]
#[template(path = "trials/list.html")]
struct List<'a> {
    chrome: &'a Chrome,
    running: Vec<Line>,
    past: Vec<Line>,
    earlier: Option<i64>,
    later: Option<i64>,
}

/// GET /trials
pub async fn list(
    State(app): State<App>,
    chrome: Chrome,
    Query(query): Query<Vec<(String, String)>>,
) -> Result<Response, AppError> {
    let asked = query.iter().find(|(name, _)| name == "page").and_then(|(_, v)| v.parse().ok());
    let number: i64 = asked.unwrap_or(1).clamp(1, 10_000);
    let mut conn = app.db.read().await?;
    let due = store::due(&mut conn, &chrome.member.id).await?;
    let running = if number == 1 { store::running(&mut conn, &chrome.member.id).await? } else { Vec::new() };
    let mut past = store::past(&mut conn, &chrome.member.id, PAGE + 1, (number - 1) * PAGE).await?;
    let more = past.len() as i64 > PAGE;
    past.truncate(PAGE as usize);
    page::page(&List {
        chrome: &chrome,
        running: running.into_iter().map(|t| line(&chrome, t, &due)).collect(),
        past: past.into_iter().map(|t| line(&chrome, t, &due)).collect(),
        earlier: more.then_some(number + 1),
        later: (number > 1).then_some(number - 1),
    })
}

fn line(chrome: &Chrome, trial: Listed, due: &[Due]) -> Line {
    let (zone, now) = (chrome.member.zone(), chrome.now);
    let waits = due.iter().find(|d| d.trial_id == trial.id);
    let mut parts = Vec::new();
    if let Some(d) = waits {
        parts.push(soaking(d, chrome));
    }
    if trial.bags > 0 {
        parts.push(t!("trials-open-bags", open = trial.open_bags, bags = trial.bags));
    }
    Line {
        began: words::moment(trial.began_at, now, zone),
        state: parts.join("; "),
        late: waits.is_some_and(|d| d.due_at() < now && d.minutes.unwrap_or(0) > 0),
        trial,
    }
}

fn soaking(d: &Due, chrome: &Chrome) -> String {
    if d.all_done() {
        return t!("trials-next-waits", next = d.words(), n = d.soaking);
    }
    let out = words::moment(d.due_at(), chrome.now, chrome.member.zone());
    t!("trials-next-is-out", next = d.words(), seeds = words::seeds(d.soaking), moment = out)
}
