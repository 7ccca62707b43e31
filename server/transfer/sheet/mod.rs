//! A file as sheets of text cells, whatever it was written with: CSV, XLSX or ODS. Nothing in it is trusted.

mod book;
mod safe;
mod text;

use calamine::{Ods, Xlsx};
use data_encoding::HEXLOWER;
use sha2::{Digest, Sha256};
use std::io::Cursor;

pub use safe::part;

/// Most rows and columns of one sheet, and most bytes of text in it.
pub const MOST_ROWS: usize = 100_000;
pub const MOST_COLUMNS: usize = 200;
/// Most cells of one sheet, empty ones before filled ones included.
const MOST_CELLS: usize = 4_000_000;
const MOST_TEXT: usize = 64 * 1024 * 1024;

/// A row that is not empty.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Line {
    /// Its number in the sheet, or the line of the text it begins on; from 1.
    pub line: u64,
    pub cells: Vec<String>,
}

/// One sheet.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Sheet {
    pub lines: Vec<Line>,
    /// What a reader should know of how it was read; empty where nothing.
    pub note: &'static str,
    /// Cells that hold an error instead of a value, as places among `lines` and cells.
    pub broken: Vec<(usize, usize)>,
    pub row: Called,
}

/// What people call a row of a sheet.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub enum Called {
    #[default]
    Line,
    Row,
}

impl Called {
    /// Above the numbers of rows.
    pub fn heading(self) -> &'static str {
        match self {
            Self::Line => t!("transfer-line"),
            Self::Row => t!("transfer-row"),
        }
    }

    /// `Row 14`.
    pub fn at(self, n: u64) -> String {
        match self {
            Self::Line => t!("transfer-line-number", n = n),
            Self::Row => t!("transfer-row-number", n = n),
        }
    }

    /// `row 14`, within a sentence.
    pub fn within(self, n: u64) -> String {
        match self {
            Self::Line => t!("transfer-in-line", n = n),
            Self::Row => t!("transfer-in-row", n = n),
        }
    }

    /// Asks for the row of the headings.
    pub fn of_headings(self) -> &'static str {
        match self {
            Self::Line => t!("transfer-headings-in-line"),
            Self::Row => t!("transfer-headings-in-row"),
        }
    }
}

impl Sheet {
    /// The same for the same cells in the same rows, whatever the file was written with.
    pub fn digest(&self, sort: &str) -> String {
        let mut hash = Sha256::new();
        hash.update(sort.as_bytes());
        for cells in self.lines.iter().map(|l| &l.cells) {
            let last = cells.iter().rposition(|c| !c.is_empty()).map_or(0, |i| i + 1);
            for cell in &cells[..last] {
                hash.update((cell.len() as u64).to_le_bytes());
                hash.update(cell.as_bytes());
            }
            hash.update([0xff]);
        }
        HEXLOWER.encode(&hash.finalize())
    }
}

/// An opened file.
pub enum Book {
    Text(text::Text),
    Xlsx(Box<Xlsx<Cursor<Vec<u8>>>>),
    Ods(Box<Ods<Cursor<Vec<u8>>>>),
}

/// Opens a file by what it holds, not by its name; or says in plain words why not.
pub fn open(bytes: Vec<u8>) -> Result<Book, String> {
    if bytes.starts_with(b"\xd0\xcf\x11\xe0") {
        return Err(t!("transfer-locked-or-old").to_owned());
    }
    if bytes.starts_with(b"PK") {
        return book::open(bytes);
    }
    text::decoded(bytes).map(Book::Text)
}

impl Book {
    /// The names of its sheets; none where there is only one and it has no name.
    pub fn sheets(&self) -> Vec<String> {
        match self {
            Self::Text(_) => Vec::new(),
            Self::Xlsx(book) => book::sheets(&**book),
            Self::Ods(book) => book::sheets(&**book),
        }
    }

    /// The sheet of that name; where there is none, the first of those that most suit, by their `worth`.
    pub fn sheet(&mut self, name: &str, worth: impl Fn(&Sheet) -> usize) -> Result<Sheet, String> {
        if let Self::Text(text) = self {
            return text.sheet();
        }
        let names = self.sheets();
        if let Some(name) = names.iter().find(|n| *n == name) {
            return self.named(name);
        }
        let mut best: Option<(usize, Sheet)> = None;
        for name in &names {
            let sheet = self.named(name)?;
            let worth = worth(&sheet);
            if best.as_ref().is_none_or(|(most, _)| worth > *most) {
                best = Some((worth, sheet));
            }
        }
        best.map(|(_, sheet)| sheet).ok_or_else(|| t!("transfer-no-table-in-file").to_owned())
    }

    fn named(&mut self, name: &str) -> Result<Sheet, String> {
        match self {
            Self::Text(text) => text.sheet(),
            Self::Xlsx(book) => book::xlsx(book, name),
            Self::Ods(book) => book::ods(book, name),
        }
    }

    /// The text of a file that is no spreadsheet.
    pub fn text(&self) -> Option<&str> {
        match self {
            Self::Text(text) => Some(text.as_str()),
            _ => None,
        }
    }
}

fn damaged() -> String {
    t!("transfer-file-is-damaged").to_owned()
}

fn too_many_rows() -> String {
    t!("transfer-too-many-rows", most = MOST_ROWS)
}

fn too_many_columns() -> String {
    t!("transfer-too-many-columns", most = MOST_COLUMNS)
}

fn too_much_text() -> String {
    t!("transfer-too-much-text").to_owned()
}
