//! The member's cards, and the making of new ones.

use super::model::{Card, Line, ROWS};
use super::store;
use crate::app::App;
use crate::bags::model::Bag;
use crate::bags::store as bags;
use crate::error::AppError;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::said::Said;
use crate::web::{once, page, words};
use askama::Template;
use axum::extract::State;
use axum::response::Response;
use std::collections::BTreeMap;

/// A card as listed.
struct Shown {
    card: Card,
    words: String,
}

#[derive(Template)]
#[template(path = "cards/list.html")]
struct List<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    cards: Vec<Shown>,
    open: usize,
    holders: Vec<(String, String)>,
    places: Vec<(String, String)>,
}

/// GET /cards
pub async fn list(State(app): State<App>, chrome: Chrome) -> Result<Response, AppError> {
    draw(&app, &chrome, &Form::new()).await
}

async fn draw(app: &App, chrome: &Chrome, form: &Form) -> Result<Response, AppError> {
    let mut conn = app.db.read().await?;
    let member = &chrome.member.id;
    let open = on_paper(bags::open(&mut conn, member).await?);
    let mut cards = Vec::new();
    for card in store::open(&mut conn, member).await? {
        let lines = store::lines(&mut conn, member, &card.id).await?;
        cards.push(Shown { words: says(&card, &lines, chrome), card });
    }
    drop(conn);
    let shown =
        List { chrome, form, cards, open: open.len(), holders: holders(&open), places: places(&open) };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

/// `16 bags, JB 1 a to JB 9 b, made on 2 Mar`
fn says(card: &Card, lines: &[Line], chrome: &Chrome) -> String {
    let zone = chrome.member.zone();
    let day = words::day(card.made_at.day(zone), chrome.now.day(zone));
    match lines {
        [] => t!("cards-no-bags", day = day),
        [only] => t!("cards-one-bag", bag = only.mark, day = day),
        [first, .., last] => {
            t!("cards-so-many-bags", n = lines.len(), first = first.mark, last = last.mark, day = day)
        }
    }
}

fn on_paper(mut open: Vec<Bag>) -> Vec<Bag> {
    open.retain(|b| b.on_paper > 0);
    open
}

fn holders(open: &[Bag]) -> Vec<(String, String)> {
    let of = |b: &Bag| Some((b.holder.clone()?, b.holder_id.as_ref()?.0.clone()));
    let found: BTreeMap<String, String> = open.iter().filter_map(of).collect();
    let any = (String::new(), t!("cards-any-holder").to_owned());
    std::iter::once(any).chain(found.into_iter().map(|(mark, id)| (id, mark))).collect()
}

fn places(open: &[Bag]) -> Vec<(String, String)> {
    let mut found: Vec<&str> = open.iter().map(|b| b.place.as_str()).filter(|p| !p.is_empty()).collect();
    found.sort_unstable();
    found.dedup();
    let any = (String::new(), t!("cards-any-place").to_owned());
    std::iter::once(any).chain(found.into_iter().map(|p| (p.to_owned(), p.to_owned()))).collect()
}

/// POST /cards: makes as many cards as the chosen bags need, and shows them as they print.
pub async fn make(State(app): State<App>, chrome: Chrome, mut form: Form) -> Result<Response, AppError> {
    let mut conn = app.db.write().await?;
    if let Some(before) = once::claim(&mut conn, &app, &chrome.member, "cards", &form).await? {
        return Ok(before);
    }
    let (holder, place) = (form.value("holder").to_owned(), form.value("place").to_owned());
    let mut chosen = on_paper(bags::open(&mut conn, &chrome.member.id).await?);
    chosen.retain(|b| {
        (holder.is_empty() || b.holder_id.as_ref().is_some_and(|h| h.0 == holder))
            && (place.is_empty() || b.place == place)
    });
    if chosen.is_empty() {
        drop(conn);
        form.refuse("place", t!("cards-no-such-bag"));
        return draw(&app, &chrome, &form).await;
    }
    let mut asked = Vec::new();
    for page in chosen.chunks(ROWS) {
        let ids: Vec<_> = page.iter().map(|b| &b.id).collect();
        let card = store::add(&mut conn, &chrome.member.id, &ids, chrome.now).await?;
        asked.push(format!("card={card}"));
    }
    let said = Said::new(t!("cards-made", cards = asked.len(), bags = chosen.len()));
    once::done(conn, &app, &form, &format!("/cards/print?{}", asked.join("&")), said).await
}
