mod document;
mod isolation;
mod problems;
mod reads;
mod saves;
mod tokens;

use crate::support::{Browser, Club};
use axum::body::Body;
use axum::http::header::{AUTHORIZATION, CONTENT_TYPE, HOST};
use axum::http::{HeaderMap, Request, StatusCode};
use hilum::accounts::model::NewToken;
use hilum::accounts::store::tokens as store;
use hilum::db::ids::{BagId, PacketId, TrayId, TrialId};
use hilum::notebook::{Act, history};
use hilum::routines::store as routines;
use hilum::trays::store::{self as trays, NewTray, Plan};
use hilum::trials::model::NewTrial;
use hilum::trials::store as trials;
use http_body_util::BodyExt;
use serde_json::{Value, json};

/// An answer of the API.
#[derive(Debug)]
pub struct Answer {
    pub status: StatusCode,
    pub headers: HeaderMap,
    pub json: Value,
}

impl Answer {
    pub fn header(&self, name: &str) -> &str {
        self.headers.get(name).map_or("", |v| v.to_str().unwrap())
    }

    /// Panics unless this is a problem of this status and name (the end of its type).
    #[track_caller]
    pub fn is_problem(&self, status: u16, name: &str) -> &Self {
        assert_eq!(self.status.as_u16(), status, "{self:?}");
        assert_eq!(self.header("content-type"), "application/problem+json", "{self:?}");
        assert_eq!(self.json["type"], format!("/api#{name}"), "{self:?}");
        assert_eq!(self.json["status"], status);
        for field in ["title", "detail"] {
            assert!(self.json[field].as_str().is_some_and(|t| !t.is_empty()), "{self:?}");
        }
        self
    }

    /// Panics unless an error stands at `pointer` and contains `words`.
    #[track_caller]
    pub fn refuses(&self, pointer: &str, words: &str) {
        self.is_problem(422, "refused");
        let all = self.json["errors"].as_array().unwrap();
        let there = |e: &&Value| e["pointer"] == pointer || e["parameter"] == pointer;
        let said = all.iter().find(there).map(|e| e["detail"].as_str().unwrap().to_owned());
        assert!(said.as_ref().is_some_and(|s| s.contains(words)), "'{words}' at {pointer}: {self:?}");
    }
}

/// A request to the API as it is sent.
pub struct Sent<'a> {
    pub method: &'a str,
    pub path: &'a str,
    pub token: &'a str,
    pub body: Option<Vec<u8>>,
    pub headers: &'a [(&'a str, &'a str)],
}

/// Sends a request with what `browser` keeps.
pub async fn send(browser: &Browser, sent: Sent<'_>) -> Answer {
    let mut request = Request::builder().method(sent.method).uri(sent.path).header(HOST, "club.test");
    if !sent.token.is_empty() {
        request = request.header(AUTHORIZATION, format!("Bearer {}", sent.token));
    }
    if sent.body.is_some() && !sent.headers.iter().any(|(n, _)| *n == "content-type") {
        request = request.header(CONTENT_TYPE, "application/json");
    }
    for (name, value) in sent.headers {
        request = request.header(*name, *value);
    }
    let response = browser.raw(request.body(Body::from(sent.body.unwrap_or_default())).unwrap()).await;
    let (parts, body) = response.into_parts();
    let bytes = body.collect().await.unwrap().to_bytes();
    Answer {
        status: parts.status,
        headers: parts.headers,
        json: serde_json::from_slice(&bytes).unwrap_or(Value::Null),
    }
}

/// A token of the member, made now.
pub async fn token(club: &Club, member: &Browser, may: &'static str) -> String {
    let mut conn = club.app.db.write().await.unwrap();
    let new = NewToken { name: "scale".into(), may, days: Some(30) };
    let (_, secret) = store::make(&mut conn, member.id(), &new, club.app.now()).await.unwrap();
    conn.commit().await.unwrap();
    secret
}

/// A club in which Jo has one thing of each sort, and a token that records.
pub struct Shed {
    pub club: Club,
    pub jo: Browser,
    pub token: String,
    pub packet: PacketId,
    pub routine: String,
    pub trial: TrialId,
    pub bag: BagId,
    pub tray: TrayId,
    pub planting: String,
    /// A look that nothing stands on.
    pub entry: String,
}

