//! /api: the same document for people.

use super::problem::{Kind, kinds};
use super::table::Operation;
use super::{ROOT, document};
use crate::app::App;
use crate::error::AppError;
use crate::texts::{self, Language};
use crate::web::chrome::Chrome;
use crate::web::page;
use askama::Template;
use axum::extract::State;
use axum::response::Response;
use serde_json::Value;
use std::sync::Arc;

/// One address and method as it is read.
struct Shown {
    name: &'static str,
    method: &'static str,
    path: String,
    summary: &'static str,
    about: &'static str,
    /// Names in the query, or in the body.
    asks: Vec<Asked>,
    call: String,
    answer: String,
}

/// A name with what it is for.
struct Asked {
    name: String,
    about: String,
    needed: bool,
}

struct Group {
    name: &'static str,
    operations: Vec<Shown>,
}

#[derive(Template)]
#[template(path = "api/page.html")]
struct Page<'a> {
    chrome: &'a Chrome,
    base: &'a str,
    groups: Vec<Group>,
    problems: [&'static Kind; kinds::ALL.len()],
    /// Whether the page is in another language than the document, which is in English.
    foreign: bool,
}

/// GET /api
pub async fn show(
    State(app): State<App>,
    chrome: Chrome,
    operations: Arc<Vec<Operation>>,
) -> Result<Response, AppError> {
    let base = app.config.base();
    let document = document::whole(&operations, &base);
    let mut groups: Vec<Group> = Vec::new();
    for operation in operations.iter() {
        let shown = shown(operation, &document, &base);
        match groups.iter_mut().find(|g| g.name == operation.words.group) {
            Some(group) => group.operations.push(shown),
            None => groups.push(Group { name: operation.words.group, operations: vec![shown] }),
        }
    }
    let address = format!("{base}{ROOT}");
    let foreign = texts::spoken() != Language::English;
    page::page(&Page { chrome: &chrome, base: &address, groups, problems: kinds::ALL, foreign })
}

fn shown(operation: &Operation, document: &Value, base: &str) -> Shown {
    let words = operation.words;
    let method = if operation.takes.is_some() { "POST" } else { "GET" };
    let described = &document["paths"][operation.path][method.to_lowercase()];
    Shown {
        name: words.name,
        method,
        path: format!("{ROOT}{}", operation.path),
        summary: words.summary,
        about: words.about,
        asks: asks(described, document),
        call: call(operation, described, base),
        answer: pretty(&operation.example),
    }
}

/// What stands in the query and the body, as the document has it; what is needed first.
fn asks(described: &Value, document: &Value) -> Vec<Asked> {
    let query = described["parameters"].as_array().into_iter().flatten().filter(|p| p["in"] == "query");
    let query = query.map(|p| Asked {
        name: text(&p["name"]),
        about: [text(&p["description"]), values(&p["schema"])].concat(),
        needed: false,
    });
    let body = resolved(&described["requestBody"]["content"]["application/json"]["schema"], document);
    query.chain(fields("", body, document)).collect()
}

/// The fields of an object, and of the objects that it lists.
fn fields(before: &str, object: &Value, document: &Value) -> Vec<Asked> {
    let (mut needed, mut others) = (Vec::new(), Vec::new());
    for (name, field) in object["properties"].as_object().into_iter().flatten() {
        let whole = resolved(field, document);
        let about = [&field["description"], &whole["description"]].into_iter().find(|d| d.is_string());
        let must = object["required"].as_array().is_some_and(|all| all.iter().any(|n| n == name));
        let about = [about.map(text).unwrap_or_default(), values(whole)].concat();
        let name = format!("{before}{name}");
        let listed = fields(&format!("{name}[]."), resolved(&whole["items"], document), document);
        let group = if must { &mut needed } else { &mut others };
        group.push(Asked { name, about, needed: must });
        group.extend(listed);
    }
    needed.into_iter().chain(others).collect()
}

fn text(value: &Value) -> String {
    value.as_str().unwrap_or_default().replace('`', "")
}

/// The schema that a reference leads to, also where it may be left out.
fn resolved<'d>(schema: &'d Value, document: &'d Value) -> &'d Value {
    let direct = schema["$ref"].as_str();
    let either = schema["anyOf"].as_array().and_then(|all| all.iter().find_map(|s| s["$ref"].as_str()));
    match direct.or(either).and_then(|r| document.pointer(r.trim_start_matches('#'))) {
        Some(found) => found,
        None => schema,
    }
}

/// ` One of: damped, rinsed.` where there is a choice.
fn values(schema: &Value) -> String {
    let words: Vec<&str> =
        schema["enum"].as_array().into_iter().flatten().filter_map(Value::as_str).collect();
    if words.is_empty() { String::new() } else { format!(" One of: {}.", words.join(", ")) }
}

/// The request as a line for the shell, with the first example.
fn call(operation: &Operation, described: &Value, base: &str) -> String {
    let id = described["parameters"].as_array().into_iter().flatten().find(|p| p["in"] == "path");
    let id = id.and_then(|p| p["example"].as_str()).unwrap_or_default();
    let address = format!("{base}{ROOT}{}", operation.path.replace("{id}", id));
    let head = format!("curl -H \"Authorization: Bearer $TOKEN\" {address}");
    match operation.takes.as_ref().and_then(|(_, examples)| examples.first()) {
        Some(first) => {
            format!("{head} \\\n  -H \"Content-Type: application/json\" \\\n  -d '{}'", first.body)
        }
        None => head,
    }
}

fn pretty(value: &Value) -> String {
    serde_json::to_string_pretty(value).unwrap_or_default()
}
