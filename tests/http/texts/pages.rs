//! Every page that can be reached in the invented club, in each language: what is said in another than English holds no
//! English words but those that members wrote.

use crate::support::{Browser, routes};
use hilum::app::App;
use hilum::args;
use hilum::config::Config;
use hilum::db::FromRow;
use hilum::db::ids::MemberId;
use hilum::texts::Language;
use hilum::upkeep::demo;
use hilum::web::session;
use scraper::{Html, Selector};
use std::collections::{BTreeMap, BTreeSet, VecDeque};

/// Attributes that are read to people.
const READ: [&str; 6] = ["aria-label", "title", "placeholder", "alt", "data-label", "data-else"];
/// Not for people, or of the language of who made them.
const APART: &str = "script, style, svg, code, pre, noscript, textarea, .number, [lang]";
/// What the program puts into the database of every club, and what members wrote there.
const WRITTEN: &str = "SELECT name AS text FROM kinds UNION SELECT name FROM varieties UNION SELECT name FROM sources
    UNION SELECT name FROM members UNION SELECT name FROM club UNION SELECT name FROM trays
    UNION SELECT place FROM packets UNION SELECT place FROM bags UNION SELECT place FROM trays UNION SELECT note FROM entries
    UNION SELECT code FROM lots UNION SELECT device FROM sessions UNION SELECT agent FROM solutions";

#[derive(FromRow)]
struct Text {
    text: String,
}

#[derive(FromRow)]
struct Somebody {
    id: MemberId,
}

struct Walk {
    browser: Browser,
    patterns: Vec<String>,
    seen: BTreeSet<(String, BTreeSet<String>)>,
    ahead: VecDeque<String>,
}

impl Walk {
    fn new(browser: Browser) -> Self {
        let files =
            ["csv", "json", "sw.js", "{mark}", "/healthz", "/readyz", "/static/", "/photos/", "{file}"];
        let pages = routes::all().into_iter().filter(|r| r.get && files.iter().all(|f| !r.path.contains(f)));
        let (patterns, ahead) = (pages.map(|r| r.path).collect(), VecDeque::from(["/".to_owned()]));
        Self { browser, patterns, seen: BTreeSet::new(), ahead }
    }

    /// The next page of a kind that was not seen yet: its address and its text.
    async fn next(&mut self) -> Option<(String, String)> {
        while let Some(address) = self.ahead.pop_front() {
            let Some(kind) = self.kind(&address).filter(|_| !address.ends_with(".csv")) else { continue };
            if !self.seen.insert(kind) {
                continue;
            }
            let body = self.browser.get(&address).await.body;
            let html = Html::parse_document(&body);
            let links = Selector::parse("a[href^='/']").unwrap();
            self.ahead.extend(html.select(&links).filter_map(|a| a.attr("href")).map(str::to_owned));
            return Some((address, body));
        }
        None
    }

    /// The pattern an address fits and the names it asks for.
    fn kind(&self, address: &str) -> Option<(String, BTreeSet<String>)> {
        let address = address.split('#').next()?;
        let (path, query) = address.split_once('?').unwrap_or((address, ""));
        let parts = |path: &str| path.split('/').map(str::to_owned).collect::<Vec<_>>();
        let path = parts(path);
        let fits = |pattern: &&String| {
            let pattern = parts(pattern);
            pattern.len() == path.len()
                && pattern.iter().zip(&path).all(|(a, b)| a == b || a.starts_with('{'))
        };
        let pattern = self.patterns.iter().filter(fits).min_by_key(|p| p.matches('{').count())?;
        // each page of the manual is a page of its own
        let pattern = if pattern.starts_with("/help") { path.join("/") } else { pattern.clone() };
        let names = query.split('&').filter_map(|pair| pair.split_once('=')).map(|(name, _)| name.to_owned());
        Some((pattern, names.collect()))
    }
}

