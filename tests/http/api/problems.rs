use super::{Answer, Sent, Shed, counted, send};
use axum::http::StatusCode;

async fn sends(s: &Shed, method: &str, path: &str, body: Option<&str>, headers: &[(&str, &str)]) -> Answer {
    let body = body.map(|b| b.as_bytes().to_vec());
    send(&s.club.stranger(), Sent { method, path, token: &s.token, body, headers }).await
}

#[tokio::test]
async fn every_fault_is_told_as_a_problem() {
    let s = Shed::new().await;
    let count = s.of_bag("/counts");
    for path in ["/api/v1/nothing", "/api/v1/bags/nothing", "/api/v1/", "/api/v2/bags", "/api/nothing"] {
        sends(&s, "GET", path, None, &[]).await.is_problem(404, "not-found");
    }
    let nobody = Sent { method: "GET", path: "/api/nothing", token: "", body: None, headers: &[] };
    send(&s.club.stranger(), nobody).await.is_problem(404, "not-found");
    for method in ["DELETE", "PUT", "PATCH"] {
        let wrong = sends(&s, method, &count, None, &[]).await;
        assert_eq!(wrong.is_problem(405, "wrong-method").header("allow"), "POST");
    }
    let wrong = sends(&s, "POST", "/api/v1/due", Some("{}"), &[]).await;
    assert_eq!(wrong.is_problem(405, "wrong-method").header("allow"), "GET,HEAD");
    sends(&s, "GET", &count, None, &[]).await.is_problem(405, "wrong-method");
    let page = [("accept", "text/html, image/*;q=0.5")];
    sends(&s, "GET", "/api/v1/due", None, &page).await.is_problem(406, "only-json");
    let browser = [("accept", "text/html,application/xml;q=0.9,*/*;q=0.8")];
    assert_eq!(sends(&s, "GET", "/api/v1/due", None, &browser).await.status, StatusCode::OK);
    let form = [("content-type", "application/x-www-form-urlencoded")];
    sends(&s, "POST", &count, Some("rooted=1"), &form).await.is_problem(415, "not-json");
    let large = format!("{{\"note\":\"{}\"}}", "x".repeat(70_000));
    sends(&s, "POST", &count, Some(&large), &[]).await.is_problem(413, "too-large");
    for broken in ["", "{", "{\"id\":", "null x", "\u{1}"] {
        sends(&s, "POST", &count, Some(broken), &[]).await.is_problem(400, "not-understood");
    }
    for other in ["[]", "null", "7", "\"count\""] {
        let refused = sends(&s, "POST", &count, Some(other), &[]).await;
        assert!(!refused.is_problem(422, "refused").json.to_string().contains("struct"), "{refused:?}");
    }
    assert_eq!(s.bag().await["rooted"], 4);
}

#[tokio::test]
async fn an_odd_address_reaches_no_other_form() {
    let s = Shed::new().await;
    let body = counted(1, 2).to_string();
    for id in [
        format!("{}%2Fcount%3F", s.bag),
        format!("..%2Fbags%2F{}", s.bag),
        format!("{}%23", s.bag),
        "%FF".into(),
    ] {
        let path = format!("/api/v1/bags/{id}/counts");
        sends(&s, "POST", &path, Some(&body), &[]).await.is_problem(404, "not-found");
    }
    assert_eq!(s.bag().await["rooted"], 4);
}

#[tokio::test]
async fn a_query_is_refused_where_it_asks_for_what_is_not_there() {
    let s = Shed::new().await;
    s.get("/api/v1/bags?limit=0").await.refuses("limit", "1 to 200");
    s.get("/api/v1/bags?limit=many").await.refuses("limit", "1 to 200");
    s.get("/api/v1/bags?after=%20").await.refuses("after", "cannot be made");
    s.get("/api/v1/bags?closed=yes").await.refuses("closed", "no such name");
    s.get("/api/v1/bags?open=perhaps").await.refuses("open", "`yes` or `no`");
    s.get("/api/v1/me?x=1").await.refuses("x", "no such name");
}

#[tokio::test]
async fn an_answer_is_not_kept_and_sets_no_cookie() {
    let s = Shed::new().await;
    for answer in [s.get("/api/v1/bags").await, s.post(&s.of_bag("/counts"), &counted(1, 1)).await] {
        assert!(answer.status.is_success());
        assert_eq!(answer.header("cache-control"), "no-store");
        assert!(answer.headers.get("set-cookie").is_none(), "{answer:?}");
    }
}
