use super::Bench;
use crate::support::Page;
use axum::http::StatusCode;

async fn happened(b: &Bench, fields: &[(&str, &str)]) -> Page {
    let page = b.jo.get(&b.under("happened")).await;
    b.jo.submit(&page, &b.under("happened"), fields).await
}

async fn went(b: &Bench, fields: &[(&str, &str)]) -> Page {
    let page = b.jo.get(&b.under("elsewhere")).await;
    b.jo.submit(&page, &b.under("elsewhere"), fields).await
}

#[tokio::test]
async fn plain_events_are_dated_entries() {
    let b = Bench::new().await;
    for sort in ["damped", "paper changed", "rinsed", "mould seen", "dried out", "overheated"] {
        happened(&b, &[("happened", sort)]).await.says(&format!("JB 1 a: {sort}."));
    }
    let page = b.jo.get(&b.path()).await;
    page.says("Jo, overheated").says("Jo, damped");
    assert_eq!(b.sums().await.looked_at, None, "an event is not a look");
    happened(&b, &[]).await.refuses("happened", "Please choose one");
    happened(&b, &[("happened", "note")]).await.refuses("note", "Write in a few words");
    let future = [("happened", "damped"), ("at", "2031-01-01T00:00")];
    happened(&b, &future).await.refuses("at", "in the future");
}

#[tokio::test]
async fn moving_gives_place_or_warmth_and_keeps_the_other() {
    let b = Bench::new().await;
    happened(&b, &[("happened", "moved")]).await.refuses("place", "Give the place");
    happened(&b, &[("happened", "moved"), ("warmth", "200")])
        .await
        .refuses("warmth", "A number from -30 to 60");
    happened(&b, &[("happened", "moved"), ("warmth", "24,5")]).await.says("place: mat, at 24.5 °C");
    happened(&b, &[("happened", "moved"), ("place", "windowsill")])
        .await
        .says("place: windowsill, at 24.5 °C");
}

#[tokio::test]
async fn soaking_again_marks_the_trial() {
    let b = Bench::new().await;
    happened(&b, &[("happened", "soaked again")]).await.says("treated again");
    let page = b.jo.get(&b.path()).await;
    let void = page.link("Jo, soaked again");
    let form = b.jo.get(&void).await;
    form.says("soaked again").says("treated again");
    b.jo.submit(&form, &void, &[("why", "wrong bag")]).await.says("Taken back");
    assert!(b.jo.get(&b.path()).await.all(".sign").is_empty(), "the sign leaves with the entry");
}

#[tokio::test]
async fn mouldy_seeds_removed_are_a_look_with_dead() {
    let b = Bench::new().await;
    happened(&b, &[("happened", "mouldy removed")]).await.refuses("removed", "How many");
    let over = [("happened", "mouldy removed"), ("removed", "11")];
    happened(&b, &over).await.refuses("removed", "That is 11 seeds, but 10 seeds still on paper");
    happened(&b, &[("happened", "mouldy removed"), ("removed", "3")]).await.says("7 seeds still on paper");
    assert_eq!(b.sums().await.dead, 3);
}

#[tokio::test]
async fn a_doubt_needs_words_and_can_be_resolved() {
    let b = Bench::new().await;
    happened(&b, &[("happened", "in doubt")]).await.refuses("note", "Write in a few words");
    happened(&b, &[("happened", "in doubt"), ("note", "two bags fell")]).await.says("in doubt");
    assert!(b.sums().await.in_doubt);
    happened(&b, &[("happened", "resolved"), ("note", "found the label")]).await.says("resolved");
    assert!(!b.sums().await.in_doubt);
}

#[tokio::test]
async fn a_bag_that_is_handed_on_is_the_other_members() {
    let b = Bench::new().await;
    let kim = b.club.grower("Kim", "KR").await;
    happened(&b, &[("happened", "handed on")]).await.refuses("member", "Choose the member");
    let gone = happened(&b, &[("happened", "handed on"), ("member", &kim.id().0)]).await;
    gone.says("JB 1 a: handed on.");
    assert_eq!(b.jo.get(&b.path()).await.status, StatusCode::NOT_FOUND);
    let page = kim.get(&b.path()).await;
    page.says("JB 1 a");
    kim.submit(&page, &b.under("count"), &[("rooted", "2")]).await.says("Counted 2");
    // who owns and who looked are two things; the giver cannot take the receiver's look with it
    let late = b.jo.submit(&gone, "/undo", &[]).await;
    assert!(late.status.is_success(), "{}", late.text());
    let s = b.sums().await;
    assert_eq!((s.owner_id == b.jo.id().0, s.rooted), (true, 2));
}

