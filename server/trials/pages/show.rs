use super::rooting::{Rooting, rooting};
use crate::app::App;
use crate::db::ids::{At, TrialId};
use crate::error::AppError;
use crate::notebook::{self, history};
use crate::photos::{self, store::Shown};
use crate::routines;
use crate::routines::cautions::{self, Caution};
use crate::routines::mixing;
use crate::routines::model::{Solution, Step, duration, percent, plain, warmth};
use crate::routines::solutions;
use crate::trials::model::{Due, Next, Trial};
use crate::trials::store::{self, Bag, Done, Listed};
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::{page, words};
use askama::Template;
use axum::extract::{Path, State};
use axum::response::Response;

/// A step as it is read: `class` is `done`, `late`, `now` or empty.
pub struct StepLine {
    pub class: &'static str,
    pub words: String,
    pub state: &'static str,
    pub detail: String,
    pub note: String,
}

/// The end of the running step.
pub struct Timer {
    pub out: String,
    pub wait: String,
    pub over: bool,
    pub until: i64,
    pub step: String,
}

/// A bag as it is read.
pub struct BagLine {
    pub bag: Bag,
    pub words: String,
}

/// An entry as it is read.
pub struct EntryLine {
    pub entry: history::Entry,
    pub when: String,
    pub words: String,
}

#[derive(Template)]
#[template(path = "trials/show.html")]
struct Show<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    trial: &'a Trial,
    began: String,
    steps: Vec<StepLine>,
    timer: Option<Timer>,
    running: Option<&'a Step>,
    next: Option<Next>,
    alike: Vec<Due>,
    solutions: Vec<(String, String)>,
    bags: Vec<BagLine>,
    rooting: Option<Rooting>,
    photos: Vec<(Shown, String)>,
    plans: Vec<String>,
    companions: Vec<Listed>,
    history: Vec<EntryLine>,
    cautions: Vec<Caution>,
}

impl Show<'_> {
    fn is(&self, next: Next) -> bool {
        self.next == Some(next)
    }

    fn with_tally(&self) -> bool {
        !self.steps.is_empty()
            && self.trial.sank.is_none()
            && crate::trials::model::floats_tell(&self.trial.state)
    }
}

/// GET /trials/{id}
pub async fn show(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<TrialId>,
) -> Result<Response, AppError> {
    let mut conn = app.db.read().await?;
    let trial = store::trial(&mut conn, &chrome.member.id, &id).await?;
    let steps = routines::store::steps(&mut conn, &trial.version_id).await?;
    drop(conn);
    let planned = steps.iter().find(|s| s.position == trial.step).and_then(|s| s.percent);
    let form = Form::new()
        .with("at", words::input_moment(chrome.now, chrome.member.zone()))
        .with("percent", planned.map(plain).unwrap_or_default());
    draw(&app, &chrome, &id, &form).await
}

