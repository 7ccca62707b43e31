//! A host who lets organisers in by a passkey alone (OWASP ASVS 5.0, 6.3.3). With a device: tests/browser/passkeys.rs.

use crate::accounts::{PASSWORD, hash_of, keep_hash, sign_in};
use crate::csrf::filled;
use crate::isolation::{TABLE, Who, visit};
use crate::support::{Browser, Club};
use axum::http::StatusCode;
use hilum::args;

async fn strict() -> Club {
    Club::with(|config| {
        config.base_url = Some("http://localhost:8420".to_owned());
        config.organisers_by_passkey = true;
    })
    .await
}

async fn run(club: &Club, sql: &'static str) {
    let mut conn = club.app.db.write().await.unwrap();
    conn.run(sql, args![]).await.unwrap();
    conn.commit().await.unwrap();
}

/// Gives everybody of this role a passkey of this name.
async fn add_passkeys(club: &Club, name: &str) {
    let mut conn = club.app.db.write().await.unwrap();
    let sql = "INSERT INTO passkeys (id, member_id, credential, name, document, made_at)
        SELECT CAST($1 AS TEXT), id, CAST($1 AS TEXT), CAST($1 AS TEXT), '{}', made_at FROM members
        WHERE role = 'organiser'";
    conn.run(sql, args![name]).await.unwrap();
    conn.commit().await.unwrap();
}

/// All that opens to them without one.
const ADDING: [&str; 3] = ["/me/passkeys", "/me/passkeys/ask", "/me/proof"];
const CAME_BY_PASSKEYS: &str = "UPDATE sessions SET by_passkey = TRUE";

async fn with_password(club: &Club, member: &Browser) {
    keep_hash(club, member, &hash_of(PASSWORD, (19 * 1024, 2, 1))).await;
}

#[tokio::test]
async fn an_organiser_with_a_password_alone_can_only_add_a_passkey() {
    let club = strict().await;
    let before = club.organiser("Lea", "LM").await;
    with_password(&club, &before).await;
    let (lea, page) = sign_in(&club, "lea", PASSWORD).await;
    assert_eq!(page.path, "/me/passkeys");
    page.says("Organisers of this club sign in with a passkey. Add yours here first");
    for (method, pattern, _) in TABLE.iter().filter(|line| ![Who::Anybody, Who::Link].contains(&line.2)) {
        for browser in [&lea, &before] {
            let answer = visit(browser, method, &filled(pattern)).await;
            let shut = answer == (StatusCode::SEE_OTHER, "/me/passkeys".to_owned());
            assert_eq!(shut, !ADDING.contains(pattern), "{method} {pattern}: {answer:?}");
        }
    }
    lea.get("/sign-in").await.says("Organisers of this club sign in with a passkey");
}

#[tokio::test]
async fn who_has_a_passkey_comes_in_by_nothing_else() {
    let club = strict().await;
    let lea = club.organiser("Lea", "LM").await;
    with_password(&club, &lea).await;
    add_passkeys(&club, "phone").await;
    sign_in(&club, "lea", PASSWORD).await.1.refuses("password", "Organisers sign in with a passkey here");
    sign_in(&club, "lea", "four other words entirely").await.1.refuses("password", "do not go together");
    // a session of before the host asked for it
    let page = lea.get("/me/passkeys").await;
    page.says("You came in with your password").says_not("What do you call it?").says_not("Remove");
    let token = hilum::web::session::csrf(&lea.cookie("hilum"));
    for path in ["/me/passkeys/ask", "/me/passkeys"] {
        let key = uuid::Uuid::new_v4().simple().to_string();
        let fields = [("csrf", token.as_str()), ("key", &key), ("name", "Mine"), ("answer", "{}")];
        let answer = lea.post(path, &fields).await;
        assert_eq!(answer.status, StatusCode::FORBIDDEN, "{path}: {}", answer.text());
        assert!(answer.text().contains("use yours"), "{path}: {}", answer.text());
    }
    let removed =
        lea.post("/me/passkeys/phone/remove", &[("csrf", &token), ("key", "0123456789abcdef")]).await;
    removed.says("You came in with your password");
    add_passkeys(&club, "tablet").await;
    run(&club, CAME_BY_PASSKEYS).await;
    lea.get("/members").await.says("Invite somebody");
    let page = lea.get("/me/passkeys").await;
    page.says_not("You came in with your password");
    let page = lea.submit(&page, "/me/passkeys/tablet/remove", &[]).await;
    page.says("Removed.");
    let last = lea.submit(&page, "/me/passkeys/phone/remove", &[]).await;
    assert_eq!(last.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(last.text().contains("This is your only passkey"), "{}", last.text());
    lea.get("/me/passkeys").await.says("phone");
}

#[tokio::test]
async fn growers_come_by_their_password_until_they_organise() {
    let club = strict().await;
    let jo = club.grower("Jo", "JB").await;
    with_password(&club, &jo).await;
    let (phone, page) = sign_in(&club, "jo", PASSWORD).await;
    assert_eq!(page.path, "/");
    run(&club, "UPDATE members SET role = 'organiser'").await;
    phone.get("/").await.says("Add yours here first");
    assert_eq!(sign_in(&club, "jo", PASSWORD).await.1.path, "/me/passkeys");
}

#[tokio::test]
async fn elsewhere_organisers_come_by_their_password() {
    let club = Club::new().await;
    let lea = club.organiser("Lea", "LM").await;
    with_password(&club, &lea).await;
    add_passkeys(&club, "phone").await;
    let (lea, page) = sign_in(&club, "lea", PASSWORD).await;
    assert_eq!(page.path, "/");
    let page = lea.get("/me/passkeys").await;
    lea.submit(&page, "/me/passkeys/phone/remove", &[]).await.says("Removed.");
}