/// Words that English messages have and those of this language do not.
fn foreign(language: Language) -> BTreeSet<String> {
    let of = |tag: &str| -> BTreeSet<String> {
        let files = routes::sources(&format!("templates/texts/{tag}"), "ftl");
        let lines = files.iter().flat_map(|(_, text)| text.lines()).filter(|line| !line.starts_with('#'));
        let texts = lines.map(|line| line.split_once(" = ").map_or(line, |(_, text)| text));
        texts.flat_map(|text| words(&plain(text))).collect()
    };
    let manual = routes::sources(&format!("templates/manual/{}", language.tag()), "md");
    let said = manual.iter().flat_map(|(_, text)| text.split('`').step_by(2)).flat_map(words);
    let own: BTreeSet<String> = of(language.tag()).into_iter().chain(said).collect();
    of("en").into_iter().filter(|word| word.len() > 1 && !own.contains(word)).collect()
}

/// A message without its values and its HTML.
fn plain(text: &str) -> String {
    let (mut depth, mut kept) = (0, String::new());
    for c in text.chars() {
        depth += i32::from("{<".contains(c)) - i32::from("}>".contains(c));
        kept.push(if depth == 0 && !"}>".contains(c) { c } else { ' ' });
    }
    kept
}

fn words(text: &str) -> Vec<String> {
    text.split(|c: char| !c.is_alphabetic()).filter(|w| !w.is_empty()).map(str::to_lowercase).collect()
}

/// What people read on a page.
fn read(body: &str) -> Vec<String> {
    let html = Html::parse_document(body);
    let apart = Selector::parse(APART).unwrap();
    let apart: BTreeSet<_> = html.select(&apart).map(|e| e.id()).collect();
    let mut found = Vec::new();
    let mut open = vec![html.tree.root()];
    while let Some(node) = open.pop() {
        let root = node.value().as_element().is_some_and(|e| e.name() == "html");
        if apart.contains(&node.id()) && !root {
            continue;
        }
        if let Some(text) = node.value().as_text() {
            found.push(text.to_string());
        }
        if let Some(element) = node.value().as_element() {
            found.extend(READ.iter().filter_map(|name| element.attr(name)).map(str::to_owned));
        }
        open.extend(node.children());
    }
    found.retain(|text| text.chars().any(char::is_alphabetic));
    found
}

/// What members wrote, longest first.
async fn written(app: &App) -> Vec<String> {
    let rows: Vec<Text> = app.db.read().await.unwrap().all(WRITTEN, args![]).await.unwrap();
    let mut all: Vec<String> = rows.into_iter().map(|row| row.text).filter(|text| text.len() > 1).collect();
    all.sort_by_key(|text| std::cmp::Reverse(text.len()));
    all
}

#[tokio::test(flavor = "multi_thread")]
async fn pages_speak_the_language_of_their_reader() {
    let (app, _folder) = demo::app(Config::default()).await.unwrap();
    let sql = "SELECT id FROM members WHERE sign_in = 'agnes'";
    let agnes: Somebody = app.db.read().await.unwrap().one(sql, args![]).await.unwrap();
    let mut conn = app.db.write().await.unwrap();
    conn.run("UPDATE members SET language = 'de' WHERE id = $1", args![&agnes.id]).await.unwrap();
    let token = session::open(&mut conn, &agnes.id, app.now()).await.unwrap();
    conn.commit().await.unwrap();
    let (foreign, written) = (foreign(Language::German), written(&app).await);
    let mut walk = Walk::new(Browser::new(app.clone().router(), Some(token), Some(agnes.id)));
    let (mut pages, mut faults) = (0, BTreeMap::new());
    while let Some((address, body)) = walk.next().await {
        pages += 1;
        assert!(!body.contains("<html") || body.contains("<html lang=\"de\""), "{address}: {body:.200}");
        for text in read(&body) {
            let ours = written.iter().fold(text.clone(), |text, theirs| text.replace(theirs.as_str(), " "));
            let english: Vec<String> =
                words(&ours).into_iter().filter(|word| foreign.contains(word)).collect();
            if !english.is_empty() {
                faults.entry(text.trim().to_owned()).or_insert_with(|| format!("{address}: {english:?}"));
            }
        }
    }
    assert!(pages > 100, "only {pages} pages");
    assert!(faults.is_empty(), "{} texts on {pages} pages: {faults:#?}", faults.len());
}
