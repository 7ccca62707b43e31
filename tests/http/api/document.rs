use super::{Sent, Shed, send};
use axum::http::StatusCode;
use serde_json::{Value, json};
use std::collections::{BTreeMap, BTreeSet};

/// The schema of OpenAPI 3.1 documents, of 2022-10-07: https://spec.openapis.org/oas/3.1/schema/2022-10-07
/// (OpenAPI Initiative, Apache-2.0).
const OPENAPI: &str = include_str!("../../reference/standards/openapi_3_1_schema.json");

/// Things in examples, by the collection named first in the path, beside those of the shed.
fn real(s: &Shed) -> BTreeMap<&'static str, String> {
    [
        ("packets", s.packet.0.clone()),
        ("trials", s.trial.0.clone()),
        ("bags", s.bag.0.clone()),
        ("trays", s.tray.0.clone()),
        ("plantings", s.planting.clone()),
        ("entries", s.entry.clone()),
        ("routines", s.routine.clone()),
    ]
    .into()
}

/// One request that the document shows, with the status it promises.
#[derive(Debug, Clone)]
struct Shown {
    method: String,
    path: String,
    name: String,
    body: Option<Value>,
    status: String,
    schema: Value,
}

async fn document(s: &Shed) -> Value {
    let sent = Sent { method: "GET", path: "/api/v1/openapi.json", token: "", body: None, headers: &[] };
    let answer = send(&s.club.stranger(), sent).await;
    assert_eq!((answer.status, answer.header("content-type")), (StatusCode::OK, "application/json"));
    answer.json
}

fn operations(document: &Value) -> Vec<(String, String, Value)> {
    let paths = document["paths"].as_object().unwrap();
    let of = |(path, methods): (&String, &Value)| -> Vec<_> {
        let methods = methods.as_object().unwrap().iter();
        methods.map(|(method, o)| (path.clone(), method.clone(), o.clone())).collect()
    };
    paths.iter().flat_map(of).collect()
}

/// Every example of the document.
fn shown(document: &Value) -> Vec<Shown> {
    let mut all = Vec::new();
    for (path, method, operation) in operations(document) {
        let schema = |status: &str| {
            let content = operation["responses"][status]["content"].as_object().unwrap();
            content.values().next().unwrap()["schema"].clone()
        };
        let one = |name: &str, body: Option<Value>, status: &str| Shown {
            method: method.to_uppercase(),
            path: path.clone(),
            name: name.to_owned(),
            body,
            status: status.to_owned(),
            schema: schema(status),
        };
        let bodies = operation["requestBody"]["content"]["application/json"]["examples"].as_object();
        let Some(bodies) = bodies else {
            all.push(one("answer", None, "200"));
            continue;
        };
        for (name, example) in bodies {
            let holds = |status: &&str| {
                let content = operation["responses"][*status]["content"].as_object().unwrap();
                content.values().any(|c| c["examples"].get(name).is_some())
            };
            let status = ["201", "422"].iter().find(|s| holds(s)).unwrap_or_else(|| panic!("{path} {name}"));
            all.push(one(name, Some(example["value"].clone()), status));
        }
    }
    all
}

/// A schema of the document that can stand alone.
fn alone(schema: &Value, document: &Value) -> jsonschema::Validator {
    let mut whole = schema.clone();
    whole["components"] = document["components"].clone();
    jsonschema::validator_for(&whole).unwrap()
}

#[track_caller]
fn fits(schema: &Value, document: &Value, value: &Value, what: &str) {
    let validator = alone(schema, document);
    let faults: Vec<String> =
        validator.iter_errors(value).map(|e| format!("{} at {}", e, e.instance_path())).collect();
    assert!(faults.is_empty(), "{what}: {faults:#?} in {value:#}");
}

#[tokio::test]
async fn the_document_is_openapi_3_1() {
    let s = Shed::new().await;
    let document = document(&s).await;
    assert_eq!(document["openapi"], "3.1.0");
    let official: Value = serde_json::from_str(OPENAPI).unwrap();
    let validator = jsonschema::validator_for(&official).unwrap();
    let faults: Vec<String> =
        validator.iter_errors(&document).map(|e| format!("{} at {}", e, e.instance_path())).collect();
    assert!(faults.is_empty(), "{faults:#?}");
    let mut broken = document.clone();
    broken["paths"]["/bags"]["get"]["responses"] = json!([]);
    assert!(!validator.is_valid(&broken), "the check can fail");
    for (name, schema) in document["components"]["schemas"].as_object().unwrap() {
        assert!(jsonschema::meta::is_valid(schema), "{name} is a schema: {schema:#}");
    }
    let names: Vec<String> =
        operations(&document).iter().map(|(_, _, o)| o["operationId"].to_string()).collect();
    assert_eq!(names.iter().collect::<BTreeSet<_>>().len(), names.len(), "every name stands once: {names:?}");
    assert!(names.len() >= 30, "{}", names.len());
}

