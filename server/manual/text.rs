//! The pages of the manual in each language, in the order in which they are read.

use super::render::{Page, anchors, body, slug};
use crate::texts::{Language, spoken};
use std::collections::BTreeMap;
use std::sync::LazyLock;

/// The page with the contents; `/help` without a name.
pub const FIRST: &str = "index";

/// The page whose sections are told elsewhere too.
const METHODS: &str = "methods";

macro_rules! texts {
    ($folder:literal, $($name:literal),*) => {
        &[$(($name, include_str!(concat!("../../templates/manual/", $folder, $name, ".md")))),*]
    };
}

/// The same pages for each language.
macro_rules! pages {
    ($folder:literal) => {
        texts!(
            $folder,
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
            "methods"
        )
    };
}

/// Name and Markdown of each page.
fn texts(language: Language) -> &'static [(&'static str, &'static str)] {
    match language {
        Language::English => pages!(""),
        Language::German => pages!("de/"),
    }
}

/// What the methods page says of a number.
#[derive(Debug, Clone, Copy, Default)]
pub struct Told {
    pub meaning: &'static str,
    pub formula: &'static str,
    pub source: &'static str,
}

impl Told {
    fn read(text: &'static str) -> Self {
        let paragraphs = || text.split("\n\n").map(str::trim);
        let after = |words: [&str; 2]| {
            paragraphs()
                .find_map(|p| words.iter().find_map(|word| p.strip_prefix(word)))
                .unwrap_or_default()
                .trim()
        };
        Self {
            meaning: paragraphs().next().unwrap_or_default(),
            formula: after(["Formula:", "Formel:"]),
            source: after(["Source:", "Quelle:"]),
        }
    }
}

/// A section of the methods page.
struct Section {
    told: Told,
    html: String,
}

impl Section {
    fn read(text: &'static str) -> Self {
        Self { told: Told::read(text), html: body(text) }
    }
}

/// The manual in one language. Its anchors are those of the English one, so that links lead to the same place in each.
struct Manual {
    pages: Vec<Page>,
    /// By their anchors.
    sections: BTreeMap<String, Section>,
}

impl Manual {
    fn read(language: Language) -> Self {
        let pages = texts(language).iter().zip(texts(Language::English));
        let sections = sections(language).zip(sections(Language::English));
        Self {
            pages: pages
                .map(|((name, text), (_, english))| Page::read(name, text, &anchors(english)))
                .collect(),
            sections: sections
                .map(|((_, text), (english, _))| (slug(english), Section::read(text)))
                .collect(),
        }
    }

    fn spoken() -> &'static Self {
        static MANUALS: LazyLock<[Manual; Language::ALL.len()]> =
            LazyLock::new(|| Language::ALL.map(Manual::read));
        &MANUALS[spoken() as usize]
    }
}

/// Title of each section of the methods page, and the Markdown below it.
fn sections(language: Language) -> impl Iterator<Item = (&'static str, &'static str)> {
    let methods = texts(language).iter().find(|(name, _)| *name == METHODS).map_or("", |(_, text)| text);
    let parts = methods.split("\n## ").flat_map(|part| part.split("\n### ").skip(1));
    parts.filter_map(|part| part.split_once('\n'))
}

/// The page of this name, and the one after it.
pub fn page(name: &str) -> Option<(&'static Page, Option<&'static Page>)> {
    let pages = &Manual::spoken().pages;
    let place = pages.iter().position(|p| p.name == name)?;
    Some((&pages[place], pages.get(place + 1)))
}

/// What stands under the English title `title` of the methods page; empty where there is no such title, which a test
/// rules out.
pub fn told(title: &str) -> Told {
    Manual::spoken().sections.get(&slug(title)).map(|section| section.told).unwrap_or_default()
}

/// The section of the methods page with this anchor as HTML, for the page that shows the number; empty where there is
/// none, which a test rules out.
pub fn quoted(anchor: &str) -> &'static str {
    Manual::spoken().sections.get(anchor).map_or("", |section| section.html.as_str())
}

#[cfg(test)]
mod tests {
    use super::*;
    use pulldown_cmark::{CodeBlockKind, Event, Options, Parser, Tag};

    /// What is the same in each language: how the blocks of a page follow each other, then what stands in their lines
    /// in an order of its own.
    fn shape(text: &str) -> (Vec<String>, Vec<String>) {
        let (mut blocks, mut inline) = (Vec::new(), Vec::new());
        for event in Parser::new_ext(text, Options::ENABLE_TABLES) {
            match event {
                Event::Code(code) => inline.push(code.into_string()),
                Event::Start(Tag::Link { dest_url, .. }) => inline.push(dest_url.into_string()),
                Event::Start(Tag::Image { dest_url, .. }) => {
                    blocks.push(dest_url.rsplit('/').next().unwrap().replace(".de.png", ".png"));
                }
                Event::Start(Tag::Strong) => inline.push("bold".to_owned()),
                Event::Start(Tag::Emphasis) => inline.push("stressed".to_owned()),
                Event::Start(Tag::CodeBlock(CodeBlockKind::Fenced(of))) => blocks.push(of.into_string()),
                Event::Start(block) => blocks.push(format!("{block:?}")),
                _ => {}
            }
        }
        inline.sort();
        (blocks, inline)
    }

    #[test]
    fn each_page_has_the_same_shape_in_each_language() {
        for language in Language::ALL {
            for ((name, text), (_, english)) in texts(language).iter().zip(texts(Language::English)) {
                assert_eq!(shape(text), shape(english), "{name} in {}", language.name());
                assert_eq!(anchors(text).len(), anchors(english).len(), "{name} in {}", language.name());
            }
        }
    }

    #[test]
    fn each_section_tells_the_same_in_each_language() {
        let manuals = Language::ALL.map(Manual::read);
        let [english, german] = &manuals;
        assert!(english.sections.keys().eq(german.sections.keys()) && english.sections.len() > 25);
        for (anchor, section) in manuals.iter().flat_map(|manual| &manual.sections) {
            let Told { meaning, formula, source } = section.told;
            let told = !(meaning.is_empty() || formula.is_empty() || source.is_empty());
            assert!(told && !section.html.is_empty(), "{anchor}");
        }
        let quoted = &german.sections["when-a-look-is-due"];
        assert!(quoted.told.meaning.starts_with("Jeder offene Beutel") && quoted.html.contains("Quelle: "));
    }
}
