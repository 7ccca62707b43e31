//! Saves as the phone's outbox sends them.

use crate::bags::Bench;
use crate::support::Browser;
use axum::body::Body;
use axum::http::header::{CONTENT_TYPE, HOST, ORIGIN, SET_COOKIE};
use axum::http::{HeaderMap, Request, StatusCode};
use hilum::app::App;
use hilum::config::Config;
use hilum::db::ids::At;
use hilum::trays::store::{self, NewTray};
use http_body_util::BodyExt;
use serde_json::{Value, json};
use std::sync::Arc;

struct Answer {
    status: StatusCode,
    headers: HeaderMap,
    body: String,
}

impl Answer {
    #[track_caller]
    fn json(&self) -> Value {
        serde_json::from_str(&self.body).unwrap_or_else(|_| panic!("{} {}", self.status, self.body))
    }

    #[track_caller]
    fn refuses(&self, field: &str, message: &str) {
        assert_eq!(self.status, StatusCode::UNPROCESSABLE_ENTITY, "{}", self.body);
        let first = &self.json()["errors"][0];
        assert_eq!(first["field"], field, "{first}");
        assert!(first["message"].as_str().unwrap().contains(message), "{first}");
    }
}

async fn send_with(
    by: &Browser,
    maker: &str,
    path: &str,
    fields: &[(&str, &str)],
    more: &[(&'static str, &str)],
) -> Answer {
    let mut request = Request::post(path)
        .header(HOST, "club.test")
        .header(ORIGIN, "http://club.test")
        .header(CONTENT_TYPE, "application/x-www-form-urlencoded")
        .header("hilum-outbox", maker);
    for (name, value) in more {
        request = request.header(*name, *value);
    }
    let body = serde_html_form::to_string(fields).unwrap();
    let response = by.raw(request.body(Body::from(body)).unwrap()).await;
    let (parts, body) = response.into_parts();
    let bytes = body.collect().await.unwrap().to_bytes();
    let body = String::from_utf8_lossy(&bytes).into_owned();
    Answer { status: parts.status, headers: parts.headers, body }
}

async fn send(by: &Browser, path: &str, fields: &[(&str, &str)]) -> Answer {
    send_with(by, &by.id().0, path, fields, &[]).await
}

fn key(n: u8) -> String {
    format!("{n:032x}")
}

#[tokio::test]
async fn an_entry_sent_again_and_again_counts_once() {
    let b = Bench::new().await;
    let (path, id) = (b.under("count"), key(1));
    let fields = [("key", id.as_str()), ("rooted", "10"), ("at", "2026-03-05T06:00:00Z"), ("at_by", "phone")];
    let first = send(&b.jo, &path, &fields).await;
    assert_eq!((first.status, &first.json()["saved"]), (StatusCode::OK, &json!(id)));
    assert_eq!(first.json()["to"], b.path());
    assert!(first.json()["said"].as_str().unwrap().contains("Counted 10 rooted"));
    assert!(first.headers.get(SET_COOKIE).is_none(), "nobody reads a message of what was sent unseen");
    // the bag is empty now, and its moment may be told otherwise: it is the same entry still
    for at in ["2026-03-05T06:00:00Z", "2026-03-05T06:00:09Z", "2030-01-01T00:00:00Z"] {
        let fields =
            [("key", id.as_str()), ("rooted", "10"), ("at", at), ("at_by", "phone"), ("seen", "then")];
        let again = send(&b.jo, &path, &fields).await;
        assert_eq!((again.status, &again.json()["saved"]), (StatusCode::OK, &json!(id)), "{}", again.body);
    }
    assert_eq!(b.sums().await.rooted, 10);
}

#[tokio::test]
async fn an_entry_counts_for_the_moment_it_was_made() {
    let b = Bench::new().await;
    let now = b.club.app.now();
    let made = now.plus_minutes(-118);
    let looked = async |n: u8, at: &str, by: &str| {
        let id = key(n);
        let fields = [("key", id.as_str()), ("rooted", "1"), ("at", at), ("at_by", by)];
        (send(&b.jo, &b.under("count"), &fields).await, b.sums().await.looked_at.map(At))
    };
    let utc = |at: At| at.local(chrono_tz::UTC).format("%Y-%m-%dT%H:%M:%SZ").to_string();
    assert_eq!(looked(1, &utc(made), "phone").await.1, Some(made));
    // a phone whose clock is fast is not refused, somebody who typed a later hour is
    assert_eq!(looked(2, &utc(now.plus_days(3)), "phone").await.1, Some(now));
    looked(3, "2026-03-09T10:00", "").await.0.refuses("at", "in the future");
    assert_eq!(b.sums().await.rooted, 2);
}

#[tokio::test]
async fn two_counts_made_without_signal_from_one_page_both_count() {
    let b = Bench::new().await;
    for n in 1..=2 {
        let saved = send(&b.jo, &b.under("count"), &[("key", &key(n)), ("rooted", "3")]).await;
        assert_eq!(saved.status, StatusCode::OK, "{}", saved.body);
    }
    assert_eq!(b.sums().await.rooted, 6);
}

#[tokio::test]
async fn what_is_refused_says_why_and_can_be_mended_under_its_id() {
    let b = Bench::new().await;
    let (path, id) = (b.under("count"), key(1));
    let over = send(&b.jo, &path, &[("key", &id), ("rooted", "11")]).await;
    over.refuses("there_were", "If the bag held 11 seeds from the start");
    let mended = send(&b.jo, &path, &[("key", &id), ("rooted", "9")]).await;
    assert_eq!(mended.status, StatusCode::OK, "{}", mended.body);
    let other = send(&b.jo, &path, &[("key", &id), ("rooted", "8")]).await;
    other.refuses("", "saved before with other values");
    let rooted = format!("rooted-{}", b.bag);
    let looks = [("key", "k".repeat(32)), ("bag", b.bag.0.clone()), (&rooted, "7".into())];
    let looks: Vec<(&str, &str)> = looks.iter().map(|(n, v)| (*n, v.as_str())).collect();
    send(&b.jo, "/looks", &looks).await.refuses(&rooted, "JB 1 a: That is 7 seeds, but 1 seed");
    send(&b.jo, &b.under("count"), &[("key", "short"), ("rooted", "1")]).await.refuses("", "without its key");
    send(&b.jo, "/bags/nothing/count", &[("key", &key(7))]).await.refuses("", "no such page");
    send(&b.jo, &b.under("plant"), &[("key", &key(8)), ("show", "yes")])
        .await
        .refuses("tray", "Choose a tray");
    assert_eq!(b.sums().await.rooted, 9);
}

#[tokio::test]
async fn nobody_sends_what_another_member_made() {
    let b = Bench::new().await;
    let kim = b.club.grower("Kim", "KL").await;
    let fields = [("key", key(1)), ("rooted", "3".into())];
    let fields: Vec<(&str, &str)> = fields.iter().map(|(n, v)| (*n, v.as_str())).collect();
    let out = send_with(&b.club.stranger(), &b.jo.id().0, &b.under("count"), &fields, &[]).await;
    assert_eq!((out.status, out.json()), (StatusCode::UNAUTHORIZED, json!({ "sign_in": true })));
    let other = send_with(&kim, &b.jo.id().0, &b.under("count"), &fields, &[]).await;
    assert_eq!((other.status, other.json()), (StatusCode::CONFLICT, json!({ "other_member": true })));
    // her own, for somebody else's bag: refused as for nothing
    send(&kim, &b.under("count"), &fields).await.refuses("", "no such page");
    assert_eq!(b.sums().await.rooted, 0);
    let foreign = [("sec-fetch-site", "cross-site")];
    let forged = send_with(&b.jo, &b.jo.id().0, &b.under("count"), &fields, &foreign).await;
    forged.refuses("", "did not come from this site");
    assert_eq!(send(&b.jo, &b.under("count"), &fields).await.status, StatusCode::OK);
}

#[tokio::test]
async fn the_message_of_a_save_waits_for_the_page_that_shows_it() {
    let b = Bench::new().await;
    let fields = [("key", key(1)), ("rooted", "3".into())];
    let fields: Vec<(&str, &str)> = fields.iter().map(|(n, v)| (*n, v.as_str())).collect();
    let go = [("hilum-outbox-go", "yes")];
    send_with(&b.jo, &b.jo.id().0, &b.under("count"), &fields, &go).await;
    // a page fetched to be kept on the phone neither shows nor uses up what was said
    let keep = Request::get(b.path()).header(HOST, "club.test").header("hilum-keep", "yes");
    let kept = b.jo.raw(keep.body(Body::empty()).unwrap()).await;
    let kept = String::from_utf8_lossy(&kept.into_body().collect().await.unwrap().to_bytes()).into_owned();
    assert!(!kept.contains("Counted 3 rooted") && !kept.contains("id=\"said\""));
    b.jo.get(&b.path()).await.says("Counted 3 rooted").says("Undo");
    b.jo.get(&b.path()).await.says_not("Undo");
}

#[tokio::test]
async fn a_phone_keeps_only_what_its_member_has_open() {
    let b = Bench::new().await;
    let kim = b.club.grower("Kim", "KL").await;
    let list: Value = serde_json::from_str(&b.jo.get("/offline.json").await.body).unwrap();
    assert_eq!(list["member"], b.jo.id().0);
    let pages = |list: &Value| -> Vec<(String, String)> {
        let text = |page: &Value, name: &str| page[name].as_str().unwrap().to_owned();
        list["pages"].as_array().unwrap().iter().map(|p| (text(p, "path"), text(p, "stamp"))).collect()
    };
    let before = pages(&list);
    let paths: Vec<&str> = before.iter().map(|(path, _)| path.as_str()).collect();
    assert!(paths.contains(&"/") && paths.contains(&b.path().as_str()), "{paths:?}");
    for path in &paths {
        b.jo.get(path).await.says("Test Club");
    }
    b.count("2", "").await;
    let after = pages(&serde_json::from_str(&b.jo.get("/offline.json").await.body).unwrap());
    for path in ["/", "/looks?all=yes", b.path().as_str()] {
        let kept = before.iter().find(|(p, _)| p == path);
        assert!(kept.is_some() && !after.contains(kept.unwrap()), "{path} shows the count now");
    }
    let other = kim.get("/offline.json").await.body;
    assert!(!other.contains(&b.bag.0), "{other}");
}

async fn worker(app: App) -> (HeaderMap, String) {
    let request = Request::get("/sw.js").body(Body::empty()).unwrap();
    let (parts, body) = Browser::new(app.router(), None, None).raw(request).await.into_parts();
    let text = String::from_utf8_lossy(&body.collect().await.unwrap().to_bytes()).into_owned();
    (parts.headers, text)
}

#[tokio::test]
async fn the_worker_is_never_old_and_the_host_can_end_it() {
    let b = Bench::new().await;
    let mut app = b.club.app.clone();
    let (headers, text) = worker(app.clone()).await;
    assert_eq!(headers["cache-control"], "no-cache");
    assert_eq!(headers["service-worker-allowed"], "/");
    let css = hilum::web::static_files::css();
    assert!(text.contains(css) && text.contains("'fetch'"));
    app.config = Arc::new(Config { no_offline: true, ..(*app.config).clone() });
    let (_, text) = worker(app).await;
    assert!(text.contains("unregister") && !text.contains("'fetch'"), "{text}");
}

/// Every form that the phone may keep, as its page draws it: saved once, however often it is sent.
#[tokio::test]
async fn each_form_that_is_kept_on_the_phone_saves_once() {
    let b = Bench::new().await;
    let new = NewTray { name: "Bench", rows: 2, cols: 3, place: "" };
    let mut conn = b.club.app.db.write().await.unwrap();
    let (tray, _) = store::make(&mut conn, b.jo.id(), &new, b.club.app.now()).await.unwrap();
    conn.commit().await.unwrap();
    let (rooted, tally) = (format!("rooted-{}", b.bag), format!("/trials/{}/tally", b.trial));
    let outcomes = format!("/trays/{tray}/outcomes");
    let forms: [Kept; 5] = [
        (&b.path(), &b.under("count"), &[("rooted", "3")]),
        ("/looks?all=yes", "/looks", &[(&rooted, "1")]),
        (&tally, &tally, &[("sank", "28"), ("floated", "2"), ("floaters", "kept in")]),
        (&b.under("plant"), &b.under("plant"), &[("seeds", "4"), ("per_cell", "1")]),
        (&b.under("close"), &b.under("close"), &[("ending", "final count"), ("fresh", "6")]),
    ];
    for (page, action, fields) in forms {
        saves_once(&b, page, action, fields).await;
    }
    let page = b.jo.get(&outcomes).await;
    let planting = page.body.split("name=\"planting\" value=\"").nth(1).unwrap().split('"').next().unwrap();
    saves_once(&b, &outcomes, &outcomes, &[("sort", "up"), ("planting", planting)]).await;
    saves_once(
        &b,
        &format!("/plantings/{planting}"),
        &format!("/plantings/{planting}/outcomes"),
        &[("potted", "1")],
    )
    .await;
    let s = b.sums().await;
    assert_eq!((s.rooted, s.fresh, s.on_paper), (4, 6, 0));
}

/// The page of a form, where it is sent to, and what is typed.
type Kept<'a> = (&'a str, &'a str, &'a [(&'a str, &'a str)]);

async fn saves_once(b: &Bench, page: &str, action: &str, fields: &[(&str, &str)]) {
    let drawn = b.jo.get(page).await;
    let kept = drawn.html();
    let marked = scraper::Selector::parse("form[data-outbox]").unwrap();
    assert!(
        kept.select(&marked).any(|f| f.value().attr("action") == Some(action)),
        "{action} is kept on the phone"
    );
    let pairs = drawn.form(action).filled(fields);
    let left_out = |name: &str| name == "csrf" || name.starts_with("seen");
    let pairs: Vec<(&str, &str)> =
        pairs.iter().filter(|(n, _)| !left_out(n)).map(|(n, v)| (n.as_str(), v.as_str())).collect();
    for time in ["first", "again"] {
        let sent = send(&b.jo, action, &pairs).await;
        assert_eq!(sent.status, StatusCode::OK, "{action}, {time}: {}", sent.body);
        assert!(sent.json()["to"].as_str().is_some_and(|to| to.starts_with('/')));
    }
}
