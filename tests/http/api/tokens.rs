use super::{Sent, Shed, counted, save_id, send, token};
use crate::support::Club;
use axum::http::StatusCode;
use serde_json::json;

/// The token that a page shows.
fn shown(page: &crate::support::Page) -> String {
    page.all("#link").remove(0)
}

#[tokio::test]
async fn a_member_makes_a_token_that_is_shown_once_and_ends_it() {
    let s = Shed::new().await;
    s.jo.get("/me").await.link("Your tokens");
    let page = s.jo.get("/me/tokens").await;
    let fields = [("name", "Shed scale"), ("may", "record"), ("lasts", "90")];
    let made = s.jo.submit(&page, "/me/tokens", &fields).await;
    let secret = shown(made.says("Token for Shed scale").says("shown only now"));
    assert!(secret.starts_with("hilum_") && secret.len() > 40, "{secret}");
    let listed = s.jo.get("/me/tokens").await;
    listed.says("Shed scale").says("reads and records; made Fri 6 Mar, not used yet, ends Thu 4 Jun");
    assert!(!listed.body.contains(&secret));
    assert_eq!(s.get_with(&secret, "/api/v1/me").await.json["may_record"], json!(true));
    s.jo.get("/me/tokens").await.says("last used Fri 6 Mar");
    let html = listed.html();
    let forms = scraper::Selector::parse("form[action$='/end']").unwrap();
    let ends: Vec<String> =
        html.select(&forms).map(|f| f.value().attr("action").unwrap().to_owned()).collect();
    assert_eq!(ends.len(), 2);
    s.jo.submit(&listed, &ends[0], &[]).await.says("no longer works");
    s.get_with(&secret, "/api/v1/me").await.is_problem(401, "no-good-token");
    assert_eq!(s.get("/api/v1/me").await.status, StatusCode::OK, "the other token goes on");
}

#[tokio::test]
async fn only_a_hash_of_a_token_is_kept() {
    let s = Shed::new().await;
    #[derive(hilum::db::FromRow)]
    struct Row {
        secret_hash: String,
    }
    let sql = "SELECT secret_hash FROM tokens ORDER BY id";
    let rows: Vec<Row> = s.club.app.db.read().await.unwrap().all(sql, vec![]).await.unwrap();
    assert_eq!(rows.len(), 1);
    assert_eq!(rows[0].secret_hash, hilum::web::session::hash(&s.token));
}

#[tokio::test]
async fn a_token_needs_a_name_and_what_it_may() {
    let club = Club::new().await;
    let jo = club.grower("Jo", "JB").await;
    let page = jo.get("/me/tokens").await;
    jo.submit(&page, "/me/tokens", &[("name", " ")]).await.refuses("name", "fill this in");
    let bad = [("key", "k".repeat(32)), ("name", "x".into()), ("may", "all".into()), ("lasts", "30".into())];
    let bad: Vec<(&str, &str)> = bad.iter().map(|(n, v)| (*n, v.as_str())).collect();
    let refused = jo.post("/me/tokens", &bad).await;
    assert_eq!(refused.status, StatusCode::UNPROCESSABLE_ENTITY);
    for _ in 0..20 {
        token(&club, &jo, "read").await;
    }
    let page = jo.get("/me/tokens").await;
    jo.submit(&page, "/me/tokens", &[("name", "one more")]).await.refuses("name", "You have 20 tokens");
}

#[tokio::test]
async fn the_form_sent_twice_makes_one_token() {
    let s = Shed::new().await;
    let page = s.jo.get("/me/tokens").await;
    let fields = page.form("/me/tokens").filled(&[("name", "twice")]);
    let fields: Vec<(&str, &str)> = fields.iter().map(|(n, v)| (n.as_str(), v.as_str())).collect();
    s.jo.post("/me/tokens", &fields).await.says("Token for twice");
    let again = s.jo.post("/me/tokens", &fields).await;
    assert_eq!(again.path, "/me/tokens");
    assert_eq!(again.all(".lines li").iter().filter(|l| l.contains("twice")).count(), 1);
}

#[tokio::test]
async fn a_token_ends_by_itself() {
    let s = Shed::new().await;
    s.club.pass_days(29);
    assert_eq!(s.get("/api/v1/me").await.status, StatusCode::OK);
    s.club.pass_days(1);
    s.get("/api/v1/me").await.is_problem(401, "no-good-token");
}

