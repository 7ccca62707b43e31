use super::asked::Asked;
use super::fault::Fault;
use super::read::Row;
use super::season::Season;
use super::sheet::Called;
use crate::app::App;
use crate::db::Conn;
use crate::error::AppError;
use crate::marks;
use crate::stock::model::{NewPacket, state_words};
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::page;
use askama::Template;
use axum::extract::State;
use axum::response::Response;
use std::collections::HashMap;

/// So many rows without faults are shown, and so many faults.
const SHOWN: usize = 50;
pub const FAULTS: usize = 200;

#[derive(Template)]
#[template(path = "transfer/ask.html")]
struct Ask<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    letters: Vec<(String, String)>,
}

/// GET /packets/import
pub async fn ask(State(app): State<App>, chrome: Chrome) -> Result<Response, AppError> {
    draw_ask(&mut app.db.read().await?, &chrome, &Form::new()).await
}

pub async fn draw_ask(conn: &mut Conn, chrome: &Chrome, form: &Form) -> Result<Response, AppError> {
    let shown = Ask { chrome, form, letters: letters(conn, chrome).await? };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

pub async fn letters(conn: &mut Conn, chrome: &Chrome) -> Result<Vec<(String, String)>, AppError> {
    let letters = marks::letters(conn, &chrome.member.id).await?;
    Ok(letters.into_iter().map(|l| (l.shown.clone(), l.shown)).collect())
}

/// A row of the list as it will be, with its faults.
struct Line<'a> {
    line: u64,
    mark: String,
    packet: &'a NewPacket,
    seeds: String,
    state: &'a str,
    faults: Vec<String>,
}

#[derive(Template)]
#[template(path = "transfer/preview.html")]
struct Preview<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    asked: &'a Asked,
    letters: Vec<(String, String)>,
    season: &'a Season,
    faults: Vec<String>,
    /// What is wrong besides that.
    more: usize,
    lines: Vec<Line<'a>>,
    count: String,
    shown: String,
}

/// The list as it will be; status 422 where it has faults.
pub async fn draw_preview(
    conn: &mut Conn,
    chrome: &Chrome,
    form: &Form,
    asked: &Asked,
    season: &Season,
) -> Result<Response, AppError> {
    let lines = lines(season);
    let count = t!("stock-packets", n = season.list.rows.len());
    let all = lines.len() == season.list.rows.len();
    let shown = if all { count.clone() } else { t!("transfer-the-first-and-faults", count = count) };
    let letters = letters(conn, chrome).await?;
    let faults = said(&season.list.faults, asked.sheet.row);
    let more = season.list.faults.len() - faults.len();
    let shown = Preview { chrome, form, asked, letters, season, faults, more, lines, count, shown };
    if season.list.faults.is_empty() && !form.failed() { page::page(&shown) } else { page::refused(&shown) }
}

/// The first faults in words: `Row 14, seeds: "a few" is not a number.`
pub fn said(faults: &[Fault], row: Called) -> Vec<String> {
    let one = |f: &Fault| match (f.line, f.column_words()) {
        (0, _) => f.message.clone(),
        (line, "") => format!("{}: {}", row.at(line), f.message),
        (line, column) => format!("{}, {column}: {}", row.at(line), f.message),
    };
    faults.iter().take(FAULTS).map(one).collect()
}

fn lines(season: &Season) -> Vec<Line<'_>> {
    let mut of_line: HashMap<u64, Vec<&Fault>> = HashMap::new();
    for fault in season.list.faults.iter().take(FAULTS) {
        of_line.entry(fault.line).or_default().push(fault);
    }
    let rows = season.list.rows.iter().enumerate();
    let seen = rows.filter(|(i, row)| *i < SHOWN || of_line.contains_key(&row.line));
    seen.map(|(_, row)| line(row, of_line.get(&row.line))).collect()
}

fn line<'a>(row: &'a Row, faults: Option<&Vec<&Fault>>) -> Line<'a> {
    let packet = &row.packet;
    let number = packet.number.map_or_else(|| t!("transfer-next-number").to_owned(), |n| n.to_string());
    let faults = faults.map(Vec::as_slice).unwrap_or_default();
    let unread = faults.iter().any(|f| f.column == "seeds");
    Line {
        line: row.line,
        mark: format!("{} {number}", packet.letters),
        packet,
        seeds: match packet.details.rough {
            _ if unread => row.seeds.clone(),
            true => t!("stock-about-so-many", seeds = packet.seeds),
            false => packet.seeds.to_string(),
        },
        state: state_words(&packet.details.state),
        faults: faults.iter().map(|f| format!("{}: {}", f.column_words(), f.message)).collect(),
    }
}
