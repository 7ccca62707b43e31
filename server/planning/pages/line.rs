//! One line: what it takes and why, its packets, and what can be done with it.

use super::plan::{none, seeds, takes_and_short};
use crate::app::App;
use crate::db::ids::LineId;
use crate::error::AppError;
use crate::planning::model::{Entry, Line, State as Stands};
use crate::planning::rate::Based;
use crate::planning::read::Season;
use crate::routines::model::{degrees, unit, warmth};
use crate::routines::said;
use crate::stock::promises::{self, Promise};
use crate::texts::Markup;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::{page, words};
use askama::Template;
use axum::extract::{Path, State};
use axum::response::Response;
use chrono::NaiveDate;

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

    fn state_in_plan(&self) -> Markup {
        let (query, plan) = (self.season.plan.query(), &self.season.plan.name);
        match self.e.state() {
            Stands::Open => h!("planning-not-accepted-in", query = query, plan = plan),
            Stands::Accepted => h!("planning-accepted-in", query = query, plan = plan),
            Stands::Started if self.e.is_partly_started() => {
                h!("planning-partly-started-in", query = query, plan = plan)
            }
            Stands::Started => h!("planning-started-in", query = query, plan = plan),
        }
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
    let any = (String::new(), t!("planning-oldest-first").to_owned());
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
        made: e.promises.iter().map(|r| made(r, e, season.today)).collect(),
        packets: std::iter::once(any).chain(packets).collect(),
        warmth: t!("planning-warmth-of-mat", unit = unit(us)),
    };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

fn lead(e: &Entry, today: NaiveDate) -> String {
    let r = &e.reckoned;
    match r.seeds {
        Some(n) => t!("planning-start-seeds-on", n = n, day = words::day(r.start, today)),
        None if r.rooting.is_some() => t!("planning-plants-out-of-reach").to_owned(),
        None => t!("planning-no-rate-known").to_owned(),
    }
}

fn facts(e: &Entry, season: &Season, us: bool) -> Vec<(&'static str, String)> {
    let (r, plan, today) = (&e.reckoned, &season.plan, season.today);
    let day = |d: NaiveDate| words::day(d, today);
    let said = |based: &Option<Based>, otherwise: &'static str| {
        based.as_ref().map_or_else(|| otherwise.to_owned(), |b| b.words.clone())
    };
    let bags =
        t!("planning-bags-on-the-mat", n = r.bags, most = plan.bag_seeds, warmth = warmth(r.warmth_c, us));
    let (weeks, soak_days) = (r.weeks.words(&e.line.kind), r.soak_days);
    vec![
        (t!("planning-wanted"), t!("planning-plants-ready", n = e.line.plants, day = day(e.line.ready_on))),
        (t!("planning-seeds-to-soak"), wanted(e)),
        (t!("planning-rooting"), said(&r.rooting, t!("planning-rooting-not-known"))),
        (t!("planning-in-the-cell"), said(&r.growing, t!("planning-no-tray-tells"))),
        (t!("planning-bags"), bags),
        (t!("planning-cells"), t!("planning-cells-in-trays-of", n = r.cells, size = plan.cells())),
        (
            t!("planning-soak"),
            t!("planning-days-before-paper", routine = said::name(&plan.routine), n = soak_days),
        ),
        (t!("planning-on-paper"), t!("planning-from-day", day = day(r.paper), words = r.days.words)),
        (t!("planning-in-cells"), t!("planning-from-day", day = day(r.fill), words = weeks)),
        (t!("web-place-packets"), packets(e, season)),
    ]
}

/// Which packets give seeds, what is short, and why none gives any.
fn packets(e: &Entry, season: &Season) -> String {
    let parts = [takes_and_short(e), none(e, season).to_owned()];
    let said: Vec<String> = parts.into_iter().filter(|part| !part.is_empty()).collect();
    format!("{}.", said.join(": "))
}

fn wanted(e: &Entry) -> String {
    let r = &e.reckoned;
    match r.seeds {
        Some(n) => {
            let plants = r.average.round() as i64;
            t!("planning-seeds-for-certainty", n = n, certainty = r.certainty, plants = plants)
        }
        None => seeds(e),
    }
}

fn short(e: &Entry) -> String {
    if e.short > 0 { t!("planning-seeds-short", n = e.short) } else { String::new() }
}

fn made(r: &Promise, e: &Entry, today: NaiveDate) -> Made {
    let gives = if r.holds() { e.gives(r) } else { r.seeds };
    let (given, day) = (promises::given(r, gives), words::day(r.start_on, today));
    match (r.holds(), &r.trial_id) {
        (true, _) => Made {
            words: t!("planning-promised-to-start", given = given, day = day),
            link: r.start_path(),
            link_words: t!("planning-start-mark", mark = r.mark),
        },
        (false, Some(trial)) if r.is_started() => Made {
            words: t!("planning-started-to-start", given = given, day = day),
            link: format!("/trials/{trial}"),
            link_words: t!("planning-its-trial").to_owned(),
        },
        _ => Made {
            words: t!("planning-withdrawn-to-start", given = given, day = day),
            link: String::new(),
            link_words: String::new(),
        },
    }
}
