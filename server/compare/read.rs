//! What every page of a comparison reads: the kept standing, the table of seeds on paper, the book of bags.

use crate::app::App;
use crate::error::AppError;
use crate::rates::book::Book;
use crate::rates::cache;
use crate::rates::choice::Choice;
use crate::rates::rows::ClubTable;
use crate::rates::standing::{self, Kept};
use crate::web::chrome::Chrome;
use hilum_calc::club::Standing;
use std::sync::Arc;

/// The club as the kept standing and the cached table know it.
pub struct Club {
    kept: Option<Arc<Kept>>,
    /// As of when, and what it is adjusted for; why there is no number where there is none.
    pub note: String,
    /// The same for paper, with the date.
    pub note_on_paper: String,
    /// Rates of seeds on paper.
    pub table: Arc<ClubTable>,
    pub book: Arc<Book>,
    /// Rooted at the close, not by the standard day.
    pub at_close: bool,
}

impl Club {
    /// Reads it for the day or the close, whichever `query` names.
    pub async fn read(app: &App, chrome: &Chrome, query: &[(String, String)]) -> Result<Self, AppError> {
        let at_close = value(query, "at") == "close";
        let zone = chrome.member.zone();
        let read = cache::book(app, zone).await?;
        let choice = Choice { of_paper: true, at_close, ..Choice::default() };
        let table = cache::table(app, &read, &choice, chrome.now.day(zone)).await?;
        let kept = standing::latest(app, at_close).await?;
        let [note, note_on_paper] =
            [standing::age, standing::age_on_paper].map(|age| match standing::settled(kept.as_deref()) {
                Ok(kept) => {
                    let age = age(kept, &read.version, chrome);
                    match standing::with_others(&kept.standing, &table.besides) {
                        None => age,
                        Some(others) => format!("{} {age}", t!("compare-beside-our-own", others = others)),
                    }
                }
                Err(why) => why.to_owned(),
            });
        Ok(Self { kept, note, note_on_paper, table, book: read.book, at_close })
    }

    /// The standing, where its numbers may be shown.
    pub fn standing(&self) -> Option<&Standing> {
        standing::settled(self.kept.as_deref()).ok().map(|kept| &kept.standing)
    }

    /// Whether the model tells lots of one source apart.
    pub fn lots(&self) -> bool {
        self.standing().and_then(|s| s.model.as_ref()).is_some_and(|m| m.lots)
    }

    /// By when a seed must have rooted to count.
    pub fn by_when(&self) -> &'static str {
        if self.at_close { t!("rates-at-the-close") } else { t!("rates-by-the-standard-day") }
    }

    /// The end of an address that counts by the same day: `?at=close`.
    pub fn at(&self) -> &'static str {
        if self.at_close { "?at=close" } else { "" }
    }
}

/// The value of `name` in the address; empty where there is none.
pub fn value<'q>(query: &'q [(String, String)], name: &str) -> &'q str {
    query.iter().find(|(n, _)| n == name).map_or("", |(_, v)| v.as_str())
}
