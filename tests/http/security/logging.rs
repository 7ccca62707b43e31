//! What is written down, and what is not.

use super::club;
use crate::accounts::{self, PASSWORD};
use crate::api::{self, Sent, Shed};
use crate::support::{Browser, Club};
use axum::body::Body;
use axum::http::Request;
use axum::http::header::{CONTENT_TYPE, HOST, ORIGIN};
use chrono::DateTime;
use hilum::config::{LogFormat, LogLevel};
use hilum::web::log;
use serde_json::Value;
use std::io::Write;
use std::sync::{Arc, Mutex};
use tracing::subscriber::DefaultGuard;
use tracing_subscriber::filter::{LevelFilter, Targets};

#[derive(Clone, Default)]
struct Sink(Arc<Mutex<Vec<u8>>>);

impl Write for Sink {
    fn write(&mut self, bytes: &[u8]) -> std::io::Result<usize> {
        self.0.lock().unwrap().extend_from_slice(bytes);
        Ok(bytes.len())
    }

    fn flush(&mut self) -> std::io::Result<()> {
        Ok(())
    }
}

impl Sink {
    fn listen(&self, filter: Targets, format: LogFormat) -> DefaultGuard {
        let sink = self.clone();
        tracing::subscriber::set_default(log::lines(filter, format, move || sink.clone()))
    }

    fn lines(&self) -> Vec<String> {
        String::from_utf8_lossy(&self.0.lock().unwrap()).lines().map(str::to_owned).collect()
    }

    #[track_caller]
    fn says(&self, words: &[&str]) -> String {
        let lines = self.lines();
        let found = lines.iter().find(|line| words.iter().all(|word| line.contains(word)));
        found.unwrap_or_else(|| panic!("no line with {words:?}: {lines:#?}")).clone()
    }
}

async fn foreign(browser: &Browser) {
    let request = Request::post("/me").header(HOST, "club.test").header(ORIGIN, "https://elsewhere.test");
    let request = request.header(CONTENT_TYPE, "application/x-www-form-urlencoded");
    browser.raw(request.body(Body::from("name=Canary+name")).unwrap()).await;
}

#[tokio::test]
async fn what_matters_is_written_down_in_lines_that_can_be_read() {
    let (s, lea) = club().await;
    accounts_of(&s.club).await;
    let sink = Sink::default();
    let _listening = sink.listen(LogLevel::Info.filter(), LogFormat::Text);
    accounts::sign_in(&s.club, "ines", PASSWORD).await;
    for _ in 0..12 {
        accounts::sign_in(&s.club, "ines", "a wrong password").await;
    }
    s.jo.get("/members/1").await;
    s.jo.get("/bags/nothing").await;
    s.club.stranger().get("/nowhere").await;
    foreign(&s.jo).await;
    let page = lea.get("/me").await;
    lea.submit(&page, "/me", &[("name", "Lea M")]).await;
    let counted = s.post(&s.of_bag("/counts"), &api::counted(1, 0)).await;
    assert_eq!(counted.status.as_u16(), 201);

    sink.says(&[
        "INFO",
        "method=POST",
        "route=\"/sign-in\"",
        "recorded",
        "what=\"signed in\"",
        "more=\"password\"",
    ]);
    sink.says(&["WARN", "route=\"/sign-in\"", "a sign-in failed", "method=\"password\""]);
    sink.says(&["WARN", "route=\"/sign-in\"", "held back", "result=429"]);
    let jo = format!("member=\"{}\"", s.jo.id());
    sink.says(&["WARN", "route=\"/members/{id}\"", "refused", "result=403", &jo]);
    sink.says(&["WARN", "route=\"/bags/{id}\"", "refused", "result=404", &jo]);
    sink.says(&["WARN", "route=\"\"", "refused", "result=404"]);
    sink.says(&["WARN", "a form came from another site", "route=\"/me\""]);
    sink.says(&["INFO", "route=\"/me\"", "answered", "result=303", &format!("member=\"{}\"", lea.id())]);
    sink.says(&["INFO", "route=\"/api/v1/bags/{id}/counts\"", "result=201", &jo]);
    for line in sink.lines() {
        let mut words = line.split_whitespace();
        let time = words.next().unwrap();
        assert!(time.ends_with('Z') && DateTime::parse_from_rfc3339(time).is_ok(), "UTC by RFC 3339: {line}");
        assert!(["ERROR", "WARN", "INFO"].contains(&words.next().unwrap()), "{line}");
        for field in ["request{number=\"", " method=", " route=", " from="] {
            assert!(line.contains(field), "{field} is not in {line}");
        }
        assert!(line.chars().all(|c| !c.is_control()), "{line}");
    }
}

