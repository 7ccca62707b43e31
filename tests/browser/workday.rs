//! The rest of an organiser's work day: everything on paper, a card typed in, the table lent to another club.

use crate::journey;
use crate::support::{Phone, Program};
use std::path::{Path, PathBuf};
use tempfile::TempDir;

/// Gives the shared table as the browser saves it.
const TABLE: &str = "
    const form = document.querySelector(\"form[action='/clubs/table.zip']\");
    const answer = await fetch(form.action, { method: 'POST', body: new URLSearchParams(new FormData(form)) });
    const bytes = new Uint8Array(await answer.arrayBuffer());
    return btoa(Array.from(bytes, b => String.fromCharCode(b)).join(''));";

/// On the day after the season was planned, Tuesday 2026-03-03.
pub async fn print_type_in_and_lend(phone: &Phone) {
    print_everything(phone).await;
    type_in_a_card(phone).await;
    let folder = TempDir::new().unwrap();
    let table = save_the_table(phone, &folder).await;
    lend(&table).await;
}

async fn print_everything(phone: &Phone) {
    phone.goto("/labels").await;
    phone.tap("form[action='/labels/print'] button.main").await;
    phone.says("Print").await;
    let labels = phone.print("workday-labels").await;
    assert!(labels.says("Marsh Ember"), "{:?}", labels.pages);
    phone.goto("/trays").await;
    let trays = phone.links("main a.mark[href^='/trays/']").await;
    phone.goto(&format!("{}/sheet?paper=a4", trays[0])).await;
    let sheet = phone.print("workday-tray").await;
    assert_eq!(sheet.pages.len(), 1, "{:?}", sheet.pages);
    phone.goto("/cards").await;
    phone.tap_words("Make cards of").await;
    phone.says("US Letter instead").await;
    let cards = phone.print("workday-cards").await;
    assert!(cards.says("Card 1, Agnes Marlowe"), "{:?}", cards.pages);
    phone.goto("/table/report?paper=a4").await;
    phone.print("workday-report").await.is_sound("a4");
}

async fn type_in_a_card(phone: &Phone) {
    phone.goto("/cards").await;
    phone.tap_words("Type in card 1").await;
    let one_date = phone.links("main .actions a").await.remove(0);
    phone.goto(&one_date).await;
    phone.fill("#f-date-1", "03032026").await;
    phone.fill("#f-rooted-1-1", "1").await;
    phone.fill("#f-rooted-2-1", "0").await;
    phone.tap_words("Save the card").await;
    phone.says("Card 1 is in the book: 1 count with 1 rooted, 0 dead; 1 look with nothing new.").await;
}

async fn save_the_table(phone: &Phone, folder: &TempDir) -> PathBuf {
    phone.goto("/table").await;
    phone.tap_words("Other clubs").await;
    phone.says("Save our table for another club").await;
    phone.look("clubs").await;
    let zip = phone.ask(TABLE).await;
    let path = folder.path().join("fenside.zip");
    std::fs::write(&path, data_encoding::BASE64.decode(zip.as_str().unwrap().as_bytes()).unwrap()).unwrap();
    path
}

/// The other club brings the table in: it stands on its page, and not among its own counts.
async fn lend(table: &Path) {
    let program = Program::start().await;
    let phone = other_organiser(&program).await;
    phone.goto("/clubs").await;
    phone.find("#import input[type=file]").await.send_keys(table.to_str().unwrap()).await.unwrap();
    phone.tap("#import button.main").await;
    phone.says("Nothing is saved yet").await;
    phone.says("Marsh Ember").await;
    phone.look("club-preview").await;
    phone.tap_words("Bring it in").await;
    phone.says("Leave it out of the comparison").await;
    phone.says("Fenside Growing Club").await;
    phone.look("clubs-with-one").await;
    phone.goto("/table").await;
    phone.says("Club table").await;
    phone.hides("Marsh Ember").await;
    phone.close().await;
}

async fn other_organiser(program: &Program) -> Phone {
    let mut phone = Phone::open(&program.base).await;
    phone.pictures = false;
    journey::set_up_and_invite(&phone, program).await;
    phone.pictures = true;
    phone.goto("/sign-in").await;
    phone.fill("#f-sign_in", "ines").await;
    phone.fill("#f-password", journey::PASSWORD).await;
    phone.tap("button.main").await;
    phone.says("Due now").await;
    phone
}
