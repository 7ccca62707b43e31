//! Sheets of XLSX and ODS files.

use super::safe::{self, Format};
use super::{
    Book, Called, Line, MOST_CELLS, MOST_COLUMNS, MOST_ROWS, MOST_TEXT, Sheet, damaged, too_many_columns,
    too_many_rows, too_much_text,
};
use calamine::{
    Data, DataRef, ExcelDateTime, Ods, OdsError, Reader, SheetType, SheetVisible, Xlsx, XlsxError,
};
use std::collections::BTreeMap;
use std::io::{Cursor, Read, Seek};

/// Opens what looks like a zip archive.
pub fn open(bytes: Vec<u8>) -> Result<Book, String> {
    match safe::look(&bytes)? {
        Format::Xlsx => match Xlsx::new(Cursor::new(bytes)) {
            Ok(book) => Ok(Book::Xlsx(Box::new(book))),
            Err(XlsxError::Password) => Err(locked()),
            Err(_) => Err(damaged()),
        },
        Format::Ods => match Ods::new(Cursor::new(bytes)) {
            Ok(book) => Ok(Book::Ods(Box::new(book))),
            Err(OdsError::Password) => Err(locked()),
            Err(_) => Err(damaged()),
        },
    }
}

fn locked() -> String {
    t!("transfer-file-is-locked").to_owned()
}

/// The sheets that people see.
pub fn sheets<B: Reader<R>, R: Read + Seek>(book: &B) -> Vec<String> {
    let shown = |s: &&calamine::Sheet| s.visible == SheetVisible::Visible && s.typ == SheetType::WorkSheet;
    book.sheets_metadata().iter().filter(shown).map(|s| s.name.clone()).collect()
}

/// Cells by row and column, within the limits of a list.
#[derive(Default)]
struct Filled {
    rows: BTreeMap<u32, Vec<(String, bool)>>,
    text: usize,
    cells: usize,
}

impl Filled {
    fn put(&mut self, (row, column): (u32, u32), text: &str, is_error: bool) -> Result<(), String> {
        if text.trim().is_empty() {
            return Ok(());
        }
        self.text += text.len();
        if self.text > MOST_TEXT {
            return Err(too_much_text());
        }
        let column = usize::try_from(column).unwrap_or(usize::MAX);
        if column >= MOST_COLUMNS {
            return Err(too_many_columns());
        }
        if !self.rows.contains_key(&row) && self.rows.len() > MOST_ROWS {
            return Err(too_many_rows());
        }
        let cells = self.rows.entry(row).or_default();
        if cells.len() <= column {
            self.cells += column + 1 - cells.len();
            cells.resize(column + 1, (String::new(), false));
        }
        if self.cells > MOST_CELLS {
            return Err(too_many_rows());
        }
        cells[column] = (text.trim().to_owned(), is_error);
        Ok(())
    }

    fn sheet(self) -> Sheet {
        let mut sheet = Sheet { row: Called::Row, ..Sheet::default() };
        for (row, cells) in self.rows {
            let place = sheet.lines.len();
            sheet.broken.extend(cells.iter().enumerate().filter(|(_, c)| c.1).map(|(i, _)| (place, i)));
            let cells = cells.into_iter().map(|(text, _)| text).collect();
            sheet.lines.push(Line { line: u64::from(row) + 1, cells });
        }
        sheet
    }
}

/// One sheet of an XLSX file, cell by cell: what lies between them takes no room.
pub fn xlsx(book: &mut Xlsx<Cursor<Vec<u8>>>, name: &str) -> Result<Sheet, String> {
    let mut filled = Filled::default();
    let mut cells = book.worksheet_cells_reader(name).map_err(|_| damaged())?;
    while let Some(cell) = cells.next_cell().map_err(|_| damaged())? {
        let at = cell.get_position();
        match cell.get_value() {
            DataRef::Empty => {}
            DataRef::String(text) | DataRef::DurationIso(text) => filled.put(at, text, false)?,
            DataRef::SharedString(text) => filled.put(at, text, false)?,
            DataRef::Int(n) => filled.put(at, &n.to_string(), false)?,
            DataRef::Float(x) => filled.put(at, &x.to_string(), false)?,
            DataRef::Bool(yes) => filled.put(at, truth(*yes), false)?,
            DataRef::DateTime(moment) => filled.put(at, &moment_text(moment), false)?,
            DataRef::DateTimeIso(text) => filled.put(at, &iso(text), false)?,
            DataRef::Error(error) => filled.put(at, &error.to_string(), true)?,
        }
    }
    Ok(filled.sheet())
}

/// One sheet of an ODS file.
pub fn ods(book: &mut Ods<Cursor<Vec<u8>>>, name: &str) -> Result<Sheet, String> {
    let range = book.worksheet_range(name).map_err(|_| damaged())?;
    let mut filled = Filled::default();
    let (row, column) = range.start().unwrap_or_default();
    for (i, j, value) in range.used_cells() {
        let at = (row + u32::try_from(i).unwrap_or(u32::MAX), column + u32::try_from(j).unwrap_or(u32::MAX));
        match value {
            Data::Empty => {}
            Data::String(text) | Data::DurationIso(text) => filled.put(at, text, false)?,
            Data::Int(n) => filled.put(at, &n.to_string(), false)?,
            Data::Float(x) => filled.put(at, &x.to_string(), false)?,
            Data::Bool(yes) => filled.put(at, truth(*yes), false)?,
            Data::DateTime(moment) => filled.put(at, &moment_text(moment), false)?,
            Data::DateTimeIso(text) => filled.put(at, &iso(text), false)?,
            Data::Error(error) => filled.put(at, &error.to_string(), true)?,
        }
    }
    Ok(filled.sheet())
}

fn truth(yes: bool) -> &'static str {
    if yes { "1" } else { "0" }
}

/// `2026-03-31`, with the time where there is one: `2026-03-31 07:30:00`.
fn moment_text(moment: &ExcelDateTime) -> String {
    let found = moment.as_datetime().filter(|_| moment.is_datetime());
    found.map_or_else(|| moment.as_f64().to_string(), |t| iso(&t.format("%Y-%m-%dT%H:%M:%S").to_string()))
}

fn iso(text: &str) -> String {
    let (day, time) = text.split_once('T').unwrap_or((text, ""));
    let time = time.split('.').next().unwrap_or_default();
    if time.is_empty() || time == "00:00:00" { day.to_owned() } else { format!("{day} {time}") }
}
