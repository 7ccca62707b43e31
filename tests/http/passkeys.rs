//! Passkeys without a device: what is asked, and what is refused. Signing in with one: tests/browser/passkeys.rs.

use crate::accounts::{PASSWORD, set_up, sign_in};
use crate::support::{Browser, Club, Page};
use axum::body::Body;
use axum::http::header::{CONTENT_TYPE, HOST, ORIGIN, SET_COOKIE};
use axum::http::{Request, StatusCode};
use hilum::args;
use hilum::db::FromRow;
use http_body_util::BodyExt;
use serde_json::Value;

const BASE: &str = "https://hilum.test";

#[derive(FromRow)]
struct Counted {
    n: i64,
}

async fn number(club: &Club, sql: &'static str) -> i64 {
    club.app.db.read().await.unwrap().one::<Counted>(sql, vec![]).await.unwrap().n
}

/// What a browser is asked to sign, and the cookies that came with it.
async fn ask(browser: &Browser, path: &str) -> (StatusCode, Value, Vec<String>) {
    let request = Request::post(path)
        .header(HOST, "club.test")
        .header(ORIGIN, "http://club.test")
        .header(CONTENT_TYPE, "application/x-www-form-urlencoded")
        .body(Body::empty())
        .unwrap();
    let response = browser.raw(request).await;
    let cookies =
        response.headers().get_all(SET_COOKIE).iter().map(|v| v.to_str().unwrap().to_owned()).collect();
    let status = response.status();
    let body = response.into_body().collect().await.unwrap().to_bytes();
    (status, serde_json::from_slice(&body).unwrap_or_default(), cookies)
}

#[tokio::test]
async fn a_device_is_asked_for_a_key_that_says_whose_it_is_and_sees_its_owner() {
    let club = Club::at(Some(BASE)).await;
    let jo = club.stranger();
    let (status, asked, cookies) = ask(&jo, "/sign-in/passkey/ask").await;
    assert_eq!(status, StatusCode::OK);
    let options = &asked["publicKey"];
    assert_eq!((&options["rpId"], &options["userVerification"]), (&"hilum.test".into(), &"required".into()));
    assert!(options["challenge"].as_str().unwrap().len() >= 22, "at least 128 bits");
    assert!(options["allowCredentials"].as_array().is_none_or(Vec::is_empty), "nobody learns who has a key");
    assert!(
        cookies[0].starts_with("__Host-hilum-asked=") && cookies[0].contains("Max-Age=300"),
        "{cookies:?}"
    );

    let lea = club.organiser("Lea", "LM").await;
    let lea = Browser::with_cookie(&lea, "__Host-hilum", &lea.cookie("hilum"));
    let (_, asked, _) = ask(&lea, "/me/passkeys/ask").await;
    let selection = &asked["publicKey"]["authenticatorSelection"];
    assert_eq!(
        (&selection["residentKey"], &selection["requireResidentKey"]),
        (&"required".into(), &true.into())
    );
    assert_eq!(selection["userVerification"], "required");
    club.pass_minutes(15);
    let (_, asked, _) = ask(&lea, "/me/passkeys/ask").await;
    assert_eq!(asked["go"], "/me/proof?next=%2Fme%2Fpasskeys", "a proof of a while ago does not do");
}

#[tokio::test]
async fn what_was_asked_is_kept_for_five_minutes_and_not_without_end() {
    let club = Club::at(Some(BASE)).await;
    let mut refused = 0;
    for _ in 0..14 {
        let (status, ..) = ask(&club.stranger(), "/sign-in/passkey/ask").await;
        refused += usize::from(status == StatusCode::TOO_MANY_REQUESTS);
    }
    assert_eq!(refused, 4);
    assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM passkey_asks").await, 10);
    club.pass_minutes(5);
    ask(&club.stranger(), "/sign-in/passkey/ask").await;
    assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM passkey_asks").await, 1, "the old ones are gone");
}

#[tokio::test]
async fn no_answer_of_ones_own_making_lets_anybody_in() {
    let club = Club::at(Some(BASE)).await;
    let jo = club.stranger();
    ask(&jo, "/sign-in/passkey/ask").await;
    let part = r#"{"authenticatorData":"","clientDataJSON":"","signature":"","userHandle":"AAAAAAAAAAAAAAAAAAAAAA"}"#;
    let shaped = format!(r#"{{"id":"AA","rawId":"AA","type":"public-key","response":{part}}}"#);
    for answer in ["", "{}", "null", "[1]", "not json", &shaped, &"x".repeat(100_000)] {
        let page: Page = jo.post("/sign-in/passkey", &[("answer", answer)]).await;
        page.refuses("sign_in", "The passkey did not fit");
    }
    let lea = club.organiser("Lea", "LM").await;
    let lea = Browser::with_cookie(&lea, "__Host-hilum", &lea.cookie("hilum"));
    for answer in ["", "{}", &shaped] {
        let page = lea.get("/me/passkeys").await;
        lea.submit(&page, "/me/passkeys", &[("name", "Phone"), ("answer", answer)])
            .await
            .refuses("name", "did not fit");
    }
    assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM passkeys").await, 0);
}

#[tokio::test]
async fn a_reset_link_ends_passkeys_and_a_password_of_ones_own_does_not() {
    let club = Club::new().await;
    let ines = set_up(&club).await;
    let mut conn = club.app.db.write().await.unwrap();
    let sql = "INSERT INTO passkeys (id, member_id, credential, name, document, made_at)
        SELECT 'one', id, 'x', 'Phone', '{}', $1 FROM members WHERE sign_in = 'ines'";
    conn.run(sql, args![club.app.now()]).await.unwrap();
    conn.commit().await.unwrap();
    let change = [("current", PASSWORD), ("password", "eleven quiet herons walking")];
    ines.submit(&ines.get("/me").await, "/me/password", &change).await.says("The new password holds");
    ines.get("/me/passkeys")
        .await
        .says("Phone")
        .says("browsers offer passkeys only at an address with https");
    let page = ines.get(&ines.get("/members").await.link("Ines Brandt")).await;
    let made = ines.submit(&page, &format!("{}/reset", page.path), &[]).await;
    let link = made.all("#link").remove(0).strip_prefix("http://127.0.0.1:8420").unwrap().to_owned();
    let phone = club.stranger();
    let page = phone.get(&link).await;
    page.says("passkeys of before no longer work");
    assert_eq!(phone.submit(&page, "", &[("password", "twelve loud cranes resting")]).await.path, "/");
    assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM passkeys").await, 0);
    sign_in(&club, "ines", PASSWORD).await.1.refuses("password", "do not go together");
}
