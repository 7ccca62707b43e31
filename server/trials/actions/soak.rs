use super::more_rows;
use crate::app::App;
use crate::db::ids::TrialId;
use crate::error::AppError;
use crate::notebook::Act;
use crate::routines::model::read_warmth;
use crate::trials::model::{FLOATERS, LEAVES, Paper, Tally};
use crate::trials::{pages, store};
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::said::Said;
use crate::web::{once, words};
use axum::extract::{Path, State};
use axum::response::Response;

const MOST_SEEDS: i64 = 100_000;
const MOST_BAGS: i64 = 12;

/// POST /trials/{id}/tally
pub async fn tally(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<TrialId>,
    mut form: Form,
) -> Result<Response, AppError> {
    let at = form.moment("at", chrome.member.zone(), app.now());
    let (sank, floated) =
        (form.must_whole("sank", 0..=MOST_SEEDS), form.must_whole("floated", 0..=MOST_SEEDS));
    let floaters = if form.value("floaters").is_empty() { "" } else { form.one_of("floaters", &FLOATERS) };
    let found = Tally { sank, floated, floaters: floaters.to_owned(), recount: form.ticked("recount") };
    if form.failed() {
        return pages::draw_tally(&app, &chrome, &id, &form).await;
    }
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "float tally", &form).await? {
        return Ok(again);
    }
    let act = Act::new(&chrome.member.id, form.key(), at, app.now());
    let saved = store::tally(&mut conn, &act, &id, &found).await;
    match form.take(saved)? {
        Some(()) => {
            let said = Said::new(t!("trials-tally-saved", sank = sank, floated = floated))
                .undo(form.key())
                .next(format!("/trials/{id}/paper"), t!("trials-put-on-paper"));
            once::done(conn, &app, &form, &format!("/trials/{id}"), said).await
        }
        None => {
            drop(conn);
            pages::draw_tally(&app, &chrome, &id, &form).await
        }
    }
}

/// POST /trials/{id}/paper
pub async fn paper(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<TrialId>,
    mut form: Form,
) -> Result<Response, AppError> {
    let rows = pages::paper_rows(&form);
    if let Some(more) = more_rows(&form, rows, MOST_BAGS) {
        return pages::draw_paper(&app, &chrome, &id, &more).await;
    }
    let at = form.moment("at", chrome.member.zone(), app.now());
    let papers: Vec<Paper> = (1..=rows).filter_map(|n| row(&mut form, n, chrome.member.us())).collect();
    if papers.is_empty() && !form.failed() {
        form.refuse("seeds_1", t!("trials-how-many-go-on-paper"));
    }
    if form.failed() {
        return pages::draw_paper(&app, &chrome, &id, &form).await;
    }
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "on paper", &form).await? {
        return Ok(again);
    }
    let act = Act::new(&chrome.member.id, form.key(), at, app.now());
    let saved = store::put_on_paper(&mut conn, &act, &id, &papers, form.ticked("recount")).await;
    match form.take(saved)? {
        Some(made) => {
            let seeds = words::seeds(papers.iter().map(|p| p.seeds).sum());
            let said = t!("trials-put-so-many-on-paper", seeds = seeds, bags = made.len());
            let said = Said::new(said).undo(form.key());
            once::done(conn, &app, &form, &format!("/trials/{id}"), said).await
        }
        None => {
            drop(conn);
            pages::draw_paper(&app, &chrome, &id, &form).await
        }
    }
}

/// Row `n` of the form; `None` where no seeds are given.
fn row(form: &mut Form, n: i64, us: bool) -> Option<Paper> {
    let name = |field: &str| format!("{field}_{n}");
    let seeds = form.whole(&name("seeds"), 1..=MOST_SEEDS);
    let place = form.text(&name("place"), 80);
    let warmth_c = read_warmth(form, &name("warmth"), us, 60.0);
    let rooted = form.whole(&name("rooted"), 0..=MOST_SEEDS);
    if rooted > Some(seeds.unwrap_or(0)) && form.error(&name("seeds")).is_empty() {
        form.refuse(&name("rooted"), t!("trials-more-rooted-than-seeds"));
    }
    for field in ["seeds", "place", "warmth", "rooted"] {
        form.about(&name(field), &t!("trials-bag-number", n = n));
    }
    Some(Paper { seeds: seeds?, floaters: form.ticked(&name("floaters")), place, warmth_c, rooted })
}

/// `Noted: 2 seeds lost.`
fn left(sort: &str, seeds: &str) -> String {
    match sort {
        "returned" => t!("trials-noted-returned", seeds = seeds),
        "sown" => t!("trials-noted-sown", seeds = seeds),
        "spoiled" => t!("trials-noted-spoiled", seeds = seeds),
        _ => t!("trials-noted-lost", seeds = seeds),
    }
}

/// POST /trials/{id}/seeds
pub async fn seeds(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<TrialId>,
    mut form: Form,
) -> Result<Response, AppError> {
    let at = form.moment("at", chrome.member.zone(), app.now());
    let sort = form.one_of("sort", &LEAVES);
    let n = form.must_whole("seeds", 1..=MOST_SEEDS);
    if form.failed() {
        return pages::draw_seeds(&app, &chrome, &id, &form).await;
    }
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "seeds leave", &form).await? {
        return Ok(again);
    }
    let act = Act::new(&chrome.member.id, form.key(), at, app.now());
    let saved = store::leave(&mut conn, &act, &id, sort, n).await;
    match form.take(saved)? {
        Some(()) => {
            let said = Said::new(left(sort, &words::seeds(n))).undo(form.key());
            once::done(conn, &app, &form, &format!("/trials/{id}"), said).await
        }
        None => {
            drop(conn);
            pages::draw_seeds(&app, &chrome, &id, &form).await
        }
    }
}
