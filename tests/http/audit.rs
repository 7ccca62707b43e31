use crate::accounts::{PASSWORD, set_up, sign_in};
use crate::support::{Browser, Club, Page};
use hilum::audit::{self, Wanted, What};
use hilum::db::Conn;
use std::time::Duration;

async fn acts(club: &Club) -> Vec<String> {
    let mut conn = club.app.db.read().await.unwrap();
    let rows = audit::page(&mut conn, &Wanted::default(), 1000, 0).await.unwrap();
    rows.iter()
        .rev()
        .map(|row| format!("{} {} {}: {}", row.by_name, row.words(), row.about_name, row.more))
        .collect()
}

/// Waits for what is recorded beside the answer.
async fn until(club: &Club, text: &str, times: usize) {
    for _ in 0..200 {
        if acts(club).await.iter().filter(|act| act.contains(text)).count() == times {
            return;
        }
        tokio::time::sleep(Duration::from_millis(20)).await;
    }
    panic!("'{text}' is not recorded {times} times: {:#?}", acts(club).await);
}

async fn lines(organiser: &Browser, query: &str) -> Vec<String> {
    let page = organiser.get(&format!("/members/record{query}")).await;
    page.says("Who did what");
    page.all(".list tbody tr")
}

#[track_caller]
fn link(page: &Page) -> String {
    page.all("#link").remove(0).strip_prefix("http://127.0.0.1:8420").unwrap().to_owned()
}

#[tokio::test]
async fn each_act_is_recorded_with_who_and_about_whom() {
    let club = Club::new().await;
    let ines = set_up(&club).await;
    let invited = ines.submit(&ines.get("/members").await, "/members/invite", &[]).await;
    let jo = club.stranger();
    let page = jo.get(&link(&invited)).await;
    let fields = [("name", "Jo Bell"), ("sign_in", "jo"), ("letters", "JB"), ("password", PASSWORD)];
    jo.submit(&page, "", &fields).await;
    let tokens = jo.get("/me/tokens").await;
    jo.submit(&tokens, "/me/tokens", &[("name", "scale in the shed"), ("may", "read")]).await;
    let end = jo.get("/me/tokens").await;
    let end = end
        .html()
        .select(&scraper::Selector::parse("form[action$='/end']").unwrap())
        .next()
        .unwrap()
        .value()
        .attr("action")
        .unwrap()
        .to_owned();
    jo.submit(&jo.get("/me/tokens").await, &end, &[]).await;
    jo.submit(&jo.get("/me").await, "/me/calendar", &[]).await;
    jo.submit(&jo.get("/me").await, "/me/calendar/end", &[]).await;
    jo.submit(&jo.get("/me").await, "/me", &[("name", "Jo Bell")]).await;
    jo.submit(&jo.get("/me").await, "/me/letters", &[("letters", "JC")]).await;
    let change = [("current", PASSWORD), ("password", "eleven quiet herons walking")];
    jo.submit(&jo.get("/me").await, "/me/password", &change).await;
    let page = ines.get(&ines.get("/members").await.link("Jo Bell")).await;
    for (act, fields) in [
        ("reset", &[][..]),
        ("sessions", &[]),
        ("role", &[("role", "organiser")]),
        ("leave", &[("sure", "yes")]),
    ] {
        ines.submit(&page, &format!("{}/{act}", page.path), fields).await;
    }
    let expected = [
        "Ines Brandt set the club up : organiser",
        "Ines Brandt signed in : invitation",
        "Ines Brandt made an invitation : grower",
        "Jo Bell joined by an invitation : grower",
        "Jo Bell signed in : invitation",
        "Jo Bell made a token for a program : read",
        "Jo Bell ended a token : ",
        "Jo Bell made a calendar address : ",
        "Jo Bell ended the calendar address : ",
        "Jo Bell changed own settings : ",
        "Jo Bell took new letters : ",
        "Jo Bell changed the password : ",
        "Ines Brandt made a reset link Jo Bell: ",
        "Ines Brandt ended every session Jo Bell: ",
        "Ines Brandt changed the role Jo Bell: organiser",
        "Ines Brandt ended the membership Jo Bell: ",
    ];
    assert_eq!(acts(&club).await, expected);
}

