//! The counting days of the journey with the server stopped during two of three counts, and each state seen.

use super::{all_sent, kept, on_paper, until};
use crate::journey::{self, DAY};
use crate::support::{Mode, Phone, Program, Proxy, START};
use hilum::args;
use hilum::db::FromRow;
use std::path::PathBuf;

const PAPER: i64 = 14 * 60;

#[derive(FromRow)]
struct Look {
    at: i64,
}

#[derive(FromRow)]
struct Photo {
    jpeg: Vec<u8>,
}

#[tokio::test]
async fn two_of_three_counts_are_made_while_the_server_is_stopped() {
    let mut program = Program::start().await;
    let mut phone = Phone::open(&program.base).await;
    let bags = on_paper(&mut phone, &program).await;
    program.at_minute(PAPER + 5 * DAY);
    phone.goto("/").await;
    let mut pages = bags.clone();
    pages.extend(["/".into(), "/looks?all=yes".into(), "/outbox".into(), "/phone".into()]);
    kept(&phone, &pages).await;
    for (bag, rooted) in bags.iter().zip(["4", "2", "7"]) {
        count(&phone, bag, rooted).await;
        phone.says("Undo").await;
    }
    let fresh =
        "return (await (await caches.match('/looks?all=yes'))?.text() ?? '').includes('looked at too');";
    until(&phone, "the list of looks as it stands", fresh).await;
    phone.goto("/phone").await;
    phone.says("Yes").await;
    phone.look("phone-can-keep").await;

    program.stop();
    phone.move_clock(DAY).await;
    phone.goto("/").await;
    phone.says("No signal: this page is as it was").await;
    phone.look("due-now-offline").await;
    phone.goto("/looks?all=yes").await;
    phone.tap_words("looked at too: nothing new").await;
    phone.tap("#looks .save button.main").await;
    phone.says("Saved on this phone").await;
    phone.says("1 waiting").await;

    phone.move_clock(9 * DAY).await;
    phone.goto(&bags[0]).await;
    phone.tap("details.more summary").await;
    let photo = large_photo();
    phone.find("#f-photo").await.send_keys(photo.to_str().unwrap()).await.unwrap();
    phone.fill("#f-rooted", "3").await;
    phone.tap(".save button.main").await;
    phone.says("Saved on this phone: Root out: 3, Photo: large.jpg").await;
    for (bag, rooted) in bags.iter().skip(1).zip(["4", "1"]) {
        count(&phone, bag, rooted).await;
        phone.says("Saved on this phone: Root out").await;
        phone.look("bag-saved-on-this-phone").await;
    }
    phone.says("4 waiting").await;
    phone.goto("/outbox").await;
    phone.says("Root out").await;
    phone.look("outbox-waiting").await;

    program.at_minute(PAPER + 14 * DAY + 30);
    program.again().await;
    phone.tap("#send-now").await;
    phone.says("All sent").await;
    phone.look("outbox-all-sent").await;
    the_server_has_them(&program, &bags).await;
    journey::read_the_table(&phone, &program).await;
    program.stop();
    assert!(program.check().contains("No breach"), "{}", program.check());
    phone.close().await;
}

