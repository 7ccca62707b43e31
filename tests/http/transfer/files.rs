//! Files of other programs, good and bad, over HTTP.

use super::writers::{csv, ods_of, xlsx, zip};
use super::{HEAD, confirm, text_of};
use crate::stock::{club, number, sound};
use crate::support::{Browser, Page};
use axum::http::StatusCode;
use rust_xlsxwriter::{ExcelDateTime, Format, Formula, Workbook};
use std::time::Instant;

async fn look(who: &Browser, name: &str, file: &[u8]) -> Page {
    let form = who.get("/packets/import").await;
    who.upload(&form, "/packets/import", &[], (name, file)).await
}

fn reference(name: &str) -> Vec<u8> {
    std::fs::read(std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference/lists").join(name))
        .unwrap()
}

/// The files are written by odfpy and openpyxl, see tests/reference/scripts/lists.py.
#[tokio::test]
async fn spreadsheets_of_other_programs_are_read_with_title_sheets_and_empty_rows() {
    let mut exports = Vec::new();
    for name in ["season.ods", "season.xlsx"] {
        let club = club().await;
        let jo = club.grower("Jo", "JB").await;
        let page = look(&jo, name, &reference(name)).await;
        page.says("3 packets").says("JB 7").says("about 25").says("+Wren").says("=Fern, \"hill\"");
        page.says("Left out, for there is no such column here: Bought on");
        assert_eq!(page.html().select(&"select[name=sheet] option".try_into().unwrap()).count(), 3, "{name}");
        // the sheet that is no list can be chosen all the same, and its faults are shown
        let other = jo.submit(&page, "/packets/import", &[("sheet", "Read me")]).await;
        assert_eq!(other.status, StatusCode::UNPROCESSABLE_ENTITY);
        assert!(other.text().contains("There is no column named kind"), "{}", other.text());
        confirm(&jo, &page, &[]).await.says("Brought in: 3 packets").says("JB 9");
        sound(&club).await;
        exports.push(text_of(&jo, "/packets.csv").await);
    }
    assert_eq!(exports[0], exports[1]);
    assert!(exports[0].contains("first line\nsecond 🌶"), "{}", exports[0]);
}

#[tokio::test]
async fn columns_are_matched_by_hand_where_their_headings_say_nothing() {
    let club = club().await;
    let jo = club.grower("Jo", "JB").await;
    let list =
        "Wächst als,Was,Woher,Korn,Farbe\npepper,Kestrel,Testwood,25,red\npepper,Wren,Testwood,a few,red\n";
    let form = jo.get("/packets/import").await;
    let page = jo.submit(&form, "/packets/import", &[("list", list)]).await;
    assert_eq!(page.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(page.text().contains("There is no column named variety"));
    let said =
        [("col:0", "kind"), ("col:1", "variety"), ("col:2", "source"), ("col:3", "seeds"), ("list", "")];
    let page = jo.submit(&page, "/packets/import", &said).await;
    assert_eq!(
        page.all(".flash li"),
        ["Line 3, seeds: \"a few\" is not a number. A whole number, please, such as 10."]
    );
    let mended = list.replace("a few", "12");
    let page = jo.submit(&page, "/packets/import", &[("list", &mended)]).await;
    page.says("Nothing is saved yet: 2 packets").says("no such column here: Farbe");
    confirm(&jo, &page, &[]).await.says("Brought in: 2 packets");
    preview_again(&jo, list).await;
    assert_eq!(
        number(&club, "SELECT COUNT(*) AS n FROM uploads").await,
        2,
        "what was not brought in stays a day"
    );
    club.pass_days(2);
    preview_again(&jo, list).await;
    assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM uploads").await, 1);
}

async fn preview_again(who: &Browser, list: &str) {
    let form = who.get("/packets/import").await;
    who.submit(&form, "/packets/import", &[("list", list)]).await;
}

#[tokio::test]
async fn one_file_is_brought_in_once_and_like_rows_are_two_packets() {
    let club = club().await;
    let jo = club.grower("Jo", "JB").await;
    let row = ",pepper,Kestrel,Testwood,2024,,25,tin\n";
    let list = format!("{HEAD}{row}{row}");
    let page = look(&jo, "list.csv", list.as_bytes()).await;
    confirm(&jo, &page, &[]).await.says("Brought in: 2 packets");
    // the same cells saved as XLSX are the same list
    let rows: Vec<Vec<String>> = list.lines().map(|l| l.split(',').map(str::to_owned).collect()).collect();
    for (name, file) in [("list.csv", list.clone().into_bytes()), ("copy.xlsx", xlsx(&rows))] {
        let again = look(&jo, name, &file).await;
        assert_eq!(again.status, StatusCode::UNPROCESSABLE_ENTITY, "{name}");
        assert!(again.text().contains("Every row of this list was brought in before"), "{}", again.text());
    }
    assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM packets").await, 2);
    // another member has packets of their own
    let kim = club.grower("Kim", "KK").await;
    let page = look(&kim, "list.csv", list.as_bytes()).await;
    confirm(&kim, &page, &[]).await.says("Brought in: 2 packets");
    // a row that was taken back is offered again, and only that
    let sql = "INSERT INTO voids (entry_id, by_member, at, why) SELECT entry_id, member_id, 1, 'test' FROM brought_in
        WHERE line = 3 AND member_id = $1";
    let mut conn = club.app.db.write().await.unwrap();
    conn.run(sql, hilum::args![jo.id()]).await.unwrap();
    conn.commit().await.unwrap();
    look(&jo, "list.csv", list.as_bytes())
        .await
        .says("Rows brought in before, so left out: 1.")
        .says("1 packet,");
}

#[tokio::test]
async fn numbers_dates_formulas_and_errors_of_a_spreadsheet_are_told_apart() {
    let club = club().await;
    let jo = club.grower("Jo", "JB").await;
    let mut book = Workbook::new();
    let sheet = book.add_worksheet();
    for (c, head) in (0..).zip(["kind", "variety", "source", "seeds", "year", "note"]) {
        sheet.write_string(0, c, head).unwrap();
    }
    for r in 1..=2 {
        for (c, cell) in (0..).zip(["pepper", "Kestrel", "Testwood"]) {
            sheet.write_string(r, c, cell).unwrap();
        }
    }
    sheet.write_formula(1, 3, Formula::new("=20+5").set_result("25")).unwrap();
    sheet.write_number(1, 4, 2024.0).unwrap();
    let day = ExcelDateTime::from_ymd(2026, 2, 3).unwrap();
    sheet.write_datetime_with_format(1, 5, &day, &Format::new().set_num_format("yyyy-mm-dd")).unwrap();
    sheet.write_formula(2, 3, Formula::new("=1/0").set_result("#DIV/0!")).unwrap();
    let page = look(&jo, "sums.xlsx", &book.save_to_buffer().unwrap()).await;
    assert_eq!(page.status, StatusCode::UNPROCESSABLE_ENTITY);
    let faults = page.all(".flash li");
    assert!(
        faults
            .iter()
            .any(|f| f.starts_with("Row 3, seeds: The spreadsheet could not work this cell out: #DIV/0!")),
        "{faults:?}"
    );
    assert!(faults.iter().all(|f| f.starts_with("Row 3, seeds")), "{faults:?}");
}

#[tokio::test]
async fn what_is_no_list_is_refused_in_plain_words() {
    let club = club().await;
    let jo = club.grower("Jo", "JB").await;
    let encrypted: Vec<u8> = [&b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"[..], &[0; 2000]].concat();
    let wide = "<table:table-row table:number-rows-repeated=\"1000000\"><table:table-cell office:value-type=\"float\" \
        office:value=\"1\" table:number-columns-repeated=\"16000\"/></table:table-row>";
    let far = "<table:table-row><table:table-cell table:number-columns-repeated=\"99\"/><table:table-cell \
        office:value=\"1\"/></table:table-row><table:table-row table:number-rows-repeated=\"1000000\"/><table:table-row>\
        <table:table-cell office:value=\"1\"/></table:table-row>";
    let long = format!(
        "<table:table-row table:number-rows-repeated=\"60000\"><table:table-cell office:value-type=\"string\" \
         table:number-columns-repeated=\"60\"><text:p>{}</text:p></table:table-cell></table:table-row>",
        "seed ".repeat(4000)
    );
    let zeros = vec![b' '; 200 * 1024 * 1024];
    let bomb = zip(&[("xl/workbook.xml", &zeros)]);
    assert!(bomb.len() < 1024 * 1024);
    let mut cut = xlsx(&vec![vec!["kind".to_owned()]]);
    cut.truncate(cut.len() / 2);
    let locked = zip(&[
        ("mimetype", b"application/vnd.oasis.opendocument.spreadsheet"),
        (
            "META-INF/manifest.xml",
            b"<manifest:manifest xmlns:manifest=\"urn:oasis:names:tc:opendocument:xmlns:manifest:1.0\"><manifest:file-entry \
              manifest:full-path=\"content.xml\"><manifest:encryption-data/></manifest:file-entry></manifest:manifest>",
        ),
        ("content.xml", b"\x01\x02\x03"),
    ]);
    for (name, file, why) in [
        ("locked.xlsx", encrypted, "locked with a password"),
        ("locked.ods", locked, "locked with a password"),
        ("wide.ods", ods_of(wide), "too much text"),
        ("far.ods", ods_of(far), "more than 100000 rows"),
        ("long.ods", ods_of(&long), "too much text"),
        ("bomb.xlsx", bomb, "too much text"),
        ("half.xlsx", cut, "damaged"),
        ("letter.docx", zip(&[("word/document.xml", b"<w/>")]), "no spreadsheet"),
        ("picture.png", b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR".to_vec(), "not a table"),
    ] {
        let began = Instant::now();
        let page = look(&jo, name, &file).await;
        page.refuses("file", why);
        assert!(began.elapsed().as_secs() < 20, "{name}: {:?}", began.elapsed());
    }
    // one cell far out takes no room
    let mut book = Workbook::new();
    let sheet = book.add_worksheet();
    sheet.write_string(0, 0, "kind").unwrap();
    sheet.write_string(1_000_000, 3, "far").unwrap();
    let page = look(&jo, "far.xlsx", &book.save_to_buffer().unwrap()).await;
    assert_eq!(page.status, StatusCode::UNPROCESSABLE_ENTITY);
    let script = "kind,variety,source,seeds\npepper,<script>alert(1)</script>,Testwood,5\n";
    let page = look(&jo, "<script>.csv", script.as_bytes()).await;
    page.says("<script>alert(1)</script>");
    assert!(!page.body.contains("<script>alert"), "{}", page.body);
    assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM packets").await, 0);
}

#[tokio::test]
async fn lists_with_semicolons_commas_in_numbers_and_other_letters_are_read() {
    let club = club().await;
    let jo = club.grower("Jo", "JB").await;
    let latin = "Kind;Variety;Source;Grams;Notes\r\npepper;Jalape\u{f1}o;Testwood;0,5;\"a;b\"\r\n";
    let bytes: Vec<u8> = latin.chars().map(|c| c as u32 as u8).collect();
    let page = look(&jo, "list.csv", &bytes).await;
    page.says("Jalapeño").says("about 83").says("read as Windows-1252");
    confirm(&jo, &page, &[]).await.says("Brought in: 1 packet").says("Jalapeño");
    let wide: Vec<u8> = "\u{feff}kind\tvariety\tsource\tseeds\npepper\tWren\tTestwood\t7\n"
        .encode_utf16()
        .flat_map(u16::to_le_bytes)
        .collect();
    look(&jo, "list.txt", &wide).await.says("Wren").says("1 packet");
}

/// A list of 5 000 packets as a club keeps it: 2 000 names of varieties, 60 sources. The preview must come within
/// 2 s; this is the profile `dev`, in which our own code is not optimised.
#[tokio::test]
async fn five_thousand_packets_are_shown_within_two_seconds() {
    let club = club().await;
    let jo = club.grower("Jo", "JB").await;
    let parts = ["ka", "lo", "mer", "tin", "so", "ven", "dra", "pil", "ru", "bas", "cor", "feth", "gan"];
    let name = |i: usize| {
        let spread = i * 7919 % 28561;
        let syllable = |k: u32| parts[spread / 13_usize.pow(k) % 13];
        (0..4).map(syllable).collect::<String>()
    };
    let head = ["number", "kind", "variety", "source", "year", "lot code", "seeds", "place", "note"];
    let mut rows = vec![head.map(str::to_owned).to_vec()];
    for i in 1..=5000 {
        let kind = ["pepper", "tomato", "onion", "lettuce"][i % 4];
        let (variety, source) = (name(i * 37 % 2000), format!("Hollin {}", i % 60));
        let cells = [&i.to_string(), kind, &variety, &source, "2024", "L-7", "25", "tin 4", "from the swap"];
        rows.push(cells.map(str::to_owned).to_vec());
    }
    let file = xlsx(&rows);
    let form = jo.get("/packets/import").await;
    let began = Instant::now();
    let page = jo.upload(&form, "/packets/import", &[], ("season.xlsx", &file)).await;
    let took = began.elapsed();
    page.says("5000 packets");
    println!("XLSX of 5000 packets ({} kB) shown in {took:?}", file.len() / 1024);
    let distinct: std::collections::BTreeSet<&String> = rows.iter().map(|r| &r[2]).collect();
    assert!(distinct.len() > 1000, "{}", distinct.len());
    assert!(took.as_secs_f64() < 2.0, "{took:?}");
    assert!(csv(&rows).len() > 100_000);
}
