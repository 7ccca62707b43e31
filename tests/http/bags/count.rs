use super::Bench;
use axum::http::StatusCode;

#[tokio::test]
async fn a_count_is_kept_and_planting_is_offered() {
    let b = Bench::new().await;
    let saved = b.count("4", "1").await;
    saved.says("Counted 4 rooted, 1 dead").says("5 seeds still on paper").says("Undo");
    assert_eq!(saved.link("Plant 4 rooted seeds"), b.under("plant"));
    let s = b.sums().await;
    assert_eq!((s.rooted, s.dead, s.on_paper), (4, 1, 5));
}

#[tokio::test]
async fn the_same_form_sent_twice_counts_once() {
    let b = Bench::new().await;
    let page = b.jo.get(&b.path()).await;
    for _ in 0..2 {
        b.jo.submit(&page, &b.under("count"), &[("rooted", "4")]).await.says("still on paper");
    }
    assert_eq!(b.sums().await.rooted, 4);
    let other = b.jo.submit(&page, &b.under("count"), &[("rooted", "5")]).await;
    assert_eq!(other.status, StatusCode::CONFLICT);
    assert_eq!(b.sums().await.rooted, 4);
}

#[tokio::test]
async fn the_last_seed_can_be_counted_and_not_one_more() {
    let b = Bench::new().await;
    b.count("9", "").await.says("1 seed still on paper");
    let over = b.count("1", "1").await;
    over.refuses("there_were", "You counted 2 seeds; by the book: 1 seed still on paper");
    assert_eq!(b.sums().await.rooted, 9);
    b.count("1", "0").await.says("0 seeds still on paper");
    assert_eq!(b.sums().await.on_paper, 0);
}

#[tokio::test]
async fn eleven_not_ten_is_one_recount_on_the_same_form() {
    let b = Bench::new().await;
    let over = b.count("11", "").await;
    over.refuses("there_were", "If the bag held 11 seeds from the start, not 10, write 11 here");
    let typed = [("there_were", "11")];
    b.jo.submit(&over, &b.under("count"), &typed).await.says("0 seeds still on paper");
    let s = b.sums().await;
    assert_eq!((s.seeds, s.rooted, s.on_paper), (11, 11, 0));
    // I2: the trial held one more too, and it went on paper
    let t = b.trial_sums().await;
    assert_eq!((t.seeds, t.to_paper, t.soaking), (41, 11, 30));
    whole(&b).await;
}

/// What `hilum check` says of seeds that are not all somewhere.
async fn whole(b: &Bench) {
    let found = hilum::upkeep::check::breaches(&b.club.app).await.unwrap();
    assert!(!found.iter().any(|breach| breach.starts_with("I2")), "{found:?}");
}

#[tokio::test]
async fn a_recount_down_keeps_the_trial_whole() {
    let b = Bench::new().await;
    let over = b.count("11", "").await;
    let fewer = b.jo.submit(&over, &b.under("count"), &[("rooted", "3"), ("there_were", "2")]).await;
    fewer.refuses(
        "there_were",
        "With this count, 3 seeds of the bag are accounted for: it cannot have held 2.",
    );
    let typed = [("rooted", "3"), ("there_were", "9")];
    b.jo.submit(&over, &b.under("count"), &typed).await.says("6 seeds still on paper");
    let (s, t) = (b.sums().await, b.trial_sums().await);
    assert_eq!((s.seeds, s.on_paper), (9, 6));
    assert_eq!((t.seeds, t.to_paper, t.soaking), (39, 9, 30));
    whole(&b).await;
}

#[tokio::test]
async fn a_missing_look_is_never_a_zero() {
    let b = Bench::new().await;
    b.count("", "").await.refuses("rooted", "Type what is new");
    let page = b.jo.get(&b.path()).await;
    let damped = b.jo.submit(&page, &b.under("count"), &[("damped", "yes")]).await;
    damped.says("No look was recorded, damped");
    assert_eq!(b.sums().await.looked_at, None);
    let page = b.jo.get(&b.path()).await;
    let mut pairs = page.form(&b.under("count")).filled(&[]);
    pairs.push(("nothing".into(), "yes".into()));
    let pairs: Vec<(&str, &str)> = pairs.iter().map(|(n, v)| (n.as_str(), v.as_str())).collect();
    b.jo.post(&b.under("count"), &pairs).await.says("Looked at, nothing new");
    assert_eq!(b.sums().await.looked_at, Some(b.club.app.now().0));
}

