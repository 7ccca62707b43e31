//! The manual: its pictures, which are taken here, its first sign-in followed to the letter, and each page in six states.
//! `HILUM_PICTURES=write` takes the pictures anew into `static/manual`; without it they must still be true.

mod picture;

use crate::journey;
use crate::support::{Phone, Program};
use picture::Picture;
use std::collections::BTreeSet;
use std::path::Path;
use std::time::{Duration, Instant};

/// The next morning, in minutes.
const MORNING: i64 = 14 * 60;
/// What a reader goes by: headings, labels, buttons. Numbers of the day are no part of it.
const NAMES: &str = "return [...document.querySelectorAll('main :is(h1, h2, label, legend, button, summary, th, .button)')]
    .filter(e => e.checkVisibility() && !e.closest('.vh')).map(e => e.innerText.replace(/\\s+/g, ' ').trim())
    .filter(words => words && !/\\d/.test(words)).filter((words, n, all) => all.indexOf(words) === n).join('\\n');";

/// A picture of the manual: its file, who sees the page, where it is, and a word on it.
struct Shot {
    file: &'static str,
    sign_in: &'static str,
    page: At,
    says: &'static str,
}

/// Where a page is.
enum At {
    Phone(&'static str),
    /// The first that a link of the page leads to.
    Behind(&'static str, &'static str),
    /// On a desktop; what matches stands at the top.
    Desktop(&'static str, &'static str),
}

const SHOTS: &[Shot] = &[
    Shot { file: "due-now.png", sign_in: "bartek", page: At::Phone("/"), says: "due bags in one screen" },
    Shot { file: "looks.png", sign_in: "bartek", page: At::Phone("/looks"), says: "Save the looks" },
    Shot {
        file: "count.png",
        sign_in: "bartek",
        page: At::Behind("/", ".due a.button[href^='/bags/']:not([href$='/plant'], [href$='/close'])"),
        says: "Save the count",
    },
    Shot {
        file: "tray.png",
        sign_in: "bartek",
        page: At::Behind("/trays", "main a.mark[href^='/trays/']"),
        says: "Note what came up",
    },
    Shot {
        file: "soak.png",
        sign_in: "bartek",
        page: At::Behind("/trials", "main a.mark[href^='/trials/']"),
        says: "Step done",
    },
    Shot {
        file: "packets.png",
        sign_in: "agnes",
        page: At::Desktop("/packets", "body"),
        says: "Your packets",
    },
    Shot {
        file: "table.png",
        sign_in: "agnes",
        page: At::Desktop("/table", "table.list"),
        says: "Choose what to pool",
    },
    Shot {
        file: "variety.png",
        sign_in: "agnes",
        page: At::Desktop("/table/variety?kind=pepper&variety=Marsh+Ember", "main"),
        says: "Growers who had both",
    },
];
/// Taken before anybody signs in.
const OUTSIDE: Shot =
    Shot { file: "sign-in.png", sign_in: "", page: At::Phone("/sign-in"), says: "Password" };

#[tokio::test(flavor = "multi_thread")]
async fn pictures_of_the_manual_show_the_pages_as_they_are() {
    let program = Program::demo().await;
    program.at_minute(MORNING);
    let phone = Phone::open(&program.base).await;
    phone.cdp("Emulation.setScrollbarsHidden", serde_json::json!({ "hidden": true })).await;
    let mut faults = Vec::new();
    OUTSIDE.take(&phone, &mut faults).await;
    let mut signed_in = "";
    for shot in SHOTS {
        if signed_in != shot.sign_in {
            if !signed_in.is_empty() {
                phone.size(360, 740).await;
                phone.tap("footer form button").await;
                phone.says("Sign in").await;
            }
            phone.sign_in(shot.sign_in).await;
            signed_in = shot.sign_in;
        }
        if shot.file == "soak.png" {
            start_a_soak(&phone).await;
        }
        shot.take(&phone, &mut faults).await;
    }
    let folder = std::fs::read_dir(Picture::folder()).unwrap();
    let there: BTreeSet<String> = folder.map(|f| f.unwrap().file_name().into_string().unwrap()).collect();
    let taken = SHOTS.iter().chain([&OUTSIDE]).map(|s| s.file.to_owned()).collect();
    assert_eq!(there, taken, "every picture is taken here");
    assert!(faults.is_empty(), "HILUM_PICTURES=write takes these anew: {faults:#?}");
    phone.close().await;
}

async fn start_a_soak(phone: &Phone) {
    phone.goto("/packets").await;
    let packets = phone.links("#packets a.mark").await;
    phone.goto(&format!("/trials/new?packet={}", packets[0].rsplit('/').next().unwrap())).await;
    phone.choose("#f-routine", "Peroxide soak").await;
    phone.tap("#start .save button.main").await;
    phone.says("Started: 1 trial").await;
}

impl Shot {
    async fn take(&self, phone: &Phone, faults: &mut Vec<String>) {
        phone.size(360, 740).await;
        match self.page {
            At::Phone(path) => phone.goto(path).await,
            At::Behind(path, link) => {
                phone.goto(path).await;
                let to = phone.links(link).await;
                phone.goto(&to[0]).await;
            }
            At::Desktop(path, top) => {
                phone.size(1100, 620).await;
                phone.goto(path).await;
                phone.reads("document.querySelector(arguments[0]).scrollIntoView(); return '';", top).await;
            }
        }
        phone.says(self.says).await;
        let names = phone.reads(NAMES, "").await;
        if taken_anew() {
            Picture::of(&phone.shot().await).keep(self.file, &names);
        }
        match Picture::names(self.file) {
            Some(kept) if kept == names => {}
            kept => faults.push(format!("{} shows {kept:?}, the page has {names:?}", self.file)),
        }
    }
}

#[expect(
    clippy::disallowed_methods,
    reason = "whether pictures are taken anew is for whoever runs the tests"
)]
fn taken_anew() -> bool {
    std::env::var_os("HILUM_PICTURES").is_some()
}

