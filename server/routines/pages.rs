use super::cautions::{self, Caution};
use super::mixing::{self, Amounts, Wanted, measures};
use super::model::{self, ACTS, MOST_STEPS, Routine, Solution, Step, Version};
use super::{said, solutions, store};
use crate::app::App;
use crate::db::Conn;
use crate::db::ids::RoutineId;
use crate::error::AppError;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::{page, words};
use askama::Template;
use axum::extract::{Path, Query, State};
use axum::response::Response;

type Pairs = Query<Vec<(String, String)>>;

#[derive(Template)]
#[template(path = "routines/list.html")]
struct List<'a> {
    chrome: &'a Chrome,
    current: Vec<Routine>,
    retired: Vec<Routine>,
}

/// GET /routines
pub async fn list(State(app): State<App>, chrome: Chrome) -> Result<Response, AppError> {
    let all = store::routines(&mut app.db.read().await?).await?;
    let (retired, current) = all.into_iter().partition(|r| r.retired_at.is_some());
    page::page(&List { chrome: &chrome, current, retired })
}

/// A version as it is read.
pub struct ShownVersion {
    pub version: Version,
    pub made: String,
    pub steps: Vec<(String, String)>,
}

impl ShownVersion {
    fn note(&self) -> &str {
        said::text(&self.version.note)
    }
}

#[derive(Template)]
#[template(path = "routines/show.html")]
struct Show<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    routine: &'a Routine,
    newest: &'a ShownVersion,
    older: &'a [ShownVersion],
    cautions: Vec<Caution>,
    mixes: Vec<(String, String)>,
    mine: bool,
}

/// GET /routines/{id}
pub async fn show(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<RoutineId>,
) -> Result<Response, AppError> {
    let mut conn = app.db.read().await?;
    let routine = store::routine(&mut conn, &id).await?.ok_or(AppError::NotFound)?;
    let (mut versions, mut newest_steps) = (Vec::new(), Vec::new());
    for version in store::versions(&mut conn, &id).await? {
        let steps = store::steps(&mut conn, &version.id).await?;
        if versions.is_empty() {
            newest_steps.clone_from(&steps);
        }
        versions.push(shown(&chrome, version, &steps));
    }
    let (newest, older) = versions.split_first().ok_or(AppError::NotFound)?;
    let mine = may_edit(&chrome, &routine);
    let cautions = cautions::said(cautions::of_steps(&newest_steps));
    let mixes = newest_steps.iter().filter_map(mix_link).collect();
    page::page(&Show {
        chrome: &chrome,
        form: &Form::new(),
        routine: &routine,
        newest,
        older,
        cautions,
        mixes,
        mine,
    })
}

fn shown(chrome: &Chrome, version: Version, steps: &[Step]) -> ShownVersion {
    let zone = chrome.member.zone();
    let made = words::day(version.made_at.day(zone), chrome.now.day(zone));
    let us = chrome.member.us();
    let steps = steps.iter().map(|s| (s.words(us), said::text(&s.note).to_owned())).collect();
    ShownVersion { version, made, steps }
}

/// Where a step's solution is worked out.
fn mix_link(step: &Step) -> Option<(String, String)> {
    let (stock, strength) = step.stock_percent.zip(step.percent)?;
    let agent = said::text(&step.agent);
    let pairs = [
        ("agent", agent.to_owned()),
        ("stock", model::plain(stock)),
        ("strength", model::plain(strength)),
        ("vessels", "1".to_owned()),
        ("size", "50".to_owned()),
        ("measure", "ml".to_owned()),
    ];
    let query = serde_html_form::to_string(pairs).ok()?;
    Some((format!("/mix?{query}"), format!("{agent} {}", model::percent(strength))))
}

pub(super) fn may_edit(chrome: &Chrome, routine: &Routine) -> bool {
    chrome.member.is_organiser() || routine.made_by.as_deref() == Some(&chrome.member.id.0)
}

/// The names of one row of step fields.
pub struct StepRow {
    pub n: i64,
    pub act: String,
    pub agent: String,
    pub stock: String,
    pub strength: String,
    pub dose: String,
    pub time: String,
    pub unit: String,
    pub warmth: String,
    pub place: String,
    pub note: String,
}

impl StepRow {
    fn new(n: i64) -> Self {
        let name = |field: &str| format!("{field}_{n}");
        Self {
            n,
            act: name("act"),
            agent: name("agent"),
            stock: name("stock"),
            strength: name("strength"),
            dose: name("dose"),
            time: name("time"),
            unit: name("unit"),
            warmth: name("warmth"),
            place: name("place"),
            note: name("step_note"),
        }
    }
}

#[derive(Template)]
#[template(path = "routines/edit.html")]
struct Edit<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    routine: Option<&'a Routine>,
    rows: Vec<StepRow>,
    more: bool,
    acts: Vec<(&'static str, &'static str)>,
    units: [(&'static str, &'static str); 2],
    warmth: String,
}

/// GET /routines/new; `?from=` copies the newest version of another routine.
pub async fn new(State(app): State<App>, chrome: Chrome, Query(query): Pairs) -> Result<Response, AppError> {
    let from = query.into_iter().find(|(n, _)| n == "from").map(|(_, v)| RoutineId(v));
    let Some(from) = from else { return draw_edit(&chrome, None, &Form::new()) };
    let mut conn = app.db.read().await?;
    let (routine, steps) = with_steps(&mut conn, &from).await?;
    draw_edit(&chrome, None, &model::filled("", &routine.note, &steps, chrome.member.us()))
}

