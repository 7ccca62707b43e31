//! The table's column of adjusted rates.

use super::choice::Choice;
use super::others::{Beside, Besides};
use super::rows::ClubRow;
use super::standing::{self, Kept};
use super::store::Version;
use crate::web::chrome::Chrome;
use crate::web::words::percent;
use hilum_calc::club::{self, Standing};

/// The column, or why there is none.
pub struct Column<'k> {
    standing: Option<&'k Standing>,
    besides: &'k Besides,
    current: bool,
    /// What the column is, or why it is not there.
    pub note: String,
}

/// One place of the column.
pub struct Adjusted {
    /// "86 %", or a dash.
    pub rate: String,
    /// "(78 to 92)", or why there is no rate.
    pub span: String,
    /// "with 120 seeds of 2 other clubs"; empty where there are none.
    pub beside: String,
}

impl<'k> Column<'k> {
    pub fn new(
        kept: Option<&'k Kept>,
        version: &Version,
        chrome: &Chrome,
        (choice, besides): (&Choice, &'k Besides),
    ) -> Self {
        let none = |note: &str| Self { standing: None, besides, current: false, note: note.to_owned() };
        if choice.season.is_some() || !choice.grower.is_empty() || !choice.routine.is_empty() {
            return none(t!("rates-no-adjusted-here"));
        }
        let kept = match standing::settled(kept) {
            Ok(kept) => kept,
            Err(why) => return none(why),
        };
        let (effects, age) = (standing::adjusted_for(&kept.standing), standing::age(kept, version, chrome));
        let note = match standing::with_others(&kept.standing, besides) {
            None => t!("rates-about-adjusted", effects = effects, age = age),
            Some(others) => {
                t!("rates-about-adjusted-with-others", others = others, effects = effects, age = age)
            }
        };
        let current = kept.is_current(version, chrome.now.day(chrome.member.zone()));
        Self { standing: Some(&kept.standing), besides, current, note }
    }

    /// Whether it is of all that was saved.
    pub fn current(&self) -> bool {
        self.current
    }

    pub fn shown(&self) -> bool {
        self.standing.is_some()
    }

    fn found(&self, r: &ClubRow) -> Option<&'k club::Adjusted> {
        self.standing?.adjusted((&r.row.kind, &r.row.variety, &r.row.source))
    }

    pub fn rate(&self, r: &ClubRow) -> Option<f64> {
        self.found(r).map(|a| a.rate)
    }

    fn beside(&self, r: &ClubRow) -> String {
        let beside = self.besides.with((&r.row.kind, &r.row.variety, &r.row.source));
        beside.map_or_else(String::new, Beside::with_words)
    }

    /// What stands in the row; `None` where there is no column.
    pub fn of(&self, r: &ClubRow) -> Option<Adjusted> {
        self.standing?;
        let why = if self.current { t!("rates-too-little-known") } else { t!("rates-not-worked-out-yet") };
        Some(self.found(r).map_or_else(
            || Adjusted { rate: "—".to_owned(), span: why.to_owned(), beside: String::new() },
            |a| Adjusted {
                rate: format!("{} %", percent(a.rate)),
                span: t!("rates-span", low = percent(a.low), high = percent(a.high)),
                beside: self.beside(r),
            },
        ))
    }
}