/// A photo of 12 million pixels, as phones take them.
fn large_photo() -> PathBuf {
    let folder = std::env::temp_dir().join(format!("hilum-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    let path = folder.join("large.jpg");
    let dots = |x: u32, y: u32| image::Rgb([x, y, x ^ y].map(|n| u8::try_from(n / 8 % 256).unwrap()));
    image::RgbImage::from_fn(4000, 3000, dots).save(&path).unwrap();
    path
}

/// A day after paper, with the pages of the bags kept on the phone.
async fn on_the_next_day() -> (Program, Phone, Vec<String>) {
    let program = Program::start().await;
    let mut phone = Phone::open(&program.base).await;
    let bags = on_paper(&mut phone, &program).await;
    program.at_minute(PAPER + DAY);
    phone.goto("/").await;
    kept(&phone, &bags).await;
    (program, phone, bags)
}

async fn count(phone: &Phone, bag: &str, rooted: &str) {
    phone.goto(bag).await;
    phone.fill("#f-rooted", rooted).await;
    phone.tap(".save button.main").await;
}

/// Three looks of each bag, each on the day it was made, not on the day it was sent.
async fn the_server_has_them(program: &Program, bags: &[String]) {
    let db = program.db().await;
    let sql =
        "SELECT e.at FROM entries e JOIN looks l ON l.entry_id = e.id WHERE e.bag_id = $1 ORDER BY e.at";
    for bag in bags {
        let id = bag.trim_start_matches("/bags/");
        let looks: Vec<Look> = db.read().await.unwrap().all(sql, args![id]).await.unwrap();
        let days: Vec<i64> = looks.iter().map(|l| (l.at - START - PAPER * 60).div_euclid(DAY * 60)).collect();
        assert_eq!(days, [5, 6, 14], "{bag}");
    }
    let photos: Vec<Photo> =
        db.read().await.unwrap().all("SELECT jpeg FROM photos ORDER BY id", args![]).await.unwrap();
    let [photo] = photos.as_slice() else { panic!("{} photos", photos.len()) };
    let kept = image::load_from_memory(&photo.jpeg).unwrap();
    assert_eq!((kept.width(), kept.height()), (1600, 1200));
    db.close().await;
}

#[tokio::test]
async fn what_is_refused_is_mended_and_nobody_else_sees_it() {
    let (mut program, phone, bags) = on_the_next_day().await;
    program.stop();
    count(&phone, &bags[0], "99").await;
    phone.says("Saved on this phone: Root out: 99").await;
    phone.goto("/").await;
    phone.says("saved on this phone").await;
    phone.tap("footer form button").await;
    phone.says("1 count waits on this phone").await;
    phone.look("sign-out-asks").await;
    phone.tap_words("Stay signed in").await;
    program.again().await;
    phone.goto("/outbox").await;
    phone.says("Needs attention: You counted 99 seeds").await;
    phone.says("1 needs attention").await;
    phone.look("outbox-needs-attention").await;
    phone.tap_words("Edit").await;
    phone.says("Not saved yet").await;
    phone.look("bag-edit").await;
    let typed = phone.find("#f-rooted").await.prop("value").await.unwrap();
    assert_eq!(typed.as_deref(), Some("99"), "what was typed is back");

    program.stop();
    phone.fill("#f-rooted", "9").await;
    phone.tap(".save button.main").await;
    phone.says("1 waiting").await;
    program.again().await;
    another_member_sees_nothing(&phone).await;
    sign_in(&phone, "jonas").await;
    all_sent(&phone).await;
    phone.goto(&bags[0]).await;
    phone.says("1 seed still on paper").await;
    until(&phone, "a silent line", "return document.getElementById('outbox').textContent === '';").await;
    phone.close().await;
}

async fn another_member_sees_nothing(phone: &Phone) {
    phone.session("").await;
    sign_in(phone, "ines").await;
    phone.goto("/outbox").await;
    phone.says("1 count of another member waits here").await;
    phone.look("outbox-of-another").await;
    assert!(!phone.text().await.contains("Root out"), "{}", phone.text().await);
    let kept = phone.ask("for (const n of await caches.keys()) for (const r of await (await caches.open(n)).keys()) if (r.url.includes('/bags/')) return r.url; return '';").await;
    assert_eq!(kept, "", "what the other member had kept is gone");
    phone.session("").await;
}

async fn sign_in(phone: &Phone, name: &str) {
    phone.goto("/sign-in").await;
    phone.fill("#f-sign_in", name).await;
    phone.fill("#f-password", "four words quite unrelated").await;
    phone.tap("button.main").await;
    phone.says("Due now").await;
}

#[tokio::test]
async fn with_signal_a_refusal_is_beside_its_field_and_stands_until_it_is_mended() {
    let (mut program, phone, bags) = on_the_next_day().await;
    for wrong in ["99", "two"] {
        count(&phone, &bags[0], wrong).await;
        phone.says("Not saved.").await;
        let typed = phone.find("#f-rooted").await.prop("value").await.unwrap();
        assert_eq!(typed.as_deref(), Some(wrong), "what was typed is kept");
    }
    phone.says("1 needs attention").await; // the other is told by the errors on this page
    phone.fill("#f-rooted", "2").await;
    phone.tap(".save button.main").await;
    phone.says("Undo").await;
    phone.says("1 needs attention").await;
    phone.goto("/outbox").await;
    phone.says("Root out: 99").await;
    phone.tap_words("Throw away").await;
    phone.tap_words("Throw it away").await;
    phone.says("All sent").await;
    assert_eq!(phone.ask("return (await outbox.all()).length;").await, 0);
    // two looks from the list of all, one of them impossible, made without signal
    phone.goto("/looks?all=yes").await;
    program.stop();
    phone.fill("#looks input[name^='rooted-']", "50").await;
    phone.tap("#looks .save button.main").await;
    phone.says("Saved on this phone").await;
    program.again().await;
    phone.goto("/outbox").await;
    phone.says("Needs attention").await;
    phone.tap_words("Edit").await;
    phone.says("Mend it and save it again").await;
    phone.fill("#looks input[name^='rooted-']", "1").await;
    phone.tap("#looks .save button.main").await;
    phone.says("1 rooted").await;
    // a form that is not kept says so in our words, and what was typed is there again
    phone.goto(&format!("{}/happened", bags[0])).await;
    let note = "textarea[name=note]";
    phone.fill(note, "left by the door").await;
    program.stop();
    phone.tap("main form .save button").await;
    phone.says("Not saved: no signal").await;
    program.again().await;
    phone.tap_words("Back to what I typed").await;
    let typed = phone.find(note).await.prop("value").await.unwrap();
    assert_eq!(typed.as_deref(), Some("left by the door"));
    // back to the answer of a save that was refused: the form is there again
    phone.goto("/kinds").await;
    phone.fill("#f-name", "!").await;
    phone.tap("#new-kind button").await;
    phone.says("A name with letters in it").await;
    phone.goto("/plan").await;
    phone.ask("history.back();").await;
    phone.says("Add the kind").await;
    // and without signal what is kept of the page that it stood on
    count(&phone, &bags[0], "99").await;
    phone.says("Not saved.").await;
    phone.goto("/").await;
    program.stop();
    phone.ask("history.back();").await;
    phone.says("No signal: this page is as it was").await;
    phone.close().await;
}

/// A kept page does not know of a save that was just answered, and the message of it comes only once.
#[tokio::test]
async fn after_an_answered_save_the_page_that_tells_of_it_is_waited_for() {
    let mut program = Program::start().await;
    let proxy = Proxy::start(program.port).await;
    let mut phone = Phone::open(&proxy.base).await;
    program.set_up = program.set_up.replace(&program.base, &proxy.base);
    let bags = on_paper(&mut phone, &program).await;
    program.at_minute(PAPER + DAY);
    phone.goto("/").await;
    kept(&phone, &["/".into(), bags[0].clone()]).await;
    phone.goto(&bags[0]).await;
    proxy.set(Mode::SlowPages);
    phone.fill("#f-rooted", "1").await;
    phone.tap(".save button.main").await;
    phone.says("Undo").await;
    phone.tap(".flash .undo button").await;
    phone.says("Undone").await;
    // the worker may be first to send it: what was typed is not offered again either
    phone.goto(&bags[0]).await;
    let by_another =
        "outboxForms.flush = async () => { await outbox.flush(outboxForms.member); return new Map(); };";
    phone.ask(by_another).await;
    phone.fill("#f-rooted", "1").await;
    phone.tap(".save button.main").await;
    phone.says("Sent: Root out: 1.").await;
    assert_eq!(phone.find("#f-rooted").await.prop("value").await.unwrap().as_deref(), Some(""));
    phone.goto(&bags[0]).await;
    phone.hides("What you typed").await;
    phone.close().await;
}

#[tokio::test]
async fn a_server_that_hangs_holds_nothing_up_for_long() {
    let (program, mut phone, bags) = on_the_next_day().await;
    phone.hurry().await;
    program.hang(true);
    for bag in &bags {
        count(&phone, bag, "1").await;
        phone.says("Saved on this phone: Root out: 1").await;
        tokio::time::sleep(std::time::Duration::from_secs(8)).await;
    }
    phone.goto("/outbox").await;
    phone.says("3 waiting").await;
    program.hang(false);
    // hidden where all went by itself meanwhile
    phone.ask("document.getElementById('send-now').click();").await;
    let began = std::time::Instant::now();
    all_sent(&phone).await;
    assert!(began.elapsed().as_secs() < 45, "{:?}", began.elapsed());
    for bag in &bags {
        phone.goto(bag).await;
        phone.says("9 seeds still on paper").await;
    }
    phone.close().await;
}

#[tokio::test]
async fn on_plain_http_an_open_page_keeps_and_sends() {
    let mut program = Program::start().await;
    let mut phone = Phone::open(&program.base).await;
    let bags = on_paper(&mut phone, &program).await;
    program.at_minute(PAPER + DAY);
    phone.base = format!("http://shed.test:{}", program.port);
    sign_in(&phone, "jonas").await;
    phone.goto("/phone").await;
    phone.says("keep it open until it says Sent").await;
    phone.look("phone-cannot-keep").await;
    phone.goto(&bags[0]).await;
    program.stop();
    phone.fill("#f-rooted", "2").await;
    phone.tap(".save button.main").await;
    phone.says("Offline saving is off here").await;
    phone.look("bag-keep-this-page-open").await;
    program.again().await;
    until(
        &phone,
        "the count sent",
        "return document.querySelector('.told').textContent === 'Sent: Root out: 2.';",
    )
    .await;
    phone.goto(&bags[0]).await;
    phone.says("8 seeds still on paper").await;
    phone.close().await;
}