/// The steps of "With an invitation", by the names in bold, on a phone, with a stopwatch.
#[tokio::test(flavor = "multi_thread")]
async fn a_stranger_who_follows_the_manual_is_in_within_three_minutes() {
    let program = Program::start().await;
    let phone = Phone::open(&program.base).await;
    let link = journey::set_up_and_invite(&phone, &program).await;
    let clock = Instant::now();
    phone.says("Help: your first sign-in").await;
    phone.tap_words("Help: your first sign-in").await;
    phone.says("With an invitation").await;
    let steps = phone.texts("#with-an-invitation ~ ol:first-of-type li").await;
    let names = phone.texts("#with-an-invitation ~ ol:first-of-type strong").await;
    assert_eq!(steps.len(), 6, "{steps:?}");
    phone.goto(&link).await;
    let typed = ["Mara Lind", "mara", "ML", journey::PASSWORD];
    let (fields, rest) = names.split_at(typed.len());
    for (name, words) in fields.iter().zip(typed) {
        phone.tap_words(name).await;
        let field = phone.driver.active_element().await.unwrap();
        field.send_keys(words).await.unwrap();
    }
    let [button, arrived] = rest else { panic!("{names:?}") };
    phone.tap_words(button).await;
    phone.says(arrived).await;
    phone.says("Mara Lind").await;
    assert!(clock.elapsed() < Duration::from_secs(180), "{:?}", clock.elapsed());
    phone.close().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn every_help_page_is_plain_to_everyone() {
    let program = Program::start().await;
    let phone = Phone::open(&program.base).await;
    let mut faults = Vec::new();
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("templates/manual");
    let names = std::fs::read_dir(folder).unwrap().map(|f| f.unwrap().path());
    let pages = names.filter(|p| p.extension().is_some_and(|e| e == "md"));
    let mut looked = 0;
    for path in pages {
        let name = path.file_stem().unwrap().to_str().unwrap();
        phone.goto(&format!("/help/{name}")).await;
        let found = phone.faults().await;
        faults.extend(found.into_iter().map(|fault| format!("{name}: {fault}")));
        looked += 1;
    }
    assert!(looked >= 15 && faults.is_empty(), "{looked} pages: {faults:#?}");
    phone.look("help-methods").await;
    phone.close().await;
}