#[tokio::test]
async fn every_example_is_answered_as_documented() {
    let s = Shed::new().await;
    let document = document(&s).await;
    let examples = shown(&document);
    let saves = examples.iter().filter(|e| e.method == "POST").count();
    assert!(saves >= 25 && examples.len() > saves + 20, "{saves} of {}", examples.len());
    let mut faults = Vec::new();
    for example in &examples {
        let fresh = Shed::new().await;
        if let Err(fault) = as_documented(&fresh, example, &document).await {
            faults.push(fault);
        }
    }
    assert!(faults.is_empty(), "{} of {}: {faults:#?}", faults.len(), examples.len());
    println!("{} examples of {} operations", examples.len(), operations(&document).len());
}

/// Sends an example with the ids of real things in place of those shown.
async fn as_documented(s: &Shed, example: &Shown, document: &Value) -> Result<(), String> {
    let there = |text: &str| {
        real(s)
            .iter()
            .fold(text.to_owned(), |text, (collection, id)| text.replace(&shown_id(document, collection), id))
    };
    let operation = &document["paths"][&example.path][example.method.to_lowercase()];
    let id = operation["parameters"].as_array().into_iter().flatten().find(|p| p["in"] == "path");
    let id = id.map_or("", |p| p["example"].as_str().unwrap());
    let path = there(&format!("/api/v1{}", example.path.replace("{id}", id)));
    let body = example.body.as_ref().map(|b| there(&b.to_string()).into_bytes());
    let sent = Sent { method: &example.method, path: &path, token: &s.token, body, headers: &[] };
    let answer = send(&s.club.stranger(), sent).await;
    let what = format!("{} {} {}", example.method, example.path, example.name);
    if answer.status.as_str() != example.status {
        return Err(format!("{what}: {} and not {}: {}", answer.status, example.status, answer.json));
    }
    let faults: Vec<String> = alone(&example.schema, document)
        .iter_errors(&answer.json)
        .map(|e| format!("{} at {}", e, e.instance_path()))
        .collect();
    if faults.is_empty() { Ok(()) } else { Err(format!("{what}: {faults:?} in {}", answer.json)) }
}

/// The id that examples show for a thing of this collection.
fn shown_id(document: &Value, collection: &str) -> String {
    let path = match collection {
        "routines" => {
            let body = &document["paths"]["/trials"]["post"]["requestBody"]["content"]["application/json"];
            return body["examples"]["started"]["value"]["routine"].as_str().unwrap().to_owned();
        }
        "entries" => "/entries/{id}/voids".to_owned(),
        other => format!("/{other}/{{id}}"),
    };
    let methods = document["paths"][&path].as_object().unwrap();
    methods.values().next().unwrap()["parameters"][0]["example"].as_str().unwrap().to_owned()
}

#[tokio::test]
async fn what_the_document_shows_fits_its_own_schemas() {
    let s = Shed::new().await;
    let document = document(&s).await;
    for (path, method, operation) in operations(&document) {
        let mut contents = vec![("request".to_owned(), operation["requestBody"]["content"].clone())];
        for (status, response) in operation["responses"].as_object().unwrap() {
            contents.push((status.clone(), response["content"].clone()));
        }
        for (what, content) in contents {
            for media in content.as_object().into_iter().flat_map(|c| c.values()) {
                for (name, example) in media["examples"].as_object().into_iter().flatten() {
                    let told_wrong = what == "request"
                        && operation["responses"]["422"]["content"]["application/problem+json"]["examples"]
                            .get(name)
                            .is_some();
                    if !told_wrong {
                        let what = format!("{method} {path} {what} {name}");
                        fits(&media["schema"], &document, &example["value"], &what);
                    }
                }
            }
        }
    }
}

#[tokio::test]
async fn the_page_tells_people_the_same() {
    let s = Shed::new().await;
    let document = document(&s).await;
    let page = s.jo.get("/api").await;
    page.says("For your own programs").says("/api/v1/openapi.json");
    let codes = page.all("details p:first-of-type code");
    for (path, method, operation) in operations(&document) {
        let line = format!("{} /api/v1{path}", method.to_uppercase());
        assert!(codes.contains(&line), "{line} is not on the page");
        page.says(operation["summary"].as_str().unwrap());
    }
    assert_eq!(codes.len(), operations(&document).len());
    for problem in ["no-good-token", "refused", "id-taken", "too-many"] {
        assert_eq!(page.all(&format!("dt#{problem}")).len(), 1, "{problem} is where its type leads");
    }
}
