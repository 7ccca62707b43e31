//! The manual: read by everybody, each link, picture and name in it is there.

use crate::support::routes::sources;
use crate::support::{Browser, Club, Page};
use axum::http::StatusCode;
use axum::http::header::CONTENT_TYPE;
use hilum::web::help;
use hilum_calc::reckon;
use scraper::{Html, Selector};
use std::collections::BTreeSet;
use std::path::Path;

/// All pictures together, in bytes: they are in the program.
const PICTURES: u64 = 400_000;

/// The pages of the manual by name, with their Markdown.
fn texts() -> Vec<(String, String)> {
    let files = sources("templates/manual", "md");
    let name = |path: &Path| path.file_stem().unwrap().to_str().unwrap().to_owned();
    files.iter().map(|(path, text)| (name(path), text.clone())).collect()
}

fn address(name: &str) -> String {
    if name == "index" { "/help".to_owned() } else { format!("/help/{name}") }
}

/// What `attribute` of the elements that match says.
fn all(page: &Page, css: &str, attribute: &str) -> Vec<String> {
    let html: Html = page.html();
    let selector = Selector::parse(css).unwrap();
    html.select(&selector).map(|e| e.value().attr(attribute).unwrap().to_owned()).collect()
}

#[tokio::test]
async fn every_page_is_read_by_members_and_strangers_alike() {
    let club = Club::new().await;
    let ann = club.grower("Ann", "AN").await;
    let texts = texts();
    assert!(texts.len() >= 15, "{}", texts.len());
    for (name, text) in &texts {
        let title = text.lines().next().unwrap().strip_prefix("# ").unwrap();
        let inside = ann.get(&address(name)).await;
        inside.says(title).says("Test Club");
        let outside = club.stranger().get(&address(name)).await;
        outside.says(title).says("Sign in").says_not("Test Club");
        assert_eq!(outside.all("form, nav.main"), Vec::<String>::new(), "{name}");
        let both = [&inside, &outside].map(|page| page.all(".manual p, .manual li"));
        assert!(both[0] == both[1] && !both[0].is_empty(), "{name}");
    }
    assert_eq!(club.stranger().get("/help/nothing").await.status, StatusCode::NOT_FOUND);
    club.stranger().get("/sign-in").await.says("Help: your first sign-in");
}

#[tokio::test]
async fn one_page_leads_to_the_next_until_all_are_read() {
    let club = Club::new().await;
    let stranger = club.stranger();
    let (mut page, mut read) = (stranger.get("/help").await, BTreeSet::from(["/help".to_owned()]));
    while let Some(next) = all(&page, "main > .actions a[href^='/help']", "href").last() {
        assert!(read.insert(next.clone()), "{next} comes twice");
        page = stranger.get(next).await;
    }
    assert_eq!(read, texts().iter().map(|(name, _)| address(name)).collect());
    let listed: BTreeSet<String> =
        all(&stranger.get("/help").await, ".manual a", "href").into_iter().collect();
    assert_eq!(listed.len() + 1, read.len(), "the contents name every page");
}

/// Whether `link` leads to a page, and to a heading of it where it names one.
async fn leads(stranger: &Browser, link: &str) -> bool {
    let (path, anchor) = link.split_once('#').unwrap_or((link, ""));
    let page = stranger.get(path).await;
    let ids = all(&page, "[id]", "id");
    page.status == StatusCode::OK && (anchor.is_empty() || ids.iter().any(|id| id == anchor))
}

