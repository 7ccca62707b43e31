//! The pages of the manual, in the order in which they are read.

use super::render::{Page, body, slug};
use std::collections::BTreeMap;
use std::sync::LazyLock;

/// The page with the contents; `/help` without a name.
pub const FIRST: &str = "index";

macro_rules! texts {
    ($($name:literal),* $(,)?) => {
        &[$(($name, include_str!(concat!("../../templates/manual/", $name, ".md")))),*]
    };
}

/// Name and Markdown of each page.
const TEXTS: &[(&str, &str)] = texts![
    "index",
    "start",
    "packet",
    "looks",
    "signal",
    "labels",
    "plan",
    "care",
    "members",
    "table",
    "rings",
    "files",
    "host",
    "host-package",
    "host-proxies",
    "host-certificates",
    "backups",
    "methods",
];

const METHODS: &str = include_str!("../../templates/manual/methods.md");

static PAGES: LazyLock<Vec<Page>> =
    LazyLock::new(|| TEXTS.iter().map(|(name, text)| Page::read(name, text)).collect());

/// The page of this name, and the one after it.
pub fn page(name: &str) -> Option<(&'static Page, Option<&'static Page>)> {
    let place = PAGES.iter().position(|p| p.name == name)?;
    Some((&PAGES[place], PAGES.get(place + 1)))
}

/// What the methods page says of a number.
#[derive(Debug, Clone, Copy, Default)]
pub struct Told {
    pub meaning: &'static str,
    pub formula: &'static str,
    pub source: &'static str,
}

/// The sections of the methods page by their anchors: title, and the Markdown below it.
static SECTIONS: LazyLock<BTreeMap<String, &'static str>> = LazyLock::new(|| {
    let parts = METHODS.split("\n## ").flat_map(|part| part.split("\n### ").skip(1));
    parts.filter_map(|part| part.split_once('\n')).map(|(title, text)| (slug(title), text)).collect()
});

/// What stands under the title `title` of the methods page; empty where there is no such title, which a test rules out.
pub fn told(title: &str) -> Told {
    let text = SECTIONS.get(&slug(title)).copied().unwrap_or_default();
    let paragraphs = || text.split("\n\n").map(str::trim);
    let after = |word: &str| paragraphs().find_map(|p| p.strip_prefix(word)).unwrap_or_default().trim();
    Told {
        meaning: paragraphs().next().unwrap_or_default(),
        formula: after("Formula:"),
        source: after("Source:"),
    }
}

static QUOTED: LazyLock<BTreeMap<&'static str, String>> =
    LazyLock::new(|| SECTIONS.iter().map(|(anchor, text)| (anchor.as_str(), body(text))).collect());

/// The section of the methods page with this anchor as HTML, for the page that shows the number; empty where there is
/// none, which a test rules out.
pub fn quoted(anchor: &str) -> &'static str {
    QUOTED.get(anchor).map_or("", String::as_str)
}
