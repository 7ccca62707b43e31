use super::Bench;
use axum::http::StatusCode;

#[tokio::test]
async fn changed_bags_by_number_and_the_others_in_one_save() {
    let b = Bench::new().await;
    let mut others = Vec::new();
    for _ in 0..3 {
        others.push(b.club.bag(&b.jo, &b.trial, 5).await);
    }
    b.club.pass_days(1);
    let page = b.jo.get("/looks").await;
    page.says("Looks at 4 bags");
    let rooted = format!("rooted-{}", b.bag);
    let pages = [b.jo.submit(&page, "/looks", &[(&rooted, "2"), ("rest", "yes")]).await];
    pages[0].says("1 count saved: 2 rooted, 0 dead; the other 3 bags looked at, nothing new");
    b.jo.submit(&page, "/looks", &[(&rooted, "2"), ("rest", "yes")]).await;
    assert_eq!(b.sums().await.rooted, 2, "sent twice, counted once");
    for other in &others {
        let s = b.sums_of(other).await;
        assert_eq!((s.rooted, s.looked_at), (0, Some(b.club.app.now().0)));
    }
    b.jo.get("/looks").await.says("No bag is due");
    // each bag is an act of its own: one can be taken back, the others stand
    let history = b.jo.get(&b.path()).await;
    let void = history.link("look: 2 rooted");
    let form = b.jo.get(&void).await;
    b.jo.submit(&form, &void, &[("why", "another bag")]).await.says("Taken back");
    assert_eq!((b.sums().await.rooted, b.sums().await.looked_at), (0, None));
    assert!(b.sums_of(&others[0]).await.looked_at.is_some());
}

#[tokio::test]
async fn without_the_tick_the_empty_rows_were_not_looked_at() {
    let b = Bench::new().await;
    let other = b.club.bag(&b.jo, &b.trial, 5).await;
    b.club.pass_days(1);
    let page = b.jo.get("/looks").await;
    b.jo.submit(&page, "/looks", &[]).await.refuses("rest", "Type what is new");
    let dead = format!("dead-{}", b.bag);
    b.jo.submit(&page, "/looks", &[(&dead, "1")]).await.says("1 count saved: 0 rooted, 1 dead.");
    assert_eq!(b.sums_of(&other).await.looked_at, None);
    b.jo.get("/looks").await.says("Looks at 1 bag");
}

#[tokio::test]
async fn an_error_stays_beside_its_row_and_nothing_is_saved_or_lost() {
    let b = Bench::new().await;
    let other = b.club.bag(&b.jo, &b.trial, 5).await;
    b.club.pass_days(1);
    let page = b.jo.get("/looks").await;
    let (mine, theirs) = (format!("rooted-{}", b.bag), format!("rooted-{other}"));
    let back = b.jo.submit(&page, "/looks", &[(&mine, "3"), (&theirs, "6"), ("rest", "yes")]).await;
    back.refuses(&theirs, "That is 6 seeds, but 5 seeds still on paper");
    assert_eq!(b.sums().await.rooted, 0);
    assert_eq!(back.form("/looks").filled(&[]).iter().filter(|(_, v)| v == "3").count(), 1);
    let wrong = b.jo.submit(&back, "/looks", &[(&theirs, "many")]).await;
    wrong.refuses(&theirs, "A whole number");
    // what is wrong in two rows is told at once
    let both = b.jo.submit(&wrong, "/looks", &[(&mine, "99"), (&theirs, "many")]).await;
    both.refuses(&mine, "still on paper").refuses(&theirs, "whole number");
    let wrong = b.jo.submit(&both, "/looks", &[(&mine, "3"), (&theirs, "many")]).await;
    b.jo.submit(&wrong, "/looks", &[(&theirs, "5")]).await.says("2 counts saved: 8 rooted");
    assert_eq!((b.sums().await.rooted, b.sums_of(&other).await.on_paper), (3, 0));
}

#[tokio::test]
async fn a_zero_that_was_typed_is_a_look() {
    let b = Bench::new().await;
    let page = b.jo.get("/looks").await;
    let rooted = format!("rooted-{}", b.bag);
    b.jo.submit(&page, "/looks", &[(&rooted, "0")]).await.says("the 1 bag looked at, nothing new");
    assert!(b.sums().await.looked_at.is_some());
}

#[tokio::test]
async fn the_list_is_chosen_by_holder_and_place_and_holds_only_own_bags() {
    let b = Bench::new().await;
    let kim = b.club.grower("Kim", "KR").await;
    kim.get("/looks").await.says("No bag is due");
    b.jo.get("/looks?place=mat").await.says("Looks at 1 bag");
    b.jo.get("/looks?place=cellar").await.says("No bag is due");
    b.jo.get("/looks?holder=none").await.says("No bag is due");
    let page = b.jo.get("/looks").await;
    let pairs = page.form("/looks").filled(&[("rest", "yes")]);
    let pairs: Vec<(&str, &str)> = pairs.iter().map(|(n, v)| (n.as_str(), v.as_str())).collect();
    assert_eq!(kim.post("/looks", &pairs).await.status, StatusCode::NOT_FOUND);
    assert_eq!(b.sums().await.looked_at, None);
}

#[tokio::test]
async fn late_looks_are_dated_and_never_before_the_paper() {
    let b = Bench::new().await;
    let page = b.jo.get("/looks").await;
    let rooted = format!("rooted-{}", b.bag);
    let early = [(rooted.as_str(), "1"), ("at", "2026-03-01T09:00")];
    b.jo.submit(&page, "/looks", &early).await.refuses(&rooted, "on paper only since");
    let future = [(rooted.as_str(), "1"), ("at", "2026-03-05T09:01")];
    b.jo.submit(&page, "/looks", &future).await.refuses("at", "in the future");
    let late = [(rooted.as_str(), "1"), ("at", "2026-03-04T20:00")];
    b.jo.submit(&page, "/looks", &late).await.says("1 count saved");
    b.jo.get("/looks").await.says("Looks at 1 bag");
}
