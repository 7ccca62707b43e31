use crate::support::{Browser, Club, Page};
use argon2::password_hash::{PasswordHasher, SaltString};
use argon2::{Algorithm, Argon2, Params, Version};
use axum::body::Body;
use axum::extract::ConnectInfo;
use axum::http::header::{CONTENT_TYPE, HOST, ORIGIN, RETRY_AFTER};
use axum::http::{Request, Response, StatusCode};
use hilum::args;
use hilum::db::FromRow;
use std::net::SocketAddr;
use std::time::Duration;

pub const PASSWORD: &str = "four words quite unrelated";
pub const SET_UP: [(&str, &str); 6] = [
    ("club", "Moorland Growers"),
    ("time_zone", "Europe/Berlin"),
    ("name", "Ines Brandt"),
    ("sign_in", "ines"),
    ("letters", "ib"),
    ("password", PASSWORD),
];

pub async fn set_up_path(club: &Club) -> String {
    let link = hilum::accounts::set_up_link(&club.app).await.unwrap().unwrap();
    link.strip_prefix("http://127.0.0.1:8420").unwrap().to_owned()
}

/// The first organiser, Ines, with a password.
pub async fn set_up(club: &Club) -> Browser {
    let path = set_up_path(club).await;
    let first = club.stranger();
    let page = first.get(&path).await;
    let home = first.submit(&page, "", &SET_UP).await;
    assert_eq!(home.path, "/");
    first
}

/// Signs in with this name and password, from a new browser.
pub async fn sign_in(club: &Club, name: &str, password: &str) -> (Browser, Page) {
    let browser = club.stranger();
    let page = browser.get("/sign-in").await;
    let answer = browser.submit(&page, "/sign-in", &[("sign_in", name), ("password", password)]).await;
    (browser, answer)
}

/// A hash of `password` by Argon2id with these parameters: KiB, passes, lanes.
pub fn hash_of(password: &str, (memory, passes, lanes): (u32, u32, u32)) -> String {
    let params = Params::new(memory, passes, lanes, None).unwrap();
    let salt = SaltString::encode_b64(&[7; 16]).unwrap();
    let hasher = Argon2::new(Algorithm::Argon2id, Version::V0x13, params);
    hasher.hash_password(password.as_bytes(), &salt).unwrap().to_string()
}

/// Gives the member this hash of a password.
pub async fn keep_hash(club: &Club, member: &Browser, hash: &str) {
    let mut conn = club.app.db.write().await.unwrap();
    let sql = "UPDATE members SET password_hash = $2 WHERE id = $1";
    conn.run(sql, args![member.id(), hash]).await.unwrap();
    conn.commit().await.unwrap();
}

#[track_caller]
pub fn does_not_work(page: &Page) {
    assert_eq!(page.status, StatusCode::NOT_FOUND, "{}", page.text());
    assert!(page.text().contains("This link does not work"), "{}", page.text());
}

#[tokio::test]
async fn the_set_up_link_makes_the_first_organiser_and_works_once() {
    let club = Club::new().await;
    let path = set_up_path(&club).await;
    let first = club.stranger();
    let page = first.get(&path).await;
    let mut fields = SET_UP;
    fields[5] = ("password", "short");
    let again = first.submit(&page, "", &fields).await;
    again.refuses("password", "At least 15 characters");
    assert!(again.body.contains("Moorland Growers"), "what was typed stays");
    fields[5] = ("password", "Moorland Growers 1");
    let again = first.submit(&again, "", &fields).await;
    again.refuses("password", "mostly a name");
    fields[5] = ("password", PASSWORD);
    fields[1] = ("time_zone", "Quedlinburg");
    let again = first.submit(&again, "", &fields).await;
    again.refuses("time_zone", "no such time zone");
    assert_eq!(first.submit(&again, "", &SET_UP).await.path, "/");
    first.get("/members").await.says("Ines Brandt").says("IB").says("organiser");
    does_not_work(&club.stranger().get(&path).await);
    assert!(hilum::accounts::set_up_link(&club.app).await.unwrap().is_none());
}

