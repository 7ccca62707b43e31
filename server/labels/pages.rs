use super::draw;
use super::measures::{self, Measures};
use super::sheet;
use super::store;
use super::things::{self, Choice, Wanted};
use crate::app::App;
use crate::db::Conn;
use crate::db::ids::TrialId;
use crate::error::AppError;
use crate::trials::store as trials;
use crate::web::chrome::Chrome;
use crate::web::page;
use askama::Template;
use axum::extract::{Path, Query, State};
use axum::http::header::{CACHE_CONTROL, CONTENT_TYPE};
use axum::response::{IntoResponse, Response};

type Asked = Query<Vec<(String, String)>>;

/// A sheet of labels to choose: one's own, an organiser's, or one that comes with the program.
pub struct Paper {
    pub id: String,
    pub name: String,
    pub own: bool,
    pub measures: Measures,
}

/// Every sheet the member may print on, the first being the one to offer.
pub async fn papers(conn: &mut Conn, chrome: &Chrome) -> Result<Vec<Paper>, AppError> {
    let kept = store::sheets(conn, &chrome.member.id).await?.into_iter();
    let mut papers: Vec<Paper> =
        kept.map(|s| Paper { id: s.id.0, name: s.name, own: s.own, measures: s.measures }).collect();
    let mut presets = measures::presets();
    if chrome.member.us() {
        presets.swap(0, 1);
    }
    papers.extend(presets.into_iter().map(|p| Paper {
        id: p.id.to_owned(),
        name: p.measures.words(),
        own: false,
        measures: p.measures,
    }));
    Ok(papers)
}

/// What to print on, and from where.
struct Onto {
    papers: Vec<Paper>,
    chosen: usize,
    /// The first free label, from 1; as it was typed, and what is wrong with that.
    first: usize,
    typed: String,
    wrong: String,
    /// Outlines, to cut from plain paper.
    lines: bool,
}

impl Onto {
    async fn asked(app: &App, chrome: &Chrome, query: &[(String, String)]) -> Result<Self, AppError> {
        let papers = papers(&mut app.db.read().await?, chrome).await?;
        let value = |name: &str| query.iter().find(|(n, _)| n == name).map(|(_, v)| v.trim());
        let chosen = value("sheet").and_then(|id| papers.iter().position(|p| p.id == id)).unwrap_or(0);
        let labels = papers.get(chosen).map_or(1, |p| p.measures.labels());
        let typed = value("first").filter(|v| !v.is_empty()).unwrap_or("1").to_owned();
        let first = typed.parse().ok().filter(|n| (1..=labels).contains(n));
        let wrong = match first {
            Some(_) => String::new(),
            None => t!("labels-first-from-one-to", n = labels),
        };
        let first = first.unwrap_or(1);
        Ok(Self { chosen, first, typed, wrong, lines: value("lines").is_some_and(|v| !v.is_empty()), papers })
    }

    fn measures(&self) -> Result<&Measures, AppError> {
        Ok(&self.papers.get(self.chosen).ok_or(AppError::NotFound)?.measures)
    }

    fn is_chosen(&self, paper: &Paper) -> bool {
        self.papers.get(self.chosen).is_some_and(|p| p.id == paper.id)
    }
}

#[derive(Template)]
#[template(path = "labels/choose.html")]
struct Choose<'a> {
    chrome: &'a Chrome,
    groups: Vec<(&'static str, Vec<Choice>)>,
    onto: Onto,
}

/// GET /labels
pub async fn choose(State(app): State<App>, chrome: Chrome) -> Result<Response, AppError> {
    let (groups, onto) = (things::choices(&app, &chrome).await?, Onto::asked(&app, &chrome, &[]).await?);
    page::page(&Choose { chrome: &chrome, groups, onto })
}

#[derive(Template)]
#[template(path = "labels/sheet.html")]
struct Printed<'a> {
    chrome: &'a Chrome,
    /// The page's own address, and the fields that ask for the same again.
    address: &'a str,
    fields: Vec<(&'static str, &'a str)>,
    measures: &'a Measures,
    onto: &'a Onto,
    labels: usize,
    left_off: usize,
    sheets: Vec<String>,
}

/// GET /labels/print?trial=..&pot=..&tray=..&sheet=..&first=..&lines=
pub async fn print(
    State(app): State<App>,
    chrome: Chrome,
    Query(query): Asked,
) -> Result<Response, AppError> {
    let onto = Onto::asked(&app, &chrome, &query).await?;
    printed(&app, &chrome, &Wanted::asked(&query), "/labels/print", &onto).await
}

/// GET /trials/{id}/labels?sheet=..&first=..&lines=
pub async fn of_trial(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<TrialId>,
    Query(query): Asked,
) -> Result<Response, AppError> {
    trials::trial(&mut app.db.read().await?, &chrome.member.id, &id).await?;
    let address = format!("/trials/{id}/labels");
    let onto = Onto::asked(&app, &chrome, &query).await?;
    printed(&app, &chrome, &Wanted { trials: vec![id], ..Wanted::default() }, &address, &onto).await
}

async fn printed(
    app: &App,
    chrome: &Chrome,
    wanted: &Wanted,
    address: &str,
    onto: &Onto,
) -> Result<Response, AppError> {
    let labels = things::labels(app, chrome, wanted).await?;
    let measures = onto.measures()?;
    let stock = measures.stock();
    let drawn = labels.iter().map(|l| (t!("labels-label-of", mark = l.mark), draw::label(stock, l)));
    let mut places: Vec<_> =
        std::iter::repeat_with(|| None).take(onto.first - 1).chain(drawn.map(Some)).collect();
    let left_off = places.iter().flatten().filter(|(_, d)| d.left_off).count();
    if labels.is_empty() {
        places.clear();
    }
    let shown = Printed {
        chrome,
        address,
        fields: if address == "/labels/print" { wanted.fields() } else { Vec::new() },
        measures,
        onto,
        labels: labels.len(),
        left_off,
        sheets: places.chunks(measures.labels()).map(|p| sheet::page(measures, p, onto.lines)).collect(),
    };
    if onto.wrong.is_empty() || labels.is_empty() { page::page(&shown) } else { page::refused(&shown) }
}

/// GET /labels/paper/{size}: the style sheet that sets the paper, such as `210x297.css`, in mm.
pub async fn paper(_: Chrome, Path(size): Path<String>) -> Result<Response, AppError> {
    let (width, height) = read_size(&size).ok_or(AppError::NotFound)?;
    let (width, height) = (sheet::asked_for(width), sheet::asked_for(height));
    let css = format!("@page labels {{ size: {width}mm {height}mm; margin: 0; }}\n");
    let headers = [(CONTENT_TYPE, "text/css; charset=utf-8"), (CACHE_CONTROL, "private, max-age=31536000")];
    Ok((headers, css).into_response())
}

fn read_size(size: &str) -> Option<(f64, f64)> {
    let (width, height) = size.strip_suffix(".css")?.split_once('x')?;
    let side = |text: &str| text.parse::<f64>().ok().filter(|mm| (10.0..=1000.0).contains(mm));
    Some((side(width)?, side(height)?))
}
