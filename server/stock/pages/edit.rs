use crate::app::App;
use crate::db::Conn;
use crate::db::ids::PacketId;
use crate::error::AppError;
use crate::marks;
use crate::stock::form as packet_form;
use crate::stock::model::{Packet, SORTS, STATES, sort_words, state_words};
use crate::stock::spelling::Question;
use crate::stock::{published, store};
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::{page, words};
use askama::Template;
use axum::extract::{Path, Query, State};
use axum::response::Response;

/// What the fields of a packet offer: names in use, states, the member's letters, the parent of own seed.
pub struct Offers {
    kinds: Vec<String>,
    varieties: Vec<String>,
    sources: Vec<String>,
    states: Vec<(&'static str, &'static str)>,
    sorts: [(&'static str, &'static str); 3],
    letters: Vec<(String, String)>,
    parent: Option<Packet>,
    /// `pepper 165, tomato 405`
    per_gram: String,
}

fn pollination() -> [(&'static str, &'static str); 2] {
    [("open", t!("stock-open-pollinated")), ("isolated", t!("stock-isolated"))]
}

#[derive(Template)]
#[template(path = "stock/packet_new.html")]
struct New<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    offers: &'a Offers,
    questions: &'a [Question],
    pollination: [(&'a str, &'a str); 2],
}

#[derive(Template)]
#[template(path = "stock/packet_edit.html")]
struct Edit<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    offers: &'a Offers,
    p: &'a Packet,
    questions: &'a [Question],
    pollination: [(&'a str, &'a str); 2],
}

pub async fn offers(conn: &mut Conn, chrome: &Chrome, parent: &str) -> Result<Offers, AppError> {
    let letters = marks::letters(conn, &chrome.member.id).await?;
    let kinds: Vec<String> = store::kinds(conn).await?.into_iter().map(|k| k.name).collect();
    let mut varieties: Vec<String> = store::varieties(conn).await?.into_iter().map(|v| v.name).collect();
    varieties.dedup();
    let sources = store::sources(conn).await?.into_iter().map(|s| s.name).collect();
    let parent = match parent {
        "" => None,
        id => Some(store::packet(conn, &chrome.member.id, &PacketId(id.to_owned())).await?),
    };
    if parent.as_ref().is_some_and(|p| p.blind) {
        return Err(AppError::refused("parent", t!("stock-parent-in-ring-trial")));
    }
    Ok(Offers {
        per_gram: per_gram(&kinds),
        kinds,
        varieties,
        sources,
        states: STATES.map(|s| (s, state_words(s))).to_vec(),
        sorts: [SORTS[0], SORTS[1], SORTS[2]].map(|s| (s, sort_words(s))),
        letters: letters.into_iter().map(|l| (l.shown.clone(), l.shown)).collect(),
        parent,
    })
}

fn per_gram(kinds: &[String]) -> String {
    let known = kinds.iter().filter_map(|k| Some((k, published::seeds_per_gram(k)?)));
    let said = known.map(|(kind, n)| format!("{kind} {}", words::decimal(&n.to_string())));
    said.collect::<Vec<_>>().join(", ")
}

/// GET /packets/new?parent=
pub async fn new(
    State(app): State<App>,
    chrome: Chrome,
    Query(query): Query<Vec<(String, String)>>,
) -> Result<Response, AppError> {
    let parent = query.into_iter().find(|(n, _)| n == "parent").map(|(_, v)| v).unwrap_or_default();
    let offers = offers(&mut app.db.read().await?, &chrome, &parent).await?;
    let mut form = Form::new().with("state", STATES[0]).with("sort", "merchant");
    if let Some(p) = &offers.parent {
        form = form.with("parent", &p.id).with("kind", &p.kind).with("variety", &p.variety);
        form = form.with("species", &p.species).with("pollination", "open");
    }
    draw_new(&chrome, &offers, &form, &[])
}

pub fn draw_new(
    chrome: &Chrome,
    offers: &Offers,
    form: &Form,
    questions: &[Question],
) -> Result<Response, AppError> {
    let shown = New { chrome, form, offers, questions, pollination: pollination() };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

/// GET /packets/{id}/edit
pub async fn edit(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<PacketId>,
) -> Result<Response, AppError> {
    let mut conn = app.db.read().await?;
    let p = store::packet(&mut conn, &chrome.member.id, &id).await?;
    let offers = offers(&mut conn, &chrome, "").await?;
    draw_edit(&chrome, &offers, &p, (&packet_form::to_edit(&p), &[]))
}

pub fn draw_edit(
    chrome: &Chrome,
    offers: &Offers,
    p: &Packet,
    (form, questions): (&Form, &[Question]),
) -> Result<Response, AppError> {
    let shown = Edit { chrome, form, offers, p, questions, pollination: pollination() };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}
