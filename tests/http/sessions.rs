use crate::accounts::{PASSWORD, does_not_work, set_up, sign_in};
use crate::support::{Browser, Club};
use axum::body::Body;
use axum::http::Request;
use axum::http::header::{CONTENT_TYPE, HOST, LOCATION, ORIGIN, USER_AGENT};

const OUT: &str = "/sign-in?next=%2Fme";

#[tokio::test]
async fn a_session_ends_after_thirty_days_without_use() {
    let club = Club::new().await;
    let jo = club.grower("Jo", "JB").await;
    club.pass_days(29);
    jo.get("/me").await.says("last used today 10:00").says("ends by itself Thu 30 Apr");
    club.pass_days(29);
    jo.get("/me").await.says("Jo");
    club.pass_days(30);
    assert_eq!(jo.get("/me").await.path, OUT);
}

#[tokio::test]
async fn a_session_ends_after_ninety_days_however_much_it_is_used() {
    let club = Club::new().await;
    let jo = club.grower("Jo", "JB").await;
    for _ in 0..8 {
        club.pass_days(11);
        jo.get("/").await.says("Due now");
    }
    club.pass_days(1);
    jo.get("/me").await.says("ends by itself Sun 31 May");
    club.pass_days(1);
    assert_eq!(jo.get("/me").await.path, OUT);
}

#[tokio::test]
async fn use_is_noted_at_most_once_an_hour() {
    let club = Club::new().await;
    let jo = club.grower("Jo", "JB").await;
    club.pass_minutes(59);
    jo.get("/me").await.says("last used today 09:00");
    club.pass_minutes(1);
    jo.get("/").await;
    club.pass_minutes(30);
    jo.get("/me").await.says("last used today 10:00");
}

/// Signs in as a browser that says this of itself.
async fn sign_in_as(club: &Club, agent: &str) -> Browser {
    let browser = club.stranger();
    let body = serde_html_form::to_string([("sign_in", "ines"), ("password", PASSWORD)]).unwrap();
    let request = Request::post("/sign-in")
        .header(HOST, "club.test")
        .header(ORIGIN, "http://club.test")
        .header(CONTENT_TYPE, "application/x-www-form-urlencoded")
        .header(USER_AGENT, agent)
        .body(Body::from(body))
        .unwrap();
    let response = browser.raw(request).await;
    assert_eq!(response.headers()[LOCATION], "/");
    browser
}