#[tokio::test]
async fn links_and_pictures_lead_to_what_is_there() {
    let club = Club::new().await;
    let stranger = club.stranger();
    let (mut pictures, mut faults) = (BTreeSet::new(), Vec::new());
    for (name, _) in texts() {
        let page = stranger.get(&address(&name)).await;
        for link in all(&page, ".manual a, .contents a", "href") {
            let link = if link.starts_with('#') { address(&name) + &link } else { link };
            if !leads(&stranger, &link).await {
                faults.push(format!("{name}: {link}"));
            }
        }
        for picture in all(&page, ".manual img", "src") {
            let answer = stranger.get(&picture).await;
            assert_eq!(answer.headers[CONTENT_TYPE], "image/png", "{name}: {picture}");
            pictures.insert(picture.rsplit('/').next().unwrap().to_owned());
        }
        for measure in ["width", "height", "alt"] {
            let told = all(&page, ".manual img", measure);
            assert!(told.iter().all(|t| !t.is_empty() && t != "0"), "{name}: {told:?}");
        }
    }
    assert!(faults.is_empty(), "{faults:#?}");
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("static/manual");
    let files: Vec<_> = std::fs::read_dir(folder).unwrap().map(Result::unwrap).collect();
    let names = files.iter().map(|f| f.file_name().into_string().unwrap()).collect();
    assert_eq!(pictures, names, "each picture is shown, and there is no other");
    let bytes: u64 = files.iter().map(|f| f.metadata().unwrap().len()).sum();
    assert!(bytes <= PICTURES, "{bytes} bytes");
}

#[tokio::test]
async fn each_page_leads_to_its_part_of_the_manual() {
    let club = Club::new().await;
    let (ann, stranger) = (club.grower("Ann", "AN").await, club.stranger());
    for (start, end, part) in help::PARTS {
        assert!(leads(&stranger, part).await, "{start}…{end}: {part}");
    }
    for place in ["/", "/packets", "/plan", "/trays", "/table", "/rings", "/routines", "/members", "/me"] {
        let part = ann.get(place).await.link("Help");
        assert!(part == help::of(place) && part != "/help", "{place}: {part}");
    }
}

/// Every place of `text` between two pairs of stars.
fn bold(text: &str) -> Vec<String> {
    let single = |part: &str| part.split_whitespace().collect::<Vec<_>>().join(" ");
    text.split("**").skip(1).step_by(2).map(single).collect()
}

/// What stands in bold, but on pages for hosts, is a name that the reader finds in the program; sentences are not names.
#[test]
fn names_in_bold_are_those_of_the_program() {
    let folders = [("templates", "html"), ("server", "rs"), ("static", "js")];
    let files: Vec<_> = folders.iter().flat_map(|(folder, ends)| sources(folder, ends)).collect();
    let program: String = files.iter().map(|(_, text)| text.as_str()).collect::<Vec<_>>().join("\n");
    let mut gone = Vec::new();
    let mut found = 0;
    for (page, text) in texts().into_iter().filter(|(page, _)| !page.starts_with("host")) {
        for name in bold(&text).iter().filter(|name| !name.ends_with(['.', '?'])) {
            let there = program.contains(name.as_str()) || program.contains(&name.replace('\'', "’"));
            found += 1;
            gone.extend((!there).then(|| format!("{page}: {name}")));
        }
    }
    assert!(gone.is_empty() && found > 100, "{found} found; not in the program: {gone:#?}");
}

#[test]
fn the_methods_page_names_each_method_and_pages_quote_what_is_there() {
    let text = texts().into_iter().find(|(name, _)| name == "methods").unwrap().1;
    for (method, _) in reckon::METHODS {
        let named = [format!("`hilum reckon {method}`"), format!("`{method}`"), format!("reckon {method}`")];
        assert!(named.iter().any(|n| text.contains(n)), "{method}");
    }
    let mut quoted = 0;
    for (path, template) in sources("templates", "html") {
        for anchor in template.split("how::words(\"").skip(1).map(|rest| rest.split('"').next().unwrap()) {
            assert!(!hilum::manual::quoted(anchor).is_empty(), "{}: {anchor}", path.display());
            quoted += 1;
        }
    }
    assert!(quoted >= 8, "{quoted}");
    for part in text.split("\n### ").skip(1) {
        let title = part.lines().next().unwrap();
        assert!(part.contains("\n\nFormula: ") && part.contains("\n\nSource: "), "{title}");
    }
}
