//! Files of lists and of other clubs, as far as they are read without a database.

use chrono::{Datelike, NaiveDate};
use data_encoding::HEXLOWER;
use hilum::transfer::cells::{guarded, plain};
use hilum::transfer::clubs::file::{self, Refusal};
use hilum::transfer::columns::{COUNTS, PACKETS};
use hilum::transfer::counts::read as counts;
use hilum::transfer::dates::{self, Order};
use hilum::transfer::matching::{Matching, worth};
use hilum::transfer::read;
use hilum::transfer::sheet::{self, MOST_COLUMNS, MOST_ROWS};
use hilum::web::forms::Form;
use sha2::{Digest, Sha256};
use std::io::{Cursor, Write};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipWriter};

/// The day on which everything is read.
pub fn today() -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 3, 2).expect("a day")
}

/// One cell, as a day and as text with its guard.
pub fn days(data: &[u8]) {
    let text = String::from_utf8_lossy(data);
    for order in [Order::DayFirst, Order::MonthFirst] {
        if let Some((day, time)) = dates::day(&text, order) {
            let again = format!("{} {}", day.format("%Y-%m-%d"), time.unwrap_or_default().format("%H:%M:%S"));
            if (1000..=9999).contains(&day.year()) {
                assert_eq!(dates::day(&again, order).map(|d| d.0), Some(day), "{again}");
            }
        }
    }
    let _ = dates::told(text.lines());
    let cell = guarded(&text);
    assert!(!cell.starts_with(['=', '+', '-', '@', '\t', '\r']));
    assert_eq!(plain(&cell), text);
}

/// A CSV, XLSX or ODS file as a list of packets and as a list of counts.
pub fn sheets(data: &[u8]) {
    let Ok(mut book) = sheet::open(data.to_vec()) else { return };
    let form = Form::from_pairs(Vec::new());
    for columns in [PACKETS, COUNTS] {
        let Ok(sheet) = book.sheet("", |s| worth(s, columns)) else { continue };
        assert!(sheet.lines.len() <= MOST_ROWS + 1);
        assert!(sheet.lines.iter().all(|l| l.cells.len() <= MOST_COLUMNS));
        assert_eq!(sheet.digest("fuzz").len(), 64);
        let matching = Matching::of(&sheet, columns, &form);
        let (rows, faults) = if columns == PACKETS {
            let list = read::read(&sheet, &matching, "AM", today());
            (list.rows.len(), list.faults)
        } else {
            let rows = counts::read(&sheet, &matching, &form, Order::DayFirst);
            (rows.rows.len(), rows.faults)
        };
        assert!(rows <= sheet.lines.len());
        assert!(rows > 0 || !faults.is_empty(), "nothing was read, and nothing was said");
    }
}

/// The file of another club: by its first byte the whole archive, its descriptor alone, or its counts alone
/// under a digest that is right.
pub fn clubs(data: &[u8]) {
    let Some((sort, rest)) = data.split_first() else { return };
    let made = match sort % 3 {
        0 => rest.to_vec(),
        1 => archive(rest, b""),
        _ => archive(descriptor(rest).as_bytes(), rest),
    };
    match file::read(&made, Some("0123456789abcdef0123456789abcdef"), today()) {
        Ok(shared) => {
            assert!(shared.numbers.bags > 0 && shared.numbers.seeds >= 0);
            assert!(shared.name.chars().count() <= 80 && !shared.places.is_empty());
        }
        Err(Refusal::File(why)) => assert!(!why.is_empty()),
        Err(Refusal::Faults(faults)) => assert!(!faults.is_empty()),
    }
}

fn descriptor(counts: &[u8]) -> String {
    let hash = HEXLOWER.encode(&Sha256::digest(counts));
    serde_json::json!({
        "created": "2026-02-28T10:00:00Z",
        "club": { "name": "Far Field", "installation": "fedcba9876543210fedcba9876543210" },
        "licenses": [{ "name": "CC0-1.0" }],
        "resources": [{ "path": "counts.csv", "hash": format!("sha256:{hash}") }],
    })
    .to_string()
}

fn archive(descriptor: &[u8], counts: &[u8]) -> Vec<u8> {
    let mut archive = ZipWriter::new(Cursor::new(Vec::new()));
    let options = SimpleFileOptions::default().compression_method(CompressionMethod::Stored);
    for (name, bytes) in [("datapackage.json", descriptor), ("counts.csv", counts)] {
        archive.start_file(name, options).expect("room in memory");
        archive.write_all(bytes).expect("room in memory");
    }
    archive.finish().expect("room in memory").into_inner()
}
