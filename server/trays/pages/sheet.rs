use crate::app::App;
use crate::db::ids::{At, TrayId};
use crate::error::AppError;
use crate::trays::model::{self, Lot, Planting, Tray};
use crate::trays::sheet::draw::{self, Held};
use crate::trays::sheet::{self, CHAR, MARK_CHAR, Page, Paper, Telling};
use crate::trays::store;
use crate::web::chrome::Chrome;
use crate::web::{code, page, words};
use askama::Template;
use axum::extract::{Path, Query, State};
use axum::response::Response;
use std::rc::Rc;

/// One entry of the list: the bags of one variety from one source, or as much of that as there is room for.
struct Entry {
    name: String,
    bags: Vec<Told>,
}

/// A bag in the list: its number where cells go by numbers, its mark, its words.
struct Told {
    number: String,
    mark: String,
    words: String,
}

impl Entry {
    /// Widths of its pieces in mm: the words of the name, then each mark with what stands at it.
    fn pieces(&self) -> Vec<f64> {
        let wide = |text: &str| text.chars().count() as f64 * CHAR;
        let bag = |told: &Told| {
            let number = if told.number.is_empty() { 0.0 } else { wide(&told.number) + CHAR };
            number + told.mark.chars().count() as f64 * MARK_CHAR + 6.0 + wide(&told.words)
        };
        self.name.split_whitespace().map(wide).chain(self.bags.iter().map(bag)).collect()
    }
}

/// One printed page.
struct Leaf {
    /// `Page 2 of 2: list of lots`; empty where one page is all.
    part: String,
    svg: String,
    columns: Vec<Vec<usize>>,
    entries: Rc<Vec<Entry>>,
    goes_on: bool,
    tiny: bool,
}

impl Leaf {
    /// The entries of a column of the list.
    fn listed(&self, column: &[usize]) -> Vec<&Entry> {
        column.iter().filter_map(|i| self.entries.get(*i)).collect()
    }
}

#[derive(Template)]
#[template(path = "trays/sheet.html")]
struct Sheet<'a> {
    chrome: &'a Chrome,
    tray: &'a Tray,
    class: &'static str,
    letter: bool,
    /// Whether the list is of marks alone, and whether cells go by numbers.
    dense: bool,
    numbered: bool,
    code: String,
    printed: String,
    leaves: Vec<Leaf>,
}

/// GET /trays/{id}/sheet?paper=a4|letter
pub async fn sheet(
    State(app): State<App>,
    chrome: Chrome,
    Path(id): Path<TrayId>,
    Query(query): Query<Vec<(String, String)>>,
) -> Result<Response, AppError> {
    let asked = query.iter().find(|(n, _)| n == "paper").map(|(_, v)| v.as_str());
    let letter = asked.map_or(chrome.member.us(), |p| p == "letter");
    let mut conn = app.db.read().await?;
    let tray = store::tray::tray(&mut conn, &chrome.member.id, &id).await?;
    let plantings = store::plantings::of_tray(&mut conn, &chrome.member.id, &id).await?;
    drop(conn);
    let here: Vec<&Planting> = plantings.iter().filter(|p| p.here).collect();
    let longest = here.iter().map(|p| p.bag.chars().count()).max().unwrap_or(7);
    let paper = sheet::paper(letter, tray.geometry(), longest);
    let numbered = sheet::by_number(paper, tray.geometry(), longest);
    let lots = model::lots(here.iter().copied());
    let (telling, entries, pages) = fitting(&chrome, &tray, paper, &lots, numbered);
    let held: Vec<Held> = here.iter().map(|p| held(p, &tray, if numbered { &lots } else { &[] })).collect();
    let leaves = leaves(&tray, paper, &pages, (&held, &Rc::new(entries)));
    let address = format!("{}/T/{}", app.config.base(), tray.mark_key);
    let shown = Sheet {
        chrome: &chrome,
        tray: &tray,
        class: class(paper),
        letter,
        dense: telling == Telling::Marks,
        numbered: numbered && !lots.is_empty(),
        code: code::svg(&address, &t!("trays-code-that-opens", tray = tray.mark)).unwrap_or_default(),
        printed: words::date(chrome.now.day(chrome.member.zone())),
        leaves,
    };
    page::page(&shown)
}

