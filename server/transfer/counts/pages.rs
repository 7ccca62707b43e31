//! /counts/import: ask for the list, show how it is understood, bring it in.

use super::super::asked::{self, Asked};
use super::super::choice::all_answered;
use super::super::columns::COUNTS;
use super::super::dates::Order;
use super::super::pages::{letters, said};
use super::super::store;
use super::{Counts, PastTrial};
use crate::app::App;
use crate::audit::{self, Deed, What};
use crate::db::Conn;
use crate::error::AppError;
use crate::routines;
use crate::web::chrome::Chrome;
use crate::web::forms::{Form, Upload};
use crate::web::said::Said;
use crate::web::{once, page, words};
use askama::Template;
use axum::extract::State;
use axum::response::Response;

/// What is kept for this page.
const SORT: &str = "counts";
/// So many looks and bags are shown.
const SHOWN: usize = 50;

#[derive(Template)]
#[template(path = "transfer/counts.html")]
struct Ask<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    letters: Vec<(String, String)>,
}

/// A look as it will be.
struct LookLine {
    line: u64,
    mark: String,
    when: String,
    found: String,
}

/// A bag of the past as it will be.
struct BagLine {
    line: u64,
    name: String,
    variety: String,
    source: String,
    seeds: i64,
    paper: String,
    routine: String,
    found: String,
}

#[derive(Template)]
#[template(path = "transfer/counts_preview.html")]
struct Preview<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    asked: &'a Asked,
    letters: Vec<(String, String)>,
    counts: &'a Counts,
    orders: [(&'a str, &'a str); 3],
    faults: Vec<String>,
    more: usize,
    looks: Vec<LookLine>,
    bags: Vec<BagLine>,
    count: String,
    /// How days were read, and what comes of it.
    days: &'static str,
}

/// GET /counts/import
pub async fn ask(State(app): State<App>, chrome: Chrome) -> Result<Response, AppError> {
    draw_ask(&mut app.db.read().await?, &chrome, &Form::new()).await
}

async fn draw_ask(conn: &mut Conn, chrome: &Chrome, form: &Form) -> Result<Response, AppError> {
    let shown = Ask { chrome, form, letters: letters(conn, chrome).await? };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

async fn open(file: Option<(String, store::File)>, form: &mut Form) -> Result<Option<Asked>, AppError> {
    match file {
        Some(file) => asked::opened(file, COUNTS, form).await,
        None => {
            if !form.failed() {
                form.refuse("list", t!("transfer-choose-or-paste"));
            }
            Ok(None)
        }
    }
}

/// Days with the month first are common where measures are those of the United States.
fn usual(chrome: &Chrome) -> Order {
    if chrome.member.measures == "us" { Order::MonthFirst } else { Order::DayFirst }
}

/// POST /counts/import: shows the counts as they will be; keeps the file, brings nothing in.
pub async fn preview(State(app): State<App>, chrome: Chrome, upload: Upload) -> Result<Response, AppError> {
    let (mut form, file) = asked::received(&app, &chrome, SORT, upload).await?;
    let Some(asked) = open(file, &mut form).await? else {
        return draw_ask(&mut app.db.read().await?, &chrome, &form).await;
    };
    let mut conn = app.db.read().await?;
    let read = (&asked.sheet, &asked.matching);
    let answers = (&form, usual(&chrome));
    let counts = Counts::plan(&mut conn, &chrome.member.id, read, answers, app.now()).await?;
    draw(&mut conn, &chrome, &form, &asked, &counts).await
}

/// POST /counts/import/confirm: brings all in, once, or nothing.
pub async fn confirm(
    State(app): State<App>,
    chrome: Chrome,
    Upload { mut form, .. }: Upload,
) -> Result<Response, AppError> {
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "import counts", &form).await? {
        return Ok(again);
    }
    let file = asked::kept(&mut conn, &chrome, SORT, &mut form).await?;
    let Some(asked) = open(file, &mut form).await? else {
        return draw_ask(&mut conn, &chrome, &form).await;
    };
    let read = (&asked.sheet, &asked.matching);
    let answers = (&form, usual(&chrome));
    let mut planned = Counts::plan(&mut conn, &chrome.member.id, read, answers, app.now()).await?;
    if !all_answered(&planned.0.season.choices, &mut form) || !planned.0.faults.is_empty() {
        return draw(&mut conn, &chrome, &form, &asked, &planned).await;
    }
    match planned.0.import(&mut conn, &chrome.member.id, form.key(), app.now()).await? {
        Ok(number) => {
            store::done(&mut conn, &chrome.member.id, &asked.upload).await?;
            let deed = Deed::by(What::ListBroughtIn, &chrome.member.id).more(SORT);
            audit::note(&mut conn, deed, app.now()).await?;
            let said = t!("transfer-brought-in", count = t!("transfer-looks", n = number));
            once::done(conn, &app, &form, "/trials", Said::new(said)).await
        }
        Err(fault) => {
            drop(conn);
            planned.0.faults = vec![fault];
            draw(&mut app.db.read().await?, &chrome, &form, &asked, &planned).await
        }
    }
}

