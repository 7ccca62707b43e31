use crate::app::App;
use crate::db::ids::RingId;
use crate::error::AppError;
use crate::rings::model::{
    self, Asked, MOST_BAG_SEEDS, MOST_BAGS, MOST_LOTS, Ring, Stage, USUAL_LOTS, certainties,
};
use crate::rings::pages::{draw_plan, filled, new as page};
use crate::rings::plan::{Known, Plan};
use crate::rings::store::{self, Numbers};
use crate::web::away::away;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::once;
use crate::web::said::Said;
use axum::extract::{Path, State};
use axum::response::Response;
use hilum_calc::blocks::Design;

/// POST /rings/new
pub async fn new(State(app): State<App>, chrome: Chrome, mut form: Form) -> Result<Response, AppError> {
    chrome.member.must_organise()?;
    let mut reader = app.db.read().await?;
    let offers = page::offers(&mut reader, form.value("variety")).await?;
    let closed = store::counts::closed(&mut reader).await?;
    drop(reader);
    let asked = model::asked(&mut form, &offers.lots, &offers.members);
    model::check_name(&mut form, &offers.variety.name, &offers.lots);
    let known = Known::of(&closed, &offers.variety.id.0, &offers.variety.kind_id.0);
    let numbers = if form.failed() { None } else { proposed(&mut form, &asked, known).await? };
    let Some(numbers) = numbers else { return page::draw(&chrome, &offers, &form) };
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "new ring trial", &form).await? {
        return Ok(again);
    }
    let by = (&chrome.member.id, app.now());
    let id = store::make(&mut conn, by, &offers.variety.root_id, &asked, numbers).await?;
    let said = Said::new(t!("rings-planned", name = asked.name));
    once::done(conn, &app, &form, &format!("/rings/{id}"), said).await
}

/// The numbers that the app proposes; `None` with the refusal noted where there is no plan.
async fn proposed(form: &mut Form, asked: &Asked, known: Known) -> Result<Option<Numbers>, AppError> {
    let (lots, growers) = (asked.packets.len(), asked.growers.len());
    let least = (lots - 1).div_ceil(growers) + 1;
    let each = asked.lots_each.unwrap_or_else(|| USUAL_LOTS.max(least).min(lots));
    let aim = (asked.difference, asked.certainty);
    let work = move || Plan::propose((lots, growers, each), aim, known);
    let plan = away(work).await?;
    Ok(plan.map(|p| p.numbers).map_err(|why| form.refuse("lots_each", why)).ok())
}

/// POST /rings/{id}/numbers: the organiser's own numbers.
pub async fn numbers(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<RingId>,
    mut form: Form,
) -> Result<Response, AppError> {
    chrome.member.must_organise()?;
    let mut reader = app.db.read().await?;
    let ring = store::ring(&mut reader, &id).await?;
    let (lots, growers) = (store::lots(&mut reader, &id).await?, store::growers(&mut reader, &id).await?);
    drop(reader);
    let numbers = typed(&mut form, lots.len());
    let each = usize::try_from(numbers.lots_each).unwrap_or(2);
    if !form.failed() {
        let found = linked(lots.len(), growers.len(), each);
        if let Err(why) = found {
            form.refuse("lots_each", why);
        }
    }
    if form.failed() {
        return draw_plan(&app, &chrome, &ring, &form).await;
    }
    let mut conn = app.db.write().await?;
    if let Some(again) = once::claim(&mut conn, &app, &chrome.member, "ring trial numbers", &form).await? {
        return Ok(again);
    }
    let stands = store::lock(&mut conn, &id).await?;
    planned(&stands)?;
    if form.meets(&filled(&stands), None, certainty) {
        drop(conn);
        return draw_plan(&app, &chrome, &stands, &form).await;
    }
    store::set_numbers(&mut conn, &id, numbers).await?;
    let said = Said::new(t!("rings-numbers-saved"));
    once::done(conn, &app, &form, &format!("/rings/{id}"), said).await
}

fn certainty(field: &str, value: &str) -> Option<String> {
    let found = certainties().into_iter().find(|(stored, _)| field == "certainty" && *stored == value);
    found.map(|(_, words)| t!("rings-quoted", words = words))
}

fn typed(form: &mut Form, lots: usize) -> Numbers {
    let (difference, certainty) = model::aim(form);
    let most = i64::try_from(lots.min(MOST_LOTS)).unwrap_or(2);
    Numbers {
        difference,
        certainty,
        lots_each: form.must_whole("lots_each", 2..=most),
        bags: form.must_whole("bags", 1..=MOST_BAGS),
        bag_seeds: form.must_whole("bag_seeds", 1..=MOST_BAG_SEEDS),
    }
}

/// Whether growers with so many lots each can link all lots; quick, since nothing is searched.
fn linked(lots: usize, growers: usize, each: usize) -> Result<(), String> {
    if growers * (each - 1) + 1 >= lots {
        return Ok(());
    }
    Err(crate::rings::plan::fault_words(&Design::find(lots, growers, each), lots, growers, each))
}

/// Refuses where the lots were drawn meanwhile.
pub fn planned(ring: &Ring) -> Result<(), AppError> {
    match ring.stage() {
        Stage::Planned => Ok(()),
        Stage::GivenUp => Err(AppError::Conflict(t!("rings-was-given-up").into())),
        _ => Err(AppError::Conflict(t!("rings-drawn-already").into())),
    }
}
