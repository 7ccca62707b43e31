//! Every operation of the document, by whose token comes along.

use super::{Answer, Sent, Shed, save_id, send, token};
use axum::http::StatusCode;
use serde_json::{Value, json};
use std::collections::BTreeSet;

/// Whose a thing is.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Of {
    /// Every member's: the address is the same for all, and shows each their own or the club's.
    Members,
    /// The member's whose packet, trial, bag, tray, planting or entry stands in the path; else 404.
    Owner,
}
use Of::*;

/// Every operation, one line each. One that is missing here fails the test.
#[rustfmt::skip]
const TABLE: &[(&str, &str, Of)] = &[
    ("GET",  "/me", Members),
    ("GET",  "/due", Members),
    ("GET",  "/packets", Members),
    ("GET",  "/packets/{id}", Owner),
    ("GET",  "/packets/{id}/entries", Owner),
    ("POST", "/packets/{id}/seeds", Owner),
    ("GET",  "/routines", Members),
    ("GET",  "/trials", Members),
    ("POST", "/trials", Members),
    ("GET",  "/trials/{id}", Owner),
    ("GET",  "/trials/{id}/entries", Owner),
    ("POST", "/trials/{id}/steps", Owner),
    ("POST", "/trials/{id}/tallies", Owner),
    ("POST", "/trials/{id}/bags", Owner),
    ("POST", "/trials/{id}/leavings", Owner),
    ("POST", "/trials/{id}/notes", Owner),
    ("GET",  "/bags", Members),
    ("GET",  "/bags/{id}", Owner),
    ("GET",  "/bags/{id}/entries", Owner),
    ("POST", "/bags/{id}/counts", Owner),
    ("POST", "/bags/{id}/events", Owner),
    ("POST", "/bags/{id}/closings", Owner),
    ("POST", "/bags/{id}/leavings", Owner),
    ("POST", "/bags/{id}/plantings", Owner),
    ("GET",  "/trays", Members),
    ("GET",  "/trays/{id}", Owner),
    ("GET",  "/trays/{id}/plantings", Owner),
    ("GET",  "/plantings/{id}", Owner),
    ("GET",  "/plantings/{id}/entries", Owner),
    ("POST", "/plantings/{id}/outcomes", Owner),
    ("POST", "/plantings/{id}/endings", Owner),
    ("POST", "/entries/{id}/voids", Owner),
    ("GET",  "/counts", Members),
    ("GET",  "/tallies", Members),
    ("GET",  "/outcomes", Members),
    ("GET",  "/kinds", Members),
    ("GET",  "/kinds/{id}", Members),
    ("GET",  "/table", Members),
];

#[tokio::test]
async fn every_operation_is_in_the_table() {
    let s = Shed::new().await;
    let document = s.get("/api/v1/openapi.json").await.json;
    let mut found = BTreeSet::new();
    for (path, methods) in document["paths"].as_object().unwrap() {
        found.extend(methods.as_object().unwrap().keys().map(|m| (m.to_uppercase(), path.clone())));
    }
    let listed: BTreeSet<(String, String)> =
        TABLE.iter().map(|(method, path, _)| ((*method).to_owned(), (*path).to_owned())).collect();
    assert_eq!(listed.len(), TABLE.len(), "a line stands twice");
    assert_eq!(found, listed);
}

fn path(s: &Shed, pattern: &str) -> String {
    let id = match pattern.split('/').nth(1).unwrap() {
        "packets" => &s.packet.0,
        "trials" => &s.trial.0,
        "bags" => &s.bag.0,
        "trays" => &s.tray.0,
        "plantings" => &s.planting,
        "entries" => &s.entry,
        _ => "pepper",
    };
    format!("/api/v1{}", pattern.replace("{id}", id))
}

/// Something that would be saved of one's own things; unfit for a stranger's.
fn body(s: &Shed, pattern: &str, n: u32) -> Value {
    let mut body = match pattern.rsplit('/').next().unwrap() {
        "seeds" => json!({ "sort": "recount", "seeds": 50 }),
        "trials" => json!({ "packet": s.packet.0, "routine": s.routine, "seeds": 5 }),
        "steps" => json!({ "step": 1 }),
        "tallies" => json!({ "sank": 30, "floated": 0 }),
        "bags" => json!({ "bags": [{ "seeds": 5 }] }),
        "leavings" if pattern.starts_with("/bags") => json!({ "went": "lost", "seeds": 1 }),
        "leavings" => json!({ "sort": "lost", "seeds": 1 }),
        "notes" => json!({ "sort": "note", "text": "a test" }),
        "counts" => json!({ "rooted": 1 }),
        "events" => json!({ "happened": "damped" }),
        "closings" => json!({ "ending": "kept on" }),
        "plantings" => json!({ "tray": s.tray.0, "seeds": 1 }),
        "outcomes" => json!({ "up": 1 }),
        "endings" | "voids" => json!({ "why": "a test" }),
        other => panic!("what does {other} take?"),
    };
    body["id"] = json!(save_id(n));
    body
}

async fn visit(s: &Shed, (method, pattern, _): (&str, &str, Of), token: &str, n: u32) -> Answer {
    let path = path(s, pattern);
    let body = (method == "POST").then(|| body(s, pattern, n).to_string().into_bytes());
    send(&s.club.stranger(), Sent { method, path: &path, token, body, headers: &[] }).await
}

#[tokio::test]
async fn each_operation_answers_those_it_is_for() {
    for line in TABLE {
        let s = Shed::new().await;
        let (kim, lea) = (s.club.grower("Kim", "KL").await, s.club.organiser("Lea", "LM").await);
        let ended = token(&s.club, &s.jo, "record").await;
        let listed = s.jo.get("/me/tokens").await;
        let newest = listed.body.split("action=\"/me/tokens/").nth(1).unwrap().split('/').next().unwrap();
        s.jo.submit(&listed, &format!("/me/tokens/{newest}/end"), &[]).await.says("no longer works");
        for bad in ["", "hilum_guess", &ended] {
            visit(&s, *line, bad, 1).await.is_problem(401, "no-good-token");
        }
        let reads = token(&s.club, &s.jo, "read").await;
        let read_only = visit(&s, *line, &reads, 2).await;
        if line.0 == "POST" {
            read_only.is_problem(403, "read-only-token");
        } else {
            assert_eq!(read_only.status, StatusCode::OK, "{line:?}: {read_only:?}");
        }
        for (n, other) in [&kim, &lea].into_iter().enumerate() {
            let theirs = token(&s.club, other, "record").await;
            let answer = visit(&s, *line, &theirs, 10 + n as u32).await;
            match (line.0, line.2) {
                (_, Owner) => drop(answer.is_problem(404, "not-found")),
                // somebody else's packet is refused as one that is not there
                ("POST", Members) => assert_eq!(answer.status, StatusCode::NOT_FOUND, "{line:?}: {answer:?}"),
                _ => assert_eq!(answer.status, StatusCode::OK, "{line:?}: {answer:?}"),
            }
            let told = answer.json.to_string();
            let own = ["/table", "/kinds", "/routines", "/kinds/{id}"];
            assert!(own.contains(&line.1) || !told.contains("JB 1"), "{line:?} shows Jo's: {told}");
        }
        let own = visit(&s, *line, &s.token, 3).await;
        let good = if line.0 == "POST" { StatusCode::CREATED } else { StatusCode::OK };
        assert_eq!(own.status, good, "the owner at {line:?}: {own:?}");
    }
}
