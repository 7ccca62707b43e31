//! Comma, semicolon or tab separated text (RFC 4180), in UTF-8, UTF-16 or Windows-1252.

use super::{Line, MOST_COLUMNS, MOST_ROWS, Sheet, too_many_columns, too_many_rows};
use encoding_rs::{UTF_16BE, UTF_16LE, WINDOWS_1252};

pub struct Text {
    text: String,
    note: &'static str,
}

/// The text of a file; refused where it holds no text.
pub fn decoded(bytes: Vec<u8>) -> Result<Text, String> {
    let wide = [UTF_16LE, UTF_16BE].into_iter().find(|e| {
        let mark: &[u8] = if *e == UTF_16LE { b"\xff\xfe" } else { b"\xfe\xff" };
        bytes.starts_with(mark)
    });
    let (text, note) = match wide {
        Some(encoding) => (encoding.decode(&bytes).0.into_owned(), ""),
        None if bytes.contains(&0) => {
            return Err(t!("transfer-not-a-table").to_owned());
        }
        None => match String::from_utf8(bytes) {
            Ok(text) => (text, ""),
            Err(e) => (WINDOWS_1252.decode(e.as_bytes()).0.into_owned(), t!("transfer-not-utf-8")),
        },
    };
    // the reader counts lines right only where they end alike
    let text = text.trim_start_matches('\u{feff}').replace("\r\n", "\n").replace('\r', "\n");
    Ok(Text { text, note })
}

impl Text {
    pub fn as_str(&self) -> &str {
        &self.text
    }

    pub fn sheet(&self) -> Result<Sheet, String> {
        let text = self.text.as_str();
        let mut sheet = Sheet { note: self.note, ..Sheet::default() };
        let records = csv::ReaderBuilder::new()
            .delimiter(separator(text))
            .has_headers(false)
            .flexible(true)
            .from_reader(text.as_bytes())
            .into_records();
        for record in records {
            let record = record.map_err(|_| t!("transfer-list-not-read").to_owned())?;
            if record.iter().all(|cell| cell.trim().is_empty()) {
                continue;
            }
            if sheet.lines.len() > MOST_ROWS {
                return Err(too_many_rows());
            }
            let last = (0..record.len()).rev().find(|i| !record[*i].trim().is_empty()).map_or(0, |i| i + 1);
            if last > MOST_COLUMNS {
                return Err(too_many_columns());
            }
            let cells = record.iter().take(last).map(|cell| cell.trim().to_owned()).collect();
            sheet.lines.push(Line { line: line_of(text, &record), cells });
        }
        Ok(sheet)
    }
}

/// The line a record begins on: the reader names the first of the empty lines before it.
fn line_of(text: &str, record: &csv::StringRecord) -> u64 {
    let Some(place) = record.position() else { return 0 };
    let from = usize::try_from(place.byte()).unwrap_or(usize::MAX);
    let empty = text.as_bytes().iter().skip(from).take_while(|b| **b == b'\n').count();
    place.line() + empty as u64
}

/// The sign that parts the headings most often, outside of quotation marks.
fn separator(text: &str) -> u8 {
    let head = text.trim_start_matches('\n').lines().next().unwrap_or_default();
    let count = |sign: u8| {
        let mut quoted = false;
        let parts = head.bytes().filter(|b| {
            quoted ^= *b == b'"';
            *b == sign && !quoted
        });
        parts.count()
    };
    [b',', b';', b'\t'].into_iter().rev().max_by_key(|sign| count(*sign)).unwrap_or(b',')
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cells(bytes: &[u8]) -> Vec<Vec<String>> {
        let sheet = decoded(bytes.to_vec()).unwrap().sheet().unwrap();
        sheet.lines.into_iter().map(|l| l.cells).collect()
    }

    #[test]
    fn texts_are_read_in_the_encodings_that_spreadsheets_write() {
        let wanted = vec![vec!["kind".to_owned(), "Jalapeño".to_owned()]];
        assert_eq!(cells("\u{feff}kind;Jalapeño\r\n".as_bytes()), wanted);
        assert_eq!(cells(b"kind\tJalape\xf1o\r"), wanted);
        let wide: Vec<u8> = "\u{feff}kind\tJalapeño\n".encode_utf16().flat_map(u16::to_le_bytes).collect();
        assert_eq!(cells(&wide), wanted);
        assert!(decoded(b"\x89PNG\r\n\x1a\n\0\0".to_vec()).is_err());
    }

    #[test]
    fn a_quoted_sign_parts_nothing() {
        assert_eq!(separator("\"a,b,c\";d"), b';');
        assert_eq!(separator("\n\na,b;c,d"), b',');
    }
}
