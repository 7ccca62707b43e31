//! One line: what it takes and why, its packets, and what can be done with it.

use super::plan::{none, seeds, state_words, takes_and_short};
use crate::app::App;
use crate::db::ids::LineId;
use crate::error::AppError;
use crate::planning::model::{Entry, Line, State as Stands};
use crate::planning::read::Season;
use crate::routines::model::{degrees, unit, warmth};
use crate::stock::promises::{self, Promise};
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::{page, words};
use askama::Template;
use axum::extract::{Path, State};
use axum::response::Response;
use chrono::NaiveDate;
use hilum_calc::units::shown;

/// A promise that was made, in words.
struct Made {
    words: String,
    link: String,
    link_words: String,
}

#[derive(Template)]
#[template(path = "planning/line.html")]
struct Show<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    season: &'a Season,
    e: &'a Entry,
    lead: String,
    facts: Vec<(&'static str, String)>,
    short: String,
    state: &'static str,
    made: Vec<Made>,
    packets: Vec<(String, String)>,
    warmth: String,
}

impl Show<'_> {
    fn is_open(&self) -> bool {
        self.e.state() == Stands::Open
    }

    fn is_accepted(&self) -> bool {
        self.e.state() == Stands::Accepted
    }

    /// Whether there is a packet to promise seeds of.
    fn can_accept(&self) -> bool {
        self.is_open() && self.packets.len() > 1
    }
}

/// GET /plan/lines/{id}
pub async fn show(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<LineId>,
) -> Result<Response, AppError> {
    let (season, place) = Season::of_line(&app, &chrome, &id).await?;
    draw(&chrome, &season, place, &filled(&season.entries[place], chrome.member.us()))
}

fn filled(e: &Entry, us: bool) -> Form {
    let seeds = e.reckoned.seeds.map(|n| n.to_string()).unwrap_or_default();
    numbers(&e.line, us).with("seeds", seeds).with("start", e.reckoned.start)
}

/// The numbers of a line, as the form that changes them has them.
pub fn numbers(line: &Line, us: bool) -> Form {
    let number = |n: Option<i64>| n.map(|n| n.to_string()).unwrap_or_default();
    Form::new()
        .with("plants", line.plants)
        .with("ready", line.ready_on)
        .with("certainty", number(line.certainty))
        .with("weeks", number(line.raise_weeks))
        .with("warmth", line.warmth_c.map(|c| degrees(c, us)).unwrap_or_default())
        .remembered()
}

pub fn draw(chrome: &Chrome, season: &Season, place: usize, form: &Form) -> Result<Response, AppError> {
    let e = &season.entries[place];
    let us = chrome.member.us();
    // fields of the form that was not sent
    let form = &filled(e, us).pairs().fold(form.clone(), |form, (name, value)| {
        if form.values(name).is_empty() { form.with(name, value) } else { form }
    });
    let any = (String::new(), "the oldest first".to_owned());
    let packets = season.packets_for(&e.line).map(|p| {
        let year = if p.year == 0 { String::new() } else { format!(" {}", p.year) };
        (p.id.0.clone(), format!("{}, {}{year}: {}", p.mark, p.source, p.left_and_promised()))
    });
    let shown = Show {
        chrome,
        form,
        season,
        e,
        lead: lead(e, season.today),
        facts: facts(e, season, us),
        short: short(e),
        state: state_words(e),
        made: e.promises.iter().map(|r| made(r, e, season.today)).collect(),
        packets: std::iter::once(any).chain(packets).collect(),
        warmth: format!("Warmth of the mat, {}", unit(us)),
    };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

fn lead(e: &Entry, today: NaiveDate) -> String {
    let r = &e.reckoned;
    match r.seeds {
        Some(n) => format!("Start {} on {}.", words::seeds(n), words::day(r.start, today)),
        None if r.rooting.is_some() => {
            "So many plants are out of reach at this certainty. Ask for fewer plants or less certainty, or test more \
             seeds."
                .to_owned()
        }
        None => "No rate is known of this kind, so the app cannot say how many seeds. Give your own number below.".to_owned(),
    }
}

fn facts(e: &Entry, season: &Season, us: bool) -> Vec<(&'static str, String)> {
    let (r, plan, today) = (&e.reckoned, &season.plan, season.today);
    let day = |d: NaiveDate| words::day(d, today);
    let mut facts = vec![
        (
            "Wanted",
            format!("{} ready {}", words::counted(e.line.plants, "plant", "plants"), day(e.line.ready_on)),
        ),
        ("Seeds to soak", wanted(e)),
        ("Rooting", r.rooting.as_ref().map_or_else(|| "not known.".to_owned(), |b| b.words.clone())),
        (
            "In the cell",
            r.growing.as_ref().map_or_else(
                || "no tray of the club tells yet, so every rooted seed is taken for a plant.".to_owned(),
                |b| b.words.clone(),
            ),
        ),
        (
            "Bags",
            format!(
                "{} of up to {}, on the mat at {}",
                words::counted(r.bags, "bag", "bags"),
                words::seeds(plan.bag_seeds),
                warmth(r.warmth_c, us)
            ),
        ),
        ("Cells", format!("{}, in trays of {}", words::counted(r.cells, "cell", "cells"), plan.cells())),
        (
            "Soak",
            format!("{}: {} before the paper.", plan.routine, words::counted(r.soak_days, "day", "days")),
        ),
        ("On paper", format!("from {}: {}", day(r.paper), r.days.words)),
        ("In cells", format!("from {}: {}", day(r.fill), r.weeks.words(&e.line.kind))),
    ];
    let parts = [takes_and_short(e), none(e, season).to_owned()];
    let said: Vec<String> = parts.into_iter().filter(|part| !part.is_empty()).collect();
    facts.push(("Packets", format!("{}.", said.join(": "))));
    facts
}

fn wanted(e: &Entry) -> String {
    let r = &e.reckoned;
    match r.seeds {
        Some(_) => format!(
            "{}, for {} % certainty; on average they give {} plants.",
            seeds(e),
            r.certainty,
            shown(r.average, 0)
        ),
        None => seeds(e),
    }
}

fn short(e: &Entry) -> String {
    if e.short > 0 { format!("{} short.", words::seeds(e.short)) } else { String::new() }
}

fn made(r: &Promise, e: &Entry, today: NaiveDate) -> Made {
    let gives = if r.holds() { e.gives(r) } else { r.seeds };
    let what = format!("{}, to start {}", promises::given(r, gives), words::day(r.start_on, today));
    let (state, link, link_words) = match (r.holds(), &r.trial_id) {
        (true, _) => ("promised", r.start_path(), format!("Start {}", r.mark)),
        (false, Some(trial)) if r.is_started() => {
            ("started", format!("/trials/{trial}"), "Its trial".to_owned())
        }
        _ => ("withdrawn", String::new(), String::new()),
    };
    Made { words: format!("{what}: {state}"), link, link_words }
}
