use super::draw::{self, Label, Stock};
use super::store;
use crate::app::App;
use crate::bags::model::Bag;
use crate::bags::store as bags;
use crate::db::ids::TrialId;
use crate::error::AppError;
use crate::marks;
use crate::trials::store::{self as trials, Listed};
use crate::web::chrome::Chrome;
use crate::web::{code, page, words};
use askama::Template;
use axum::extract::{Path, Query, State};
use axum::response::{IntoResponse, Redirect, Response};

type Asked = Query<Vec<(String, String)>>;

/// A trial to print labels for, as it is chosen.
struct Choice {
    trial: Listed,
    has: String,
}

#[derive(Template)]
#[template(path = "labels/choose.html")]
struct Choose<'a> {
    chrome: &'a Chrome,
    choices: Vec<Choice>,
    letter: bool,
    first: usize,
}

/// GET /labels
pub async fn choose(State(app): State<App>, chrome: Chrome) -> Result<Response, AppError> {
    let mut conn = app.db.read().await?;
    let running = trials::running(&mut conn, &chrome.member.id).await?;
    let open = bags::open(&mut conn, &chrome.member.id).await?;
    let choice = |trial: Listed| {
        let bags = open.iter().filter(|b| b.trial_id == trial.id).count() as i64;
        let vial = (trial.soaking > 0).then(|| "1 vial".to_owned());
        let bags = (bags > 0).then(|| words::counted(bags, "bag", "bags"));
        let has: Vec<String> = vial.into_iter().chain(bags).collect();
        Choice { trial, has: words::and(&has) }
    };
    let choices = running.into_iter().map(choice).filter(|c| !c.has.is_empty()).collect();
    page::page(&Choose { letter: chrome.member.us(), first: 1, choices, chrome: &chrome })
}

/// What to print on.
struct Sheet {
    letter: bool,
    /// The first free label, from 1.
    first: usize,
}

impl Sheet {
    fn asked(chrome: &Chrome, query: &[(String, String)]) -> Self {
        let value = |name: &str| query.iter().find(|(n, _)| n == name).map(|(_, v)| v.trim());
        let letter = value("paper").map_or(chrome.member.us(), |p| p == "letter");
        let first = value("first").and_then(|v| v.parse().ok()).unwrap_or(1);
        let mut sheet = Self { letter, first: 1 };
        sheet.first = first.clamp(1, sheet.labels());
        sheet
    }

    fn stock(&self) -> Stock {
        if self.letter { draw::LETTER } else { draw::A4 }
    }

    fn labels(&self) -> usize {
        if self.letter { 30 } else { 24 }
    }

    /// Labels as they lie on sheets, behind those that are used already.
    fn laid_out(&self, labels: Vec<String>) -> Vec<Vec<String>> {
        let all: Vec<String> = std::iter::repeat_n(String::new(), self.first - 1).chain(labels).collect();
        all.chunks(self.labels()).map(<[String]>::to_vec).collect()
    }
}

#[derive(Template)]
#[template(path = "labels/sheet.html")]
struct Printed<'a> {
    chrome: &'a Chrome,
    /// The page's own address, and the trials it was asked for.
    address: &'a str,
    trials: &'a [TrialId],
    letter: bool,
    first: usize,
    labels: usize,
    sheets: Vec<Vec<String>>,
}

/// GET /labels/print?trial=..&trial=..&paper=a4|letter&first=
pub async fn print(
    State(app): State<App>,
    chrome: Chrome,
    Query(query): Asked,
) -> Result<Response, AppError> {
    let wanted: Vec<TrialId> =
        query.iter().filter(|(n, _)| n == "trial").map(|(_, v)| TrialId(v.clone())).collect();
    printed(&app, &chrome, &wanted, "/labels/print", &Sheet::asked(&chrome, &query)).await
}