async fn draw(
    conn: &mut Conn,
    chrome: &Chrome,
    form: &Form,
    asked: &Asked,
    (counts, order): &(Counts, Order),
) -> Result<Response, AppError> {
    let faults = said(&counts.faults, asked.sheet.row);
    let shown = Preview {
        chrome,
        form,
        asked,
        letters: letters(conn, chrome).await?,
        orders: [
            ("", t!("transfer-as-the-list-tells")),
            ("day", t!("transfer-day-first")),
            ("month", t!("transfer-month-first")),
        ],
        more: counts.faults.len() - faults.len(),
        faults,
        looks: looks(chrome, counts),
        bags: bags(chrome, counts),
        count: t!("transfer-looks", n = counts.number()),
        days: match order {
            Order::DayFirst => t!("transfer-read-day-first"),
            Order::MonthFirst => t!("transfer-read-month-first"),
        },
        counts,
    };
    if counts.faults.is_empty() && !form.failed() { page::page(&shown) } else { page::refused(&shown) }
}

fn found(rooted: i64, abnormal: i64, dead: i64) -> String {
    if (rooted, abnormal, dead) == (0, 0, 0) {
        return t!("notebook-found-nothing").to_owned();
    }
    let said = [
        (rooted, t!("notebook-found-rooted", n = rooted)),
        (abnormal, t!("notebook-found-abnormal", n = abnormal)),
        (dead, t!("notebook-found-dead", n = dead)),
    ];
    let said = said.into_iter().filter(|(n, _)| *n > 0).map(|(_, words)| words);
    said.collect::<Vec<_>>().join(", ")
}

fn looks(chrome: &Chrome, counts: &Counts) -> Vec<LookLine> {
    let line = |l: &super::NewLook| LookLine {
        line: l.line,
        mark: l.mark.clone(),
        when: words::moment(l.at, chrome.now, chrome.member.zone()),
        found: found(l.look.rooted, l.look.abnormal, l.look.dead),
    };
    counts.looks.iter().take(SHOWN).map(line).collect()
}

fn bags(chrome: &Chrome, counts: &Counts) -> Vec<BagLine> {
    let rows = counts.past.iter().zip(&counts.season.list.rows);
    let of_trial = |(trial, row): (&PastTrial, &super::super::read::Row)| -> Vec<BagLine> {
        let line = |b: &super::PastBag| {
            let sum = |of: fn(&super::PastLook) -> i64| b.looks.iter().map(of).sum::<i64>();
            let looked = t!("transfer-looks", n = b.looks.len());
            let numbers = found(sum(|l| l.look.rooted), sum(|l| l.look.abnormal), sum(|l| l.look.dead));
            BagLine {
                line: b.looks.first().map_or(trial.line, |l| l.line),
                name: b.name.clone(),
                variety: row.packet.naming.variety.clone(),
                source: row.packet.naming.source.clone(),
                seeds: b.seeds,
                paper: words::moment(trial.paper, chrome.now, chrome.member.zone()),
                routine: routines::said::name(&trial.routine_name).to_owned(),
                found: format!("{looked}: {numbers}"),
            }
        };
        trial.bags.iter().map(line).collect()
    };
    rows.flat_map(of_trial).take(SHOWN).collect()
}
