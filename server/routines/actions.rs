use super::model::{self, MOST_STEPS, NewRoutine, rows};
use super::solutions::{self, Made};
use super::{pages, said, store};
use crate::app::App;
use crate::db::Conn;
use crate::db::ids::RoutineId;
use crate::error::AppError;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::once;
use crate::web::said::Said;
use axum::extract::{Path, State};
use axum::response::Response;

const MORE_ROWS: i64 = 4;

/// The same form with more rows, when that was asked for.
fn more_rows(form: &Form) -> Option<Form> {
    form.ticked("more").then(|| {
        let start = Form::from_pairs(vec![("key".into(), form.key().into())])
            .with("rows", (rows(form) + MORE_ROWS).min(MOST_STEPS));
        let kept = form.pairs().filter(|(name, _)| name != "more" && name != "rows");
        kept.fold(start, |form, (name, value)| form.with(name, value))
    })
}

/// POST /routines/new
pub async fn add(State(app): State<App>, chrome: Chrome, mut form: Form) -> Result<Response, AppError> {
    if let Some(more) = more_rows(&form) {
        return pages::draw_edit(&chrome, None, &more);
    }
    let new = NewRoutine::parse(&mut form, chrome.member.us());
    if form.failed() {
        return pages::draw_edit(&chrome, None, &form);
    }
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "add routine", &form).await? {
        return Ok(again);
    }
    let added = store::add(&mut conn, &chrome.member.id, &new, app.now()).await;
    match form.take(added)? {
        Some(id) => {
            let said = Said::new(t!("routines-saved-named", routine = said::name(&new.name)))
                .next(format!("/trials/new?routine={id}"), t!("routines-start-a-trial"));
            once::done(conn, &app, &form, &format!("/routines/{id}"), said).await
        }
        None => pages::draw_edit(&chrome, None, &form),
    }
}

/// POST /routines/{id}/edit
pub async fn edit(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<RoutineId>,
    mut form: Form,
) -> Result<Response, AppError> {
    let routine = store::routine(&mut app.db.read().await?, &id).await?.ok_or(AppError::NotFound)?;
    if !pages::may_edit(&chrome, &routine) {
        return Err(AppError::NotFound);
    }
    if let Some(more) = more_rows(&form) {
        return pages::draw_edit(&chrome, Some(&routine), &more);
    }
    let new = NewRoutine::parse(&mut form, chrome.member.us());
    if form.failed() {
        return pages::draw_edit(&chrome, Some(&routine), &form);
    }
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "edit routine", &form).await? {
        return Ok(again);
    }
    if met(&mut conn, &chrome, &id, &mut form).await? {
        drop(conn);
        return pages::draw_edit(&chrome, Some(&routine), &form);
    }
    let saved = store::edit(&mut conn, &chrome.member, &id, &new, app.now()).await;
    match form.take(saved)? {
        Some(number) if number > routine.number => {
            let text = t!("routines-saved-as-version", number = number);
            once::done(conn, &app, &form, &format!("/routines/{id}"), Said::new(text)).await
        }
        Some(_) => {
            let said = Said::new(t!("routines-saved"));
            once::done(conn, &app, &form, &format!("/routines/{id}"), said).await
        }
        None => pages::draw_edit(&chrome, Some(&routine), &form),
    }
}

/// Locks the routine and tells beside each field what was saved of it since its page was drawn; true where there is
/// something to tell.
async fn met(conn: &mut Conn, chrome: &Chrome, id: &RoutineId, form: &mut Form) -> Result<bool, AppError> {
    let by = store::lock(conn, id).await?;
    let (routine, steps) = pages::with_steps(conn, id).await?;
    let us = chrome.member.us();
    let stands = model::filled(&routine.name, &routine.note, &steps, us).remembered();
    let told = form.meets(&stands, by.as_deref(), |field, value| match field {
        act if act.starts_with("act_") && value.is_empty() => Some(t!("routines-no-step").to_owned()),
        act if act.starts_with("act_") => Some(t!("routines-quoted", act = model::act_words(value))),
        _ => None,
    });
    let most = rows(form).max(rows(&stands));
    form.put("rows", &most.to_string());
    for n in 1..=most {
        for (field, label) in model::fields() {
            form.about(&format!("{field}_{n}"), &t!("routines-field-of-step", n = n, field = label));
        }
    }
    Ok(told)
}

/// POST /routines/{id}/retire; with `back` it is taken into use again.
pub async fn retire(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<RoutineId>,
    form: Form,
) -> Result<Response, AppError> {
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "retire routine", &form).await? {
        return Ok(again);
    }
    let back = form.ticked("back");
    store::retire(&mut conn, &chrome.member, &id, (!back).then(|| app.now())).await?;
    let text = if back { t!("routines-in-use-again") } else { t!("routines-now-retired") };
    once::done(conn, &app, &form, &format!("/routines/{id}"), Said::new(text)).await
}

/// POST /mix: the solution was made.
pub async fn made(State(app): State<App>, chrome: Chrome, mut form: Form) -> Result<Response, AppError> {
    let wanted = pages::wanted(&mut form);
    let made = Made::parse(&mut form, chrome.member.zone(), app.now());
    if form.failed() {
        return pages::draw_mix(&app, &chrome, &form, Some(&wanted)).await;
    }
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "solution made", &form).await? {
        return Ok(again);
    }
    solutions::add(&mut conn, &chrome.member.id, &wanted, &made, app.now()).await?;
    let said = Said::new(t!("routines-noted-as-made", agent = wanted.agent))
        .next("/trials", t!("routines-your-trials"));
    once::done(conn, &app, &form, "/mix", said).await
}
