//! The document of the whole: OpenAPI 3.1, made from the table of operations and the types they take and give.

use super::ROOT;
use super::problem::{MEDIA, Problem, Told, kinds};
use super::table::{Example, Name, Operation};
use super::values::example_id;
use crate::app::App;
use axum::extract::State;
use axum::http::header::CONTENT_TYPE;
use axum::response::{IntoResponse, Response};
use schemars::SchemaGenerator;
use schemars::generate::SchemaSettings;
use serde_json::{Map, Value, json};
use std::sync::Arc;

const ABOUT: &str = "Reads what a member sees in the club, and records in their name. Every request carries a token of \
    the member, made on their page of settings; it works here alone. Moments have their offset from UTC (RFC 3339); \
    warmth is in degrees C. Lists come a page at a time: follow `next`. Whatever is saved carries an `id`, 128 random \
    bits made by the sender: keep it with the entry until the answer is there, and send both again when it is not. The \
    same id with the same content counts once, for ever, and gets the same answer; with other content it is refused.";

/// GET /api/v1/openapi.json
pub async fn show(State(app): State<App>, operations: Arc<Vec<Operation>>) -> Response {
    let document = whole(&operations, &app.config.base());
    ([(CONTENT_TYPE, "application/json")], document.to_string()).into_response()
}

/// The document for an installation that members reach at `base`.
pub fn whole(operations: &[Operation], base: &str) -> Value {
    let settings = |s: &mut SchemaSettings| s.definitions_path = "/components/schemas".into();
    let mut takes = SchemaSettings::draft2020_12().with(settings).for_deserialize().into_generator();
    let mut gives = SchemaSettings::draft2020_12().with(settings).for_serialize().into_generator();
    let problem = gives.subschema_for::<Told>().to_value();
    let mut paths = Map::new();
    for operation in operations {
        let method = if operation.takes.is_some() { "post" } else { "get" };
        let described = described(operation, &mut takes, &mut gives, &problem);
        let path = paths.entry(operation.path).or_insert_with(|| json!({}));
        path[method] = described;
    }
    let mut schemas = takes.take_definitions(true);
    schemas.extend(gives.take_definitions(true));
    json!({
        "openapi": "3.1.0",
        "info": {
            "title": "Hilum",
            "version": env!("CARGO_PKG_VERSION"),
            "description": ABOUT,
            "license": { "name": "MIT or Apache-2.0", "identifier": "MIT OR Apache-2.0" },
        },
        "servers": [{ "url": format!("{base}{ROOT}") }],
        "security": [{ "token": [] }],
        "paths": paths,
        "components": {
            "schemas": schemas,
            "securitySchemes": { "token": { "type": "http", "scheme": "bearer" } },
        },
    })
}

fn described(
    operation: &Operation,
    takes: &mut SchemaGenerator,
    gives: &mut SchemaGenerator,
    problem: &Value,
) -> Value {
    let words = operation.words;
    let mut said = json!({
        "operationId": words.name,
        "tags": [words.group],
        "summary": words.summary,
        "parameters": parameters(operation),
        "responses": responses(operation, (operation.gives)(gives).to_value(), problem),
    });
    if !words.about.is_empty() {
        said["description"] = words.about.into();
    }
    if let Some((schema, examples)) = &operation.takes {
        let content = json!({ "schema": schema(takes), "examples": named(examples.iter()) });
        said["requestBody"] = json!({ "required": true, "content": { "application/json": content } });
    }
    said
}

fn parameters(operation: &Operation) -> Vec<Value> {
    let collection = operation.path.split('/').nth(1).unwrap_or_default();
    let id = json!({
        "name": "id", "in": "path", "required": true,
        "schema": { "type": "string" }, "example": example_id(collection),
    });
    let id = operation.path.contains("{id}").then_some(id);
    id.into_iter().chain(operation.names.iter().map(parameter)).collect()
}

fn parameter(name: &Name) -> Value {
    let schema = match (name.whole, name.one_of) {
        (true, _) => json!({ "type": "integer" }),
        (false, []) => json!({ "type": "string" }),
        (false, words) => json!({ "type": "string", "enum": words }),
    };
    json!({ "name": name.name, "in": "query", "description": name.about, "schema": schema })
}

/// Each status an example leads to, named as the example is; and the usual problems.
fn responses(operation: &Operation, schema: Value, problem: &Value) -> Value {
    let usual = |about: &str| {
        let content = json!({ MEDIA: { "schema": problem } });
        json!({ "description": about, "content": content })
    };
    let answer = |about: &str, examples: Value| {
        let content = json!({ "application/json": { "schema": schema, "examples": examples } });
        json!({ "description": about, "content": content })
    };
    let example = &operation.example;
    let mut all = json!({
        "401": usual(kinds::TOKEN.about),
        "default": usual("Something went wrong."),
    });
    if operation.path.contains("{id}") {
        all["404"] = usual(kinds::NOT_FOUND.about);
    }
    let Some((_, examples)) = &operation.takes else {
        all["200"] = answer("What was asked for.", json!({ "answer": { "value": example } }));
        return all;
    };
    let saved = || examples.iter().filter(|e| e.status == 201);
    let shown = saved().map(|e| (e.name.to_owned(), json!({ "summary": e.summary, "value": example })));
    let mut created = answer("Saved.", Value::Object(shown.collect()));
    let place = json!({ "description": "Where to read how it stands now.", "schema": { "type": "string" } });
    created["headers"] = json!({ "Location": place });
    all["201"] = created;
    all["200"] = answer("Saved before under this id: the same answer.", json!({}));
    all["409"] = usual(kinds::CONFLICT.about);
    all["422"] = usual(kinds::REFUSED.about);
    for e in examples.iter().filter(|e| e.status == 422) {
        let value = Problem::refused("", "Why it was refused, in plain words.");
        let value = value.told();
        all["422"]["content"][MEDIA]["examples"][e.name] = json!({ "summary": e.summary, "value": value });
    }
    all
}

fn named<'e>(examples: impl Iterator<Item = &'e Example>) -> Value {
    let one = |e: &Example| (e.name.to_owned(), json!({ "summary": e.summary, "value": e.body }));
    Value::Object(examples.map(one).collect())
}