#[tokio::test]
async fn two_who_set_up_at_the_same_moment_make_one_organiser() {
    for _ in 0..3 {
        let club = Club::new().await;
        let (one, two) = (set_up_path(&club).await, set_up_path(&club).await);
        let (anna, ben) = (club.stranger(), club.stranger());
        let (a, b) = (anna.get(&one).await, ben.get(&two).await);
        let mut other = SET_UP;
        (other[3], other[4]) = (("sign_in", "ben"), ("letters", "bb"));
        let (a, b) = tokio::join!(anna.submit(&a, "", &SET_UP), ben.submit(&b, "", &other));
        let (won, lost, browser) = if a.path == "/" { (a, b, anna) } else { (b, a, ben) };
        assert_eq!(won.path, "/");
        does_not_work(&lost);
        assert_eq!(browser.get("/members").await.all(".list tbody tr").len(), 1);
    }
}

#[derive(FromRow)]
struct Kept {
    password_hash: String,
    version: i64,
}

async fn kept(club: &Club, member: &Browser) -> Kept {
    let sql = "SELECT password_hash, version FROM members WHERE id = $1";
    club.app.db.read().await.unwrap().one(sql, args![member.id()]).await.unwrap()
}

#[tokio::test]
async fn an_old_hash_is_made_anew_when_its_member_signs_in() {
    let club = Club::new().await;
    let ann = club.grower("Ann", "AN").await;
    let old = hash_of(PASSWORD, (8 * 1024, 1, 1));
    keep_hash(&club, &ann, &old).await;
    let before = kept(&club, &ann).await;
    sign_in(&club, "ann", "a wrong password").await.1.refuses("password", "do not go together");
    assert_eq!(sign_in(&club, "ann", PASSWORD).await.1.path, "/");
    let mut now = kept(&club, &ann).await;
    for _ in 0..100 {
        if now.password_hash != old {
            break;
        }
        tokio::time::sleep(Duration::from_millis(100)).await;
        now = kept(&club, &ann).await;
    }
    assert!(now.password_hash.starts_with("$argon2id$v=19$m=19456,t=2,p=1$"), "{}", now.password_hash);
    assert_eq!(now.version, before.version, "for others nothing changed");
    assert_eq!(sign_in(&club, "ann", PASSWORD).await.1.path, "/", "the password is what it was");
    sign_in(&club, "ann", "a wrong password").await.1.refuses("password", "do not go together");
    tokio::time::sleep(Duration::from_millis(500)).await;
    assert_eq!(kept(&club, &ann).await.password_hash, now.password_hash, "once is enough");
}

#[tokio::test]
async fn a_set_up_link_ends_after_a_week() {
    let club = Club::new().await;
    let path = set_up_path(&club).await;
    club.pass_days(7);
    does_not_work(&club.stranger().get(&path).await);
    does_not_work(&club.stranger().post(&path, &SET_UP).await);
}