impl Shed {
    /// 60 seeds in the packet, 30 soaking; in the bag 3 rooted that wait and 5 still on paper; one planted.
    pub async fn new() -> Self {
        let club = Club::new().await;
        club.app.furnish().await.unwrap();
        let jo = club.grower("Jo", "JB").await;
        let packet = club.packet(&jo, "Kestrel", 100).await;
        let (routine, trial) = started(&club, &jo, &packet).await;
        club.pass_days(1);
        let bag = club.bag(&jo, &trial, 10).await;
        club.pass_days(3);
        club.look(&jo, &bag, 4, 0).await;
        let (tray, planting) = planted(&club, &jo, &bag).await;
        club.pass_minutes(10);
        club.look(&jo, &bag, 0, 1).await;
        let token = token(&club, &jo, "record").await;
        let entries = history::of_bag(&mut club.app.db.read().await.unwrap(), &bag).await.unwrap();
        let entry = entries[0].id.clone();
        club.pass_minutes(10);
        Self { club, jo, token, packet, routine, trial, bag, tray, planting, entry }
    }

    pub async fn get(&self, path: &str) -> Answer {
        self.get_with(&self.token, path).await
    }

    pub async fn get_with(&self, token: &str, path: &str) -> Answer {
        let sent = Sent { method: "GET", path, token, body: None, headers: &[] };
        send(&self.club.stranger(), sent).await
    }

    pub async fn post(&self, path: &str, body: &Value) -> Answer {
        self.post_with(&self.token, path, body).await
    }

    pub async fn post_with(&self, token: &str, path: &str, body: &Value) -> Answer {
        let body = Some(body.to_string().into_bytes());
        let sent = Sent { method: "POST", path, token, body, headers: &[] };
        send(&self.club.stranger(), sent).await
    }

    /// An address of the API below the bag.
    pub fn of_bag(&self, rest: &str) -> String {
        format!("/api/v1/bags/{}{rest}", self.bag)
    }

    pub async fn bag(&self) -> Value {
        let answer = self.get(&self.of_bag("")).await;
        assert_eq!(answer.status, StatusCode::OK, "{answer:?}");
        answer.json
    }
}

/// A trial of 40 seeds in a ready routine with steps.
async fn started(club: &Club, jo: &Browser, packet: &PacketId) -> (String, TrialId) {
    let mut conn = club.app.db.write().await.unwrap();
    let mut chosen = None;
    for routine in routines::routines(&mut conn).await.unwrap() {
        if !routines::steps(&mut conn, &routine.version_id).await.unwrap().is_empty() {
            chosen = Some(routine.id);
        }
    }
    let routine = chosen.expect("a ready routine has steps");
    let act = Act::new(jo.id(), "shed", club.app.now(), club.app.now());
    let new = NewTrial {
        packet: packet.clone(),
        routine: routine.clone(),
        seeds: 40,
        recount: None,
        pair: None,
        plan: String::new(),
    };
    let made = trials::start(&mut conn, &act, &[new]).await.unwrap();
    conn.commit().await.unwrap();
    (routine.0, made[0].clone())
}

async fn planted(club: &Club, jo: &Browser, bag: &BagId) -> (TrayId, String) {
    let now = club.app.now();
    let mut conn = club.app.db.write().await.unwrap();
    let new = NewTray { name: "Bench", rows: 2, cols: 3, place: "" };
    let (tray, _) = trays::make(&mut conn, jo.id(), &new, now).await.unwrap();
    let plan = Plan { bag, tray: &tray, seeds: 1, per_cell: 1, from: None, unrooted: false, over: None };
    let placed = trays::plant(&mut conn, &Act::new(jo.id(), "shed", now, now), &plan).await.unwrap();
    conn.commit().await.unwrap();
    (tray, placed[0].planting.0.clone())
}

/// The id of a save.
pub fn save_id(n: u32) -> String {
    format!("{n:032x}")
}

/// A count with this id.
pub fn counted(n: u32, rooted: i64) -> Value {
    json!({ "id": save_id(n), "rooted": rooted })
}
