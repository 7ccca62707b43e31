//! /bags/{id}/elsewhere: seeds that leave the paper without a look, and ends of rooted seeds.

use super::count::{self, MOST};
use super::model::{Bag, LEAVES, beside, choices};
use super::store;
use crate::app::App;
use crate::db::Conn;
use crate::db::ids::{At, BagId};
use crate::error::AppError;
use crate::notebook::{self, Act, bag};
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::said::Said;
use crate::web::{once, page, words};
use askama::Template;
use axum::extract::{Path, State};
use axum::response::Response;

#[derive(Template)]
#[template(path = "bags/elsewhere.html")]
struct Elsewhere<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    bag: &'a Bag,
    choices: &'a [(&'static str, &'static str)],
    others: &'a [(String, String)],
}

/// GET /bags/{id}/elsewhere
pub async fn show(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<BagId>,
) -> Result<Response, AppError> {
    draw(&app, &chrome, &id, &Form::new()).await
}

async fn draw(app: &App, chrome: &Chrome, id: &BagId, form: &Form) -> Result<Response, AppError> {
    let mut conn = app.db.read().await?;
    let bag = store::bag(&mut conn, &chrome.member.id, id).await?;
    let of_trial = store::of_trial(&mut conn, &chrome.member.id, &bag.trial_id).await?;
    drop(conn);
    let others = of_trial.iter().filter(|b| b.id != *id);
    let mut others: Vec<_> = others.map(|b| (b.id.0.clone(), b.mark.clone())).collect();
    others.insert(0, (String::new(), t!("bags-choose-a-bag").into()));
    let shown = Elsewhere { chrome, form, bag: &bag, choices: &choices(LEAVES), others: &others };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

/// What was typed.
struct Leaving {
    sort: &'static str,
    seeds: i64,
    other: BagId,
}

impl Leaving {
    fn parse(form: &mut Form) -> Self {
        let sort = form.one_of("went", &LEAVES.map(|(sort, _)| sort));
        let seeds = form.must_whole("seeds", 1..=MOST);
        if sort == "moved" && form.value("other").is_empty() {
            form.refuse("other", t!("bags-choose-where-they-went"));
        }
        Self { sort, seeds, other: BagId(form.value("other").to_owned()) }
    }

    fn words(&self) -> &'static str {
        if self.sort == "moved" { t!("bags-moved-over") } else { notebook::words::sort(self.sort) }
    }
}

/// POST /bags/{id}/elsewhere
pub async fn save(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<BagId>,
    mut form: Form,
) -> Result<Response, AppError> {
    let seen = store::bag(&mut app.db.read().await?, &chrome.member.id, &id).await?;
    let at = seen.moment(&mut form, "at", chrome.member.zone(), chrome.now);
    let leaving = Leaving::parse(&mut form);
    if form.failed() {
        return draw(&app, &chrome, &id, &form).await;
    }
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "elsewhere", &form).await? {
        return Ok(again);
    }
    let result = record(&mut conn, &chrome, form.key(), (&id, at), &leaving).await;
    let Some(after) = form.take(result)? else {
        drop(conn);
        return draw(&app, &chrome, &id, &form).await;
    };
    let text =
        t!("bags-seeds-went", mark = seen.mark, seeds = words::seeds(leaving.seeds), went = leaving.words());
    count::done(conn, &app, (&chrome, &form), &after, Said::new(text).undo(form.key())).await
}

async fn record(
    conn: &mut Conn,
    chrome: &Chrome,
    key: &str,
    (id, at): (&BagId, At),
    leaving: &Leaving,
) -> Result<Bag, AppError> {
    let act = Act::new(&chrome.member.id, key, at, chrome.now);
    if leaving.sort == "moved" {
        move_over(conn, &act, id, leaving).await?;
        return store::bag(conn, &chrome.member.id, id).await;
    }
    bag::lock(conn, id).await?;
    let b = store::bag(conn, &chrome.member.id, id).await?;
    if leaving.sort == "lost" {
        b.must_be_open()?;
        on_paper(&b, leaving.seeds)?;
        bag::add_seeds(conn, &act, b.about(), "lost", leaving.seeds, None).await?;
    } else {
        waiting(&b, leaving.seeds)?;
        bag::add_end(conn, &act, b.about(), leaving.sort, leaving.seeds).await?;
    }
    beside(bag::keep(conn, id).await, "at")?;
    store::bag(conn, &chrome.member.id, id).await
}

fn on_paper(bag: &Bag, seeds: i64) -> Result<(), AppError> {
    if seeds <= bag.on_paper {
        return Ok(());
    }
    Err(AppError::refused("seeds", t!("bags-only-on-paper", paper = bag.paper_words())))
}

fn waiting(bag: &Bag, seeds: i64) -> Result<(), AppError> {
    if seeds <= bag.waiting() {
        return Ok(());
    }
    Err(AppError::refused("seeds", t!("bags-only-waiting", n = bag.waiting())))
}

/// Out of one bag and into the other is one act; the bags are locked in the order of their identities.
async fn move_over(conn: &mut Conn, act: &Act<'_>, id: &BagId, leaving: &Leaving) -> Result<(), AppError> {
    let other = &leaving.other;
    if id == other {
        return Err(AppError::refused("other", t!("bags-this-bag-itself")));
    }
    for each in [id.min(other), id.max(other)] {
        match bag::lock(conn, each).await {
            Err(AppError::NotFound) => return Err(not_of_trial()),
            known => known?,
        };
    }
    let from = store::bag(conn, act.member, id).await?;
    let into = store::of_trial(conn, act.member, &from.trial_id).await?.into_iter().find(|b| b.id == *other);
    let into = into.ok_or_else(not_of_trial)?;
    from.must_be_open()?;
    on_paper(&from, leaving.seeds)?;
    bag::add_seeds(conn, act, from.about(), "moved out", leaving.seeds, Some(other)).await?;
    bag::add_seeds(conn, act, into.about(), "moved in", leaving.seeds, Some(id)).await?;
    beside(bag::keep(conn, id).await, "at")?;
    beside(bag::keep(conn, other).await, "at")?;
    Ok(())
}

fn not_of_trial() -> AppError {
    AppError::refused("other", t!("bags-not-open-of-trial"))
}
