use super::{Phone, routes};
use std::collections::{BTreeMap, BTreeSet, VecDeque};

/// Addresses that give files, or lead on to a page.
const NO_PAGES: &[&str] = &[
    "/sw.js",
    "/offline.json",
    "/healthz",
    "/readyz",
    "/api/v1/openapi.json",
    "/static/{build}/{name}",
    "/table.csv",
    "/counts.csv",
    "/packets.csv",
    "/plan.csv",
    "/shopping.csv",
    "/packets/mcpd.csv",
    "/T/{mark}",
    "/L/{mark}",
    "/l/{mark}",
    "/V/{vial}",
    "/P/{pot}",
    "/C/{card}",
    "/labels/paper/{size}",
    "/calendar/{file}",
    "/photos/{id}",
    "/photos/{id}/small",
];

/// A visit to everything that can be reached.
pub struct Walk<'p> {
    phone: &'p Phone,
    /// Whether only what words can break is looked at.
    words: bool,
    /// Addresses that the server's sources name.
    patterns: Vec<String>,
    /// Of each pattern: the addresses seen, and the names they ask for.
    seen: BTreeMap<String, (Vec<String>, BTreeSet<String>)>,
    /// Where the pages seen lead to.
    ahead: VecDeque<String>,
    pub pages: usize,
    pub faults: Vec<String>,
}

impl<'p> Walk<'p> {
    pub fn new(phone: &'p Phone) -> Self {
        let all = routes::all().into_iter().filter(|r| r.get && !NO_PAGES.contains(&r.path.as_str()));
        let patterns = all.map(|r| r.path).collect();
        Self {
            phone,
            words: false,
            patterns,
            seen: BTreeMap::new(),
            ahead: VecDeque::new(),
            pages: 0,
            faults: Vec::new(),
        }
    }

    /// For another language than the first.
    pub fn of_words(phone: &'p Phone) -> Self {
        Self { words: true, ..Self::new(phone) }
    }

    /// Opens an address and looks at its page.
    pub async fn visit(&mut self, address: &str) {
        self.phone.goto(address).await;
        if let Some((pattern, names)) = self.sort(address) {
            let seen = self.seen.entry(pattern).or_default();
            seen.0.push(address.to_owned());
            seen.1.extend(names);
        }
        self.ahead.extend(self.phone.links("a[href^='/']").await);
        self.look_at(address).await;
    }

    /// Looks at the page that is open.
    pub async fn look_at(&mut self, name: &str) {
        let found = if self.words { self.phone.faults_of_words().await } else { self.phone.faults().await };
        self.faults.extend(found.into_iter().map(|fault| format!("{name} at {fault}")));
        self.pages += 1;
    }

    /// Visits all that the pages seen lead to: of each pattern one address, and one with each name it asks for.
    pub async fn follow(&mut self) {
        while let Some(address) = self.ahead.pop_front() {
            let Some((pattern, names)) = self.sort(&address) else { continue };
            if self.seen.get(&pattern).is_none_or(|seen| !names.is_subset(&seen.1)) {
                self.visit(&address).await;
            }
        }
    }

    /// Sends the first form of the page of this pattern with all of its fields empty; looks at the refusal.
    pub async fn send_empty(&mut self, pattern: &str) {
        let seen = self.seen.get(pattern).unwrap_or_else(|| panic!("{pattern} was not seen"));
        let fullest = seen.0.iter().max_by_key(|address| address.len());
        self.phone.goto(fullest.unwrap()).await;
        let send = "const form = document.querySelector('main form[method=post]');
            for (const field of form.elements) {
                if (field.matches('input:not([type=hidden], [type=checkbox], [type=radio]), textarea')) field.value = '';
                if (field.type == 'checkbox') field.checked = false;
            }
            HTMLFormElement.prototype.submit.call(form);
            return '';";
        self.phone.reads(send, "").await;
        self.phone.says("Please look again").await;
        self.look_at(&format!("{pattern}, refused")).await;
    }

    /// Patterns of which no page was seen.
    pub fn unseen(&self) -> Vec<&String> {
        self.patterns.iter().filter(|p| !self.seen.contains_key(*p)).collect()
    }

    /// The pattern that an address fits, with the names that it asks for.
    fn sort(&self, address: &str) -> Option<(String, BTreeSet<String>)> {
        let (path, query) = address.split_once('?').unwrap_or((address, ""));
        let path =
            path.split_once("://").map_or(path, |(_, rest)| &rest[rest.find('/').unwrap_or(rest.len())..]);
        let fits = |pattern: &&String| {
            let (ours, theirs): (Vec<&str>, Vec<&str>) =
                (pattern.split('/').collect(), path.split('/').collect());
            ours.len() == theirs.len() && ours.iter().zip(&theirs).all(|(a, b)| a == b || a.starts_with('{'))
        };
        let pattern = self.patterns.iter().filter(fits).min_by_key(|p| p.matches('{').count())?;
        let names = query.split('&').filter_map(|pair| pair.split_once('=')).map(|(name, _)| name.to_owned());
        Some((pattern.clone(), names.collect()))
    }
}
