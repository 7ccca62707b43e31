//! What came in goes out and comes in again as the same bytes, whatever it was written with.
//!
//! `HILUM_ROWS` says how many rows are made: 400 here; 100 000 were run once, see tests/reference/exchange.md.

use super::text_of;
use super::writers::{Rows, csv, ods, xlsx};
use crate::stock::club;
use crate::support::{Browser, Club};
use hilum::transfer::import_season_list;
use std::time::Instant;

#[expect(clippy::disallowed_methods, reason = "a test's own setting")]
fn wanted() -> usize {
    std::env::var("HILUM_ROWS").ok().and_then(|n| n.parse().ok()).unwrap_or(400)
}

const HARD: [&str; 14] = [
    "=1+1",
    "+wren",
    "-osprey",
    "@dusk",
    "'quoted",
    "'=x",
    "''",
    "a \"b\", c",
    "two\nlines",
    "🌶 hot",
    "Jalapeño",
    "semi;colon",
    "tab\tin it",
    "<b>&amp;</b>",
];

/// Rows of a season list, every sixth with something that spreadsheets stumble over.
fn rows(n: usize) -> Rows {
    let words = |row: &[&str]| row.iter().map(|c| (*c).to_owned()).collect::<Vec<_>>();
    let mut rows =
        vec![words(&["number", "kind", "variety", "source", "year", "lot code", "seeds", "place", "note"])];
    for i in 1..=n {
        let hard = HARD[i / 6 % HARD.len()];
        let line = hard.replace(['\n', '\t'], " ");
        let (variety, source) = match i % 6 {
            0 => (format!("{line} line {}", i % 997), "Testwood".to_owned()),
            1 => (format!("Kestrel line {}", i % 997), format!("{line} seeds {}", i % 97)),
            _ => (format!("Kestrel line {}", i % 997), format!("Hollin {}", i % 97)),
        };
        let kind = ["pepper", "tomato", "onion"][i % 3];
        let seeds = if i % 5 == 0 { format!("about {}", i % 90 + 1) } else { (i % 90 + 1).to_string() };
        let (code, note) = if i % 6 < 2 { (line.as_str(), hard) } else { ("L-1", "") };
        let (number, year) = (i.to_string(), (2015 + i % 10).to_string());
        rows.push(words(&[&number, kind, &variety, &source, &year, code, &seeds, "tin 3", note]));
    }
    rows
}

async fn brought_in(file: &[u8], n: usize) -> (Club, Browser) {
    let club = club().await;
    let jo = club.grower("Jo", "JB").await;
    let mut conn = club.app.db.write().await.unwrap();
    let now = club.app.now();
    let added = import_season_list(&mut conn, jo.id(), "JB", (file, ""), now).await.unwrap();
    let added = added.unwrap_or_else(|faults| panic!("{:?}", &faults[..faults.len().min(5)]));
    assert_eq!(added.len(), n);
    conn.commit().await.unwrap();
    (club, jo)
}

#[tokio::test]
async fn each_format_comes_out_and_in_again_as_the_same_bytes() {
    let n = wanted();
    let rows = rows(n);
    let mut written: Option<String> = None;
    for (format, file) in [("csv", csv(&rows)), ("xlsx", xlsx(&rows)), ("ods", ods(&rows))] {
        let began = Instant::now();
        let (_club, jo) = brought_in(&file, n).await;
        let first = text_of(&jo, "/packets.csv").await;
        assert_eq!(first.matches("\r\n").count(), n + 1);
        let (_other, jo) = brought_in(first.as_bytes(), n).await;
        let second = text_of(&jo, "/packets.csv").await;
        assert!(first == second, "{format}: the second trip differs");
        for hard in ["'=1+1 line", "\"'+wren\"", "'-osprey", "'@dusk", "''quoted", "🌶 hot", "\"two\nlines\""]
        {
            let bare = hard.trim_matches('"');
            assert!(n < 200 || first.contains(bare), "{format}: {hard} was lost");
        }
        // and each format says the same
        assert!(written.is_none_or(|other| other == first), "{format} differs from csv");
        written = Some(first);
        println!("{format}: {n} rows twice in {:?}", began.elapsed());
    }
}
