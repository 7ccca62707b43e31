use super::super::choice::Choice;
use super::super::fault::Fault;
use super::super::sheet::Called;
use super::actions::Planned;
use super::file::Shared;
use super::store::{self, Other};
use crate::app::App;
use crate::db::Conn;
use crate::error::AppError;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::{page, words};
use askama::Template;
use axum::extract::State;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Response};
use std::collections::BTreeMap;

/// So many rows are shown, and so many faults.
const SHOWN: usize = 50;

struct Line {
    other: Other,
    numbers: String,
    made_on: String,
    made: String,
    came: String,
}

#[derive(Template)]
#[template(path = "transfer/clubs.html")]
struct Clubs<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    lines: Vec<Line>,
    faults: Vec<String>,
    more: usize,
    /// Our own file is being made.
    making: bool,
}

/// GET /clubs
pub async fn show(State(app): State<App>, chrome: Chrome) -> Result<Response, AppError> {
    chrome.member.must_organise()?;
    draw(&app, &chrome, &Form::new()).await
}

pub async fn draw(app: &App, chrome: &Chrome, form: &Form) -> Result<Response, AppError> {
    draw_faults(app, chrome, form, &[]).await
}

/// The page while our own file is being made, with what was typed.
pub async fn draw_making(app: &App, chrome: &Chrome, form: &Form) -> Result<Response, AppError> {
    let lines = lines(app, chrome).await?;
    let shown = Clubs { chrome, form, lines, faults: Vec::new(), more: 0, making: true };
    Ok((StatusCode::ACCEPTED, page::page(&shown)?).into_response())
}

async fn lines(app: &App, chrome: &Chrome) -> Result<Vec<Line>, AppError> {
    let others = store::others(&mut app.db.read().await?).await?;
    Ok(others.into_iter().map(|other| line(chrome, other)).collect())
}

/// The page with what is wrong with a file, by line and column of its counts.
pub async fn draw_faults(
    app: &App,
    chrome: &Chrome,
    form: &Form,
    faults: &[Fault],
) -> Result<Response, AppError> {
    let lines = lines(app, chrome).await?;
    let said: Vec<String> = super::super::pages::said(faults, Called::Line).into_iter().take(SHOWN).collect();
    let more = faults.len() - said.len();
    let shown = Clubs { chrome, form, lines, faults: said, more, making: false };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

fn numbers(seeds: i64, bags: i64, growers: i64) -> String {
    let (bags, growers) =
        (t!("transfer-in-so-many-bags", n = bags), t!("transfer-of-so-many-growers", n = growers));
    t!("transfer-numbers", seeds = words::seeds(seeds), bags = bags, growers = growers)
}

/// What there is in a table, when it was made, and under which licence.
fn made(numbers: &str, day: &str, licence: &str) -> String {
    match licence {
        "" => t!("transfer-made", numbers = numbers, day = day),
        licence => t!("transfer-made-under", numbers = numbers, day = day, licence = licence),
    }
}

fn line(chrome: &Chrome, other: Other) -> Line {
    let zone = chrome.member.zone();
    let numbers = numbers(other.seeds, other.bags, other.growers);
    let made_on = words::day(other.made_on, chrome.now.day(zone));
    Line {
        made: made(&numbers, &made_on, &other.licence),
        numbers,
        made_on,
        came: words::moment(other.at, chrome.now, zone),
        other,
    }
}

struct Row {
    kind: String,
    variety: String,
    source: String,
    seeds: i64,
    /// What it counts under here, where that is another spelling; or that it is new here.
    here: String,
}

#[derive(Template)]
#[template(path = "transfer/club_preview.html")]
struct Look<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    planned: &'a Planned,
    made: String,
    rows: Vec<Row>,
    /// The table that it takes the place of.
    earlier: Option<Line>,
}

impl Look<'_> {
    fn chosen(&self, choice: &Choice, name: &str) -> &'static str {
        if self.form.value(&choice.field) == name { " checked" } else { "" }
    }
}

pub async fn draw_look(
    conn: &mut Conn,
    chrome: &Chrome,
    form: &Form,
    planned: &Planned,
) -> Result<Response, AppError> {
    let earlier = store::other(conn, &planned.shared.code).await?.map(|other| line(chrome, other));
    let Shared { numbers: n, made_on, licence, .. } = &planned.shared;
    let made_on = words::day(*made_on, chrome.now.day(chrome.member.zone()));
    let row = |(place, seeds): &([String; 3], i64)| {
        let [kind, variety, source] = place;
        let ours = planned.names.ours(&BTreeMap::new(), (kind, variety, source));
        let new = !planned.names.has(kind, variety);
        let here = match (new, ours == *place) {
            (true, _) => t!("transfer-not-grown-here").to_owned(),
            (false, true) => String::new(),
            (false, false) => t!("transfer-here-as", variety = ours[1], source = ours[2]),
        };
        Row { kind: kind.clone(), variety: variety.clone(), source: source.clone(), seeds: *seeds, here }
    };
    page::page(&Look {
        chrome,
        form,
        planned,
        made: made(&numbers(n.seeds, n.bags, n.growers), &made_on, licence),
        rows: planned.shared.places.iter().take(SHOWN).map(row).collect(),
        earlier,
    })
}