#[tokio::test]
async fn a_member_sees_where_they_are_signed_in_and_ends_one_place_or_all_others() {
    let club = Club::new().await;
    let ines = set_up(&club).await;
    let phone = "Mozilla/5.0 (Android 15; Mobile; rv:140.0) Gecko/140.0 Firefox/140.0";
    let phone = sign_in_as(&club, phone).await;
    let third = sign_in_as(&club, "").await;
    club.grower("Kim", "KL").await;
    club.pass_days(2);
    let me = ines.get("/me").await;
    me.says("Firefox on Android").says("A browser: this is here").says("last used Mon 2 Mar 09:00");
    assert!(!me.body.contains("Gecko"), "only words are kept");
    let button = me.all(r#"[aria-label^="Sign out there: Firefox on Android"]"#);
    assert_eq!(button.len(), 1);
    let action = me.html().select(&scraper::Selector::parse("form").unwrap()).find_map(|form| {
        let button = scraper::Selector::parse(r#"[aria-label*="Firefox on Android"]"#).unwrap();
        form.select(&button).next()?;
        form.value().attr("action").map(str::to_owned)
    });
    let action = action.expect("a form that ends it");
    ines.submit(&me, &action, &[]).await.says("Signed out there");
    assert_eq!(phone.get("/me").await.path, OUT);
    third.get("/me").await.says("Ines Brandt");
    let me = ines.get("/me").await;
    ines.submit(&me, "/me/sessions", &[]).await.says("Signed out in 1 other place.");
    ines.submit(&me, "/me/sessions", &[]).await.says("this is here");
    assert_eq!(third.get("/me").await.path, OUT);
    assert!(ines.get("/me").await.all(r#"form[action="/me/sessions"]"#).is_empty());
}

#[tokio::test]
async fn a_session_of_somebody_else_cannot_be_ended() {
    let club = Club::new().await;
    let jo = club.grower("Jo", "JB").await;
    let kim = club.grower("Kim", "KL").await;
    let again = club.again(&kim).await;
    let action = kim.get("/me").await.all("form").len();
    assert!(action > 0);
    let me = kim.get("/me").await;
    let path = me
        .html()
        .select(&scraper::Selector::parse(r#"form[action^="/me/sessions/"]"#).unwrap())
        .find_map(|form| form.value().attr("action").map(str::to_owned))
        .unwrap();
    let answer = jo.post(&path, &[("key", "0123456789abcdef0123456789abcdef")]).await;
    assert_eq!(answer.status, axum::http::StatusCode::NOT_FOUND);
    again.get("/me").await.says("Kim");
}

#[tokio::test]
async fn an_organiser_ends_every_session_of_a_member() {
    let club = Club::new().await;
    let lea = club.organiser("Lea", "LM").await;
    let jo = club.grower("Jo", "JB").await;
    let phone = club.again(&jo).await;
    let list = lea.get("/members").await;
    let page = lea.get(&list.link("Jo")).await;
    let action = format!("{}/sessions", page.path);
    lea.submit(&page, &action, &[]).await.says("Jo is signed out in 2 places.");
    for browser in [&jo, &phone] {
        assert_eq!(browser.get("/me").await.path, OUT);
    }
    lea.get("/me").await.says("Lea");
}

#[tokio::test]
async fn what_organisers_do_about_members_needs_a_proof_of_the_same_day() {
    let club = Club::new().await;
    let ines = set_up(&club).await;
    let jo = club.grower("Jo", "JB").await;
    club.pass_minutes(12 * 60 - 1);
    let list = ines.get("/members").await;
    ines.submit(&list, "/members/invite", &[]).await.says("It is shown only now");
    club.pass_minutes(1);
    let page = ines.get(&ines.get("/members").await.link("Jo")).await;
    page.says("needs a fresh proof that it is you");
    for (action, fields) in [
        ("reset", &[][..]),
        ("sessions", &[]),
        ("role", &[("role", "organiser")]),
        ("leave", &[("sure", "yes")]),
    ] {
        let answer = ines.submit(&page, &format!("{}/{action}", page.path), fields).await;
        answer.says("Nothing was done yet: prove first that it is you.");
    }
    let answer = ines.submit(&ines.get("/members").await, "/members/invite", &[]).await;
    answer.says("Nothing was done yet");
    jo.get("/me").await.says("Jo");

    let before = ines.cookie("hilum");
    let proof = ines.get(&page.link("Prove it with your password")).await;
    ines.submit(&proof, "/me/proof", &[("current", "a wrong one")])
        .await
        .refuses("current", "not your password");
    assert_eq!(before, ines.cookie("hilum"));
    let back = ines.submit(&proof, "/me/proof", &[("current", PASSWORD)]).await;
    assert_eq!(back.path, page.path, "back to where one was");
    back.says_not("needs a fresh proof");
    assert_ne!(before, ines.cookie("hilum"), "a new secret after a new proof");
    assert_eq!(ines.with_cookie("hilum", &before).get("/me").await.path, OUT, "the old one is dead");
    ines.submit(&back, &format!("{}/role", page.path), &[("role", "organiser")])
        .await
        .says("Jo is an organiser now");
}

#[tokio::test]
async fn a_proof_leads_to_no_other_site() {
    let club = Club::new().await;
    let ines = set_up(&club).await;
    for next in ["//elsewhere.test", "https://elsewhere.test", ""] {
        let page = ines.get(&format!("/me/proof?next={next}")).await;
        assert_eq!(ines.submit(&page, "/me/proof", &[("current", PASSWORD)]).await.path, "/me");
    }
    let (stranger, _) = sign_in(&club, "nobody", PASSWORD).await;
    assert_eq!(stranger.get("/me/proof").await.path, "/sign-in?next=%2Fme%2Fproof");
}

/// The status and what it printed.
fn command(club: &Club, words: &[&str]) -> (Option<i32>, String) {
    let clock = tempfile::NamedTempFile::new().unwrap();
    std::fs::write(&clock, club.app.now().0.to_string()).unwrap();
    let mut command = std::process::Command::new(env!("CARGO_BIN_EXE_hilum"));
    command.args(words).env("HILUM_DATABASE_URL", club.app.config.database());
    command.env("HILUM_CLOCK_FILE", clock.path());
    let out = command.output().unwrap();
    (out.status.code(), String::from_utf8(out.stdout).unwrap())
}

#[tokio::test]
async fn an_only_organiser_who_forgot_the_password_comes_in_by_the_hosts_link() {
    let club = Club::new().await;
    set_up(&club).await;
    let made = || command(&club, &["reset-link", "--letters", "ib"]);
    let link = |(status, text): (Option<i32>, String)| {
        assert_eq!(status, Some(0), "{text}");
        assert!(text.contains("Ines Brandt"), "{text}");
        text.split_whitespace().find_map(|w| w.strip_prefix("http://127.0.0.1:8420")).unwrap().to_owned()
    };
    let (first, second) = (link(made()), link(made()));
    does_not_work(&club.stranger().get(&first).await);
    let ines = club.stranger();
    let page = ines.get(&second).await;
    let home = ines.submit(&page, "", &[("password", "twelve loud cranes resting")]).await;
    assert_eq!(home.path, "/");
    does_not_work(&club.stranger().get(&second).await);
    ines.get("/members/record").await.says("made a reset link").says("the host");
    assert_ne!(command(&club, &["reset-link", "--letters", "ZZ"]).0, Some(0), "nobody has these letters");
}

#[tokio::test]
async fn the_host_ends_sessions_at_the_command_line() {
    let club = Club::new().await;
    let (jo, kim) = (club.grower("Jo", "JB").await, club.grower("Kim", "KL").await);
    let run = |words: &[&str]| command(&club, words);
    assert_eq!(run(&["sign-out", "--letters", "jb"]), (Some(0), "Ended sessions: 1.\n".to_owned()));
    assert_eq!(jo.get("/me").await.path, OUT);
    kim.get("/me").await.says("Kim");
    assert_eq!(run(&["sign-out", "--all"]), (Some(0), "Ended sessions: 1.\n".to_owned()));
    assert_eq!(kim.get("/me").await.path, OUT);
    assert_eq!(run(&["sign-out"]).0, Some(2), "whose?");
    assert_ne!(run(&["sign-out", "--letters", "ZZ"]).0, Some(0), "nobody has these letters");
    let lea = club.organiser("Lea", "LM").await;
    lea.get("/members/record").await.says("ended every session").says("the host").says("of everybody");
}

#[tokio::test]
async fn who_was_signed_out_while_typing_comes_back_to_the_form() {
    let club = Club::new().await;
    set_up(&club).await;
    let send = async |referer: Option<&str>| {
        let request = Request::post("/me")
            .header(HOST, "club.test")
            .header(ORIGIN, "http://club.test")
            .header(CONTENT_TYPE, "application/x-www-form-urlencoded");
        let request = referer.into_iter().fold(request, |request, page| request.header("referer", page));
        let sent = club.stranger().raw(request.body(Body::from("name=Jo")).unwrap()).await;
        sent.headers()[LOCATION].to_str().unwrap().to_owned()
    };
    let way = send(Some("http://club.test/packets?sort=mark")).await;
    assert_eq!(way, "/sign-in?next=%2Fpackets%3Fsort%3Dmark&said=out");
    for foreign in [
        "http://evil.test/packets",
        "http://club.test.evil.test/",
        "http://club.test@evil.test/x",
        "club.test/x",
        "",
    ] {
        assert_eq!(send(Some(foreign)).await, "/sign-in?said=out", "{foreign}");
    }
    assert_eq!(send(None).await, "/sign-in?said=out");
    let browser = club.stranger();
    let page = browser.get(&way).await;
    page.says("You were signed out, and nothing was saved.").says("still on this device");
    let fields = [("sign_in", "ines"), ("password", "wrong")];
    let again = browser.submit(&page, "/sign-in", &fields).await;
    assert!(again.text().contains("You were signed out"), "{}", again.text());
    let fields = [("sign_in", "ines"), ("password", PASSWORD)];
    assert_eq!(browser.submit(&again, "/sign-in", &fields).await.path, "/packets?sort=mark");
    // an address of another host that looks like a path of ours
    let other = club.stranger();
    let page = other.get(&send(Some("http://club.test//evil.test/x")).await).await;
    assert_eq!(other.submit(&page, "/sign-in", &fields).await.path, "/");
}
