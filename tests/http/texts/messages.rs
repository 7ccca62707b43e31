//! The messages of each language against each other and against the code that says them.

use crate::support::routes::sources;
use fluent_bundle::FluentResource;
use hilum::texts::Language;
use std::collections::{BTreeMap, BTreeSet};

/// Said by the scripts, which fill in what they have.
const OF_SCRIPTS: &str = "scripts-";

/// The values that each message takes, by its name.
type Messages = BTreeMap<String, BTreeSet<String>>;

fn messages(language: Language) -> (Messages, Vec<String>) {
    let (mut all, mut faults) = (Messages::new(), Vec::new());
    for (path, text) in sources(&format!("templates/texts/{}", language.tag()), "ftl") {
        let file = path.file_stem().unwrap().to_str().unwrap().to_owned();
        if let Err((_, errors)) = FluentResource::try_new(text.clone()) {
            faults.push(format!("{}: {errors:?}", path.display()));
        }
        for (id, value) in parts(&text) {
            if !id.starts_with(&format!("{file}-")) {
                faults.push(format!("{}: {id} does not begin with the file's name", path.display()));
            }
            if all.insert(id.clone(), values(&value)).is_some() {
                faults.push(format!("{}: {id} is there twice", path.display()));
            }
        }
    }
    (all, faults)
}

/// Name and text of each message in a file.
fn parts(file: &str) -> Vec<(String, String)> {
    let mut found: Vec<(String, String)> = Vec::new();
    for line in file.lines().filter(|line| !line.starts_with('#')) {
        match line.split_once(" =") {
            Some((id, text)) if id.starts_with(|c: char| c.is_ascii_lowercase()) => {
                found.push((id.to_owned(), text.to_owned()));
            }
            _ => found.iter_mut().last().into_iter().for_each(|(_, text)| text.push_str(line)),
        }
    }
    found
}

fn values(text: &str) -> BTreeSet<String> {
    let name = |rest: &str| rest.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect();
    text.split('$').skip(1).map(name).collect()
}

/// Every `t!("name", value = …)` and `h!(…)` in the code and the templates: where, name, values.
fn said() -> Vec<(String, String, BTreeSet<String>)> {
    let code = sources("server", "rs").into_iter().chain(sources("templates", "html"));
    let code = code.filter(|(path, _)| !path.starts_with("server/texts") && !path.starts_with("server/calc"));
    code.flat_map(|(path, text)| {
        let begins = |at: usize| !text[..at].ends_with(|c: char| c.is_alphanumeric() || c == '_');
        let starts = ["t!(", "h!("].into_iter().flat_map(|call| text.match_indices(call));
        let calls = starts.filter(|(at, _)| begins(*at));
        let calls = calls.filter_map(|(at, t)| call(text[at + t.len()..].trim_start().strip_prefix('"')?));
        calls.map(|(id, given)| (path.display().to_string(), id, given)).collect::<Vec<_>>()
    })
    .collect()
}

fn call(rest: &str) -> Option<(String, BTreeSet<String>)> {
    let (id, rest) = rest.split_once('"')?;
    let (mut depth, mut quoted, mut given, mut start) = (0, false, BTreeSet::new(), 0);
    for (at, c) in rest.char_indices() {
        quoted ^= c == '"';
        match c {
            '(' | '[' | '{' if !quoted => depth += 1,
            ')' | ']' | '}' if !quoted && depth > 0 => depth -= 1,
            ')' | ',' if !quoted && depth == 0 => {
                let name = rest[start..at].split_once('=').map(|(name, _)| name.trim().to_owned());
                given.extend(name);
                if c == ')' {
                    break;
                }
                start = at + 1;
            }
            _ => {}
        }
    }
    Some((id.to_owned(), given))
}

#[test]
fn every_language_has_every_message_with_the_same_values() {
    let (english, mut faults) = messages(Language::English);
    assert!(english.len() > 1000, "only {} messages", english.len());
    for language in Language::ALL {
        let (other, wrong) = messages(language);
        faults.extend(wrong);
        for id in english.keys().chain(other.keys()).collect::<BTreeSet<_>>() {
            if english.get(id) != other.get(id) {
                faults.push(format!("{id}: {:?} in {language:?}, not {:?}", other.get(id), english.get(id)));
            }
        }
    }
    assert!(faults.is_empty(), "{} faults: {faults:#?}", faults.len());
}

#[test]
fn what_is_said_is_there_and_nothing_is_spare() {
    let (english, _) = messages(Language::English);
    let said = said();
    let wrong = said.iter().filter(|(_, id, given)| english.get(id) != Some(given));
    let mut faults: Vec<String> = wrong
        .map(|(path, id, given)| format!("{path}: {id} with {given:?}: {:?}", english.get(id)))
        .collect();
    let used: BTreeSet<&String> = said.iter().map(|(_, id, _)| id).collect();
    let spare = english.keys().filter(|id| !used.contains(id) && !id.starts_with(OF_SCRIPTS));
    faults.extend(spare.map(|id| format!("{id} is never said")));
    assert!(faults.is_empty(), "{} faults: {faults:#?}", faults.len());
}

#[test]
fn scripts_say_what_is_there() {
    let (english, _) = messages(Language::English);
    let scripts = sources("static", "js");
    let text: String = scripts.iter().map(|(_, text)| text.as_str()).collect();
    let named = |id: &str| {
        let plural = id.strip_suffix("-one").or(id.strip_suffix("-other"));
        [Some(id), plural].into_iter().flatten().any(|id| text.contains(&format!("'{id}'")))
    };
    let ids: Vec<&str> = english.keys().filter_map(|id| id.strip_prefix(OF_SCRIPTS)).collect();
    let spare: Vec<&&str> = ids.iter().filter(|id| !named(id)).collect();
    assert!(spare.is_empty(), "never said: {spare:?}");
    for call in ["words('", "counted('"] {
        for id in text.split(call).skip(1).filter_map(|rest| rest.split('\'').next()) {
            let there = ids.iter().any(|known| *known == id || known.strip_suffix("-other") == Some(id));
            assert!(there, "{call}{id}') has no message");
        }
    }
}
