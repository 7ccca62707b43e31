mod clubs;
mod commands;
mod counts;
mod files;
mod german;
mod mcpd;
mod package;
mod round;
mod writers;

use crate::stock::{club, number, sound};
use crate::support::{Browser, Page};
use axum::body::Body;
use axum::http::header::{CONTENT_TYPE, HOST, ORIGIN};
use axum::http::{Request, StatusCode};
use http_body_util::BodyExt;

pub const HEAD: &str = "No,Kind,Variety,Source,Year,Lot code,Seeds,Place\n";

async fn preview(who: &Browser, body: &str) -> Page {
    let form = who.get("/packets/import").await;
    who.submit(&form, "/packets/import", &[("list", &format!("{HEAD}{body}"))]).await
}

pub async fn confirm(who: &Browser, page: &Page, answers: &[(&str, &str)]) -> Page {
    who.submit(page, "/packets/import/confirm", answers).await
}

#[tokio::test]
async fn a_list_is_shown_first_and_comes_in_whole() {
    let club = club().await;
    let jo = club.grower("Jo", "JB").await;
    let rows = "7,pepper,Kestrel,Testwood,2024,L-1,about 25,tin 1\n,eggplant,Wren,Testwood,,,10,\n";
    let page = preview(&jo, rows).await;
    page.says("Nothing is saved yet: 2 packets").says("JB 7").says("JB next").says("about 25");
    assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM packets").await, 0);
    assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM varieties").await, 0);
    confirm(&jo, &page, &[]).await.says("Brought in: 2 packets").says("JB 7").says("JB 8").says("aubergine");
    confirm(&jo, &page, &[]).await;
    assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM packets").await, 2);
    let again = preview(&jo, rows).await;
    assert_eq!(again.status, StatusCode::UNPROCESSABLE_ENTITY);
    let text = again.text();
    assert!(text.contains("Every row of this list was brought in before"), "{text}");
    let other = preview(&jo, "7,pepper,Kestrel,Testwood,2024,L-2,20,\n").await;
    assert_eq!(other.status, StatusCode::UNPROCESSABLE_ENTITY);
    let text = other.text();
    assert!(text.contains("Line 2, number: JB 7 was given before"), "{text}");
    assert!(text.contains("take new letters"), "{text}");
    sound(&club).await;
}