pub async fn draw(app: &App, chrome: &Chrome, id: &TrialId, form: &Form) -> Result<Response, AppError> {
    let mut conn = app.db.read().await?;
    let member = &chrome.member.id;
    let trial = store::trial(&mut conn, member, id).await?;
    let steps = routines::store::steps(&mut conn, &trial.version_id).await?;
    let done = store::done(&mut conn, id).await?;
    let due = store::due(&mut conn, member).await?.into_iter().find(|d| d.trial_id == *id);
    let entries = history::of_trial(&mut conn, id).await?;
    let companions = match &trial.vial.pair {
        Some(pair) => store::companions(&mut conn, member, pair, id).await?,
        None => Vec::new(),
    };
    let bags = store::bags(&mut conn, id).await?;
    let photos = photos::store::of_trial(&mut conn, member, id).await?;
    let next = due.as_ref().map(Due::next);
    let running = steps.iter().find(|s| next == Some(Next::Step) && s.position == trial.step);
    let shown = Show {
        chrome,
        form,
        began: moment(chrome, trial.began_at),
        steps: steps.iter().map(|s| step_line(chrome, &trial, s, &done, running.is_some())).collect(),
        timer: running.map(|s| timer(chrome, &trial, s)),
        cautions: cautions::said(found(&trial, running)),
        running,
        next,
        alike: store::soaking_alike(&mut conn, member, id).await?,
        solutions: choices(chrome, solutions::mine(&mut conn, member).await?),
        photos: photos.into_iter().map(|p| (p.clone(), p.of(chrome.member.zone()))).collect(),
        rooting: rooting(&trial.mark, &bags)?,
        bags: bags.into_iter().map(|b| bag_line(chrome, b)).collect(),
        plans: entries.iter().filter(|e| is_note(e) && e.void_by.is_none()).map(|e| e.note.clone()).collect(),
        companions,
        history: entries.into_iter().filter(told).map(|e| entry_line(chrome, e)).collect(),
        trial: &trial,
    };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

fn found(trial: &Trial, running: Option<&Step>) -> Vec<Caution> {
    let mut found = running.map(|s| cautions::of_steps(std::slice::from_ref(s))).unwrap_or_default();
    if trial.soaking > 0 {
        found.extend(cautions::of_seed(&trial.state, &trial.kind));
    }
    found
}

fn timer(chrome: &Chrome, trial: &Trial, step: &Step) -> Timer {
    let until = trial.step_at.plus_minutes(step.minutes);
    Timer {
        out: words::out_at(until, chrome.now, chrome.member.zone()),
        wait: words::countdown(until, chrome.now),
        over: until <= chrome.now,
        until: until.0,
        step: step.words(chrome.member.us()),
    }
}

fn step_line(chrome: &Chrome, trial: &Trial, step: &Step, done: &[Done], running: bool) -> StepLine {
    let was = done.iter().find(|d| d.position == step.position);
    let due = trial.step_at.plus_minutes(step.minutes);
    let late = (chrome.now.0 - due.0) / 60;
    let out = words::out_at(due, chrome.now, chrome.member.zone());
    let (class, state, detail) = match was {
        Some(d) if d.skipped => ("done", t!("trials-state-skipped"), format!(" {}", moment(chrome, d.at))),
        Some(d) => ("done", t!("trials-state-done"), format!(" {}", done_words(chrome, step, d))),
        None if trial.step > step.position => ("done", t!("trials-state-not-recorded"), String::new()),
        None if trial.step == step.position && running && step.minutes > 0 && late > 0 => {
            ("late", t!("trials-state-late"), t!("trials-late-by", late = duration(late), out = out))
        }
        None if trial.step == step.position && running => ("now", t!("trials-state-now"), format!(", {out}")),
        None if trial.soaking == 0 => ("", t!("trials-state-not-recorded"), String::new()),
        None => ("", t!("trials-state-then"), String::new()),
    };
    let note = routines::said::text(&step.note).to_owned();
    StepLine { class, words: step.words(chrome.member.us()), state, detail, note }
}

fn done_words(chrome: &Chrome, step: &Step, d: &Done) -> String {
    let took = (d.at.0 - d.began_at.0) / 60;
    let mut parts = vec![moment(chrome, d.at), t!("trials-took", span = duration(took))];
    if step.minutes > 0 && took > step.minutes {
        parts.push(t!("trials-longer-than-planned", span = duration(took - step.minutes)));
    } else if (step.minutes - took) * 10 >= step.minutes.max(1) {
        parts.push(t!("trials-shorter-than-planned", span = duration(step.minutes - took)));
    }
    if let Some(x) = d.percent {
        parts.push(t!("trials-at-strength", strength = percent(x)));
    }
    if let Some(agent) = &d.solution {
        parts.push(t!("trials-from-the-noted", agent = routines::said::text(agent)));
    }
    let note = if d.note.is_empty() { String::new() } else { format!(": {}", d.note) };
    parts.join(", ") + note.as_str()
}

fn moment(chrome: &Chrome, at: At) -> String {
    words::moment(at, chrome.now, chrome.member.zone())
}

fn choices(chrome: &Chrome, mine: Vec<Solution>) -> Vec<(String, String)> {
    let none = (String::new(), t!("trials-no-solution").to_owned());
    let named = mine.into_iter().map(|s| {
        let made = t!("trials-solution-made", solution = s.name(), moment = moment(chrome, s.made_at));
        let warnings = mixing::warnings(&s, chrome.now);
        let careful = if warnings.is_empty() { String::new() } else { format!(" ({})", warnings.join(", ")) };
        (s.id.0.clone(), made + careful.as_str())
    });
    std::iter::once(none).chain(named).collect()
}

fn bag_line(chrome: &Chrome, bag: Bag) -> BagLine {
    let mut parts = vec![words::seeds(bag.seeds), t!("trials-so-many-rooted", n = bag.rooted)];
    if bag.closed_at.is_some() {
        parts.push(closed(&bag.ending));
    } else {
        parts.push(t!("trials-still-on-paper", n = bag.on_paper));
    }
    if !bag.place.is_empty() {
        parts.push(bag.place.clone());
    }
    if let Some(c) = bag.warmth_c {
        parts.push(t!("trials-at-warmth", warmth = warmth(c, chrome.member.us())));
    }
    parts.push(t!("trials-on-paper-since", moment = moment(chrome, bag.on_paper_at)));
    BagLine { words: parts.join(", "), bag }
}

fn closed(ending: &str) -> String {
    match ending {
        "final count" => t!("trials-closed-with-final-count").to_owned(),
        "abandoned" => t!("trials-closed-abandoned").to_owned(),
        other => t!("trials-closed", ending = other),
    }
}

fn is_note(e: &history::Entry) -> bool {
    e.what == "trial event" && e.sort == "note"
}

/// One line for each thing that was done: the packet's and the bag's side of the same act are left out.
fn told(e: &history::Entry) -> bool {
    e.what != "ledger" && !(e.what == "bag seeds" && e.sort == "on paper")
}

fn entry_line(chrome: &Chrome, entry: history::Entry) -> EntryLine {
    let mark = entry.bag.as_ref().map(|b| format!(" {b}:")).unwrap_or_default();
    let note = if entry.note.is_empty() {
        String::new()
    } else {
        format!(": {}", notebook::words::written(&entry.note))
    };
    EntryLine {
        when: moment(chrome, entry.at),
        words: format!("{},{mark} {}{note}", entry.by_name, entry.words()),
        entry,
    }
}