/// The list that tells most among those that fit on the tray's one page; else the shortest, on further pages.
fn fitting(
    chrome: &Chrome,
    tray: &Tray,
    paper: Paper,
    lots: &[Lot],
    numbered: bool,
) -> (Telling, Vec<Entry>, Vec<Page>) {
    let of = |telling| {
        let entries = entries(lots, telling, numbered, chrome);
        let pieces: Vec<Vec<f64>> = entries.iter().map(Entry::pieces).collect();
        (telling, entries, sheet::pages(paper, tray.geometry(), telling, &pieces))
    };
    let whole = |pages: &[Page]| pages.len() == 1 && pages.iter().all(|p| !p.goes_on);
    Telling::EACH.into_iter().map(of).find(|(_, _, pages)| whole(pages)).unwrap_or_else(|| of(Telling::Marks))
}

fn class(paper: Paper) -> &'static str {
    match (paper.letter, paper.wide) {
        (false, false) => "a4",
        (false, true) => "a4 wide",
        (true, false) => "letter",
        (true, true) => "letter wide",
    }
}

fn leaves(
    tray: &Tray,
    paper: Paper,
    pages: &[Page],
    (held, entries): (&[Held], &Rc<Vec<Entry>>),
) -> Vec<Leaf> {
    let leaf = |(n, page): (usize, &Page)| {
        let title = t!("trays-the-cells-of", tray = tray.mark);
        let drawn = page.cell_height.map(|height| draw::tray(paper, tray.geometry(), height, held, &title));
        Leaf {
            part: match (pages.len(), &drawn) {
                (1, _) => String::new(),
                (all, Some(_)) => t!("trays-page-of", n = n, all = all),
                (all, None) => t!("trays-page-of-list", n = n, all = all),
            },
            tiny: drawn.as_ref().is_some_and(|d| d.tiny),
            svg: drawn.map(|d| d.svg).unwrap_or_default(),
            columns: page.columns.clone(),
            entries: entries.clone(),
            goes_on: page.goes_on,
        }
    };
    (1..).zip(pages).map(leaf).collect()
}

/// A cell with its mark, and with the number of its lot where those are given.
fn held(p: &Planting, tray: &Tray, lots: &[Lot]) -> Held {
    let (row, col) = tray.geometry().at(p.cell);
    let note = match (p.untouched(), p.seeds) {
        (true, 1) => String::new(),
        (true, n) => words::seeds(n),
        _ => p.state(),
    };
    let number = lots.iter().position(|l| l.bag == p.bag).map(|n| (n + 1).to_string()).unwrap_or_default();
    Held { row, col, mark: p.bag.clone(), note, number }
}

/// The lots in the order of their first cells, by variety and source where the list tells so much.
fn entries(lots: &[Lot], telling: Telling, numbered: bool, chrome: &Chrome) -> Vec<Entry> {
    let mut entries: Vec<Entry> = Vec::new();
    for (n, lot) in (1..).zip(lots) {
        let (name, words) = match telling {
            Telling::All => (
                format!("{}, {}:", lot.variety, lot.source),
                format!("{}, {}", words::seeds(lot.seeds), planted(lot, chrome)),
            ),
            Telling::Varieties => (format!("{}:", lot.variety), String::new()),
            Telling::Marks => (String::new(), String::new()),
        };
        let number = if numbered { n.to_string() } else { String::new() };
        let bag = Told { number, mark: lot.bag.clone(), words };
        match entries.iter_mut().find(|e| e.name == name && telling != Telling::Marks) {
            Some(entry) => entry.bags.push(bag),
            None => entries.push(Entry { name, bags: vec![bag] }),
        }
    }
    entries
}

/// The day or days a lot was planted on, short.
fn planted(lot: &Lot, chrome: &Chrome) -> String {
    let day = |at: At| words::short_date(at.day(chrome.member.zone()));
    let (first, last) = (day(lot.first), day(lot.last));
    if first == last { first } else { t!("trays-days-from-to", first = first, last = last) }
}
