use crate::app::App;
use crate::db::Conn;
use crate::db::ids::{BagId, TrayId};
use crate::error::AppError;
use crate::trays::model::{REPLANTED, Tray};
use crate::trays::store;
use crate::trays::store::plant::{self, Plan, Ready};
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::{page, words};
use askama::Template;
use axum::extract::{Path, Query, State};
use axum::response::Response;

#[derive(Template)]
#[template(path = "trays/plant.html")]
struct Plant<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    ready: &'a Ready,
    unrooted: bool,
    most: i64,
    trays: Vec<(String, String)>,
    /// Which cells it will take.
    takes: String,
}

/// GET /bags/{id}/plant
pub async fn plant(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<BagId>,
    Query(query): Query<Vec<(String, String)>>,
) -> Result<Response, AppError> {
    let asked = |name: &str| query.iter().find(|(n, _)| n == name).map_or("", |(_, v)| v.as_str());
    let mut conn = app.db.read().await?;
    let ready = plant::ready(&mut conn, &chrome.member.id, &id).await?;
    let open = store::tray::open(&mut conn, &chrome.member.id).await?;
    let unrooted = asked("unrooted") == "yes";
    let tray = open.iter().find(|t| t.id.0 == asked("tray")).or(open.first());
    let form = Form::new()
        .with("unrooted", if unrooted { "yes" } else { "" })
        .with("tray", tray.map(|t| t.id.0.clone()).unwrap_or_default())
        .with("seeds", ready.most(unrooted))
        .with("per_cell", 1)
        .with("over", "")
        .with("at", words::input_moment(chrome.now, chrome.member.zone()));
    show(&mut conn, &chrome, &ready, form).await
}

/// The page with `form` on it, and in words which cells that would take.
pub(in crate::trays) async fn show(
    conn: &mut Conn,
    chrome: &Chrome,
    ready: &Ready,
    form: Form,
) -> Result<Response, AppError> {
    let unrooted = form.value("unrooted") == "yes";
    let open = store::tray::open(conn, &chrome.member.id).await?;
    let chosen = open.iter().find(|t| t.id.0 == form.value("tray"));
    let takes = match chosen {
        Some(tray) => takes(conn, tray, ready, &form).await?,
        None => String::new(),
    };
    let shown = Plant {
        chrome,
        form: &form,
        ready,
        unrooted,
        most: ready.most(unrooted),
        trays: open.iter().map(|t| (t.id.0.clone(), t.words())).collect(),
        takes,
    };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

async fn takes(conn: &mut Conn, tray: &Tray, ready: &Ready, form: &Form) -> Result<String, AppError> {
    let mut typed = form.clone();
    let asked = Asked::read(&mut typed, tray);
    if typed.failed() || asked.seeds > ready.most(asked.unrooted) {
        return Ok(String::new());
    }
    Ok(match plant::preview(conn, tray, &asked.plan(&ready.id)).await {
        Ok(cells) => {
            let seeds = words::seeds(asked.seeds);
            let (n, named) = (cells.len(), tray.geometry().words(&cells));
            t!("trays-takes", seeds = seeds, each = asked.per_cell, n = n, cells = named, tray = tray.mark)
        }
        Err(AppError::Refused { message, .. }) => message,
        Err(other) => return Err(other),
    })
}

/// What the form asks for.
pub struct Asked {
    pub tray: TrayId,
    pub seeds: i64,
    pub per_cell: i64,
    pub from: Option<i64>,
    pub unrooted: bool,
    pub over: Option<String>,
}

impl Asked {
    /// Reads the form; what is wrong is noted on it.
    pub fn read(form: &mut Form, tray: &Tray) -> Self {
        let over = form.one_of("over", &["", "yes"]) == "yes";
        let why = form.text("why", 150);
        let typed = form.text("cell", 10);
        let g = tray.geometry();
        let from = g.read(&typed);
        if from.is_none() && !typed.is_empty() {
            let last = g.name(g.cells());
            form.refuse("cell", t!("trays-no-such-cell", tray = tray.mark, last = last));
        }
        if over && typed.is_empty() {
            form.refuse("cell", t!("trays-name-the-first-cell"));
        }
        let why = if why.is_empty() { REPLANTED.to_owned() } else { why };
        Self {
            tray: tray.id.clone(),
            seeds: form.must_whole("seeds", 1..=100_000),
            per_cell: form.must_whole("per_cell", 1..=1_000),
            from,
            unrooted: form.value("unrooted") == "yes",
            over: over.then_some(why),
        }
    }

    pub fn plan<'a>(&'a self, bag: &'a BagId) -> Plan<'a> {
        Plan {
            bag,
            tray: &self.tray,
            seeds: self.seeds,
            per_cell: self.per_cell,
            from: self.from,
            unrooted: self.unrooted,
            over: self.over.as_deref(),
        }
    }
}
