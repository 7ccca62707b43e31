//! What a page says of a standing before it shows a number of it.

use super::Kept;
use crate::rates::others::Besides;
use crate::rates::store::Version;
use crate::web::chrome::Chrome;
use crate::web::words;
use hilum_calc::club::Standing;

/// The standing where its numbers may be shown, else why they may not.
pub fn settled(kept: Option<&Kept>) -> Result<&Kept, &'static str> {
    let Some(kept) = kept else {
        return Err(t!("rates-first-comparison"));
    };
    match &kept.standing.model {
        Some(model) if model.status == "ok" => Ok(kept),
        Some(_) => Err(t!("rates-did-not-settle")),
        None if kept.standing.linked.is_empty() => Err(t!("rates-nothing-to-compare")),
        None => Err(t!("rates-cannot-be-worked-out")),
    }
}

/// As of when, and whether anything was recorded since.
pub fn age(kept: &Kept, version: &Version, chrome: &Chrome) -> String {
    as_of(words::moment(kept.made_at, chrome.now, chrome.member.zone()), kept, version, chrome)
}

/// [`age`] for paper, which is read on other days.
pub fn age_on_paper(kept: &Kept, version: &Version, chrome: &Chrome) -> String {
    as_of(words::dated(kept.made_at, chrome.member.zone()), kept, version, chrome)
}

fn as_of(when: String, kept: &Kept, version: &Version, chrome: &Chrome) -> String {
    if kept.is_current(version, chrome.now.day(chrome.member.zone())) {
        return t!("rates-standing-as-of", when = when);
    }
    t!("rates-standing-before", when = when)
}

/// `with 1240 seeds of 2 other clubs`; `None` where nothing of other clubs is in it.
pub fn with_others(standing: &Standing, besides: &Besides) -> Option<String> {
    let has = standing.model.as_ref().is_some_and(|m| m.clubs);
    besides.whole().filter(|_| has).map(|b| b.with_words())
}

/// What differs between trials besides the seed, and is evened out: "grower, routine and warmth".
pub fn adjusted_for(standing: &Standing) -> String {
    let effects = standing.model.iter().flat_map(|m| &m.effects);
    let names: Vec<&str> = effects.map(|e| e.name.as_str()).collect();
    let has = |start: &str| names.iter().any(|name| name.starts_with(start));
    let mut said = vec![t!("rates-adjusted-for-grower")];
    let known = [
        ("routine", t!("rates-adjusted-for-routine")),
        ("warmth_c", t!("rates-adjusted-for-warmth")),
        ("age_years", t!("rates-adjusted-for-age")),
    ];
    said.extend(known.into_iter().filter(|(start, _)| has(start)).map(|(_, words)| words));
    words::and(&said)
}
