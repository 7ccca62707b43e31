use crate::app::App;
use crate::db::ids::{At, TrayId};
use crate::error::AppError;
use crate::trays::model::{self, Lot, Planting, Tray};
use crate::trays::sheet::draw::{self, Held};
use crate::trays::sheet::tiles::Tile;
use crate::trays::sheet::{self, CHAR, MARK_CHAR, Paper};
use crate::trays::store;
use crate::web::chrome::Chrome;
use crate::web::{code, page, words};
use askama::Template;
use axum::extract::{Path, Query, State};
use axum::response::Response;
use std::rc::Rc;

/// One entry of the list: the bags of one variety from one source.
struct Entry {
    name: String,
    /// Each bag's mark and words.
    bags: Vec<(String, String)>,
}

impl Entry {
    /// Widths of its pieces in mm: the words of the name, then each mark with its words.
    fn pieces(&self) -> Vec<f64> {
        let wide = |text: &str| text.chars().count() as f64 * CHAR;
        let bag =
            |(mark, words): &(String, String)| mark.chars().count() as f64 * MARK_CHAR + 6.0 + wide(words);
        self.name.split_whitespace().map(wide).chain(self.bags.iter().map(bag)).collect()
    }
}

/// One printed page.
struct Leaf {
    /// `page 2 of 3: rows 9 to 16, columns A to L`; empty where one page is all.
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
    let tiles = sheet::tiles(tray.geometry());
    let paper = sheet::paper(letter, &tiles, longest);
    let mut leaves = Vec::new();
    for tile in &tiles {
        leaves.extend(tile_leaves(&chrome, &tray, paper, *tile, &here));
    }
    number(&mut leaves);
    let address = format!("{}/T/{}", app.config.base(), tray.mark_key);
    let shown = Sheet {
        chrome: &chrome,
        tray: &tray,
        class: class(paper),
        letter,
        code: code::svg(&address, &format!("Code that opens {}", tray.mark)).unwrap_or_default(),
        printed: chrome.now.local(chrome.member.zone()).format("%-d %b %Y").to_string(),
        leaves,
    };
    page::page(&shown)
}

fn class(paper: Paper) -> &'static str {
    match (paper.letter, paper.wide) {
        (false, false) => "a4",
        (false, true) => "a4 wide",
        (true, false) => "letter",
        (true, true) => "letter wide",
    }
}

fn tile_leaves(chrome: &Chrome, tray: &Tray, paper: Paper, tile: Tile, here: &[&Planting]) -> Vec<Leaf> {
    let g = tray.geometry();
    let inside: Vec<&Planting> = here.iter().copied().filter(|p| tile.holds(g.at(p.cell))).collect();
    let entries = Rc::new(entries(&model::lots(inside.iter().copied()), chrome));
    let pieces: Vec<Vec<f64>> = entries.iter().map(Entry::pieces).collect();
    let held: Vec<Held> = inside.iter().map(|p| held(p, g.at(p.cell))).collect();
    let leaf = |page: &sheet::Page| {
        let drawn = page.tile.map(|tile| {
            let title = format!("{}: {}", tray.mark, tile.words());
            draw::tile(paper, tile, page.cell_height, &held, &title)
        });
        Leaf {
            part: tile.words(),
            tiny: drawn.as_ref().is_some_and(|d| d.tiny),
            svg: drawn.map(|d| d.svg).unwrap_or_default(),
            columns: page.columns.clone(),
            entries: entries.clone(),
            goes_on: page.goes_on,
        }
    };
    sheet::pages(paper, tile, &pieces).iter().map(leaf).collect()
}

fn number(leaves: &mut [Leaf]) {
    let all = leaves.len();
    for (i, leaf) in leaves.iter_mut().enumerate() {
        let what = if leaf.svg.is_empty() { "list of lots, " } else { "" };
        leaf.part =
            if all == 1 { String::new() } else { format!("Page {} of {all}: {what}{}", i + 1, leaf.part) };
    }
}

fn held(p: &Planting, (row, col): (i64, i64)) -> Held {
    let note = match (p.untouched(), p.seeds) {
        (true, 1) => String::new(),
        (true, n) => words::seeds(n),
        _ => p.state(),
    };
    Held { row, col, mark: p.bag.clone(), note }
}

/// The lots by variety and source, in the order of their first cells.
fn entries(lots: &[Lot], chrome: &Chrome) -> Vec<Entry> {
    let mut entries: Vec<Entry> = Vec::new();
    for lot in lots {
        let name = format!("{}, {}:", lot.variety, lot.source);
        let bag = (lot.bag.clone(), format!("{}, {}", words::seeds(lot.seeds), planted(lot, chrome)));
        match entries.iter_mut().find(|e| e.name == name) {
            Some(entry) => entry.bags.push(bag),
            None => entries.push(Entry { name, bags: vec![bag] }),
        }
    }
    entries
}

/// The day or days a lot was planted on, short.
fn planted(lot: &Lot, chrome: &Chrome) -> String {
    let day = |at: At| at.local(chrome.member.zone()).format("%-d %b").to_string();
    let (first, last) = (day(lot.first), day(lot.last));
    if first == last { first } else { format!("{first} to {last}") }
}
