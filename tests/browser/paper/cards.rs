use super::labels::{PRINTERS, code};
use crate::support::{Phone, Program};
use thirtyfour::prelude::*;

const DAY: i64 = 24 * 60;

#[tokio::test(flavor = "multi_thread")]
async fn a_card_from_the_wall_is_typed_in_with_the_keyboard_alone() {
    let program = Program::demo().await;
    program.at_minute(2 * DAY);
    let phone = Phone::open(&program.base).await;
    phone.sign_in("agnes").await;
    phone.tap_words("Count cards").await;
    phone.look("cards").await;
    phone.tap_words("Make cards of").await;
    phone.says("US Letter instead").await;
    phone.look("card-print").await;
    for (paper, other) in [("a4", "US Letter instead"), ("letter", "A4 instead")] {
        phone.says(other).await;
        prints(&phone, paper, &program.base).await;
        phone.tap_words(other).await;
    }
    phone.tap_words("All count cards").await;
    phone.tap_words("Type in card 1").await;
    phone.says("Type in card 1").await;
    phone.look("card-type").await;
    let faults = phone.faults().await;
    assert!(faults.is_empty(), "{faults:#?}");
    phone.size(1280, 900).await;
    let rows = phone.texts("tbody th .mark").await;
    type_whole_card(&phone, rows.len()).await;
    let said = format!(
        "Card 1 is in the book: {} counts with {} rooted, 0 dead; {} looks with nothing new.",
        counts(rows.len()),
        counts(rows.len()),
        rows.len() - counts(rows.len())
    );
    phone.says(&said).await;
    twice(&phone, &rows).await;
    phone.close().await;
}

/// One page for each card, each with its rows and a code.
async fn prints(phone: &Phone, paper: &str, base: &str) {
    let rows = phone.texts(".card-page tbody tr").await.len();
    let cards = phone.texts(".card-page").await.len();
    let print = phone.print(&format!("card-{paper}")).await;
    assert_eq!(print.pages.len(), cards, "a page for each card");
    let (width, height) = if paper == "letter" { (279.4, 215.9) } else { (297.0, 210.0) };
    assert!((print.size.0 - width).abs() < 0.5 && (print.size.1 - height).abs() < 0.5, "{:?}", print.size);
    assert!(rows > 0 && print.says("Card 1, Agnes Marlowe"), "{:?}", print.pages);
    for dpi in PRINTERS {
        let read = code(&print.dots(1, dpi), [width - 42.0, 0.0, 42.0, 42.0], dpi);
        assert_eq!(read, Some(format!("{}/C/AM-1", base.to_uppercase())), "{paper} at {dpi} dpi");
    }
}

/// Rows in which one seed rooted: every other one.
fn counts(rows: usize) -> usize {
    rows.div_ceil(2)
}

async fn press(phone: &Phone, keys: impl Into<TypingData>) {
    phone.driver.active_element().await.unwrap().send_keys(keys).await.unwrap();
}

async fn at(phone: &Phone) -> String {
    phone.reads("return document.activeElement.id || document.activeElement.textContent.trim()", "").await
}

/// Presses Tab until the cell with this name has the focus.
async fn tab_to(phone: &Phone, name: &str, most: usize) {
    for _ in 0..most {
        if at(phone).await == name {
            return;
        }
        press(phone, Key::Tab).await;
    }
    panic!("{most} tabs do not lead to {name}, but to {}", at(phone).await);
}

/// Types the date over the first column, and in each row 1 or 0: with Tab in the first rows, with Enter below.
async fn type_whole_card(phone: &Phone, rows: usize) {
    let one_date = phone.links("main .actions a").await.remove(0);
    phone.goto(&one_date).await;
    tab_to(phone, "f-date-1", 40).await;
    press(phone, "03042026").await;
    for row in 1..=rows {
        // the parts of a date are places of the focus of their own
        if row == 1 {
            tab_to(phone, "f-rooted-1-1", 5).await;
        }
        assert_eq!(at(phone).await, format!("f-rooted-{row}-1"), "the order is that of the paper");
        press(phone, (row % 2).to_string()).await;
        let on = || if row % 3 == 0 { Key::Tab } else { Key::Enter };
        press(phone, on()).await;
        assert_eq!(at(phone).await, format!("f-dead-{row}-1"));
        if row == rows {
            press(phone, Key::Enter).await;
            break;
        }
        press(phone, on()).await;
    }
    assert_eq!(at(phone).await, "Save the card", "after the last cell");
    press(phone, Key::Enter).await;
}

/// The same card typed again is told beside each cell, and counts only once told so.
async fn twice(phone: &Phone, rows: &[String]) {
    phone.tap_words("Type in card 1").await;
    phone.goto(&phone.links("main .actions a").await.remove(0)).await;
    tab_to(phone, "f-date-1", 40).await;
    press(phone, "03042026").await;
    tab_to(phone, "f-rooted-1-1", 5).await;
    press(phone, "1").await;
    phone.tap_words("Save the card").await;
    phone.says(&format!("{}: Counted on Wed 4 Mar already: 1 rooted, 0 dead.", rows[0])).await;
    phone.look("card-twice").await;
}
