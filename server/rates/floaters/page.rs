use super::say;
use super::tally::{Floats, Lot};
use crate::app::App;
use crate::error::AppError;
use crate::rates::store::{self, FateRow};
use crate::rates::{cache, name};
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::page;
use askama::Template;
use axum::extract::{Query, State};
use axum::response::Response;
use hilum_calc::floaters::Share;
use hilum_calc::proportion::wilson;
use std::cmp::Reverse;

/// Lots shown; all are in the figures.
const MOST: usize = 100;

struct Line {
    variety: String,
    source: String,
    floated: String,
    sank: String,
}

#[derive(Template)]
#[template(path = "rates/floaters.html")]
struct Show<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    kinds: Vec<(String, String)>,
    lead: String,
    floated: String,
    sank: String,
    odds: String,
    patience: &'static str,
    left_out: String,
    trials: usize,
    lots: usize,
    lines: Vec<Line>,
    thrown: String,
    kept_in: String,
}

/// GET /floaters
pub async fn show(
    State(app): State<App>,
    chrome: Chrome,
    Query(query): Query<Vec<(String, String)>>,
) -> Result<Response, AppError> {
    let mut form = Form::from_pairs(query);
    let kind = form.text("kind", 80);
    let book = cache::book(&app, chrome.member.zone()).await?.book;
    let fates = store::fates(&mut app.db.read().await?).await?;
    let floats = Floats::of(&book, &kind);
    let never = |fate: &str| {
        let rows = fates.iter().filter(|f| f.fate == fate && (kind.is_empty() || f.kind_id == kind));
        let (trials, seeds) = rows.fold((0, 0), |sum, f: &FateRow| (sum.0 + f.trials, sum.1 + f.seeds));
        (seeds > 0).then(|| t!("rates-seeds-of-trials", seeds = seeds, trials = trials))
    };
    let shown = Show {
        chrome: &chrome,
        form: &form,
        kinds: book.offers().or_any().kinds,
        lead: say::lead(&floats),
        floated: say::share(&floated_rooted(&floats)),
        sank: say::share(&floats.judged.sank_rooted),
        odds: say::odds(&floats),
        patience: say::patience(&floats),
        left_out: say::left_out(&floats.left_out),
        trials: floats.trials,
        lots: floats.lots.len(),
        lines: lines(&floats.lots),
        thrown: never("thrown out").unwrap_or_default(),
        kept_in: never("kept in").unwrap_or_default(),
    };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

fn floated_rooted(floats: &Floats) -> Share {
    let failed = &floats.judged.floated_failed;
    let (x, n) = (failed.n - failed.x, failed.n);
    let rate = || (x as f64 / n as f64, wilson(x as f64, n as f64, 0.95));
    Share { x, n, rate: (n > 0).then(rate) }
}

/// Those with most floaters first to be shown, then by name.
fn lines(lots: &[Lot]) -> Vec<Line> {
    let mut shown: Vec<(usize, &Lot)> = lots.iter().enumerate().collect();
    shown.sort_by_key(|(i, lot)| (Reverse(lot.counts.floated().min(lot.counts.sank())), *i));
    shown.truncate(MOST);
    shown.sort_by_key(|(i, _)| *i);
    shown.into_iter().map(|(_, lot)| line(lot)).collect()
}

fn line(lot: &Lot) -> Line {
    let c = &lot.counts;
    let of = |n: u64, rooted: u64| match n {
        0 => t!("rates-none-on-paper").to_owned(),
        _ => t!("rates-some-rooted", n = n, rooted = rooted),
    };
    let year = lot.year.map(|y| y.to_string());
    let code = Some(&lot.code).filter(|code| !code.is_empty()).map(|code| t!("rates-lot", code = code));
    let source: Vec<String> = std::iter::once(lot.source.clone()).chain(year).chain(code).collect();
    Line {
        variety: name::read(&lot.variety),
        source: source.join(", "),
        floated: of(c.floated(), c.floated_rooted),
        sank: of(c.sank(), c.sank_rooted),
    }
}
