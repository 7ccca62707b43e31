use super::read::MOST_ROWS;
use super::season::{Choice, Season};
use crate::app::App;
use crate::db::Conn;
use crate::error::AppError;
use crate::marks;
use crate::stock::model::NewPacket;
use crate::web::chrome::Chrome;
use crate::web::forms::Form;
use crate::web::{page, words};
use askama::Template;
use axum::extract::State;
use axum::response::Response;

#[derive(Template)]
#[template(path = "transfer/ask.html")]
struct Ask<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    letters: Vec<(String, String)>,
    most: usize,
}

/// GET /packets/import
pub async fn ask(State(app): State<App>, chrome: Chrome) -> Result<Response, AppError> {
    draw_ask(&mut app.db.read().await?, &chrome, &Form::new()).await
}

pub async fn draw_ask(conn: &mut Conn, chrome: &Chrome, form: &Form) -> Result<Response, AppError> {
    let shown = Ask { chrome, form, letters: letters(conn, chrome).await?, most: MOST_ROWS };
    if form.failed() { page::refused(&shown) } else { page::page(&shown) }
}

async fn letters(conn: &mut Conn, chrome: &Chrome) -> Result<Vec<(String, String)>, AppError> {
    let letters = marks::letters(conn, &chrome.member.id).await?;
    Ok(letters.into_iter().map(|l| (l.shown.clone(), l.shown)).collect())
}

/// A row of the list as it will be, with its faults.
struct Line<'a> {
    line: u64,
    mark: String,
    packet: &'a NewPacket,
    seeds: String,
    faults: Vec<String>,
}

#[derive(Template)]
#[template(path = "transfer/preview.html")]
struct Preview<'a> {
    chrome: &'a Chrome,
    form: &'a Form,
    text: &'a str,
    letters: Vec<(String, String)>,
    season: &'a Season,
    lines: Vec<Line<'a>>,
    count: String,
}

impl Preview<'_> {
    fn chosen(&self, choice: &Choice, name: &str) -> &'static str {
        if self.form.value(&choice.field) == name { " checked" } else { "" }
    }
}

/// The list as it will be; status 422 where it has faults.
pub async fn draw_preview(
    conn: &mut Conn,
    chrome: &Chrome,
    form: &Form,
    text: &str,
    season: &Season,
) -> Result<Response, AppError> {
    let lines: Vec<Line> = season.list.rows.iter().map(|row| line(row.line, &row.packet, season)).collect();
    let count = words::counted(lines.len() as i64, "packet", "packets");
    let letters = letters(conn, chrome).await?;
    let shown = Preview { chrome, form, text, letters, season, lines, count };
    if season.list.faults.is_empty() { page::page(&shown) } else { page::refused(&shown) }
}

fn line<'a>(line: u64, packet: &'a NewPacket, season: &Season) -> Line<'a> {
    let of_line = season.list.faults.iter().filter(|f| f.line == line);
    let number = packet.number.map_or_else(|| "next".to_owned(), |n| n.to_string());
    let about = if packet.details.rough { "about " } else { "" };
    Line {
        line,
        mark: format!("{} {number}", packet.letters),
        packet,
        seeds: format!("{about}{}", packet.seeds),
        faults: of_line.map(|f| format!("{}: {}", f.column, f.message)).collect(),
    }
}
