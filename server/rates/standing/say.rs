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
        return Err("The sources are being compared for the first time. Open this page again in a minute.");
    };
    match &kept.standing.model {
        Some(model) if model.status == "ok" => Ok(kept),
        Some(_) => Err("The comparison did not settle: from the counts so far nobody can tell how sure its \
            numbers would be, so none is shown. The raw rates stand. More trials will help."),
        None if kept.standing.linked.is_empty() => {
            Err("No bag has come to its standard day yet, so there is nothing to compare.")
        }
        None => Err("The comparison cannot be worked out from these counts, so no number of it is shown. \
            The raw rates stand."),
    }
}

/// As of when, and whether anything was recorded since.
pub fn age(kept: &Kept, version: &Version, chrome: &Chrome) -> String {
    let zone = chrome.member.zone();
    let when = words::moment(kept.made_at, chrome.now, zone);
    if kept.is_current(version, chrome.now.day(zone)) {
        return format!("As of {when}, with every count in it.");
    }
    format!("As of {when}. Counts since then are not in it yet; it is worked out again within minutes.")
}

/// `, with 1240 seeds of 2 other clubs,`; empty where nothing of other clubs is in it.
pub fn with_others(standing: &Standing, besides: &Besides) -> String {
    let has = standing.model.as_ref().is_some_and(|m| m.clubs);
    besides.whole().filter(|_| has).map_or_else(String::new, |b| format!(", with {},", b.words()))
}

/// What differs between trials besides the seed, and is evened out: "grower, routine and warmth".
pub fn adjusted_for(standing: &Standing) -> String {
    let effects = standing.model.iter().flat_map(|m| &m.effects);
    let names: Vec<&str> = effects.map(|e| e.name.as_str()).collect();
    let has = |start: &str| names.iter().any(|name| name.starts_with(start));
    let mut said = vec!["grower"];
    let known = [("routine", "routine"), ("warmth_c", "warmth"), ("age_years", "age of the seed")];
    said.extend(known.into_iter().filter(|(start, _)| has(start)).map(|(_, words)| words));
    words::and(&said)
}
