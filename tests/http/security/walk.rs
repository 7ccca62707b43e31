use crate::support::{Browser, Page, routes};
use axum::http::Uri;
use scraper::{ElementRef, Selector};
use std::collections::{BTreeMap, BTreeSet, VecDeque};

/// Forms that would end the walk itself.
const LEFT_OUT: &[&str] = &["/sign-out", "/undo"];
/// The most that is asked for in one address; longer ones do not reach the app.
const LONGEST: usize = 60_000;
/// What their addresses end with.
const ENDS: &[&str] = &["/leave", "/role"];

/// Every page and file that `browser` reaches from the addresses without a name in them: of each pattern one, and one
/// with each set of names it asks for.
pub async fn pages(browser: &Browser) -> Vec<Page> {
    let patterns: Vec<String> = routes::all().into_iter().filter(|r| r.get).map(|r| r.path).collect();
    let mut ahead: VecDeque<String> = patterns.iter().filter(|p| !p.contains('{')).cloned().collect();
    let (mut seen, mut found) = (BTreeSet::new(), Vec::new());
    while let Some(address) = ahead.pop_front() {
        let Some(sort) = sort(&patterns, &address) else { continue };
        if !seen.insert(sort) {
            continue;
        }
        assert!(address.parse::<Uri>().is_ok(), "an address that is not encoded: {address}");
        let page = browser.get(&address).await;
        for (element, attribute) in [("a", "href"), ("img", "src"), ("link", "href"), ("script", "src")] {
            let selector = Selector::parse(&format!("{element}[{attribute}^='/']")).unwrap();
            let html = page.html();
            ahead.extend(html.select(&selector).filter_map(|e| e.value().attr(attribute)).map(str::to_owned));
        }
        found.push(page);
    }
    assert!(found.len() > 60, "only {} pages were reached", found.len());
    found
}

/// The pattern that an address fits, with the names that it asks for.
fn sort(patterns: &[String], address: &str) -> Option<(String, BTreeSet<String>)> {
    let (path, query) = address.split_once('?').unwrap_or((address, ""));
    let path = path.split('#').next().unwrap_or_default();
    let fits = |pattern: &&String| {
        let (ours, theirs): (Vec<&str>, Vec<&str>) =
            (pattern.split('/').collect(), path.split('/').collect());
        ours.len() == theirs.len() && ours.iter().zip(&theirs).all(|(a, b)| a == b || a.starts_with('{'))
    };
    let pattern = patterns.iter().filter(fits).min_by_key(|p| p.matches('{').count())?;
    let names = query.split('&').filter_map(|pair| pair.split_once('=')).map(|(name, _)| name.to_owned());
    Some((pattern.clone(), names.collect()))
}

/// A form as it stands on a page.
#[derive(Debug)]
pub struct Form {
    pub action: String,
    pub posts: bool,
    pub fields: Vec<Field>,
}

#[derive(Debug, Clone)]
pub struct Field {
    pub name: String,
    pub sort: Sort,
    pub value: String,
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Sort {
    /// One line or several of whatever somebody types.
    Text,
    Number,
    /// Given by the page, or chosen.
    Given,
    /// A box or a button of several that is not ticked.
    Unticked,
}

/// Every form on the pages that `browser` reaches, each address with the same fields once.
pub async fn forms(browser: &Browser) -> Vec<Form> {
    let mut found = BTreeMap::new();
    for page in pages(browser).await {
        let html = page.html();
        for form in html.select(&Selector::parse("form").unwrap()) {
            let form = read(&page, form);
            let left_out =
                LEFT_OUT.contains(&form.action.as_str()) || ENDS.iter().any(|e| form.action.ends_with(e));
            let names: Vec<String> = form.fields.iter().map(|f| f.name.clone()).collect();
            if !left_out && !names.is_empty() {
                found.insert((form.action.clone(), names), form);
            }
        }
    }
    assert!(found.len() > 25, "only {} forms were found", found.len());
    found.into_values().collect()
}

fn read(page: &Page, form: ElementRef) -> Form {
    let attr = |name: &str| form.value().attr(name).unwrap_or_default();
    let path = page.path.split('?').next().unwrap_or_default();
    let action = if attr("action").is_empty() { path } else { attr("action") };
    let named = Selector::parse("input[name], textarea[name], select[name]").unwrap();
    let fields = form.select(&named);
    let posts = attr("method").eq_ignore_ascii_case("post");
    Form { action: action.to_owned(), posts, fields: fields.map(field).collect() }
}

fn field(element: ElementRef) -> Field {
    let e = element.value();
    let attr = |name: &str| e.attr(name).unwrap_or_default().to_owned();
    let (sort, value) = match (e.name(), attr("type").as_str()) {
        ("textarea", _) => (Sort::Text, element.text().collect()),
        ("select", _) => {
            let options: Vec<ElementRef> = element.select(&Selector::parse("option").unwrap()).collect();
            let chosen = options.iter().find(|o| o.value().attr("selected").is_some()).or(options.last());
            (Sort::Given, chosen.and_then(|o| o.value().attr("value")).unwrap_or_default().to_owned())
        }
        (_, "checkbox" | "radio") if e.attr("checked").is_none() => (Sort::Unticked, attr("value")),
        (_, "" | "text" | "search" | "password") if e.attr("inputmode").is_none() => {
            (Sort::Text, attr("value"))
        }
        (_, "" | "text") => (Sort::Number, attr("value")),
        _ => (Sort::Given, attr("value")),
    };
    Field { name: attr("name"), sort, value }
}

impl Form {
    /// What would be sent with `text` in every field that takes text; with `fully`, every box is ticked and every empty
    /// number is 1. Under a key of its own.
    pub fn filled(&self, text: &str, fully: bool) -> Vec<(String, String)> {
        let told = |f: &Field| match f.sort {
            _ if f.name == "key" => Some(uuid::Uuid::new_v4().simple().to_string()),
            Sort::Text => Some(text.to_owned()),
            Sort::Unticked if !fully => None,
            Sort::Number if fully && f.value.is_empty() => Some("1".to_owned()),
            _ => Some(f.value.clone()),
        };
        self.fields.iter().filter_map(|f| told(f).map(|value| (f.name.clone(), value))).collect()
    }

    /// Sends these pairs as a browser would.
    pub async fn send(&self, by: &Browser, pairs: &[(String, String)]) -> Page {
        if self.posts {
            let pairs: Vec<(&str, &str)> = pairs.iter().map(|(n, v)| (n.as_str(), v.as_str())).collect();
            return by.post(&self.action, &pairs).await;
        }
        let query = serde_html_form::to_string(pairs).unwrap();
        by.get(&format!("{}?{}", self.action, &query[..query.len().min(LONGEST)])).await
    }
}
