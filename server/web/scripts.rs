//! The scripts with the words they say: a file of each for every language.

use crate::texts::{self, Language};
use std::sync::LazyLock;

/// For every page of a member.
pub const APP: &str = "app";
/// For pages where passkeys are added or used.
pub const PASSKEYS: &str = "passkeys";

const SCRIPTS: [(&str, &str); 2] = [
    (
        APP,
        concat!(
            include_str!("../../static/app.js"),
            include_str!("../../static/outbox.js"),
            include_str!("../../static/outbox-forms.js"),
            include_str!("../../static/outbox-pages.js"),
        ),
    ),
    (PASSKEYS, include_str!("../../static/passkeys.js")),
];

/// Served apart from the others; it sends the outbox too.
const WORKER: &str = concat!(include_str!("../../static/outbox.js"), include_str!("../../static/sw.js"));

const WORDS: &str = include_str!("../../static/words.js");

/// A script in a language.
pub struct Script {
    pub name: String,
    pub text: String,
}

static ALL: LazyLock<Vec<Script>> = LazyLock::new(|| {
    let each = Language::ALL.iter().flat_map(|language| SCRIPTS.map(|script| (*language, script)));
    let script = |(language, (name, text))| Script { name: file(name, language), text: said(language, text) };
    each.map(script).collect()
});

/// Every script in every language.
pub fn all() -> &'static [Script] {
    &ALL
}

/// The name of a script's file in a language: `app.de.js`.
pub fn file(name: &str, language: Language) -> String {
    format!("{name}.{}.js", language.tag())
}

/// The worker in a language.
pub fn worker(language: Language) -> String {
    said(language, WORKER)
}

fn said(language: Language, script: &str) -> String {
    let words = serde_json::json!(texts::of_scripts(language));
    format!("'use strict';\nself.WORDS = {words};\n{WORDS}{script}")
}
