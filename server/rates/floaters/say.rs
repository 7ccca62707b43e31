//! What the club's own float tallies say, in words.

use super::tally::{Floats, LeftOut};
use crate::rates::say::number;
use crate::web::words::percent;
use hilum_calc::floaters::{Finding, Share};
use hilum_calc::units::shown;

/// An odds ratio whose interval stays within this factor of 1 says "about as well".
const CLOSE: f64 = 2.0;

/// The one sentence that leads the page.
pub fn lead(floats: &Floats) -> String {
    match floats.judged.finding {
        Finding::Foretells => format!(
            "In this club's seeds, floaters failed {} sunk seeds of the same lot. {}",
            times(floats.judged.times_as_often),
            all_the_same(&floats.judged.floated_failed)
        ),
        Finding::Contrary => {
            "In this club's seeds, floaters failed less often than sunk seeds of the same lot: nothing here \
             supports throwing them out."
                .to_owned()
        }
        Finding::NotShown if is_close(floats) => {
            "Floaters rooted about as well as sunk seeds of the same lot: nothing here supports throwing them out."
                .to_owned()
        }
        Finding::NotShown => {
            "The club's seeds do not tell yet: floaters may have failed more often than sunk seeds, or just as \
             often. Nothing here supports throwing them out."
                .to_owned()
        }
        Finding::NoComparison if floats.lots.iter().any(super::tally::Lot::has_both) => {
            "Nothing to tell apart yet: in every lot that has both, all seeds rooted or none did.".to_owned()
        }
        Finding::NoComparison => {
            "No lot has both yet: put floaters in a bag of their own to find out.".to_owned()
        }
    }
}

/// What throwing floaters out would cost.
fn all_the_same(failed: &Share) -> String {
    match failed.rate {
        Some((p, _)) if p < 1.0 => format!("Yet {} % of the floaters rooted all the same.", percent(1.0 - p)),
        _ => "None of the floaters rooted.".to_owned(),
    }
}

/// `about 3 times as often as`
fn times(ratio: Option<f64>) -> String {
    match ratio {
        Some(r) if r.is_infinite() => "while no seed failed among the".to_owned(),
        Some(r) if r >= 9.5 => format!("about {} times as often as", shown(r, 0)),
        Some(r) if r >= 1.45 => format!("about {} times as often as", shown(r, 1)),
        _ => "somewhat more often than".to_owned(),
    }
}

fn is_close(floats: &Floats) -> bool {
    floats.judged.common.interval.is_some_and(|i| i.high < CLOSE && i.low > 1.0 / CLOSE)
}

/// `38 % (26 to 51): 19 of 50 seeds`; what is known of the share that rooted.
pub fn share(rooted: &Share) -> String {
    match rooted.rate {
        None => "no seeds yet".to_owned(),
        Some((p, i)) => format!(
            "{} % ({} to {}): {} of {}",
            percent(p),
            percent(i.low),
            percent(i.high),
            rooted.x,
            number(rooted.n, "seed")
        ),
    }
}

/// The odds ratio with its interval; empty where there is none.
pub fn odds(floats: &Floats) -> String {
    let common = &floats.judged.common;
    match (common.odds_ratio, common.interval) {
        (Some(ratio), Some(i)) => {
            format!("{} ({} to {})", shown(ratio, 1), shown(i.low, 1), shown(i.high, 1))
        }
        (Some(ratio), None) if ratio.is_infinite() => "without limit: no sunk seed failed".to_owned(),
        (Some(0.0), None) => "0: no floater failed".to_owned(),
        _ => String::new(),
    }
}

/// What to make of trials that gave up early; empty where none did.
pub fn patience(floats: &Floats) -> &'static str {
    match floats.patient {
        None => "",
        Some(finding) if finding == floats.judged.finding => {
            "Some bags were given up before the standard day; without those trials the finding is the same."
        }
        Some(Finding::NoComparison) => {
            "Take care: in every trial that compares, some bag was given up before the standard day, and a floater \
             that is given up early cannot root late."
        }
        Some(_) => {
            "Take care: some bags were given up before the standard day, and without those trials the seeds do not \
             say the same. A floater that is given up early cannot root late."
        }
    }
}

/// What is in no figure; empty where nothing is.
pub fn left_out(out: &LeftOut) -> String {
    let some = |n: u64, noun: &str, what: &str| (n > 0).then(|| format!("{} {what}", number(n, noun)));
    let parts: Vec<String> = [
        some(out.running, "seed", "of trials with a bag that still runs"),
        some(out.sown, "seed", "sown unrooted"),
        some(out.in_doubt as u64, "bag", "in doubt"),
        some(out.abandoned as u64, "bag", "abandoned"),
    ]
    .into_iter()
    .flatten()
    .collect();
    if parts.is_empty() { String::new() } else { format!("Left out: {}.", parts.join(", ")) }
}