/// GET /trials/{id}/labels?paper=a4|letter&first=
pub async fn of_trial(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<TrialId>,
    Query(query): Asked,
) -> Result<Response, AppError> {
    trials::trial(&mut app.db.read().await?, &chrome.member.id, &id).await?;
    let address = format!("/trials/{id}/labels");
    printed(&app, &chrome, &[id], &address, &Sheet::asked(&chrome, &query)).await
}

async fn printed(
    app: &App,
    chrome: &Chrome,
    wanted: &[TrialId],
    address: &str,
    sheet: &Sheet,
) -> Result<Response, AppError> {
    let labels = labels(app, chrome, wanted).await?;
    let drawn = labels.iter().map(|l| draw::label(sheet.stock(), l)).collect();
    page::page(&Printed {
        chrome,
        address,
        trials: if address == "/labels/print" { wanted } else { &[] },
        letter: sheet.letter,
        first: sheet.first,
        labels: labels.len(),
        sheets: sheet.laid_out(drawn),
    })
}

/// For each of the member's wanted trials a vial where seeds are in the soak, then its open bags.
async fn labels(app: &App, chrome: &Chrome, wanted: &[TrialId]) -> Result<Vec<Label>, AppError> {
    let mut conn = app.db.read().await?;
    let member = &chrome.member.id;
    let running = trials::running(&mut conn, member).await?;
    let open = bags::open(&mut conn, member).await?;
    let numbers = store::numbers(&mut conn, member).await?;
    drop(conn);
    let mut running: Vec<&Listed> = running.iter().filter(|t| wanted.contains(&t.id)).collect();
    running.sort_by_key(|t| (marks::fold(&t.mark).len(), marks::fold(&t.mark), t.id.clone()));
    let mut labels = Vec::new();
    for trial in running {
        let number = numbers.iter().find(|n| n.id == trial.id);
        labels.extend(number.map(|n| vial_label(app, trial, n.number)));
        let bags = open.iter().filter(|b| b.trial_id == trial.id);
        labels.extend(bags.map(|b| bag_label(app, chrome, b)));
    }
    Ok(labels)
}

fn vial_label(app: &App, trial: &Listed, number: i64) -> Label {
    let address = format!("{}/V/{}-{number}", app.config.base(), marks::fold(&trial.mark));
    let mut seeds = words::seeds(trial.soaking);
    if number > 1 || trial.pair.is_some() {
        // vials of one packet carry the same mark
        seeds.push_str(&format!(", vial {number}"));
    }
    Label {
        mark: trial.mark.clone(),
        variety: trial.variety.clone(),
        words: vec![trial.routine.clone(), seeds],
        code: code::symbol(&address),
        damp: false,
    }
}

fn bag_label(app: &App, chrome: &Chrome, bag: &Bag) -> Label {
    let address = format!("{}/L/{}", app.config.base(), marks::fold(&bag.mark));
    let day = bag.on_paper_at.local(chrome.member.zone()).format("%-d %b %Y");
    let seeds =
        if bag.floaters { words::counted(bag.seeds, "floater", "floaters") } else { words::seeds(bag.seeds) };
    Label {
        mark: bag.mark.clone(),
        variety: bag.variety.clone(),
        words: vec![seeds, day.to_string()],
        code: code::symbol(&address),
        damp: true,
    }
}

/// GET /V/{vial}: the trial whose vial was scanned, such as `JB42-1`.
pub async fn vial(
    State(app): State<App>,
    chrome: Chrome,
    Path(vial): Path<String>,
) -> Result<Response, AppError> {
    let (mark, number) = vial.rsplit_once('-').ok_or(AppError::NotFound)?;
    let number = number.parse().ok().filter(|n| (1..=100_000).contains(n)).ok_or(AppError::NotFound)?;
    let mut conn = app.db.read().await?;
    let trial = store::of_vial(&mut conn, &chrome.member.id, &marks::fold(mark), number).await?;
    Ok(Redirect::to(&format!("/trials/{trial}")).into_response())
}
