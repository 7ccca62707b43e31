use crate::app::App;
use crate::db::ids::{PlantingId, TrayId};
use crate::error::AppError;
use crate::notebook::Act;
use crate::trays::model::{Found, LOST};
use crate::trays::pages::{self, planting::Forms};
use crate::trays::store;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::once;
use crate::web::said::Said;
use axum::extract::{Path, State};
use axum::response::Response;

/// POST /plantings/{id}/outcomes
pub async fn planting(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<PlantingId>,
    mut form: Form,
) -> Result<Response, AppError> {
    let found = found(&mut form);
    save(&app, &chrome, &id, form, &found, |news| Forms { news, ..Forms::default() }).await
}

/// POST /plantings/{id}/end
pub async fn end(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<PlantingId>,
    mut form: Form,
) -> Result<Response, AppError> {
    let why = form.must_text("end_why", 150);
    save(&app, &chrome, &id, form, &[Found::new("ended", 0, &why)], |end| Forms { end, ..Forms::default() })
        .await
}

async fn save(
    app: &App,
    chrome: &Chrome,
    id: &PlantingId,
    mut form: Form,
    found: &[Found],
    again: fn(Form) -> Forms,
) -> Result<Response, AppError> {
    let member = &chrome.member;
    let at = form.moment("at", member.zone(), app.now());
    if form.failed() {
        return pages::planting::show_planting(app, chrome, id, again(form)).await;
    }
    let mut conn = app.db.write().await?;
    if let Some(done) = once::claim(&mut conn, app, member, &format!("outcome of {id}"), &form).await? {
        return Ok(done);
    }
    let act = Act::new(&member.id, form.key(), at, app.now());
    let noted = store::outcome(&mut conn, &act, id, found).await;
    if form.take(noted)?.is_none() {
        drop(conn);
        return pages::planting::show_planting(app, chrome, id, again(form)).await;
    }
    let p = store::plantings::planting(&mut conn, &member.id, id).await?;
    let said = Said::new(t!("trays-noted", bag = p.bag, state = p.state()))
        .undo(form.key())
        .next(format!("/trays/{}", p.tray_id), t!("trays-the-whole-tray"));
    once::done(conn, app, &form, &format!("/plantings/{id}"), said).await
}

fn found(form: &mut Form) -> Vec<Found> {
    let why = why(form, form.value("lost").trim() != "0" && !form.value("lost").trim().is_empty());
    let fields = [
        ("up", "up", ""),
        ("lost", "lost", why.as_str()),
        ("thinned", "thinned", ""),
        ("potted", "potted on", ""),
    ];
    let mut found = Vec::new();
    for (field, sort, why) in fields {
        let seeds = form.whole(field, 0..=1_000).unwrap_or(0);
        if seeds > 0 {
            found.push(Found::new(sort, seeds, why));
        }
    }
    if found.is_empty() && !form.failed() {
        form.refuse("up", t!("trays-give-a-number"));
    }
    found
}

/// Why seeds are lost: one of the usual reasons, or words of one's own.
fn why(form: &mut Form, needed: bool) -> String {
    if !needed {
        return String::new();
    }
    match form.one_of("why", &LOST) {
        "other" => form.must_text("why_other", 150),
        usual => usual.to_owned(),
    }
}

/// POST /trays/{id}/outcomes
pub async fn tray(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<TrayId>,
    mut form: Form,
) -> Result<Response, AppError> {
    let member = &chrome.member;
    let sort = form.one_of("sort", &["up", "lost", "thinned", "potted on"]);
    let why = why(&mut form, sort == "lost");
    let at = form.moment("at", member.zone(), app.now());
    if form.values("planting").is_empty() {
        form.refuse("planting", t!("trays-tick-one-cell"));
    }
    if form.failed() {
        return pages::outcomes::show(&app, &chrome, &id, &form).await;
    }
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, member, &format!("outcomes of {id}"), &form).await? {
        return Ok(again);
    }
    let act = Act::new(&member.id, form.key(), at, app.now());
    let ticked = form.values("planting");
    let noted = store::outcomes::of_tray(&mut conn, &act, &id, &ticked, (sort, &why)).await;
    let noted = noted.and_then(|n| match n {
        0 => Err(AppError::refused("planting", t!("trays-nothing-left-in-ticked"))),
        n => Ok((n, ticked.len())),
    });
    let Some((noted, ticked)) = form.take(noted)? else {
        drop(conn);
        return pages::outcomes::show(&app, &chrome, &id, &form).await;
    };
    let said = Said::new(told(sort, noted, ticked)).undo(form.key());
    once::done(conn, &app, &form, &format!("/trays/{id}"), said).await
}

fn told(sort: &str, noted: usize, ticked: usize) -> String {
    let told = match sort {
        "up" => t!("trays-cells-noted-up", n = noted),
        "lost" => t!("trays-cells-noted-lost", n = noted),
        "thinned" => t!("trays-cells-noted-thinned", n = noted),
        _ => t!("trays-cells-noted-potted-on", n = noted),
    };
    match ticked.saturating_sub(noted) {
        0 => told,
        n => format!("{told} {}", t!("trays-nothing-left-in-others", n = n)),
    }
}
