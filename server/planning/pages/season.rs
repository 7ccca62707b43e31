//! What a plan is reckoned with: made once for a season, changed at any time.

use crate::app::App;
use crate::db::Conn;
use crate::db::ids::{PlanId, RoutineId};
use crate::error::AppError;
use crate::planning::model::Plan;
use crate::planning::store;
use crate::rates::known;
use crate::routines;
use crate::routines::model::{degrees, read_warmth, unit};
use crate::trays::cells::LONGEST;
use crate::trays::published::GRIDS;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::page;
use askama::Template;
use axum::extract::{Query, State};
use axum::response::Response;
use chrono::Datelike;

/// Warmth of the mat where nobody said (common practice, no source), degrees C.
const WARMTH: f64 = 25.0;
const BAG: u32 = 10;
const CERTAINTY: i64 = 90;
/// From this month on the next year's season is planned.
const AUTUMN: u32 = 9;
const OWN: &str = "own";
#[derive(Template)]
#[template(path = "planning/season.html")]
struct Show<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    /// Changes the plan of this id; empty: makes one.
    plan: &'a str,
    routines: Vec<(String, String)>,
    trays: Vec<(String, String)>,
    warmth: String,
}

/// GET /plan/season?plan=
pub async fn show(
    State(app): State<App>,
    chrome: Chrome,
    Query(query): Query<Vec<(String, String)>>,
) -> Result<Response, AppError> {
    let mut conn = app.db.read().await?;
    let wanted = query.iter().find(|(n, v)| n == "plan" && !v.is_empty());
    let us = chrome.member.us();
    let form = match wanted {
        Some((_, id)) => {
            let plans = store::plans(&mut conn, &chrome.member.id).await?;
            filled(plans.iter().find(|p| p.id.0 == *id).ok_or(AppError::NotFound)?, us)
        }
        None => preset(&app, &chrome).await?,
    };
    draw(&mut conn, &chrome, &form).await
}

/// What a member without a plan sees in place of its pages.
pub async fn first(app: &App, chrome: &Chrome) -> Result<Response, AppError> {
    let form = preset(app, chrome).await?;
    draw(&mut app.db.read().await?, chrome, &form).await
}

async fn preset(app: &App, chrome: &Chrome) -> Result<Form, AppError> {
    let habit = known::habit(app, chrome.member.zone(), chrome.now).await?;
    let today = chrome.now.day(chrome.member.zone());
    let year = today.year() + i32::from(today.month() >= AUTUMN);
    Ok(Form::new()
        .with("name", year)
        .with("bag_seeds", habit.bag.unwrap_or(BAG).clamp(1, 500))
        .with("warmth", degrees(WARMTH, chrome.member.us()))
        .with("tray", "12x6")
        .with("certainty", CERTAINTY))
}

fn filled(p: &Plan, us: bool) -> Form {
    let number = |n: Option<i64>| n.map(|n| n.to_string()).unwrap_or_default();
    let value = format!("{}x{}", p.tray_rows, p.tray_cols);
    let listed = GRIDS.iter().any(|g| g.value() == value);
    Form::new()
        .with("plan", &p.id)
        .with("name", &p.name)
        .with("routine", &p.routine_id)
        .with("bag_seeds", p.bag_seeds)
        .with("warmth", degrees(p.warmth_c, us))
        .with("tray", if listed { value.as_str() } else { OWN })
        .with("rows", if listed { String::new() } else { p.tray_rows.to_string() })
        .with("cols", if listed { String::new() } else { p.tray_cols.to_string() })
        .with("certainty", p.certainty)
        .with("mat_bags", number(p.mat_bags))
        .with("trays", number(p.trays))
        .remembered()
}

/// Tells beside each field what was saved of the plan since its page was drawn; true where there is something to tell.
/// `routine` is the name of the one that was chosen.
pub fn meets(form: &mut Form, stands: &Plan, routine: &str, us: bool) -> bool {
    let now = filled(stands, us);
    form.meets(&now, None, |field, value| match field {
        "routine" if value == stands.routine_id.0 => Some(routines::said::name(&stands.routine).to_owned()),
        "routine" => Some(routine.to_owned()),
        "tray" if value == OWN => Some(t!("planning-another-one").to_owned()),
        "tray" => GRIDS.iter().find(|g| g.value() == value).map(|g| g.words()),
        _ => None,
    })
}

pub async fn draw(conn: &mut Conn, chrome: &Chrome, form: &Form) -> Result<Response, AppError> {
    let current = routines::store::routines(conn).await?.into_iter().filter(|r| r.retired_at.is_none());
    let mut trays: Vec<(String, String)> = GRIDS.iter().map(|p| (p.value(), p.words())).collect();
    trays.push((OWN.into(), t!("planning-another-tray").into()));
    let shown = Show {
        chrome,
        form,
        plan: form.value("plan"),
        routines: std::iter::once((String::new(), t!("planning-choose").to_owned()))
            .chain(current.map(|r| (r.id.to_string(), r.shown_name().to_owned())))
            .collect(),
        trays,
        warmth: t!("planning-warmth-of-mat", unit = unit(chrome.member.us())),
    };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

/// The plan as typed; faults are noted on the form.
pub fn read(form: &mut Form, us: bool) -> Plan {
    let name = form.must_text("name", 40);
    if crate::stock::names::key(&name).is_empty() {
        form.refuse("name", t!("planning-name-needs-letters"));
    }
    let routine = form.must_text("routine", 40);
    let warmth_c = read_warmth(form, "warmth", us, 60.0);
    if warmth_c.is_none() && form.error("warmth").is_empty() {
        form.refuse("warmth", t!("planning-give-a-number"));
    }
    let (tray_rows, tray_cols) = tray(form);
    Plan {
        id: PlanId(form.value("plan").to_owned()),
        name,
        routine_id: RoutineId(routine),
        routine: String::new(),
        soak_minutes: 0,
        bag_seeds: form.must_whole("bag_seeds", 1..=500),
        warmth_c: warmth_c.unwrap_or(WARMTH),
        tray_rows,
        tray_cols,
        certainty: form.must_whole("certainty", 50..=99),
        mat_bags: form.whole("mat_bags", 1..=10_000),
        trays: form.whole("trays", 1..=1000),
    }
}

fn tray(form: &mut Form) -> (i64, i64) {
    let chosen = form.value("tray").to_owned();
    if let Some(grid) = GRIDS.iter().find(|g| g.value() == chosen) {
        return (grid.geometry.rows, grid.geometry.cols);
    }
    if chosen != OWN {
        form.refuse("tray", t!("planning-choose-one"));
        return (1, 1);
    }
    (form.must_whole("rows", 1..=LONGEST), form.must_whole("cols", 1..=LONGEST))
}