#[tokio::test]
async fn failed_sign_ins_are_counted_without_what_was_typed() {
    let club = Club::new().await;
    let ines = set_up(&club).await;
    for _ in 0..3 {
        sign_in(&club, "ines", "my other password").await;
    }
    sign_in(&club, "my password typed as a name", "x").await;
    until(&club, "a sign-in failed Ines Brandt", 3).await;
    let page = ines.get("/members/record").await;
    page.says("1 sign-in, and 3 that failed")
        .says("3 sign-ins failed within 1 min (password)")
        .says("somebody who is not known")
        .says_not("my other")
        .says_not("typed as");
    assert_eq!(lines(&ines, "?what=sign-in+failed").await.len(), 1);
    let mut conn = club.app.db.write().await.unwrap();
    audit::note(&mut conn, audit::Deed::host(What::SessionsEnded), club.app.now()).await.unwrap();
    conn.commit().await.unwrap();
    let ended = lines(&ines, "?what=sessions+ended").await;
    assert!(ended.len() == 1 && ended[0].contains("the host, by a command"), "{ended:?}");
    club.pass_minutes(7);
    sign_in(&club, "ines", "my other password").await;
    until(&club, "a sign-in failed Ines Brandt", 4).await;
    assert_eq!(lines(&ines, "?what=sign-in+failed").await.len(), 1, "in a row among those asked for");
    ines.get("/members/record").await.says("a sign-in failed (password)");
    club.pass_days(31);
    let (ines, _) = sign_in(&club, "ines", PASSWORD).await;
    ines.get("/members/record").await.says("1 sign-in, and 0 that failed");
}

#[tokio::test]
async fn the_record_is_shown_by_member_and_by_sort_of_act() {
    let club = Club::new().await;
    let ines = set_up(&club).await;
    let lea = club.organiser("Lea", "LM").await;
    lea.submit(&lea.get("/members").await, "/members/invite", &[]).await;
    let page = ines.get(&ines.get("/members").await.link("Lea")).await;
    ines.submit(&page, &format!("{}/reset", page.path), &[]).await;
    assert_eq!(lines(&ines, "").await.len(), 4);
    let of_lea = lines(&ines, &format!("?member={}", lea.id())).await;
    assert_eq!(of_lea.len(), 2, "by her and about her: {of_lea:?}");
    let resets = lines(&ines, "?what=reset+made").await;
    assert!(
        resets.len() == 1 && resets[0].contains("Ines Brandt") && resets[0].contains("Lea"),
        "{resets:?}"
    );
    assert_eq!(lines(&ines, &format!("?what=invited&member={}", lea.id())).await.len(), 1);
    assert!(lines(&ines, "?what=%27+OR+1%3D1").await.is_empty());
    for odd in ["?page=0", "?page=-3", "?page=x", "?page=99999999999999999999"] {
        lines(&ines, odd).await;
    }
    let kim = club.grower("Kim", "KL").await;
    assert_eq!(kim.get("/members/record").await.status, axum::http::StatusCode::FORBIDDEN);
}

#[tokio::test]
async fn a_long_record_comes_in_pages() {
    let club = Club::new().await;
    let lea = club.organiser("Lea", "LM").await;
    let mut conn = club.app.db.write().await.unwrap();
    for _ in 0..150 {
        let deed = audit::Deed::by(What::Proved, lea.id());
        audit::note(&mut conn, deed, club.app.now()).await.unwrap();
    }
    conn.commit().await.unwrap();
    let page = lea.get("/members/record?what=proved").await;
    assert_eq!(page.all(".list tbody tr").len(), 100);
    let rest = lea.get(&page.link("Earlier")).await;
    assert_eq!(rest.all(".list tbody tr").len(), 50);
    assert!(!rest.body.contains(">Earlier<"));
}

#[tokio::test]
async fn the_database_itself_refuses_to_change_the_record() {
    let club = Club::new().await;
    set_up(&club).await;
    let before = acts(&club).await;
    for sql in ["UPDATE audit SET what = 'nothing'", "DELETE FROM audit", "UPDATE audit SET by_member = NULL"]
    {
        let mut conn: Conn = club.app.db.write().await.unwrap();
        let error = conn.run(sql, vec![]).await.unwrap_err().to_string();
        assert!(error.contains("the record is only added to"), "{sql}: {error}");
    }
    assert_eq!(acts(&club).await, before);
    assert!(!before.is_empty());
}

#[tokio::test]
async fn every_sort_of_act_has_its_own_name_and_words() {
    let keys: std::collections::BTreeSet<&str> = What::ALL.iter().map(|w| w.key()).collect();
    assert_eq!(keys.len(), What::ALL.len());
    assert!(What::ALL.iter().all(|w| !w.words().is_empty() && w.key().len() <= 40));
}
