use crate::app::App;
use crate::error::AppError;
use crate::web::chrome::Chrome;
use crate::web::{page, session, static_files};
use crate::{bags, texts, trays, trials};
use askama::Template;
use axum::Json;
use axum::extract::State;
use axum::response::{IntoResponse, Response};
use serde_json::json;

/// More than this a phone does not fetch ahead.
const MOST_BAGS: usize = 200;

/// What is read of the manual at the bench.
const HELP: [&str; 2] = ["/help/looks", "/help/signal"];

/// A page to keep, and what it shows: another stamp later means that it shows something else by then.
type Page = (String, String);

/// GET /offline.json: `{"member": id, "pages": [{"path", "stamp"}]}`, what this member may need without signal.
pub async fn list(State(app): State<App>, chrome: Chrome) -> Result<Response, AppError> {
    let member = &chrome.member.id;
    let mut conn = app.db.read().await?;
    let bags = bags::store::to_do(&mut conn, member).await?;
    let soaking = trials::store::due(&mut conn, member).await?;
    let trays = trays::store::tray::open(&mut conn, member).await?;
    let today = chrome.now.day(chrome.member.zone());
    let mut things: Vec<Page> = Vec::new();
    for trial in &soaking {
        let stamp = format!("{}-{}-{today}", trial.soaking, trial.words());
        let next = trial.address();
        let next = next.split('#').next().unwrap_or_default().to_owned();
        things.extend([format!("/trials/{}", trial.trial_id), next].map(|p| (p, stamp.clone())));
    }
    for bag in bags.iter().take(MOST_BAGS) {
        let stamp = format!("{}-{}-{today}", bag.stamp(), bag.ended);
        let plant = (bag.waiting() > 0).then(|| format!("{}/plant", bag.path()));
        let close = (bag.is_open() && bag.on_paper == 0).then(|| format!("{}/close", bag.path()));
        things.extend([Some(bag.path()), plant, close].into_iter().flatten().map(|p| (p, stamp.clone())));
    }
    for tray in &trays {
        let pages = [format!("/trays/{}", tray.id), format!("/trays/{}/outcomes", tray.id)];
        things.extend(pages.map(|p| (p, format!("{}-{today}", tray.planted))));
    }
    things.sort();
    things.dedup_by(|a, b| a.0 == b.0);
    // lists show a little of everything
    let all = session::hash(&format!("{today} {things:?}"));
    let lists = ["/", "/looks", "/looks?all=yes", "/trays", "/outbox", "/phone"];
    let lists = lists.map(|path| (path.to_owned(), all.clone())).into_iter();
    let help = HELP.map(|path| (path.to_owned(), static_files::build().to_owned())).into_iter();
    let language = texts::spoken().tag();
    let stamped =
        |(path, stamp): Page| json!({ "path": path, "stamp": session::hash(&format!("{stamp} {language}")) });
    let pages: Vec<_> = lists.chain(help).chain(things).map(stamped).collect();
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
