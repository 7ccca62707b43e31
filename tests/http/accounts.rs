use crate::support::Club;
use axum::http::StatusCode;

#[tokio::test]
async fn a_stranger_is_sent_to_sign_in_and_comes_back() {
    let club = Club::new().await;
    let page = club.stranger().get("/sign-in?next=/packets").await;
    page.says("Test Club");
    assert!(page.body.contains(r#"name="next" value="/packets""#));
}

#[tokio::test]
async fn the_set_up_link_makes_the_first_organiser_and_works_once() {
    let club = Club::new().await;
    let link = hilum::accounts::set_up_link(&club.app).await.unwrap().unwrap();
    let path = link.strip_prefix("http://127.0.0.1:8420").unwrap().to_owned();
    let first = club.stranger();
    let page = first.get(&path).await;
    let fields = [
        ("club", "Moorland Growers"),
        ("time_zone", "Europe/Berlin"),
        ("name", "Ines Brandt"),
        ("sign_in", "ines"),
        ("letters", "ib"),
        ("password", "short"),
    ];
    let again = first.submit(&page, "", &fields).await;
    again.refuses("password", "At least 15 characters");
    assert!(again.body.contains("Moorland Growers"), "what was typed stays");
    let mut good = fields;
    good[5] = ("password", "four words quite unrelated");
    first.submit(&again, "", &good).await;
    assert_eq!(club.stranger().get(&path).await.status, StatusCode::NOT_FOUND);
    assert!(hilum::accounts::set_up_link(&club.app).await.unwrap().is_none());
}

#[tokio::test]
async fn signing_in_needs_the_right_password() {
    let club = Club::new().await;
    let link = hilum::accounts::set_up_link(&club.app).await.unwrap().unwrap();
    let path = link.strip_prefix("http://127.0.0.1:8420").unwrap().to_owned();
    let first = club.stranger();
    let page = first.get(&path).await;
    let password = "four words quite unrelated";
    let fields = [
        ("club", "Moorland Growers"),
        ("time_zone", "Europe/Berlin"),
        ("name", "Ines"),
        ("sign_in", "Ines"),
        ("letters", "IB"),
        ("password", password),
    ];
    first.submit(&page, "", &fields).await;
    let other = club.stranger();
    let page = other.get("/sign-in").await;
    for (name, word) in [("ines", "a wrong password altogether"), ("nobody", password)] {
        other
            .submit(&page, "/sign-in", &[("sign_in", name), ("password", word)])
            .await
            .refuses("password", "do not go together");
    }
    let home = other.submit(&page, "/sign-in", &[("sign_in", "INES"), ("password", password)]).await;
    assert_eq!(home.path, "/");
}
