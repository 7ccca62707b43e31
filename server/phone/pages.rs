use crate::app::App;
use crate::error::AppError;
use crate::web::chrome::Chrome;
use crate::web::page;
use crate::{bags, trays, trials};
use askama::Template;
use axum::Json;
use axum::extract::State;
use axum::response::{IntoResponse, Response};
use serde_json::json;

/// More than this a phone does not fetch ahead.
const MOST_BAGS: usize = 80;

/// GET /offline.json: `{"member": id, "pages": [path]}`, the pages this member may need without signal.
pub async fn list(State(app): State<App>, chrome: Chrome) -> Result<Response, AppError> {
    let member = &chrome.member.id;
    let mut conn = app.db.read().await?;
    let bags = bags::store::to_do(&mut conn, member).await?;
    let soaking = trials::store::due(&mut conn, member).await?;
    let trays = trays::store::tray::open(&mut conn, member).await?;
    let mut pages: Vec<String> =
        ["/", "/looks", "/looks?all=yes", "/trays", "/outbox", "/phone"].map(str::to_owned).to_vec();
    for trial in &soaking {
        pages.extend([format!("/trials/{}", trial.trial_id), trial.address()]);
    }
    for bag in bags.iter().take(MOST_BAGS) {
        pages.push(bag.path());
        pages.extend((bag.waiting() > 0).then(|| format!("{}/plant", bag.path())));
        pages.extend((bag.is_open() && bag.on_paper == 0).then(|| format!("{}/close", bag.path())));
    }
    for tray in &trays {
        pages.extend([format!("/trays/{}", tray.id), format!("/trays/{}/outcomes", tray.id)]);
    }
    let mut once = std::collections::BTreeSet::new();
    pages.retain(|path| once.insert(path.clone()));
    Ok(Json(json!({ "member": member.0, "pages": pages })).into_response())
}

#[derive(Template)]
#[template(path = "phone/outbox.html")]
struct Outbox<'a> {
    chrome: &'a Chrome,
}

/// GET /outbox: what waits on this phone; the phone itself fills it in.
pub async fn outbox(chrome: Chrome) -> Result<Response, AppError> {
    page::page(&Outbox { chrome: &chrome })
}

#[derive(Template)]
#[template(path = "phone/phone.html")]
struct Phone<'a> {
    chrome: &'a Chrome,
}

/// GET /phone: whether this phone can keep counts without signal, in four lines.
pub async fn phone(chrome: Chrome) -> Result<Response, AppError> {
    page::page(&Phone { chrome: &chrome })
}
