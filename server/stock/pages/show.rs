use super::decimal;
use crate::app::App;
use crate::db::Conn;
use crate::db::ids::PacketId;
use crate::error::AppError;
use crate::notebook::{self, history};
use crate::routines::said;
use crate::stock::model::Packet;
use crate::stock::promises::{self, Promise};
use crate::stock::{published, store};
use crate::web::chrome::Chrome;
use crate::web::{page, words};
use askama::Template;
use axum::extract::{Path, State};
use axum::response::Response;
use chrono::Datelike;

/// A line of the ledger in words.
pub struct Line {
    pub id: String,
    pub when: String,
    pub by: String,
    pub words: String,
    pub note: String,
    pub void: Option<String>,
    pub fixed: bool,
}

/// A trial made from the packet.
pub struct Trial {
    pub id: String,
    pub when: String,
    pub words: String,
}

/// Seeds promised for a line of the plan.
pub struct Promised {
    pub path: String,
    pub start: String,
    pub when: String,
    pub words: String,
}

#[derive(Template)]
#[template(path = "stock/packet.html")]
struct Show<'a> {
    chrome: &'a Chrome,
    p: &'a Packet,
    age: String,
    old: bool,
    came_from: Option<Packet>,
    parent: Option<Packet>,
    children: Vec<Packet>,
    promises: Vec<Promised>,
    trials: Vec<Trial>,
    lines: Vec<Line>,
}

/// GET /packets/{id}
pub async fn show(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<PacketId>,
) -> Result<Response, AppError> {
    let mut conn = app.db.read().await?;
    let conn = &mut conn;
    let p = store::packet(conn, &chrome.member.id, &id).await?;
    let trials = store::trials_of(conn, &id).await?.into_iter().map(|t| trial(&chrome, t)).collect();
    let promises = promises::of_packet(conn, &id).await?.iter().map(|r| promised(&chrome, r)).collect();
    let history = history::of_packet(conn, &id).await?;
    let lines = history.into_iter().filter(|e| e.what == "ledger").map(|e| line(&chrome, e)).collect();
    let (age, old) = age(&chrome, &p);
    let shown = Show {
        chrome: &chrome,
        came_from: maybe(conn, p.given_from.as_ref()).await?,
        parent: maybe(conn, p.parent_packet.as_ref()).await?,
        children: store::children(conn, &id).await?,
        p: &p,
        age,
        old,
        promises,
        trials,
        lines,
    };
    page::page(&shown)
}

async fn maybe(conn: &mut Conn, id: Option<&PacketId>) -> Result<Option<Packet>, AppError> {
    match id {
        Some(id) => Ok(Some(store::any_packet(conn, id).await?)),
        None => Ok(None),
    }
}

fn promised(chrome: &Chrome, r: &Promise) -> Promised {
    let day = words::day(r.start_on, chrome.now.day(chrome.member.zone()));
    Promised {
        path: r.line_path(),
        start: r.start_path(),
        when: t!("stock-start-on", day = day),
        words: words::seeds(r.seeds),
    }
}

fn trial(chrome: &Chrome, t: store::Trial) -> Trial {
    let when = words::moment(t.began_at, chrome.now, chrome.member.zone());
    let bags = t!("stock-bags", n = t.bags);
    Trial {
        id: t.id.0,
        when,
        words: format!("{}, {}, {bags}", said::name(&t.routine), words::seeds(t.seeds)),
    }
}

fn line(chrome: &Chrome, e: history::Entry) -> Line {
    let n = e.seeds.unwrap_or(0);
    let sign = if n > 0 { "+" } else { "" };
    let void = e.void_by.map(|by| match e.void_why.as_deref() {
        None | Some("") => t!("stock-taken-back-by", by = by),
        Some(why) => t!("stock-taken-back-by-because", by = by, why = notebook::words::written(why)),
    });
    Line {
        id: e.id,
        when: words::moment(e.at, chrome.now, chrome.member.zone()),
        by: e.by_name,
        words: format!("{} {sign}{n}", notebook::words::sort(&e.sort)),
        note: e.note,
        void,
        fixed: e.blind > 0 && !chrome.member.is_organiser(),
    }
}

/// The age in words, beside the published storage life of the kind; and whether it is past all that is published.
fn age(chrome: &Chrome, p: &Packet) -> (String, bool) {
    if p.year == 0 {
        return (String::new(), false);
    }
    let years = i64::from(chrome.now.day(chrome.member.zone()).year()) - p.year;
    let lives: Vec<i64> =
        published::of(&p.kind).map_or_else(Vec::new, |k| k.storage_years.iter().map(|f| f.value).collect());
    let age =
        if years <= 0 { t!("stock-this-years-seed").to_owned() } else { t!("stock-years-old", n = years) };
    match (lives.iter().min(), lives.iter().max()) {
        (Some(least), Some(most)) if least == most => {
            (t!("stock-age-keeps-about", age = age, n = most), years > *most)
        }
        (Some(least), Some(most)) => {
            (t!("stock-age-keeps-from-to", age = age, least = least, most = most), years > *most)
        }
        _ => (age, false),
    }
}
