use crate::app::App;
use crate::error::AppError;
use crate::rings::model::{Grower, Part, Ring, names};
use crate::rings::store;
use crate::stock::handed;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::{page, words};
use askama::Template;
use axum::response::Response;
use hilum_calc::blocks::Design;

/// A part as an organiser sees it; the lot only where they do not grow.
struct Line<'a> {
    part: &'a Part,
    lot: &'a str,
}

#[derive(Template)]
#[template(path = "rings/running.html")]
struct Running<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    quit: &'a Form,
    ring: &'a Ring,
    own: Vec<&'a Part>,
    /// Where those not started are started together; empty where fewer than two are left.
    together: String,
    /// Every part, for organisers.
    all: Vec<Line<'a>>,
    /// Whom seed can still be handed to: value and words.
    waiting: Vec<(String, String)>,
    /// An organiser who grows in it should not look at the key.
    grows: bool,
    closed: usize,
    handed: bool,
    linked: bool,
    pairs: Vec<(String, usize)>,
}

/// The progress page: all of it for organisers, their own parts for growers.
pub async fn draw(app: &App, chrome: &Chrome, ring: &Ring, form: &Form) -> Result<Response, AppError> {
    let mut conn = app.db.read().await?;
    let lots = store::lots(&mut conn, &ring.id).await?;
    let growers = store::growers(&mut conn, &ring.id).await?;
    let parts = store::parts(&mut conn, &ring.id).await?;
    drop(conn);
    let organiser = chrome.member.is_organiser();
    let grows = growers.iter().any(|g| g.member_id == chrome.member.id);
    let names = names(&lots);
    let place = |p: &Part| usize::try_from(p.place).unwrap_or(usize::MAX);
    let name = |p: &Part| if grows { "" } else { names.get(place(p)).map_or("", String::as_str) };
    let design = design(names.len(), &growers, &parts, place);
    let pairs = if organiser && !grows { pairs(&design, &names) } else { Vec::new() };
    let shown = Running {
        chrome,
        form,
        quit: &Form::new(),
        ring,
        together: together(parts.iter().filter(|p| p.member_id == chrome.member.id && p.waits())),
        own: parts.iter().filter(|p| p.member_id == chrome.member.id).collect(),
        all: if organiser {
            parts.iter().map(|part| Line { part, lot: name(part) }).collect()
        } else {
            Vec::new()
        },
        waiting: waiting(&growers, &parts),
        grows,
        closed: parts.iter().filter(|p| p.is_closed()).count(),
        handed: parts.iter().any(|p| p.handed > 0),
        linked: design.is_linked(),
        pairs,
    };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

fn together<'a>(waiting: impl Iterator<Item = &'a Part>) -> String {
    let packets: Vec<_> = waiting.map(|p| &p.packet_id).collect();
    if packets.len() < 2 { String::new() } else { handed::start_path(packets.into_iter()) }
}

fn design(lots: usize, growers: &[Grower], parts: &[Part], place: impl Fn(&Part) -> usize) -> Design {
    let block = |g: &Grower| parts.iter().filter(|p| p.member_id == g.member_id).map(&place).collect();
    Design::new(lots, growers.iter().map(block).collect())
}

fn pairs(design: &Design, names: &[String]) -> Vec<(String, usize)> {
    let indexed = || names.iter().enumerate();
    let pairs = indexed().flat_map(|a| indexed().skip(a.0 + 1).map(move |b| (a, b)));
    pairs.map(|((i, a), (j, b))| (words::and(&[a, b]), design.meetings(i, j))).collect()
}

fn waiting(growers: &[Grower], parts: &[Part]) -> Vec<(String, String)> {
    let waits = |g: &&Grower| parts.iter().any(|p| p.member_id == g.member_id && p.handed == 0);
    let mut all: Vec<(String, String)> =
        growers.iter().filter(waits).map(|g| (g.member_id.0.clone(), g.name.clone())).collect();
    if all.len() > 1 {
        all.insert(0, ("all".to_owned(), t!("rings-everybody").to_owned()));
    }
    all
}
