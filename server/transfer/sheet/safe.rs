//! What a spreadsheet file may be before it is unpacked: a few kilobytes can say that they are a thousand gigabytes.

use super::{MOST_CELLS, MOST_COLUMNS, damaged, too_many_rows, too_much_text};
use quick_xml::events::{BytesStart, Event};
use std::io::{BufReader, Cursor, Read};
use zip::ZipArchive;

/// Most bytes of a file once it is unpacked, and most parts of it.
const MOST_UNPACKED: u64 = 160 * 1024 * 1024;
const MOST_PARTS: usize = 2_000;

pub enum Format {
    Xlsx,
    Ods,
}

/// Unpacks the whole file once, into nothing, to see that it is as small as it says.
pub fn look(bytes: &[u8]) -> Result<Format, String> {
    let mut archive = ZipArchive::new(Cursor::new(bytes)).map_err(|_| damaged())?;
    if archive.len() > MOST_PARTS {
        return Err(too_much_text());
    }
    let mut left = MOST_UNPACKED;
    for i in 0..archive.len() {
        let part = archive.by_index(i).map_err(|_| damaged())?;
        let read = std::io::copy(&mut part.take(left + 1), &mut std::io::sink()).map_err(|_| damaged())?;
        left = left.checked_sub(read).ok_or_else(too_much_text)?;
    }
    if archive.index_for_name("xl/workbook.xml").is_some() {
        return Ok(Format::Xlsx);
    }
    let Ok(content) = archive.by_name("content.xml") else {
        return Err(t!("transfer-no-spreadsheet").to_owned());
    };
    spread(BufReader::new(content))?;
    Ok(Format::Ods)
}

/// How far one table reaches, and how much is said in it.
#[derive(Default)]
struct Reach {
    /// Rows up to the one being read, and up to the last that is not empty.
    row: u64,
    rows: u64,
    columns: u64,
    /// Repeats of the row being read, and whether it is filled.
    repeats: u64,
    filled: bool,
    /// Columns up to the cell being read, and for how many cells it stands.
    column: u64,
    times: u64,
    /// Bytes of text in all cells, each as often as it is repeated.
    text: u64,
}

/// An ODS file says "and so on, a million times": counts what that comes to before anybody writes it out.
fn spread(content: impl std::io::BufRead) -> Result<(), String> {
    let mut reader = quick_xml::Reader::from_reader(content);
    let (mut reach, mut cells, mut held, mut buffer) = (Reach::default(), 0_u64, 0_u64, Vec::new());
    loop {
        buffer.clear();
        match reader.read_event_into(&mut buffer).map_err(|_| damaged())? {
            Event::Eof => break,
            Event::Start(e) => match e.name().as_ref() {
                "table:table-row" => reach.row_begins(&e),
                "table:table-cell" | "table:covered-table-cell" => held += reach.cell(&e),
                _ => {}
            },
            Event::Empty(e) => match e.name().as_ref() {
                "table:table-cell" | "table:covered-table-cell" => held += reach.cell(&e),
                "table:table-row" => {
                    reach.row_begins(&e);
                    reach.row_ends();
                }
                _ => {}
            },
            Event::Text(e) => reach.said(e.len()),
            Event::End(e) => match e.name().as_ref() {
                "table:table-row" => reach.row_ends(),
                "table:table" => {
                    let table = std::mem::take(&mut reach);
                    reach.text = table.text;
                    cells = cells.saturating_add(table.rows.saturating_mul(table.columns));
                }
                _ => {}
            },
            _ => {}
        }
        if cells.max(held).max(reach.rows.saturating_mul(reach.columns)) > MOST_CELLS as u64 {
            return Err(too_many_rows());
        }
        if reach.text > MOST_UNPACKED {
            return Err(too_much_text());
        }
    }
    Ok(())
}

impl Reach {
    fn row_begins(&mut self, e: &BytesStart) {
        (self.repeats, self.filled, self.column) = (repeats(e, "table:number-rows-repeated"), false, 0);
        self.times = 0;
    }

    fn said(&mut self, bytes: usize) {
        let times = self.times.saturating_mul(self.repeats);
        self.text = self.text.saturating_add((bytes as u64).saturating_mul(times));
    }

    fn row_ends(&mut self) {
        self.row = self.row.saturating_add(self.repeats);
        if self.filled {
            self.rows = self.row;
        }
    }

    /// Gives how many filled cells it stands for in its row.
    fn cell(&mut self, e: &BytesStart) -> u64 {
        let times = repeats(e, "table:number-columns-repeated").min(MOST_COLUMNS as u64 * 100);
        self.column = self.column.saturating_add(times);
        self.times = 0;
        let says = |name: &str| matches!(e.try_get_attribute(name), Ok(Some(_)));
        if ["office:value-type", "office:value", "table:formula"].into_iter().any(says) {
            self.filled = true;
            self.times = times;
            self.said(e.len());
            self.columns = self.columns.max(self.column);
            return times;
        }
        0
    }
}

fn repeats(e: &BytesStart, name: &str) -> u64 {
    let said = e.try_get_attribute(name).ok().flatten();
    said.and_then(|a| a.value.trim().parse().ok()).unwrap_or(1)
}

/// The first `most` bytes of a part of an archive; refused where it is longer.
pub fn part(archive: &mut ZipArchive<Cursor<&[u8]>>, name: &str, most: u64) -> Result<Vec<u8>, String> {
    let found = archive.by_name(name).map_err(|_| t!("transfer-part-is-missing", part = name))?;
    let mut bytes = Vec::new();
    let read = found.take(most + 1).read_to_end(&mut bytes);
    read.map_err(|_| t!("transfer-part-is-damaged", part = name))?;
    if bytes.len() as u64 > most { Err(t!("transfer-part-is-large", part = name)) } else { Ok(bytes) }
}
