use crate::app::App;
use crate::db::ids::TrialId;
use crate::error::AppError;
use crate::routines::cautions::{self, Caution};
use crate::routines::model::{degrees, unit};
use crate::trials::model::Trial;
use crate::trials::store::{self, Bag};
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::{page, words};
use askama::Template;
use axum::extract::{Path, State};
use axum::response::Response;

pub const MOST_BAGS: i64 = 12;

#[derive(Template)]
#[template(path = "trials/tally.html")]
struct ShowTally<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    trial: &'a Trial,
    choices: [(&'static str, &'static str); 3],
    recount: bool,
}

/// GET /trials/{id}/tally
pub async fn tally(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<TrialId>,
) -> Result<Response, AppError> {
    draw_tally(&app, &chrome, &id, &now(&chrome)).await
}

fn now(chrome: &Chrome) -> Form {
    Form::new().with("at", words::input_moment(chrome.now, chrome.member.zone()))
}

pub async fn draw_tally(app: &App, chrome: &Chrome, id: &TrialId, form: &Form) -> Result<Response, AppError> {
    let trial = store::trial(&mut app.db.read().await?, &chrome.member.id, id).await?;
    let choices = [
        ("own bag", t!("trials-floaters-to-own-bag")),
        ("thrown out", t!("trials-floaters-to-throw-out")),
        ("kept in", t!("trials-floaters-to-keep-in")),
    ];
    let recount = !form.error("recount").is_empty() || form.ticked("recount");
    let shown = ShowTally { chrome, form, trial: &trial, choices, recount };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

/// The names of one row of bag fields.
pub struct PaperRow {
    pub n: i64,
    pub seeds: String,
    pub floaters: String,
    pub place: String,
    pub warmth: String,
    pub rooted: String,
}

#[derive(Template)]
#[template(path = "trials/paper.html")]
struct ShowPaper<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    trial: &'a Trial,
    rows: Vec<PaperRow>,
    more: bool,
    warmth: String,
    recount: bool,
    cautions: Vec<Caution>,
}

/// How many bags the form has rows for.
pub fn paper_rows(form: &Form) -> i64 {
    form.value("rows").parse().unwrap_or(2).clamp(1, MOST_BAGS)
}

/// GET /trials/{id}/paper
pub async fn paper(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<TrialId>,
) -> Result<Response, AppError> {
    let mut conn = app.db.read().await?;
    let trial = store::trial(&mut conn, &chrome.member.id, &id).await?;
    let bags = store::bags(&mut conn, &id).await?;
    let last = store::last_place(&mut conn, &chrome.member.id).await?;
    drop(conn);
    let warmth = last.warmth_c.map(|c| degrees(c, chrome.member.us())).unwrap_or_default();
    let apart = floaters_apart(&trial, &bags);
    let mut form = now(&chrome).with("rows", 2).with("seeds_1", trial.soaking - apart);
    if apart > 0 {
        form = form.with("seeds_2", apart).with("floaters_2", "yes");
    }
    for n in 1..=2 {
        form = form.with(&format!("place_{n}"), &last.place).with(&format!("warmth_{n}"), &warmth);
    }
    draw_paper(&app, &chrome, &id, &form).await
}

/// Floaters that the tally set apart and that have no bag yet.
fn floaters_apart(trial: &Trial, bags: &[Bag]) -> i64 {
    let waiting = trial.floaters == "own bag" && !bags.iter().any(|b| b.floaters);
    if waiting { trial.floated.unwrap_or(0).min(trial.soaking) } else { 0 }
}

pub async fn draw_paper(app: &App, chrome: &Chrome, id: &TrialId, form: &Form) -> Result<Response, AppError> {
    let trial = store::trial(&mut app.db.read().await?, &chrome.member.id, id).await?;
    let rows = paper_rows(form);
    let mut found = cautions::of_mat();
    let of_seed = cautions::of_seed(&trial.state, &trial.kind).into_iter();
    found.extend(of_seed.filter(|c| *c == Caution::Pepper));
    let shown = ShowPaper {
        chrome,
        form,
        trial: &trial,
        rows: (1..=rows).map(row).collect(),
        more: rows < MOST_BAGS,
        warmth: t!("trials-warmth", unit = unit(chrome.member.us())),
        recount: !form.error("recount").is_empty() || form.ticked("recount"),
        cautions: cautions::said(found),
    };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

fn row(n: i64) -> PaperRow {
    let name = |field: &str| format!("{field}_{n}");
    PaperRow {
        n,
        seeds: name("seeds"),
        floaters: name("floaters"),
        place: name("place"),
        warmth: name("warmth"),
        rooted: name("rooted"),
    }
}

#[derive(Template)]
#[template(path = "trials/seeds.html")]
struct ShowSeeds<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    trial: &'a Trial,
    choices: [(&'static str, &'static str); 4],
}

/// GET /trials/{id}/seeds
pub async fn seeds(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<TrialId>,
) -> Result<Response, AppError> {
    draw_seeds(&app, &chrome, &id, &now(&chrome)).await
}

pub async fn draw_seeds(app: &App, chrome: &Chrome, id: &TrialId, form: &Form) -> Result<Response, AppError> {
    let trial = store::trial(&mut app.db.read().await?, &chrome.member.id, id).await?;
    let choices = [
        ("lost", t!("trials-leave-lost")),
        ("returned", t!("trials-leave-returned")),
        ("sown", t!("trials-leave-sown")),
        ("spoiled", t!("trials-leave-spoiled")),
    ];
    let shown = ShowSeeds { chrome, form, trial: &trial, choices };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}