#[tokio::test]
async fn each_wrong_field_says_so_and_keeps_what_was_typed() {
    let b = Bench::new().await;
    let wrong = [
        ("rooted", "two", "A whole number"),
        ("dead", "-1", "A whole number"),
        ("at", "soon", "A date and time"),
        ("at", "2030-01-01T08:00", "in the future"),
        ("note", &"x".repeat(2001), "At most 2000"),
    ];
    for (field, typed, error) in wrong {
        let page = b.jo.get(&b.path()).await;
        let back = b.jo.submit(&page, &b.under("count"), &[(field, typed)]).await;
        back.refuses(field, error);
        assert!(back.body.contains(typed), "{field} lost what was typed");
    }
    assert_eq!(b.sums().await.looked_at, None);
}

#[tokio::test]
async fn a_late_look_goes_between_others_and_never_before_the_paper() {
    let b = Bench::new().await;
    b.count("2", "").await.says("Counted 2");
    // the clock stands at 2026-03-05 09:00 in Berlin; the bag is on paper since 2 March 09:00
    let page = b.jo.get(&b.path()).await;
    let late = [("rooted", "3"), ("at", "2026-03-03T09:00")];
    b.jo.submit(&page, &b.under("count"), &late).await.says("Counted 3");
    assert_eq!(b.sums().await.rooted, 5);
    let page = b.jo.get(&b.path()).await;
    let early = [("rooted", "1"), ("at", "2026-03-02T08:59")];
    b.jo.submit(&page, &b.under("count"), &early).await.refuses("at", "before the trial began");
    let page = b.jo.get(&b.path()).await;
    let first = [("rooted", "1"), ("at", "2026-03-02T09:00")];
    b.jo.submit(&page, &b.under("count"), &first).await.says("Counted 1");
    assert_eq!(b.sums().await.rooted, 6);
}

#[tokio::test]
async fn a_late_look_that_later_counts_rule_out_is_refused_beside_its_time() {
    let b = Bench::new().await;
    b.count("8", "").await.says("2 seeds still on paper");
    let page = b.jo.get(&b.path()).await;
    let late = [("rooted", "3"), ("at", "2026-03-03T09:00")];
    b.jo.submit(&page, &b.under("count"), &late).await.refuses("there_were", "by the book: 2 seeds");
}

#[tokio::test]
async fn a_stranger_and_an_organiser_get_nothing() {
    let b = Bench::new().await;
    let kim = b.club.organiser("Kim", "KR").await;
    let own = b.club.packet(&kim, "Merlin", 20).await;
    let trial = b.club.trial(&kim, &own, 10).await;
    let bag = b.club.bag(&kim, &trial, 10).await;
    for path in [b.path(), b.under("happened"), b.under("elsewhere"), b.under("close")] {
        assert_eq!(kim.get(&path).await.status, StatusCode::NOT_FOUND, "{path}");
    }
    let page = kim.get(&format!("/bags/{bag}")).await;
    let pairs = page.form(&format!("/bags/{bag}/count")).filled(&[("rooted", "1")]);
    let pairs: Vec<(&str, &str)> = pairs.iter().map(|(n, v)| (n.as_str(), v.as_str())).collect();
    assert_eq!(kim.post(&b.under("count"), &pairs).await.status, StatusCode::NOT_FOUND);
    assert_eq!(b.sums().await.rooted, 0);
    assert_eq!(b.club.stranger().get(&b.path()).await.path, format!("/sign-in?next=%2Fbags%2F{}", b.bag));
}

#[tokio::test]
async fn a_look_saved_from_another_screen_meanwhile_is_told() {
    let b = Bench::new().await;
    let (first, second) = (b.jo.get(&b.path()).await, b.jo.get(&b.path()).await);
    b.jo.submit(&first, &b.under("count"), &[("rooted", "2")]).await.says("8 seeds still on paper");
    let told = b.jo.submit(&second, &b.under("count"), &[("rooted", "2")]).await;
    told.refuses("rooted", "now 8 seeds still on paper, 2 rooted");
    assert_eq!(b.sums().await.rooted, 2);
    b.jo.submit(&told, &b.under("count"), &[]).await.says("6 seeds still on paper");
    assert_eq!(b.sums().await.rooted, 4);
}

#[tokio::test]
async fn an_address_of_a_sent_form_leads_to_its_page() {
    let b = Bench::new().await;
    let page = b.jo.get(&b.under("count")).await;
    assert_eq!((page.path.as_str(), page.status), (b.path().as_str(), StatusCode::OK));
    assert_eq!(b.jo.get("/undo").await.path, "/");
    assert_eq!(b.jo.get("/packets/import/confirm").await.path, "/packets/import");
}