/// GET /routines/{id}/edit
pub async fn edit(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<RoutineId>,
) -> Result<Response, AppError> {
    let mut conn = app.db.read().await?;
    let (routine, steps) = with_steps(&mut conn, &id).await?;
    if !may_edit(&chrome, &routine) {
        return Err(AppError::NotFound);
    }
    let form = model::filled(&routine.name, &routine.note, &steps, chrome.member.us()).remembered();
    draw_edit(&chrome, Some(&routine), &form)
}

pub(super) async fn with_steps(conn: &mut Conn, id: &RoutineId) -> Result<(Routine, Vec<Step>), AppError> {
    let routine = store::routine(conn, id).await?.ok_or(AppError::NotFound)?;
    let steps = store::steps(conn, &routine.version_id).await?;
    Ok((routine, steps))
}

pub(super) fn draw_edit(
    chrome: &Chrome,
    routine: Option<&Routine>,
    form: &Form,
) -> Result<Response, AppError> {
    let rows = model::rows(form);
    let shown = Edit {
        chrome,
        form,
        routine,
        rows: (1..=rows).map(StepRow::new).collect(),
        more: rows < MOST_STEPS,
        acts: std::iter::once(("", t!("routines-no-step")))
            .chain(ACTS.map(|act| (act, model::act_words(act))))
            .collect(),
        units: [("minutes", t!("routines-minutes")), ("hours", t!("routines-hours"))],
        warmth: t!("routines-temperature", unit = model::unit(chrome.member.us())),
    };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

/// A solution in the list.
pub struct ShownSolution {
    pub solution: Solution,
    pub name: String,
    pub volume: String,
    pub made: String,
    pub discard: String,
    pub opened: String,
    pub warnings: String,
}

/// Amounts as they are read.
pub struct ShownMix {
    pub proportion: String,
    pub rows: Vec<(String, String, String)>,
}

#[derive(Template)]
#[template(path = "routines/mix.html")]
struct Mix<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    measures: [(&'static str, &'static str); 3],
    wanted: Option<&'a Wanted>,
    mix: Option<ShownMix>,
    cautions: Vec<Caution>,
    solutions: Vec<ShownSolution>,
}

/// GET /mix
pub async fn mix(State(app): State<App>, chrome: Chrome, Query(query): Pairs) -> Result<Response, AppError> {
    if query.is_empty() {
        let size = if chrome.member.us() { ("2", "floz_us") } else { ("50", "ml") };
        let form = Form::new()
            .with("agent", t!("routines-hydrogen-peroxide"))
            .with("stock", "3")
            .with("strength", model::plain(1.5))
            .with("vessels", "1")
            .with("size", size.0)
            .with("measure", size.1);
        return draw_mix(&app, &chrome, &form, None).await;
    }
    let mut form = query.into_iter().fold(Form::new(), |form, (name, value)| form.with(&name, value));
    let wanted = wanted(&mut form);
    draw_mix(&app, &chrome, &form, Some(&wanted)).await
}

/// What is wanted; a solution that cannot be is noted on the form.
pub(super) fn wanted(form: &mut Form) -> Wanted {
    let wanted = Wanted::parse(form);
    if !form.failed()
        && let Err(refusal) = wanted.mix()
    {
        form.refuse("strength", t!("routines-not-possible", reason = mixing::reason(refusal)));
    }
    wanted
}

pub(super) async fn draw_mix(
    app: &App,
    chrome: &Chrome,
    form: &Form,
    wanted: Option<&Wanted>,
) -> Result<Response, AppError> {
    let mine = solutions::mine(&mut app.db.read().await?, &chrome.member.id).await?;
    let solutions = mine.into_iter().map(|s| shown_solution(chrome, s)).collect();
    let us = chrome.member.us();
    let good =
        ["agent", "stock", "strength", "vessels", "size"].iter().all(|name| form.error(name).is_empty());
    let mix = wanted.filter(|_| good).and_then(|w| w.mix().ok()).map(|m| shown_mix(&m, us));
    let cautions = wanted
        .map(|w| cautions::said(cautions::of_agent(&w.agent, w.stock.max(w.strength), None)))
        .unwrap_or_default();
    let shown = Mix { chrome, form, measures: measures(), wanted, mix, cautions, solutions };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

fn shown_mix(m: &Amounts, us: bool) -> ShownMix {
    let row = |name: &str, each: f64, all: f64| {
        (name.to_owned(), mixing::amount(each, us), mixing::amount(all, us))
    };
    ShownMix {
        proportion: m.proportion(),
        rows: vec![
            row(t!("routines-stock"), m.each.0, m.all.0),
            row(t!("routines-diluting-water"), m.each.1, m.all.1),
            row(t!("routines-together"), m.each.2, m.all.2),
        ],
    }
}

fn shown_solution(chrome: &Chrome, solution: Solution) -> ShownSolution {
    let (zone, now) = (chrome.member.zone(), chrome.now);
    ShownSolution {
        name: solution.name(),
        volume: mixing::amount(solution.volume_ml, chrome.member.us()),
        made: words::moment(solution.made_at, now, zone),
        discard: solution.discard_at.map(|at| words::day(at.day(zone), now.day(zone))).unwrap_or_default(),
        opened: solution.opened_on.map(|day| words::day(day, now.day(zone))).unwrap_or_default(),
        warnings: mixing::warnings(&solution, now).join(", "),
        solution,
    }
}