#[tokio::test]
async fn nobody_can_be_handed_a_bag_who_is_not_a_member() {
    let b = Bench::new().await;
    b.club.grower("Kim", "KR").await;
    let page = b.jo.get(&b.under("happened")).await;
    let fields = [("happened", "handed on"), ("member", "nobody")];
    b.jo.submit(&page, &b.under("happened"), &fields).await.refuses("member", "There is no such member");
    let holder = [("happened", "into holder"), ("holder", "none")];
    b.jo.submit(&page, &b.under("happened"), &holder).await.refuses("holder", "not a holder of yours");
}

#[tokio::test]
async fn lost_seeds_leave_the_paper_and_no_more_than_there_are() {
    let b = Bench::new().await;
    went(&b, &[("went", "lost"), ("seeds", "11")]).await.refuses("seeds", "Only 10 seeds still on paper");
    went(&b, &[("went", "lost"), ("seeds", "0")]).await.refuses("seeds", "A whole number from 1");
    went(&b, &[("seeds", "1")]).await.refuses("went", "Please choose one");
    went(&b, &[("went", "lost"), ("seeds", "10")]).await.says("10 seeds lost").says("Close the bag");
    assert_eq!((b.sums().await.lost, b.sums().await.on_paper), (10, 0));
}

#[tokio::test]
async fn moving_to_another_bag_is_one_act() {
    let b = Bench::new().await;
    let other = b.club.bag(&b.jo, &b.trial, 5).await;
    went(&b, &[("went", "moved"), ("seeds", "3")]).await.refuses("other", "Choose the bag");
    let page = b.jo.get(&b.under("elsewhere")).await;
    let fields = [("went", "moved"), ("seeds", "3"), ("other", other.0.as_str())];
    let saved = b.jo.submit(&page, &b.under("elsewhere"), &fields).await;
    saved.says("3 seeds moved");
    b.jo.submit(&page, &b.under("elsewhere"), &fields).await;
    assert_eq!((b.sums().await.on_paper, b.sums_of(&other).await.on_paper), (7, 8));
    // eight seeds of the other bag are counted: the move cannot be taken back any more
    let theirs = b.jo.get(&format!("/bags/{other}")).await;
    b.jo.submit(&theirs, &format!("/bags/{other}/count"), &[("rooted", "8")]).await.says("Counted 8");
    let void = b.jo.get(&b.path()).await.link("Jo, moved out: 3 seeds");
    let form = b.jo.get(&void).await;
    form.says("moved out: 3 seeds").says("moved in: 3 seeds");
    b.jo.submit(&form, &void, &[("why", "no")]).await.refuses("entry", "The look of JB 1 b");
    assert_eq!((b.sums().await.on_paper, b.sums_of(&other).await.on_paper), (7, 0));
}

#[tokio::test]
async fn seeds_do_not_move_to_a_bag_of_another_trial() {
    let b = Bench::new().await;
    let second = b.club.trial(&b.jo, &b.packet, 10).await;
    let other = b.club.bag(&b.jo, &second, 10).await;
    for wrong in [other.0.as_str(), b.bag.0.as_str(), "none"] {
        let fields = [("went", "moved"), ("seeds", "3"), ("other", wrong)];
        assert_eq!(went(&b, &fields).await.status, StatusCode::UNPROCESSABLE_ENTITY, "{wrong}");
    }
    assert_eq!(b.sums().await.on_paper, 10);
}

#[tokio::test]
async fn ends_of_rooted_seeds_stop_the_nagging() {
    let b = Bench::new().await;
    b.count("4", "").await;
    went(&b, &[("went", "surplus"), ("seeds", "5")]).await.refuses("seeds", "Only 4 rooted seeds wait");
    for sort in ["surplus", "given", "root broken", "rotted"] {
        went(&b, &[("went", sort), ("seeds", "1")]).await.says(&format!("1 seed {sort}"));
    }
    b.jo.get("/").await.says_not("for a cell");
    assert_eq!((b.sums().await.ended, b.sums().await.rooted), (4, 4));
    // I4: the look that the ends stand on cannot go
    let page = b.jo.get(&b.path()).await;
    let void = page.link("look: 4 rooted");
    let form = b.jo.get(&void).await;
    let refused = b.jo.submit(&form, &void, &[("why", "typo")]).await;
    refused.refuses("entry", "The rooted end of JB 1 a");
    assert_eq!(b.sums().await.rooted, 4);
}
