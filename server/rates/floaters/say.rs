//! What the club's own float tallies say, in words.

use super::tally::{Floats, LeftOut};
use crate::web::words::{decimal, percent};
use hilum_calc::floaters::{Finding, Share};
use hilum_calc::units::shown;

/// An odds ratio whose interval stays within this factor of 1 says "about as well".
const CLOSE: f64 = 2.0;

/// What leads the page.
pub fn lead(floats: &Floats) -> String {
    match floats.judged.finding {
        Finding::Foretells => {
            let (times, failed) = (times(floats.judged.times_as_often), &floats.judged.floated_failed);
            format!("{times} {}", all_the_same(failed))
        }
        Finding::Contrary => t!("rates-failed-less").to_owned(),
        Finding::NotShown if is_close(floats) => t!("rates-rooted-as-well").to_owned(),
        Finding::NotShown => t!("rates-floaters-do-not-tell").to_owned(),
        Finding::NoComparison if floats.lots.iter().any(super::tally::Lot::has_both) => {
            t!("rates-all-or-none-rooted").to_owned()
        }
        Finding::NoComparison => t!("rates-no-lot-has-both").to_owned(),
    }
}

/// What throwing floaters out would cost.
fn all_the_same(failed: &Share) -> String {
    match failed.rate {
        Some((p, _)) if p < 1.0 => t!("rates-yet-some-rooted", percent = percent(1.0 - p)),
        _ => t!("rates-no-floater-rooted").to_owned(),
    }
}

/// How much more often floaters failed.
fn times(ratio: Option<f64>) -> String {
    match ratio {
        Some(r) if r.is_infinite() => t!("rates-failed-while-none-sank").to_owned(),
        Some(r) if r >= 1.45 => {
            let places = usize::from(r < 9.5);
            t!("rates-failed-times", times = decimal(&shown(r, places)))
        }
        _ => t!("rates-failed-somewhat-more").to_owned(),
    }
}

fn is_close(floats: &Floats) -> bool {
    floats.judged.common.interval.is_some_and(|i| i.high < CLOSE && i.low > 1.0 / CLOSE)
}

/// `38 % (26 to 51): 19 of 50 seeds`; what is known of the share that rooted.
pub fn share(rooted: &Share) -> String {
    match rooted.rate {
        None => t!("rates-no-seeds-yet").to_owned(),
        Some((p, i)) => t!(
            "rates-share",
            percent = percent(p),
            low = percent(i.low),
            high = percent(i.high),
            x = rooted.x,
            n = rooted.n
        ),
    }
}

/// The odds ratio with its interval; empty where there is none.
pub fn odds(floats: &Floats) -> String {
    let common = &floats.judged.common;
    match (common.odds_ratio, common.interval) {
        (Some(ratio), Some(i)) => {
            let [ratio, low, high] = [ratio, i.low, i.high].map(|x| decimal(&shown(x, 1)));
            t!("rates-odds-ratio", ratio = ratio, low = low, high = high)
        }
        (Some(ratio), None) if ratio.is_infinite() => t!("rates-odds-without-limit").to_owned(),
        (Some(0.0), None) => t!("rates-odds-nought").to_owned(),
        _ => String::new(),
    }
}

/// What to make of trials that gave up early; empty where none did.
pub fn patience(floats: &Floats) -> &'static str {
    match floats.patient {
        None => "",
        Some(finding) if finding == floats.judged.finding => t!("rates-given-up-the-same"),
        Some(Finding::NoComparison) => t!("rates-given-up-everywhere"),
        Some(_) => t!("rates-given-up-otherwise"),
    }
}

/// What is in no figure; empty where nothing is.
pub fn left_out(out: &LeftOut) -> String {
    let parts: Vec<String> = [
        (out.running > 0).then(|| t!("rates-left-out-running", n = out.running)),
        (out.sown > 0).then(|| t!("rates-left-out-sown", n = out.sown)),
        (out.in_doubt > 0).then(|| t!("rates-bags-in-doubt", n = out.in_doubt)),
        (out.abandoned > 0).then(|| t!("rates-bags-abandoned", n = out.abandoned)),
    ]
    .into_iter()
    .flatten()
    .collect();
    if parts.is_empty() { String::new() } else { t!("rates-left-out", what = parts.join(", ")) }
}
