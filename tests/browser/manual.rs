//! The manual: its pictures, which are taken here, its first sign-in followed to the letter, and each page in six states.
//! `HILUM_PICTURES=write` takes the pictures anew into `static/manual`; without it they must still be true.

mod picture;

use crate::journey;
use crate::support::{Phone, Program};
use hilum::texts::Language;
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

/// A picture of the manual: the name of its file, who sees the page, where it is, and a word on it.
struct Shot {
    file: &'static str,
    sign_in: &'static str,
    page: At,
    /// In the order of [`Language::ALL`].
    says: [&'static str; 2],
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
    Shot {
        file: "due-now",
        sign_in: "bartek",
        page: At::Phone("/"),
        says: ["due bags in one screen", "fälligen Beutel auf einer Seite"],
    },
    Shot {
        file: "looks",
        sign_in: "bartek",
        page: At::Phone("/looks"),
        says: ["Save the looks", "Kontrollen speichern"],
    },
    Shot {
        file: "count",
        sign_in: "bartek",
        page: At::Behind("/", ".due a.button[href^='/bags/']:not([href$='/plant'], [href$='/close'])"),
        says: ["Save the count", "Zählung speichern"],
    },
    Shot {
        file: "tray",
        sign_in: "bartek",
        page: At::Behind("/trays", "main a.mark[href^='/trays/']"),
        says: ["Note what came up", "Aufgelaufenes notieren"],
    },
    Shot {
        file: "soak",
        sign_in: "bartek",
        page: At::Behind("/trials", "main a.mark[href^='/trials/']"),
        says: ["Step done", "Schritt erledigt"],
    },
    Shot {
        file: "packets",
        sign_in: "agnes",
        page: At::Desktop("/packets", "body"),
        says: ["Your packets", "Deine Tüten"],
    },
    Shot {
        file: "table",
        sign_in: "agnes",
        page: At::Desktop("/table", "table.list"),
        says: ["Choose what to pool", "Wähle, was zusammengefasst wird"],
    },
    Shot {
        file: "variety",
        sign_in: "agnes",
        page: At::Desktop("/table/variety?kind=pepper&variety=Marsh+Ember", "main"),
        says: ["Growers who had both", "Gärtner, die beide hatten"],
    },
];
/// Taken before anybody signs in.
const OUTSIDE: Shot =
    Shot { file: "sign-in", sign_in: "", page: At::Phone("/sign-in"), says: ["Password", "Passwort"] };

#[tokio::test(flavor = "multi_thread")]
async fn pictures_of_the_manual_show_the_pages_as_they_are() {
    let program = Program::demo().await;
    program.at_minute(MORNING);
    let phone = Phone::open(&program.base).await;
    phone.cdp("Emulation.setScrollbarsHidden", serde_json::json!({ "hidden": true })).await;
    let mut faults = Vec::new();
    for language in Language::ALL {
        phone.asks_for(language).await;
        OUTSIDE.take(&phone, language, &mut faults).await;
    }
    phone.asks_for(Language::English).await;
    for name in ["bartek", "agnes"] {
        phone.sign_in(name).await;
        for language in Language::ALL {
            phone.speaks(language).await;
            for shot in SHOTS.iter().filter(|shot| shot.sign_in == name) {
                if shot.file == "soak" && language == Language::English {
                    start_a_soak(&phone).await;
                }
                shot.take(&phone, language, &mut faults).await;
            }
        }
        phone.size(360, 740).await;
        phone.tap("footer form button").await;
        phone.says("Sign in").await;
    }
    let folder = std::fs::read_dir(Picture::folder()).unwrap();
    let there: BTreeSet<String> = folder.map(|f| f.unwrap().file_name().into_string().unwrap()).collect();
    let all = SHOTS.iter().chain([&OUTSIDE]);
    let taken = all.flat_map(|shot| Language::ALL.map(|language| shot.picture(language))).collect();
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
    /// The file of its picture in a language.
    fn picture(&self, language: Language) -> String {
        match language {
            Language::English => format!("{}.png", self.file),
            other => format!("{}.{}.png", self.file, other.tag()),
        }
    }

    async fn take(&self, phone: &Phone, language: Language, faults: &mut Vec<String>) {
        let file = self.picture(language);
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
        phone.says(self.says[language as usize]).await;
        let names = phone.reads(NAMES, "").await;
        if taken_anew() {
            Picture::of(&phone.shot().await).keep(&file, &names);
        }
        match Picture::names(&file) {
            Some(kept) if kept == names => {}
            kept => faults.push(format!("{file} shows {kept:?}, the page has {names:?}")),
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
    let (mut looked, mut faults) = (0, Vec::new());
    for language in Language::ALL {
        phone.asks_for(language).await;
        for name in chapters(language) {
            phone.goto(&format!("/help/{name}")).await;
            let found = match language {
                Language::English => phone.faults().await,
                _ => phone.faults_of_words().await,
            };
            faults.extend(found.into_iter().map(|fault| format!("{name} in {}: {fault}", language.tag())));
            looked += 1;
        }
        phone.look(&format!("help-methods-{}", language.tag())).await;
    }
    assert!(looked >= 36 && faults.is_empty(), "{looked} pages: {faults:#?}");
    phone.close().await;
}

/// Names of the manual's files in a language, "methods" the last.
fn chapters(language: Language) -> Vec<String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("templates/manual");
    let folder = if language == Language::English { folder } else { folder.join(language.tag()) };
    let files = std::fs::read_dir(folder).unwrap().map(|f| f.unwrap().path());
    let pages = files.filter(|path| path.extension().is_some_and(|e| e == "md"));
    let mut names: Vec<String> = pages.map(|p| p.file_stem().unwrap().to_str().unwrap().to_owned()).collect();
    names.sort_by_key(|name| name == "methods");
    names
}
