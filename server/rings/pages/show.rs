use super::{draw_plan, draw_running};
use crate::app::App;
use crate::db::ids::RingId;
use crate::error::AppError;
use crate::rates::links::Links;
use crate::rings::model::{Grower, Lot, Part, Ring, Stage};
use crate::rings::result::{self, Compared, Found};
use crate::rings::store;
use crate::web::away::away;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::{page, words};
use askama::Template;
use axum::extract::{Path, State};
use axum::response::Response;
use hilum_calc::table::Row;

/// GET /rings/{id}: the plan, the progress or the result.
pub async fn show(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<RingId>,
) -> Result<Response, AppError> {
    let mut conn = app.db.read().await?;
    let ring = store::ring(&mut conn, &id).await?;
    let takes_part = store::takes_part(&mut conn, &id, &chrome.member.id).await?;
    drop(conn);
    let organiser = chrome.member.is_organiser();
    match ring.stage() {
        Stage::Opened => opened(&app, &chrome, &ring).await,
        Stage::Running if organiser || takes_part => draw_running(&app, &chrome, &ring, &Form::new()).await,
        Stage::Planned if organiser => draw_plan(&app, &chrome, &ring, &Form::new()).await,
        Stage::GivenUp if organiser => page::page(&GivenUp { chrome: &chrome, ring: &ring }),
        _ => Err(AppError::NotFound),
    }
}

#[derive(Template)]
#[template(path = "rings/given_up.html")]
struct GivenUp<'a> {
    chrome: &'a Chrome,
    ring: &'a Ring,
}

/// A lot's rate as it is read, with the ends of its line in the drawing.
struct Rate {
    name: String,
    rate: String,
    span: String,
    seeds: String,
    at: f64,
    low: f64,
    high: f64,
    y: usize,
}

#[derive(Template)]
#[template(path = "rings/result.html")]
struct Opened<'a> {
    chrome: &'a Chrome,
    ring: &'a Ring,
    names: Vec<String>,
    rates: Vec<Rate>,
    height: usize,
    shown: Vec<&'a Compared>,
    not_shown: Vec<&'a Compared>,
    found: &'a Found,
    variety_page: String,
    key: Vec<(&'a Part, String)>,
    when: String,
}

async fn opened(app: &App, chrome: &Chrome, ring: &Ring) -> Result<Response, AppError> {
    let mut conn = app.db.read().await?;
    let (lots, growers) =
        (store::lots(&mut conn, &ring.id).await?, store::growers(&mut conn, &ring.id).await?);
    let parts = store::parts(&mut conn, &ring.id).await?;
    let bags = store::counts::bags(&mut conn, &ring.id).await?;
    drop(conn);
    let names = crate::rings::model::names(&lots);
    let found = computed(ring.clone(), lots, growers, bags).await?;
    let rates = rates(&found.rows);
    let (shown, not_shown): (Vec<&Compared>, Vec<&Compared>) = found.compared.iter().partition(|c| c.shown);
    let name =
        |p: &Part| usize::try_from(p.place).ok().and_then(|i| names.get(i)).cloned().unwrap_or_default();
    let when = ring.opened_at.map(|at| words::moment(at, chrome.now, chrome.member.zone()));
    page::page(&Opened {
        chrome,
        ring,
        height: 40 * rates.len() + 30,
        rates,
        shown,
        not_shown,
        found: &found,
        variety_page: Links::of((&ring.kind, &ring.variety, ""), true).variety,
        key: parts.iter().map(|p| (p, name(p))).collect(),
        names: names.clone(),
        when: when.unwrap_or_default(),
    })
}

async fn computed(
    ring: Ring,
    lots: Vec<Lot>,
    growers: Vec<Grower>,
    bags: Vec<store::counts::RingBag>,
) -> Result<Found, AppError> {
    let work = move || result::found(&ring, &lots, &growers, &bags);
    away(work).await?
}

/// Best first; in a drawing of 400 units in which 0 % stands at 20 and 100 % at 380.
fn rates(rows: &[Row]) -> Vec<Rate> {
    let x = |share: f64| (20.0 + 360.0 * share).round();
    let mut rows: Vec<(&Row, f64)> = rows.iter().filter_map(|r| Some((r, r.rate?))).collect();
    rows.sort_by(|a, b| b.1.total_cmp(&a.1));
    let line = |(i, (r, rate)): (usize, (&Row, f64))| {
        let [rate_words, low, high] = [rate, r.low, r.high].map(|share| format!("{:.0}", 100.0 * share));
        Rate {
            name: r.source.clone(),
            rate: format!("{rate_words} %"),
            span: t!("rates-span", low = low, high = high),
            seeds: t!("rings-rooted-of-seeds", x = r.rooted, n = r.seeds, growers = r.growers),
            at: x(rate),
            low: x(r.low),
            high: x(r.high),
            y: 40 * i + 30,
        }
    };
    rows.into_iter().enumerate().map(line).collect()
}
