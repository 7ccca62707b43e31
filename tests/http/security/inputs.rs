//! Nothing that can be sent makes the server fail, and nothing is taken that was not asked for.

use super::walk::{Field, Sort};
use super::{club, data, walk};
use crate::support::{Browser, Page};
use axum::http::StatusCode;
use hilum::args;
use hilum::db::FromRow;
use hilum::upkeep::check;
use hilum::web::page;

#[track_caller]
fn no_fault(page: &Page, what: &str) {
    assert!(!page.status.is_server_error(), "{what}: {}", page.text());
}

#[tokio::test]
async fn no_value_of_a_field_is_a_fault_of_the_server() {
    let (s, lea) = club().await;
    let long = "x".repeat(64 * 1024);
    let odd = ["\0", "it's", long.as_str(), "-1", "99999999999999999999", "NaN", "\u{202e}\u{200f}", "1e308"];
    for who in [&s.jo, &lea] {
        for form in walk::forms(who).await {
            for value in odd {
                s.club.pass_minutes(1);
                let by = s.club.again(who).await;
                let every = |f: &Field| (f.name.clone(), value.to_owned());
                let all: Vec<_> = form.fields.iter().filter(|f| f.name != "csrf").map(every).collect();
                no_fault(&form.send(&by, &all).await, &format!("{} with {value:.20} in all", form.action));
                let typed = |f: &Field| match f.sort {
                    Sort::Text | Sort::Number => value.to_owned(),
                    _ => f.value.clone(),
                };
                let typed: Vec<_> = form.fields.iter().map(|f| (f.name.clone(), typed(f))).collect();
                no_fault(&form.send(&by, &typed).await, &format!("{} with {value:.20} typed", form.action));
            }
        }
    }
    assert_eq!(check::breaches(&s.club.app).await.unwrap(), Vec::<String>::new());
}

#[tokio::test]
async fn each_field_by_itself_takes_a_quote_and_a_sign_that_cannot_be_kept() {
    let (s, lea) = club().await;
    for who in [&s.jo, &lea] {
        for form in walk::forms(who).await {
            for (n, field) in form.fields.iter().enumerate().filter(|(_, f)| f.name != "csrf") {
                s.club.pass_minutes(1);
                let by = s.club.again(who).await;
                for value in ["' OR '1'='1", "\u{7}"] {
                    let mut pairs = form.filled("Plain", true);
                    pairs.retain(|(name, _)| *name != field.name);
                    pairs.insert(n.min(pairs.len()), (field.name.clone(), value.to_owned()));
                    no_fault(&form.send(&by, &pairs).await, &format!("{} of {}", field.name, form.action));
                }
            }
        }
    }
    let kept = data::texts(&s.club, "\u{7}").await;
    assert!(kept.is_empty(), "control characters were kept: {kept:?}");
    assert_eq!(check::breaches(&s.club.app).await.unwrap(), Vec::<String>::new());
}

#[tokio::test]
async fn no_address_is_a_fault_of_the_server() {
    let (s, lea) = club().await;
    let long = "x".repeat(5 * 1024);
    for who in [&s.jo, &lea] {
        for page in walk::pages(who).await {
            let path = page.path.split('?').next().unwrap_or_default();
            s.club.pass_minutes(1);
            let by = s.club.again(who).await;
            let last = path.rfind('/').map_or(path, |at| &path[..at]);
            for part in ["%00", "it%27s", "%FF", "%F0%9F%8C%B1", "..%2F..%2Fetc%2Fpasswd", &long] {
                let queries: Vec<String> =
                    ["q", "mark", "kind", "variety", "source", "sort", "page", "of", "at", "from", "packet"]
                        .iter()
                        .map(|name| format!("{name}={part}"))
                        .collect();
                for address in [format!("{last}/{part}"), format!("{path}?{}", queries.join("&"))] {
                    let answer = by.get(&address).await;
                    no_fault(&answer, &format!("{address:.60}"));
                    let text = answer.text();
                    let leaks = text.contains("eserialize") || text.contains("UTF-8 in `");
                    assert!(!leaks || !answer.status.is_client_error(), "{address:.60}: {text}");
                }
            }
        }
    }
}

