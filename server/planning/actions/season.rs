use crate::app::App;
use crate::error::AppError;
use crate::planning::pages::season as page;
use crate::planning::store;
use crate::routines;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::once;
use crate::web::said::Said;
use axum::extract::State;
use axum::response::Response;

/// POST /plan/season: makes a plan, or changes what it is reckoned with.
pub async fn save(State(app): State<App>, chrome: Chrome, mut form: Form) -> Result<Response, AppError> {
    let mut plan = page::read(&mut form, chrome.member.us());
    let mut reader = app.db.read().await?;
    let routine = routines::store::routine(&mut reader, &plan.routine_id).await?;
    if routine.as_ref().is_none_or(|r| r.retired_at.is_some()) {
        form.refuse("routine", t!("planning-choose-one"));
    }
    if form.failed() {
        return page::draw(&mut reader, &chrome, &form).await;
    }
    drop(reader);
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "plan", &form).await? {
        return Ok(again);
    }
    let is_new = plan.id.0.is_empty();
    if !is_new {
        let stands = store::lock_plan(&mut conn, &chrome.member.id, &plan.id).await?;
        let typed = routine.as_ref().map_or("", |r| r.shown_name());
        if page::meets(&mut form, &stands, typed, chrome.member.us()) {
            drop(conn);
            return page::draw(&mut app.db.read().await?, &chrome, &form).await;
        }
    }
    let saved = if is_new {
        store::make(&mut conn, &chrome.member.id, &plan, app.now()).await
    } else {
        store::change(&mut conn, &chrome.member.id, &plan).await.map(|()| plan.id.clone())
    };
    let Some(id) = form.take(saved)? else {
        drop(conn);
        return page::draw(&mut app.db.read().await?, &chrome, &form).await;
    };
    plan.id = id;
    let (to, said) = if is_new {
        (format!("/plan/lines?{}", plan.query()), t!("planning-plan-is-made", name = plan.name))
    } else {
        (format!("/plan?{}", plan.query()), t!("planning-plan-saved").to_owned())
    };
    once::done(conn, &app, &form, &to, Said::new(said)).await
}