#[tokio::test]
async fn every_fault_is_shown_and_nothing_comes_in() {
    let club = club().await;
    let jo = club.grower("Jo", "JB").await;
    let rows = "3,pepper,Kestrel,Testwood,2024,,25,\n3,pepper,Wren,Testwood,24,,many,\n,,Dunlin,,2024,,5,\n\
                KQ 4,pepper,Knot,Testwood,,,5,\n";
    let page = preview(&jo, rows).await;
    assert_eq!(page.status, StatusCode::UNPROCESSABLE_ENTITY);
    let faults = page.all(".flash li");
    assert_eq!(faults.len(), 6, "{faults:?}");
    for (place, start) in [
        "Line 3, year",
        "Line 3, seeds",
        "Line 3, number: JB 3 stands in line 2",
        "Line 4, kind",
        "Line 4, source",
        "Line 5, number: The letters KQ",
    ]
    .iter()
    .enumerate()
    {
        assert!(faults[place].starts_with(start), "{start}: {faults:?}");
    }
    assert!(page.body.contains("Dunlin"), "what was typed is kept");
    // a hand-made confirmation of a faulty list imports nothing either
    let mut pairs = page.form("/packets/import").filled(&[]);
    pairs.retain(|(n, _)| n != "file");
    let pairs: Vec<(&str, &str)> = pairs.iter().map(|(n, v)| (n.as_str(), v.as_str())).collect();
    let answer = jo.post("/packets/import/confirm", &pairs).await;
    assert_eq!(answer.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM packets").await, 0);
    // mended in place, it goes through
    let mended = format!("{HEAD}3,pepper,Kestrel,Testwood,2024,,25,\n");
    let page = jo.submit(&page, "/packets/import", &[("list", &mended)]).await;
    confirm(&jo, &page, &[]).await.says("Brought in: 1 packet");
}

#[tokio::test]
async fn an_empty_or_unreadable_list_is_refused() {
    let club = club().await;
    let jo = club.grower("Jo", "JB").await;
    let form = jo.get("/packets/import").await;
    jo.submit(&form, "/packets/import", &[("list", " ")]).await.refuses("list", "Choose a file");
    for list in ["kind,variety\n", HEAD, "\u{0}\u{1}", "\"", ",,,\n,,,\n"] {
        let page = jo.submit(&form, "/packets/import", &[("list", list)]).await;
        assert_eq!(page.status, StatusCode::UNPROCESSABLE_ENTITY, "{list:?}");
    }
}

#[tokio::test]
async fn near_spellings_are_offered_once_each() {
    let club = club().await;
    let jo = club.grower("Jo", "JB").await;
    let first = preview(&jo, ",pepper,Kestrel,Testwood Seeds,,,5,\n").await;
    confirm(&jo, &first, &[]).await;
    let rows = ",pepper,Kestrell,Testwood,,,5,\n,pepper,kestrell,Testwood,,,5,\n,pepper,Osprey,Fernhill,,,5,\n\
                ,pepper,Ospray,Fernhill,,,5,\n";
    let page = preview(&jo, rows).await;
    let legends = page.all("fieldset legend");
    assert_eq!(legends, ["The variety Kestrell", "The source Testwood", "The variety Ospray"]);
    let answers = [
        ("variety:pepper:kestrell", "Kestrel"),
        ("source:testwood", "Testwood Seeds"),
        ("variety:pepper:ospray", "Ospray"),
    ];
    assert!(!page.body.contains(" checked"), "nothing is chosen beforehand");
    let open = confirm(&jo, &page, &answers[..2]).await;
    assert_eq!(open.status, StatusCode::UNPROCESSABLE_ENTITY);
    let question = "Ospray would be new, and is near Osprey in spelling. Which is meant?";
    assert_eq!(open.all("fieldset .error"), [question]);
    assert_eq!(open.all(".flash li"), [question]);
    assert_eq!(open.body.matches(" checked").count(), 2, "answers are kept");
    assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM packets").await, 1);
    confirm(&jo, &page, &answers).await.says("Brought in: 4 packets");
    assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM varieties").await, 3);
    assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM sources").await, 2);
}

#[tokio::test]
async fn an_answer_that_raises_a_question_is_asked_before_anything_comes_in() {
    let club = club().await;
    let jo = club.grower("Jo", "JB").await;
    let first = preview(&jo, ",pepper,Kestrel,Testwood,,,5,\n").await;
    confirm(&jo, &first, &[]).await;
    let page = preview(&jo, ",peper,Kestrell,Testwood,,,5,\n").await;
    let asked = confirm(&jo, &page, &[("kind:peper", "pepper")]).await;
    assert_eq!(asked.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert_eq!(asked.all("fieldset legend"), ["The kind peper", "The variety Kestrell"]);
    assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM packets").await, 1);
    let answers = [("kind:peper", "pepper"), ("variety:pepper:kestrell", "Kestrel")];
    confirm(&jo, &asked, &answers).await.says("Brought in: 1 packet");
    assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM varieties").await, 1);
}

#[tokio::test]
async fn a_kind_and_a_variety_that_look_swapped_are_asked_about() {
    let club = club().await;
    let jo = club.grower("Jo", "JB").await;
    let first = preview(&jo, ",pepper,Kestrel,Testwood,,,5,\n").await;
    confirm(&jo, &first, &[]).await;
    let rows = ",Fen Gold,tomato,Testwood,,,5,\n,Kestrel,Marsh,Testwood,,,5,\n,leek,Leek,Testwood,,,5,\n";
    let page = preview(&jo, rows).await;
    let legends = ["The row with kind Fen Gold, variety tomato", "The row with kind Kestrel, variety Marsh"];
    assert_eq!(page.all("fieldset legend"), legends);
    let open = confirm(&jo, &page, &[]).await;
    assert_eq!(open.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert_eq!(open.all("fieldset .error").len(), 2);
    let answers = [
        ("order:fen gold:tomato", "kind tomato, variety Fen Gold"),
        ("order:kestrel:marsh", "kind Kestrel, variety Marsh"),
    ];
    confirm(&jo, &open, &answers).await.says("Brought in: 3 packets");
    let swapped = "SELECT COUNT(*) AS n FROM varieties v JOIN kinds k ON k.id = v.kind_id
        WHERE k.name = 'tomato' AND v.name = 'Fen Gold'";
    assert_eq!(number(&club, swapped).await, 1);
    assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM kinds WHERE name = 'Kestrel'").await, 1);
}

#[tokio::test]
async fn a_seed_number_that_cannot_be_read_is_shown_as_typed_and_thousands_are_read() {
    let club = club().await;
    let jo = club.grower("Jo", "JB").await;
    let list =
        "Type;Variety;Source;Yr;Seeds\npepper;Kestrel;Testwood;2024;1,000\npepper;Wren;Testwood;;a few\n";
    let form = jo.get("/packets/import").await;
    let page = jo.submit(&form, "/packets/import", &[("list", list)]).await;
    assert_eq!(page.all(".flash li").len(), 1, "{}", page.text());
    assert_eq!(page.all("td[data-label=Seeds]"), ["1000", "a few"]);
    assert_eq!(page.all("td[data-label=Year]"), ["2024", ""]);
}

#[tokio::test]
async fn an_empty_file_is_said_to_be_empty() {
    let club = club().await;
    let jo = club.organiser("Jo", "JB").await;
    let empty = writers::xlsx(&Vec::new());
    for (action, page) in [
        ("/packets/import", "/packets/import"),
        ("/counts/import", "/counts/import"),
        ("/clubs/import", "/clubs"),
    ] {
        let form = jo.get(page).await;
        jo.upload(&form, action, &[], ("a.csv", b"")).await.refuses("file", "This file is empty.");
        if action != page {
            let page = jo.upload(&form, action, &[], ("a.xlsx", &empty)).await;
            page.refuses("file", "This is not the shared table of a club");
            continue;
        }
        jo.upload(&form, action, &[], ("a.xlsx", &empty)).await.refuses("file", "This file is empty.");
        jo.upload(&form, action, &[], ("", b"")).await.refuses("list", "Choose a file");
    }
}

#[tokio::test]
async fn one_list_confirmed_by_two_taps_comes_in_once() {
    let club = club().await;
    let jo = club.grower("Jo", "JB").await;
    for round in 1..4 {
        let page = preview(&jo, &format!("{round},pepper,Kestrel,Testwood,,,5,\n")).await;
        let other = preview(&jo, &format!("{round},pepper,Wren,Testwood,,,5,\n")).await;
        let (a, b, c) =
            tokio::join!(confirm(&jo, &page, &[]), confirm(&jo, &page, &[]), confirm(&jo, &other, &[]));
        assert_eq!(a.status, b.status);
        let fine = [a.status, c.status].iter().filter(|s| **s == StatusCode::OK).count();
        assert_eq!(fine, 1, "one mark, two lists: {} / {}", a.text(), c.text());
        assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM packets").await, round);
    }
    sound(&club).await;
}

pub async fn text_of(who: &Browser, path: &str) -> String {
    let request = Request::get(path).header(HOST, "club.test").body(Body::empty()).unwrap();
    let bytes = who.raw(request).await.into_body().collect().await.unwrap().to_bytes();
    String::from_utf8(bytes.to_vec()).unwrap()
}

#[tokio::test]
async fn what_goes_out_comes_in_again_as_it_was() {
    let club = club().await;
    let (jo, kim) = (club.grower("Jo", "JB").await, club.grower("Kim", "KK").await);
    let rows = "7,pepper,Kestrel,\"=Fern, \"\"hill\"\"\",2024,-9,about 25,\"'+tin\n1\"\n,tomato,Wren,Testwood,,@x,10,\n";
    let page = preview(&jo, &rows.replace("\n1\"", " 1\"")).await;
    confirm(&jo, &page, &[]).await.says("Brought in: 2 packets");
    let out = text_of(&jo, "/packets.csv").await;
    let risky = out.split(['\n', ',']).any(|cell| cell.trim_matches('"').starts_with(['=', '+', '-', '@']));
    assert!(!risky, "{out}");
    let moved = out.replace("JB ", "KK ");
    let form = kim.get("/packets/import").await;
    let page = kim.submit(&form, "/packets/import", &[("list", &moved)]).await;
    confirm(&kim, &page, &[]).await.says("Brought in: 2 packets");
    assert_eq!(text_of(&kim, "/packets.csv").await, moved);
}

fn multipart(list: &[u8], csrf: &str) -> Vec<u8> {
    let mut body = Vec::new();
    for (name, value) in [("csrf", csrf.as_bytes()), ("key", b"0123456789abcdef0123"), ("letters", b"JB")] {
        body.extend(format!("--x\r\nContent-Disposition: form-data; name=\"{name}\"\r\n\r\n").as_bytes());
        body.extend(value);
        body.extend(b"\r\n");
    }
    body.extend(b"--x\r\nContent-Disposition: form-data; name=\"file\"; filename=\"a.csv\"\r\n");
    body.extend(b"Content-Type: text/csv\r\n\r\n");
    body.extend(list);
    body.extend(b"\r\n--x--\r\n");
    body
}

async fn upload(who: &Browser, list: &[u8], origin: &str) -> (StatusCode, String) {
    let request = Request::post("/packets/import")
        .header(HOST, "club.test")
        .header(ORIGIN, origin)
        .header(CONTENT_TYPE, "multipart/form-data; boundary=x")
        .body(Body::from(multipart(list, "")))
        .unwrap();
    let response = who.raw(request).await;
    let status = response.status();
    let bytes = response.into_body().collect().await.unwrap().to_bytes();
    (status, String::from_utf8_lossy(&bytes).into_owned())
}

#[tokio::test]
async fn a_file_is_taken_from_our_own_pages_only_and_not_too_large() {
    let club = club().await;
    let jo = club.grower("Jo", "JB").await;
    let list = format!("{HEAD}7,pepper,Jalapeño Kestrel,Testwood,2024,,25,\n");
    let (status, body) = upload(&jo, list.as_bytes(), "http://club.test").await;
    assert_eq!(status, StatusCode::OK);
    assert!(body.contains("Jalapeño Kestrel"), "{body}");
    assert_eq!(upload(&jo, list.as_bytes(), "http://evil.test").await.0, StatusCode::BAD_REQUEST);
    let latin: Vec<u8> = list.chars().map(|c| c as u32 as u8).collect();
    let (status, body) = upload(&jo, &latin, "http://club.test").await;
    assert_eq!(status, StatusCode::OK);
    assert!(body.contains("Jalapeño Kestrel") && body.contains("read as Windows-1252"), "{body}");
    let large = vec![b'x'; 11 * 1024 * 1024];
    let (status, body) = upload(&jo, &large, "http://club.test").await;
    assert_eq!(status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(body.contains("larger than 10 MB"), "{body}");
    let huge = vec![b'x'; 14 * 1024 * 1024];
    assert_eq!(upload(&jo, &huge, "http://club.test").await.0, StatusCode::PAYLOAD_TOO_LARGE);
}

#[tokio::test]
async fn five_hundred_rows_are_quick() {
    let club = club().await;
    let jo = club.grower("Jo", "JB").await;
    let rows: String =
        (1..=500).map(|n| format!("{n},pepper,Line {n},Testwood,2024,,25,tin {n}\n")).collect();
    let began = std::time::Instant::now();
    let page = preview(&jo, &rows).await;
    let shown = began.elapsed();
    page.says("500 packets");
    let began = std::time::Instant::now();
    let done = confirm(&jo, &page, &[]).await;
    println!("preview {shown:?}, import {:?}", began.elapsed());
    done.says("Brought in: 500 packets");
    assert!(shown.as_secs() < 3, "{shown:?}");
    assert!(began.elapsed().as_secs() < 20, "{:?}", began.elapsed());
    sound(&club).await;
}

/// Sends a list as a file, to be looked at.
pub async fn upload_list(who: &Browser, action: &str, name: &str, file: &[u8]) -> Page {
    let form = who.get(action).await;
    who.upload(&form, action, &[], (name, file)).await
}
