//! The plan of a season: every line with what it takes.

use crate::app::App;
use crate::error::AppError;
use crate::planning::model::{Entry, State as Stands, Take};
use crate::planning::read::Season;
use crate::planning::{sentences, weeks};
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::{page, words};
use askama::Template;
use axum::extract::{Query, State};
use axum::response::Response;
use chrono::NaiveDate;

/// A line as it stands in the table.
pub struct Row<'s> {
    pub e: &'s Entry,
    pub ready: String,
    pub seeds: String,
    /// Where the rate is from, in short.
    pub sign: &'static str,
    pub start: String,
    pub late: bool,
    /// `20 of JB 42`, and what is short.
    pub takes: String,
    pub short: String,
    /// Why no packet gives seeds; empty where one does.
    pub none: &'static str,
    pub state: String,
    /// Can be accepted with one tick.
    pub tick: bool,
}

#[derive(Template)]
#[template(path = "planning/plan.html")]
struct Show<'a> {
    chrome: &'a Chrome,
    form: Form,
    season: &'a Season,
    rows: Vec<Row<'a>>,
    total: String,
    ticks: bool,
}

/// GET /plan?plan=
pub async fn show(
    State(app): State<App>,
    chrome: Chrome,
    Query(query): Query<Vec<(String, String)>>,
) -> Result<Response, AppError> {
    let Some(season) = Season::read(&app, &chrome, &query).await? else {
        return super::season::first(&app, &chrome).await;
    };
    let rows: Vec<Row> = season.entries.iter().map(|e| row(e, &season)).collect();
    let ticks = rows.iter().any(|r| r.tick);
    let total = total(&season);
    page::page(&Show { chrome: &chrome, form: Form::new(), season: &season, rows, total, ticks })
}

fn row<'s>(e: &'s Entry, season: &Season) -> Row<'s> {
    let (r, today) = (&e.reckoned, season.today);
    let state = e.state();
    Row {
        ready: whole(e.line.ready_on, today),
        seeds: seeds(e),
        sign: r.rooting.as_ref().map_or("", |b| b.sign),
        start: whole(r.start, today),
        late: state != Stands::Started && r.start < today,
        takes: takes(e),
        short: short(e),
        none: none(e, season),
        state: state_words(e).to_owned(),
        tick: state == Stands::Open && r.seeds.is_some() && !e.takes.is_empty(),
        e,
    }
}

/// A day that does not break over two lines.
pub fn whole(day: NaiveDate, today: NaiveDate) -> String {
    words::day(day, today).replace(' ', "\u{a0}")
}

/// `24`, or why there is no number.
pub fn seeds(e: &Entry) -> String {
    match (e.reckoned.seeds, &e.reckoned.rooting) {
        (Some(n), _) => n.to_string(),
        (None, Some(_)) => t!("planning-out-of-reach").to_owned(),
        (None, None) => t!("planning-not-known").to_owned(),
    }
}

/// `20 of JB 42, 4 of JB 43`
pub fn takes(e: &Entry) -> String {
    let part = |t: &Take| t!("planning-taken", seeds = t.seeds, mark = t.mark);
    e.takes.iter().map(part).collect::<Vec<_>>().join(", ")
}

/// `46 short`; empty where nothing is.
pub fn short(e: &Entry) -> String {
    if e.short > 0 { t!("planning-short", n = e.short) } else { String::new() }
}

/// `7 of JB 42, 46 short`; empty where nothing is taken or wanted.
pub fn takes_and_short(e: &Entry) -> String {
    let parts: Vec<String> = [takes(e), short(e)].into_iter().filter(|part| !part.is_empty()).collect();
    parts.join(", ")
}

/// Why no packet gives seeds to the line; empty where one does.
pub fn none(e: &Entry, season: &Season) -> &'static str {
    if !e.takes.is_empty() {
        ""
    } else if e.reckoned.seeds.is_none() {
        t!("planning-no-number-to-promise")
    } else if season.packets_for(&e.line).any(|p| p.balance > 0) {
        t!("planning-all-is-promised")
    } else {
        t!("planning-no-packet-holds-any")
    }
}

pub fn state_words(e: &Entry) -> &'static str {
    match e.state() {
        Stands::Open => t!("planning-not-accepted"),
        Stands::Accepted => t!("planning-accepted"),
        Stands::Started if e.is_partly_started() => t!("planning-partly-started"),
        Stands::Started => t!("planning-started"),
    }
}

/// `In all 412 seeds in 46 bags, 230 cells in 4 trays of 72.` Lines without a number of seeds are told apart.
fn total(season: &Season) -> String {
    let (known, unknown): (Vec<&Entry>, Vec<&Entry>) =
        season.entries.iter().partition(|e| e.reckoned.seeds.is_some());
    let sum = |of: fn(&Entry) -> i64| known.iter().map(|e| of(e)).sum::<i64>();
    let (cells, short) = (sum(|e| e.reckoned.cells), sum(|e| e.short));
    let all = t!(
        "planning-total",
        seeds = sum(|e| e.reckoned.seeds.unwrap_or(0)),
        bags = sum(|e| e.reckoned.bags),
        cells = cells,
        trays = weeks::trays(cells, &season.plan),
        size = season.plan.cells()
    );
    let short = (short > 0).then(|| t!("planning-seeds-short", n = short));
    let without = (!unknown.is_empty()).then(|| t!("planning-without-lines", n = unknown.len()));
    sentences([Some(all), short, without])
}
