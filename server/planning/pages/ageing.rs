use crate::app::App;
use crate::error::AppError;
use crate::planning::ageing::{Ageing, Own, lines, lists, own_words, packets};
use crate::rates::cache;
use crate::stock::store as stock;
use crate::web::chrome::Chrome;
use crate::web::page;
use askama::Template;
use axum::extract::State;
use axum::response::Response;
use std::collections::BTreeMap;

#[derive(Template)]
#[template(path = "planning/ageing.html")]
struct Show<'a> {
    chrome: &'a Chrome,
    /// What the club's own trials say of each kind that the member has.
    own: Vec<String>,
    packets: Vec<Ageing<'a>>,
    retest: usize,
    /// The published lists, in full.
    lists: Vec<String>,
}

impl Show<'_> {
    fn is_past(&self, a: &Ageing) -> bool {
        a.years_left.is_some_and(|years| years < 0.0)
    }

    /// Whether a packet is past its best and yet needs no test.
    fn waits(&self) -> bool {
        self.packets.iter().any(|a| !a.waits.is_empty())
    }

    fn age(&self, a: &Ageing) -> String {
        a.age.map_or_else(|| t!("planning-not-known").to_owned(), |n| t!("ageing-years", n = n))
    }

    /// What is left, at the beginning of a sentence.
    fn left(&self, a: &Ageing) -> String {
        let left = a.packet.left_and_promised();
        let mut chars = left.chars();
        chars.next().map_or_else(String::new, |first| first.to_uppercase().chain(chars).collect())
    }
}

/// GET /packets/ageing
pub async fn show(State(app): State<App>, chrome: Chrome) -> Result<Response, AppError> {
    let zone = chrome.member.zone();
    let all = stock::packets(&mut app.db.read().await?, &chrome.member.id).await?;
    let book = cache::book(&app, zone).await?.book;
    let fitted = book.clone();
    let own: BTreeMap<String, Own> = tokio::task::spawn_blocking(move || lines(&fitted))
        .await
        .map_err(|e| AppError::Internal(e.into()))?;
    let found = packets(&book, &own, &all, chrome.now.day(zone));
    let mut kinds: Vec<&str> = found.iter().map(|a| a.packet.kind.as_str()).collect();
    kinds.sort_unstable();
    kinds.dedup();
    let none = Own::Few { bags: 0, ages: 0 };
    page::page(&Show {
        own: kinds.iter().map(|kind| own_words(kind, own.get(*kind).unwrap_or(&none))).collect(),
        retest: found.iter().filter(|a| !a.retest.is_empty()).count(),
        lists: lists(&found).into_iter().collect(),
        packets: found,
        chrome: &chrome,
    })
}