async fn accounts_of(club: &Club) {
    use hilum::accounts::{model::NewMember, passwords, store};
    let hash = passwords::hashed(&club.app, PASSWORD.into()).await.unwrap();
    let new = NewMember {
        name: "Ines Canary".into(),
        sign_in: "ines".into(),
        letters: "ib".into(),
        password: String::new(),
        role: "organiser".into(),
    };
    let mut conn = club.app.db.write().await.unwrap();
    store::add(&mut conn, &new, &hash, club.app.now()).await.unwrap();
    conn.commit().await.unwrap();
}

#[tokio::test]
async fn as_json_each_line_is_an_object_with_the_same_fields() {
    let (s, _) = club().await;
    let sink = Sink::default();
    let _listening = sink.listen(LogLevel::Info.filter(), LogFormat::Json);
    s.jo.get("/members/1").await;
    s.post(&s.of_bag("/counts"), &api::counted(1, 0)).await;
    let lines: Vec<Value> = sink.lines().iter().map(|line| serde_json::from_str(line).unwrap()).collect();
    assert!(lines.len() >= 2, "{lines:#?}");
    for line in &lines {
        let text = |path: &str| line.pointer(path).and_then(Value::as_str).unwrap_or_default();
        assert!(
            text("/timestamp").ends_with('Z') && DateTime::parse_from_rfc3339(text("/timestamp")).is_ok()
        );
        assert!(["ERROR", "WARN", "INFO"].contains(&text("/level")), "{line}");
        assert!(!text("/message").is_empty() && !text("/target").is_empty(), "{line}");
        assert_eq!(text("/span/number").len(), 12, "{line}");
        assert!(text("/span/route").starts_with('/') && !text("/span/method").is_empty(), "{line}");
    }
    let refused = lines.iter().find(|line| line["message"] == "refused").unwrap();
    assert_eq!((&refused["result"], &refused["span"]["route"]), (&403.into(), &"/members/{id}".into()));
    assert_eq!(refused["span"]["member"], s.jo.id().0.as_str());
}

#[tokio::test]
async fn no_secret_and_no_word_of_a_member_is_written_down() {
    for format in [LogFormat::Text, LogFormat::Json] {
        nothing_personal(format).await;
    }
}

/// Words of a member in every sort of field, and a token that is none.
async fn canary_words(s: &Shed) {
    let count = s.jo.get(&format!("/bags/{}", s.bag)).await;
    let fields = [("rooted", "1"), ("note", "a canary in a note\r\nERROR forged line")];
    s.jo.submit(&count, &format!("/bags/{}/count", s.bag), &fields).await.says("canary");
    s.jo.get("/find?mark=canary+mark").await;
    let new = s.jo.get("/packets/new").await;
    let named =
        [("kind", "pepper"), ("variety", "Canary Ember"), ("source", "Canary Seeds"), ("seeds", "20")];
    s.jo.submit(&new, "/packets/new", &named).await;
    s.jo.get("/packets?q=canary+query").await;
    foreign(&s.jo).await;
    let guess = Sent { method: "GET", path: "/api/v1/due", token: "hilum_canary", body: None, headers: &[] };
    api::send(&s.club.stranger(), guess).await;
    s.get("/api/v1/due").await;
}

async fn nothing_personal(format: LogFormat) {
    let (s, lea) = club().await;
    accounts_of(&s.club).await;
    let sink = Sink::default();
    let _listening = sink.listen(Targets::new().with_default(LevelFilter::TRACE), format);
    let (ines, _) = accounts::sign_in(&s.club, "ines", PASSWORD).await;
    accounts::sign_in(&s.club, "canary.name", "canary password").await;
    let invited = lea.submit(&lea.get("/members").await, "/members/invite", &[]).await;
    let link = invited.all("#link").join("");
    let secret = link.rsplit('/').next().unwrap().to_owned();
    assert!(secret.len() >= 43, "{link}");
    s.club.stranger().get(&format!("/join/{secret}")).await.says("Join the club");
    let made = s.jo.submit(&s.jo.get("/me").await, "/me/calendar", &[]).await;
    let feed =
        made.body.split("/calendar/").nth(1).unwrap().split(['.', '"', '<']).next().unwrap().to_owned();
    s.club.stranger().get(&format!("/calendar/{feed}.ics")).await;
    canary_words(&s).await;

    let all = sink.lines().join("\n");
    let heard = if format == LogFormat::Json { "\"number\":\"" } else { "request{number=" };
    assert!(all.contains(heard), "the log is heard");
    let (own, others) = (s.jo.cookie("hilum"), ines.cookie("hilum"));
    for kept_out in [PASSWORD, &own, &others, &secret, &feed, &s.token, "anary", "forged", "Ines"] {
        assert!(
            !all.contains(kept_out),
            "{kept_out}: {}",
            all.lines().find(|l| l.contains(kept_out)).unwrap()
        );
    }
}
