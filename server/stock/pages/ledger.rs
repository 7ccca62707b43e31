use crate::app::App;
use crate::db::ids::PacketId;
use crate::error::AppError;
use crate::stock::model::{BY_HAND, Packet};
use crate::stock::store::{self, Other};
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::{page, words};
use askama::Template;
use axum::extract::{Path, State};
use axum::response::Response;

#[derive(Template)]
#[template(path = "stock/seeds.html")]
struct Seeds<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    p: &'a Packet,
    choices: [(&'a str, &'a str); 4],
}

#[derive(Template)]
#[template(path = "stock/give.html")]
struct Give<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    p: &'a Packet,
    members: Vec<(&'a str, &'a str)>,
}

/// GET /packets/{id}/seeds
pub async fn seeds(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<PacketId>,
) -> Result<Response, AppError> {
    let p = store::packet(&mut app.db.read().await?, &chrome.member.id, &id).await?;
    let at = words::input_moment(app.now(), chrome.member.zone());
    let form = Form::new().with("sort", "recount").with("at", at);
    draw_seeds(&chrome, &p, &form)
}

pub fn draw_seeds(chrome: &Chrome, p: &Packet, form: &Form) -> Result<Response, AppError> {
    let shown = Seeds { chrome, form, p, choices: BY_HAND.map(|sort| (sort, by_hand_words(sort))) };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

/// What happened, where a line is written by hand.
fn by_hand_words(sort: &str) -> &'static str {
    match sort {
        "recount" => t!("stock-by-hand-recount"),
        "found" => t!("stock-by-hand-found"),
        "spoiled" => t!("stock-by-hand-spoiled"),
        _ => t!("stock-by-hand-returned"),
    }
}

/// GET /packets/{id}/give
pub async fn give(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<PacketId>,
) -> Result<Response, AppError> {
    let mut conn = app.db.read().await?;
    let p = store::packet(&mut conn, &chrome.member.id, &id).await?;
    let others = store::other_members(&mut conn, &chrome.member.id).await?;
    draw_give(&chrome, &p, &others, &Form::new())
}

pub fn draw_give(chrome: &Chrome, p: &Packet, others: &[Other], form: &Form) -> Result<Response, AppError> {
    let mut members: Vec<(&str, &str)> = vec![("", t!("stock-choose"))];
    members.extend(others.iter().map(|m| (m.id.0.as_str(), m.name.as_str())));
    let shown = Give { chrome, form, p, members };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}
