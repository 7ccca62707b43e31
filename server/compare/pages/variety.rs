use super::super::model::{Answer, Reasons, Variety};
use super::super::read::{Club, value};
use super::group::{ShownGroup, shown};
use crate::app::App;
use crate::error::AppError;
use crate::rates::links::Links;
use crate::rates::name;
use crate::rates::rows::ClubRow;
use crate::rates::standing::adjusted_for;
use crate::rings;
use crate::web::chrome::Chrome;
use crate::web::page;
use crate::web::words::percent;
use askama::Template;
use axum::extract::{Query, State};
use axum::response::Response;

#[derive(Template)]
#[template(path = "compare/variety.html")]
struct ShowVariety<'a> {
    chrome: &'a Chrome,
    club: &'a Club,
    kind: &'a str,
    name: String,
    answer: Answer,
    adjusted_for: String,
    groups: Vec<ShownGroup>,
    /// Source, raw rate and its interval, where nothing is adjusted yet.
    raw: Vec<(String, String)>,
    /// Where an organiser sets up a ring trial of it; empty where nothing is open.
    ring: String,
    /// The same page by the other moment.
    other: String,
}

/// GET /table/variety?kind=..&variety=..&at=close
pub async fn variety(
    State(app): State<App>,
    chrome: Chrome,
    Query(query): Query<Vec<(String, String)>>,
) -> Result<Response, AppError> {
    let club = Club::read(&app, &chrome, &query).await?;
    let (kind, name) = (value(&query, "kind"), value(&query, "variety"));
    let of = |r: &&ClubRow| r.row.kind == kind && r.row.variety == name;
    let rows: Vec<&ClubRow> = club.table.rows.iter().filter(of).collect();
    let found = club.standing().and_then(|s| Some((s, Variety::named(s, &club.table, kind, name)?)));
    if rows.is_empty() && found.is_none() {
        return Err(AppError::NotFound);
    }
    let mut show = ShowVariety {
        chrome: &chrome,
        club: &club,
        kind,
        name: name::read(name),
        answer: Answer::default(),
        adjusted_for: String::new(),
        groups: Vec::new(),
        raw: Vec::new(),
        ring: String::new(),
        other: Links::of((kind, name, ""), !club.at_close).variety,
    };
    if let Some((standing, variety)) = &found {
        let sd_trial = standing.model.as_ref().map_or(0.0, |m| m.sd.trial);
        let reasons = Reasons::new(standing, &club.table, &club.book);
        show.answer = Answer::of(variety, sd_trial);
        if show.answer.open {
            show.ring = ring(&app, kind, name).await?;
        }
        show.adjusted_for = adjusted_for(standing);
        show.groups = (0..variety.groups.len()).map(|i| shown(&club, &reasons, variety, i)).collect();
    } else {
        show.raw = rows.iter().map(|r| (r.row.source.clone(), raw(r))).collect();
    }
    page::page(&show)
}

/// The set-up for the variety, or the choice of varieties where the club holds no seed of two of its lots.
async fn ring(app: &App, kind: &str, name: &str) -> Result<String, AppError> {
    let offered = rings::store::varieties(&mut app.db.read().await?).await?;
    let this = offered.iter().find(|v| v.kind == kind && v.name == name);
    Ok(this.map_or_else(|| "/rings/new".to_owned(), |v| format!("/rings/new?variety={}", v.id)))
}

fn raw(r: &ClubRow) -> String {
    let row = &r.row;
    let rate = row.rate.map_or_else(|| t!("rates-not-known-yet").to_owned(), |p| format!("{} %", percent(p)));
    t!("compare-raw-rate", rate = rate, low = percent(row.low), high = percent(row.high), seeds = row.seeds)
}
