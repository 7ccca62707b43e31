use crate::app::App;
use crate::db::Conn;
use crate::db::ids::{SolutionId, TrialId};
use crate::error::AppError;
use crate::notebook::Act;
use crate::routines::model::percent;
use crate::trials::model::{NOTES, StepDone};
use crate::trials::{pages, store};
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::once;
use crate::web::said::Said;
use axum::extract::{Path, State};
use axum::response::Response;

/// POST /trials/{id}/step: the running step is done, here and in the trials ticked.
pub async fn step(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<TrialId>,
    mut form: Form,
) -> Result<Response, AppError> {
    let at = form.moment("at", chrome.member.zone(), app.now());
    let done = parse(&mut form);
    if form.failed() {
        return pages::draw_show(&app, &chrome, &id, &form).await;
    }
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "step done", &form).await? {
        return Ok(again);
    }
    let act = Act::new(&chrome.member.id, form.key(), at, app.now());
    let trials = trials(&id, &form);
    let saved = all(&mut conn, &act, &trials, &done).await;
    match form.take(saved)? {
        Some(()) => {
            let (step, trials) = (done.position, trials.len());
            let said = if done.skipped {
                t!("trials-skipped-step", step = step, trials = trials)
            } else {
                t!("trials-did-step", step = step, trials = trials)
            };
            let said = Said::new(said).undo(form.key());
            once::done(conn, &app, &form, &format!("/trials/{id}"), said).await
        }
        None => {
            drop(conn);
            let stands = store::trial(&mut app.db.read().await?, &chrome.member.id, &id).await?;
            if !form.error("step").is_empty() && stands.step != done.position {
                into_a_note(&mut form, &done);
            }
            pages::draw_show(&app, &chrome, &id, &form).await
        }
    }
}

/// Somebody was faster with the step: what was typed about it goes into the trial's note, and not to the next step.
fn into_a_note(form: &mut Form, done: &StepDone) {
    let minutes = done.minutes.map(|m| t!("trials-minutes", n = m));
    let note = Some(done.note.clone()).filter(|note| !note.is_empty());
    // the strength stands in the form from the start, so it alone tells nothing
    let typed = minutes.is_some() || note.is_some();
    let strength = done.percent.map(|x| t!("trials-at-strength", strength = percent(x)));
    let told: Vec<String> = [minutes, strength, note].into_iter().flatten().collect();
    for field in ["minutes", "percent", "solution", "note", "skipped"] {
        form.put(field, "");
    }
    if !typed {
        return;
    }
    form.put("sort", "note");
    form.put("text", &t!("trials-note-of-step", n = done.position, told = told.join(", ")));
    form.refuse("text", t!("trials-save-it-as-a-note"));
}

fn parse(form: &mut Form) -> StepDone {
    let solution = form.text("solution", 40);
    StepDone {
        position: form.must_whole("step", 1..=99),
        skipped: form.ticked("skipped"),
        minutes: form.whole("minutes", 0..=43_200),
        percent: form.decimal("percent", 0.01..=100.0),
        solution: (!solution.is_empty()).then_some(SolutionId(solution)),
        note: form.text("note", 2000),
    }
}

/// In the order of their ids, so that two saves never wait for each other's locks.
fn trials(id: &TrialId, form: &Form) -> Vec<TrialId> {
    let mut trials: Vec<TrialId> = form.values("also").into_iter().map(|t| TrialId(t.to_owned())).collect();
    trials.push(id.clone());
    trials.sort();
    trials.dedup();
    trials
}

async fn all(conn: &mut Conn, act: &Act<'_>, trials: &[TrialId], done: &StepDone) -> Result<(), AppError> {
    for trial in trials {
        let own = Act::new(act.member, act.save_key, act.at, act.now);
        store::step_done(conn, &own, trial, done).await?;
    }
    Ok(())
}

/// POST /trials/{id}/note: a note, or that the seeds were treated again.
pub async fn note(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<TrialId>,
    mut form: Form,
) -> Result<Response, AppError> {
    let sort = form.one_of("sort", &NOTES);
    let text = if sort == "note" { form.must_text("text", 2000) } else { form.text("text", 2000) };
    if form.failed() {
        return pages::draw_show(&app, &chrome, &id, &form).await;
    }
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "trial note", &form).await? {
        return Ok(again);
    }
    let act = Act::new(&chrome.member.id, form.key(), app.now(), app.now());
    let saved = store::event(&mut conn, &act, &id, sort, &text).await;
    if form.take(saved)?.is_none() {
        drop(conn);
        return pages::draw_show(&app, &chrome, &id, &form).await;
    }
    let said = Said::new(t!("trials-noted")).undo(form.key());
    once::done(conn, &app, &form, &format!("/trials/{id}"), said).await
}