#[tokio::test]
async fn signing_in_needs_the_right_password() {
    let club = Club::new().await;
    set_up(&club).await;
    let other = club.stranger();
    let page = other.get("/sign-in").await;
    for (name, word) in [("ines", "a wrong password altogether"), ("nobody", PASSWORD)] {
        let again = other.submit(&page, "/sign-in", &[("sign_in", name), ("password", word)]).await;
        again.refuses("password", "do not go together");
        assert!(again.body.contains(&format!(r#"value="{name}""#)), "the typed name stays");
        assert!(!again.body.contains(word), "the password does not come back");
    }
    let spaced = format!("{PASSWORD} ");
    for word in [spaced.as_str(), "Four words quite unrelated", ""] {
        sign_in(&club, "ines", word).await.1.refuses("password", "do not go together");
    }
    sign_in(&club, " ", PASSWORD).await.1.refuses("sign_in", "Please fill this in");
    assert_eq!(sign_in(&club, "INES", PASSWORD).await.1.path, "/");
}

#[tokio::test]
async fn after_signing_in_one_is_where_one_wanted_to_be() {
    let club = Club::new().await;
    set_up(&club).await;
    for (wanted, there) in
        [("/members", "/members"), ("//elsewhere.test/members", "/"), ("https://elsewhere.test", "/")]
    {
        let browser = club.stranger();
        let page = browser.get(&format!("/sign-in?next={wanted}")).await;
        page.says("Moorland Growers");
        let fields = [("sign_in", "ines"), ("password", PASSWORD)];
        assert_eq!(browser.submit(&page, "/sign-in", &fields).await.path, there, "{wanted}");
        let again = browser.get(&format!("/sign-in?next={wanted}")).await;
        again.says("You are signed in as Ines Brandt");
        assert!(again.all("input[type=password]").is_empty());
        assert!(again.body.contains(&format!(r#"href="{there}""#)), "{}", again.body);
    }
}

#[tokio::test]
async fn signing_in_or_out_ends_the_session_before() {
    let club = Club::new().await;
    set_up(&club).await;
    let (ines, _) = sign_in(&club, "ines", PASSWORD).await;
    let before = ines.cookie("hilum");
    ines.post("/sign-in", &[("sign_in", "ines"), ("password", PASSWORD)]).await;
    let after = ines.cookie("hilum");
    assert_ne!(before, after, "a new secret at each sign-in");
    assert_eq!(before.len(), 43, "256 bits in base64");
    assert_eq!(ines.with_cookie("hilum", &before).get("/me").await.path, "/sign-in?next=%2Fme");
    ines.get("/me").await.says("this is here");
    let page = ines.get("/me").await;
    assert_eq!(ines.submit(&page, "/sign-out", &[]).await.path, "/sign-in");
    assert_eq!(ines.with_cookie("hilum", &after).get("/me").await.path, "/sign-in?next=%2Fme");
}

pub async fn try_from(browser: &Browser, address: &str, name: &str, password: &str) -> Response<Body> {
    let pairs = [("sign_in", name), ("password", password)];
    let peer: SocketAddr = address.parse().unwrap();
    let request = Request::post("/sign-in")
        .header(HOST, "club.test")
        .header(ORIGIN, "http://club.test")
        .header(CONTENT_TYPE, "application/x-www-form-urlencoded")
        .extension(ConnectInfo(peer))
        .body(Body::from(serde_html_form::to_string(pairs).unwrap()))
        .unwrap();
    browser.raw(request).await
}

#[tokio::test]
async fn guessing_at_an_account_gets_slow_but_locks_nobody_out() {
    let club = Club::new().await;
    set_up(&club).await;
    for n in 0..10 {
        let answer =
            try_from(&club.stranger(), &format!("203.0.113.{n}:9"), "ines", "a wrong password").await;
        assert_eq!(answer.status(), StatusCode::UNPROCESSABLE_ENTITY, "try {n}");
    }
    let early = try_from(&club.stranger(), "198.51.100.1:9", "Ines", PASSWORD).await;
    assert_eq!(early.status(), StatusCode::TOO_MANY_REQUESTS, "from any address, with any password");
    assert_eq!(early.headers()[RETRY_AFTER], "5");
    let (_, page) = sign_in(&club, "ines", PASSWORD).await;
    assert_eq!(page.status, StatusCode::TOO_MANY_REQUESTS);
    assert!(page.text().contains("Too many tries in a row. Wait 5 seconds"), "{}", page.text());
    assert!(page.body.contains(r#"value="ines""#), "the typed name stays");
    club.app.clock.set(hilum::db::ids::At(club.app.now().0 + 5));
    assert_eq!(sign_in(&club, "ines", PASSWORD).await.1.path, "/", "the right password works then");
    sign_in(&club, "ines", "a wrong password").await.1.refuses("password", "do not go together");
}

#[tokio::test]
async fn guessing_from_one_address_gets_slow() {
    let club = Club::new().await;
    set_up(&club).await;
    let mut refused = 0;
    for n in 0..45 {
        let name = format!("somebody {n}");
        let answer = try_from(&club.stranger(), "203.0.113.9:9", &name, "a wrong password").await;
        refused += usize::from(answer.status() == StatusCode::TOO_MANY_REQUESTS);
    }
    assert_eq!(refused, 5);
    let other = try_from(&club.stranger(), "198.51.100.1:9", "ines", PASSWORD).await;
    assert_eq!(other.status(), StatusCode::SEE_OTHER, "other addresses are not held up");
}