#[derive(FromRow, PartialEq, Debug)]
struct Account {
    id: String,
    role: String,
    sign_in: String,
    password_hash: String,
}

async fn accounts(club: &crate::support::Club) -> Vec<Account> {
    let sql = "SELECT id, role, sign_in, password_hash FROM members ORDER BY id";
    club.app.db.read().await.unwrap().all(sql, args![]).await.unwrap()
}

#[tokio::test]
async fn fields_that_no_form_asks_for_change_nothing() {
    let (s, lea) = club().await;
    let before = accounts(&s.club).await;
    let of_lea = lea.id().0.as_str();
    for form in walk::forms(&s.jo).await.iter().filter(|f| f.posts) {
        s.club.pass_minutes(1);
        let mut pairs = form.filled("Plain", false);
        let named = |name: &str| form.fields.iter().any(|f| f.name == name);
        for (name, value) in [
            ("role", "organiser"),
            ("owner_id", of_lea),
            ("owner", of_lea),
            ("member_id", of_lea),
            ("by_member", of_lea),
            ("password_hash", "none"),
            ("balance", "100000"),
            ("left_at", "1"),
        ] {
            if !named(name) {
                pairs.push((name.to_owned(), value.to_owned()));
            }
        }
        no_fault(&form.send(&s.club.again(&s.jo).await, &pairs).await, &form.action);
    }
    assert_eq!(accounts(&s.club).await, before);
    let others = "SELECT owner_id AS id, '' AS role, '' AS sign_in, '' AS password_hash FROM packets
        WHERE owner_id = $1 UNION ALL SELECT by_member, '', '', '' FROM entries WHERE by_member = $1";
    let found: Vec<Account> = s.club.app.db.read().await.unwrap().all(others, args![lea.id()]).await.unwrap();
    assert_eq!(found, Vec::new(), "nothing was made in the name of another");
}

#[derive(FromRow)]
struct Balance {
    balance: i64,
}

async fn balance(by: &Browser, s: &crate::api::Shed, fields: &[(&str, &str)]) -> (Page, i64) {
    let path = format!("/packets/{}/seeds", s.packet);
    let answer = by.post(&path, fields).await;
    let sql = "SELECT balance FROM packets WHERE id = $1";
    let found: Balance = s.club.app.db.read().await.unwrap().one(sql, args![&s.packet]).await.unwrap();
    (answer, found.balance)
}

#[tokio::test]
async fn where_a_field_comes_twice_the_first_counts() {
    let (s, _) = club().await;
    let key = uuid::Uuid::new_v4().simple().to_string();
    let fields =
        [("key", key.as_str()), ("sort", "found"), ("seeds", "1"), ("seeds", "50"), ("sort", "recount")];
    let (answer, now) = balance(&s.jo, &s, &fields).await;
    assert_eq!((answer.status, now), (StatusCode::OK, 61), "{}", answer.text());
    let twice = s.jo.get("/find?mark=JB+1&mark=nothing").await;
    assert!(twice.path.starts_with("/packets/"), "{}", twice.path);
}

#[tokio::test]
async fn an_error_of_a_library_is_told_in_our_words() {
    let answer = page::in_our_words(axum::response::IntoResponse::into_response((
        StatusCode::BAD_REQUEST,
        "Failed to deserialize: invalid type `Thing`",
    )))
    .await;
    assert_eq!(answer.status(), StatusCode::BAD_REQUEST);
    let (s, _) = club().await;
    for (path, status) in
        [("/find?mark=%FF", 400), ("/bags/%FF", 404), ("/find?mark=%00", 404), ("/bags/%00", 404)]
    {
        let page = s.jo.get(path).await;
        assert!([400, 404, 200].contains(&page.status.as_u16()), "{path} is {} not {status}", page.status);
        assert!(page.body.contains("<html") && !page.text().contains("Failed to"), "{path}: {}", page.body);
    }
    let slow =
        page::in_our_words(axum::response::IntoResponse::into_response(StatusCode::SERVICE_UNAVAILABLE))
            .await;
    let body = http_body_util::BodyExt::collect(slow.into_body()).await.unwrap().to_bytes();
    assert!(String::from_utf8_lossy(&body).contains("That took too long"));
}
