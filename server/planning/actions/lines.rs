//! Lines added, and accepted together.

use crate::app::App;
use crate::db::Conn;
use crate::db::ids::LineId;
use crate::error::AppError;
use crate::planning::entry::{FIELDS, NewLine, Typed, pasted};
use crate::planning::model::{MOST_LINES, Plan};
use crate::planning::pages::enter::{self, ListFault, MOST_ROWS};
use crate::planning::read::Season;
use crate::planning::{sentences, store};
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::once;
use crate::web::said::Said;
use axum::extract::State;
use axum::response::Response;
use chrono::NaiveDate;

/// POST /plan/lines: adds every line that was typed or pasted, or none.
pub async fn add(State(app): State<App>, chrome: Chrome, mut form: Form) -> Result<Response, AppError> {
    let mut reader = app.db.read().await?;
    let plan = named(&mut reader, &chrome, &form).await?;
    if form.ticked("more") {
        return enter::draw(&mut reader, &chrome, &plan, (&more(&form), &[])).await;
    }
    let names = enter::names(&mut reader, &chrome).await?;
    let there = store::lines(&mut reader, &chrome.member.id, &plan.id).await?.len();
    let (mut new, mut faults) = (Vec::new(), Vec::new());
    for n in 1..=enter::rows(&form) {
        typed_row(&mut form, n, &names, &mut new);
    }
    for (line, typed) in pasted(form.value("list")) {
        match names.read(&typed) {
            Ok(read) => new.push(read),
            Err(found) => faults.extend(found.into_iter().map(|(_, message)| ListFault { line, message })),
        }
    }
    if !faults.is_empty() {
        form.refuse("list", t!("planning-list-not-read"));
    } else if new.is_empty() && !form.failed() {
        form.refuse("variety_1", t!("planning-type-a-line"));
    } else if there + new.len() > MOST_LINES {
        form.refuse("list", t!("planning-most-lines", n = MOST_LINES));
    }
    if form.failed() {
        return enter::draw(&mut reader, &chrome, &plan, (&form, &faults)).await;
    }
    drop(reader);
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "plan lines", &form).await? {
        return Ok(again);
    }
    store::add(&mut conn, &plan.id, &new, app.now()).await?;
    let said = Said::new(t!("planning-added", n = new.len()));
    once::done(conn, &app, &form, &format!("/plan?{}", plan.query()), said).await
}

/// The plan of the member's that the form names.
async fn named(conn: &mut Conn, chrome: &Chrome, form: &Form) -> Result<Plan, AppError> {
    let plans = store::plans(conn, &chrome.member.id).await?;
    plans.into_iter().find(|p| p.id.0 == form.value("plan")).ok_or(AppError::NotFound)
}

/// The same form with more rows.
fn more(form: &Form) -> Form {
    let rows = (enter::rows(form) + 6).min(MOST_ROWS);
    let start = Form::from_pairs(vec![("key".into(), form.key().into())]).with("rows", rows);
    let kept = form.pairs().filter(|(name, _)| name != "more" && name != "rows");
    kept.fold(start, |form, (name, value)| form.with(name, value))
}

fn typed_row(form: &mut Form, n: i64, names: &crate::planning::entry::Names, new: &mut Vec<NewLine>) {
    let field = |name: &str| format!("{name}_{n}");
    let typed = Typed(FIELDS.map(|name| form.value(&field(name)).to_owned()));
    if typed.is_empty() {
        return;
    }
    match names.read(&typed) {
        Ok(read) => new.push(read),
        Err(faults) => {
            for (name, message) in faults {
                form.about(&field(name), &t!("planning-line-n", n = n));
                form.refuse(&field(name), message);
            }
        }
    }
}

/// POST /plan/accept: accepts every ticked line with the numbers that its page showed.
pub async fn accept(State(app): State<App>, chrome: Chrome, form: Form) -> Result<Response, AppError> {
    let plan = named(&mut app.db.read().await?, &chrome, &form).await?;
    let query = [("plan".to_owned(), plan.id.0.clone())];
    let season = Season::read(&app, &chrome, &query).await?.ok_or(AppError::NotFound)?;
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "accept lines", &form).await? {
        return Ok(again);
    }
    let (mut lines, mut seeds, mut short) = (0, 0, 0);
    let ticked: Vec<LineId> = form.values("line").into_iter().map(|id| LineId(id.to_owned())).collect();
    for id in &ticked {
        let Some(entry) = season.entries.iter().find(|e| e.line.id == *id && e.is_open()) else { continue };
        let shown = |name: &str| form.value(&format!("{name}_{id}"));
        let (wanted, start) = (shown("seeds").parse::<i64>(), shown("start").parse::<NaiveDate>());
        let (Ok(wanted @ 1..), Ok(start)) = (wanted, start) else { continue };
        let line = store::lock(&mut conn, &chrome.member.id, id).await?;
        let promise = super::line::Wanted { seeds: wanted, start_on: start, packet: None };
        if let Some(over) =
            super::line::promise(&mut conn, &chrome, &season, (&line, entry), &promise).await?
        {
            (lines, seeds, short) = (lines + 1, seeds + wanted, short + over);
        }
    }
    let said = Said::new(accepted(lines, seeds, short));
    once::done(conn, &app, &form, &format!("/plan?{}", plan.query()), said).await
}

fn accepted(lines: i64, seeds: i64, short: i64) -> String {
    if lines == 0 {
        return t!("planning-nothing-accepted").to_owned();
    }
    let over = (short > 0).then(|| t!("planning-of-them-short", n = short));
    let accepted = t!("planning-accepted-lines", lines = lines, seeds = seeds);
    sentences([Some(accepted), over, Some(t!("planning-stand-on-due-now").to_owned())])
}