#[tokio::test]
async fn tokens_end_with_the_membership_the_role_and_a_reset() {
    for how in ["leave", "role", "reset"] {
        let s = Shed::new().await;
        let lea = s.club.organiser("Lea", "LM").await;
        let member = format!("/members/{}", s.jo.id());
        let page = lea.get(&member).await;
        match how {
            "leave" => lea.submit(&page, &format!("{member}/leave"), &[("sure", "yes")]).await,
            "role" => lea.submit(&page, &format!("{member}/role"), &[("role", "organiser")]).await,
            _ => {
                let link = lea.submit(&page, &format!("{member}/reset"), &[]).await.all("#link").remove(0);
                let path = link.split_once("8420").unwrap().1.to_owned();
                let anew = s.club.stranger();
                let page = anew.get(&path).await;
                anew.submit(&page, "", &[("password", "four unrelated garden words")]).await
            }
        };
        s.get("/api/v1/me").await.is_problem(401, "no-good-token");
        s.post(&s.of_bag("/counts"), &counted(1, 1)).await.is_problem(401, "no-good-token");
    }
}

#[tokio::test]
async fn a_token_opens_nothing_but_the_api_and_a_cookie_does_not_open_it() {
    let s = Shed::new().await;
    for path in ["/", "/me", "/packets.csv", "/api"] {
        let sent = Sent { method: "GET", path, token: &s.token, body: None, headers: &[] };
        let answer = send(&s.club.stranger(), sent).await;
        assert_eq!(answer.status, StatusCode::SEE_OTHER, "{path}");
    }
    let sent = Sent { method: "GET", path: "/api/v1/me", token: "", body: None, headers: &[] };
    let answer = send(&s.jo, sent).await;
    assert_eq!(answer.is_problem(401, "no-good-token").header("www-authenticate"), "Bearer realm=\"hilum\"");
    let body = Some(counted(1, 1).to_string().into_bytes());
    let headers = [("origin", "http://club.test"), ("sec-fetch-site", "same-origin")];
    let path = s.of_bag("/counts");
    let sent = Sent { method: "POST", path: &path, token: "", body, headers: &headers };
    send(&s.jo, sent).await.is_problem(401, "no-good-token");
    assert_eq!(s.bag().await["rooted"], 4);
}

#[tokio::test]
async fn a_token_that_only_reads_does_not_record() {
    let s = Shed::new().await;
    let reads = token(&s.club, &s.jo, "read").await;
    assert_eq!(s.get_with(&reads, "/api/v1/bags").await.status, StatusCode::OK);
    let refused = s.post_with(&reads, &s.of_bag("/counts"), &counted(1, 1)).await;
    refused.is_problem(403, "read-only-token");
    let challenge = refused.header("www-authenticate");
    assert!(challenge.contains("insufficient_scope"), "{challenge}");
    assert_eq!(s.bag().await["rooted"], 4);
}

#[tokio::test]
async fn guessing_is_slowed_down_but_good_tokens_go_on() {
    let s = Shed::new().await;
    let mut refused = Vec::new();
    for n in 0..30 {
        refused.push(s.get_with(&format!("hilum_guess{n}"), "/api/v1/me").await);
    }
    let known = refused.iter().filter(|a| a.status == StatusCode::UNAUTHORIZED).count();
    assert_eq!(known, 10, "so many are answered at once");
    let slow = refused.last().unwrap().is_problem(429, "too-many");
    assert!((1..=60).contains(&slow.header("retry-after").parse::<u32>().unwrap()));
    assert_eq!(s.get("/api/v1/me").await.status, StatusCode::OK);
    assert_eq!(s.post(&s.of_bag("/counts"), &counted(1, 1)).await.status, StatusCode::CREATED);
    s.club.pass_minutes(60);
    s.get_with("hilum_guess", "/api/v1/me").await.is_problem(401, "no-good-token");
}

#[tokio::test]
async fn what_a_program_records_stands_in_the_members_name() {
    let s = Shed::new().await;
    let saved =
        s.post(&s.of_bag("/counts"), &json!({ "id": save_id(7), "rooted": 2, "note": "by scale" })).await;
    assert_eq!(saved.status, StatusCode::CREATED, "{saved:?}");
    s.jo.get(&format!("/bags/{}", s.bag)).await.says("Jo, look: 2 rooted").says("by scale");
}
