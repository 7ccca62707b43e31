//! The manual: read by everybody in their language, each link, picture and name in it is there.

use crate::support::routes::sources;
use crate::support::{Browser, Club, Page};
use axum::body::Body;
use axum::http::header::{ACCEPT_LANGUAGE, CONTENT_TYPE, HOST};
use axum::http::{Request, StatusCode};
use hilum::texts::Language;
use hilum::web::help;
use hilum_calc::reckon;
use http_body_util::BodyExt;
use scraper::{Html, Selector};
use std::collections::BTreeSet;
use std::path::Path;

/// All pictures together, in bytes: they are in the program.
const PICTURES: u64 = 800_000;

/// The pages of the manual in a language by name, with their Markdown.
fn texts(language: Language) -> Vec<(String, String)> {
    let folder = match language {
        Language::English => "templates/manual".to_owned(),
        other => format!("templates/manual/{}", other.tag()),
    };
    let files =
        sources(&folder, "md").into_iter().filter(|(path, _)| path.parent() == Some(Path::new(&folder)));
    let name = |path: &Path| path.file_stem().unwrap().to_str().unwrap().to_owned();
    files.map(|(path, text)| (name(&path), text)).collect()
}

/// What `stranger`, whose browser asks for this language, reads at `path`.
async fn asked(stranger: &Browser, language: Language, path: &str) -> Page {
    let request = Request::get(path).header(HOST, "club.test").header(ACCEPT_LANGUAGE, language.tag());
    let (parts, body) = stranger.raw(request.body(Body::empty()).unwrap()).await.into_parts();
    let body = String::from_utf8(body.collect().await.unwrap().to_bytes().to_vec()).unwrap();
    Page::new(path.to_owned(), parts.status, parts.headers, body)
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
    let texts = texts(Language::English);
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
async fn the_manual_is_read_in_the_language_that_the_browser_asks_for() {
    let club = Club::new().await;
    let stranger = club.stranger();
    for language in Language::ALL {
        for (name, text) in texts(language) {
            let page = asked(&stranger, language, &address(&name)).await;
            page.says(text.lines().next().unwrap().strip_prefix("# ").unwrap());
            assert_eq!(all(&page, "html", "lang"), [language.tag()], "{name}");
        }
    }
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
    assert_eq!(read, texts(Language::English).iter().map(|(name, _)| address(name)).collect());
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
    let pages = Language::ALL.into_iter().flat_map(|l| texts(l).into_iter().map(move |(name, _)| (l, name)));
    for (language, name) in pages {
        let page = asked(&stranger, language, &address(&name)).await;
        for link in all(&page, ".manual a, .contents a", "href") {
            let link = if link.starts_with('#') { address(&name) + &link } else { link };
            if !leads(&stranger, &link).await {
                faults.push(format!("{name} in {language:?}: {link}"));
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
    for language in Language::ALL {
        let texts_of_pages = format!("templates/texts/{}", language.tag());
        let folders =
            [(texts_of_pages.as_str(), "ftl"), ("templates", "html"), ("server", "rs"), ("static", "js")];
        let files: Vec<_> = folders.iter().flat_map(|(folder, ends)| sources(folder, ends)).collect();
        let program: String = files.iter().map(|(_, text)| text.as_str()).collect::<Vec<_>>().join("\n");
        let mut gone = Vec::new();
        let mut found = 0;
        for (page, text) in texts(language).into_iter().filter(|(page, _)| !page.starts_with("host")) {
            for name in bold(&text).iter().filter(|name| !name.ends_with(['.', '?'])) {
                let there = program.contains(name.as_str()) || program.contains(&name.replace('\'', "’"));
                found += 1;
                gone.extend((!there).then(|| format!("{page}: {name}")));
            }
        }
        assert!(gone.is_empty() && found > 100, "{language:?}: {found} found; not in the program: {gone:#?}");
    }
}

/// What can hurt somebody is said on the page on care as where it applies, and a measure has one name.
#[test]
fn cautions_and_measures_stand_in_the_manual_of_each_language() {
    let single = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
    for language in Language::ALL {
        let of = |page: &str| texts(language).into_iter().find(|(name, _)| name == page).unwrap().1;
        let (care, methods) = (single(&of("care")), of("methods"));
        let messages = sources(&format!("templates/texts/{}", language.tag()), "ftl");
        let (mut cautions, mut measures) = (0, 0);
        for (id, text) in
            messages.iter().flat_map(|(_, file)| file.lines()).filter_map(|l| l.split_once(" = "))
        {
            if id.starts_with("routines-") && id.ends_with("-what-to-do") {
                assert!(care.contains(text), "{language:?}: {text}");
                cautions += 1;
            } else if id.starts_with("trials-measure-") {
                assert!(methods.contains(&format!("\n### {text}\n")), "{language:?}: {text}");
                measures += 1;
            }
        }
        assert!(cautions >= 8 && measures >= 13, "{language:?}: {cautions} cautions, {measures} measures");
    }
}

#[test]
fn the_methods_page_names_each_method_and_pages_quote_what_is_there() {
    let text = texts(Language::English).into_iter().find(|(name, _)| name == "methods").unwrap().1;
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
