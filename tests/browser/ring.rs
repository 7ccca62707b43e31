//! A ring trial through the pages: set up, drawn, handed out, grown, opened.

use crate::support::Phone;

/// Plans a ring trial with the packets of these marks and these growers; the set-up page is open. Leaves the plan
/// open; gives its address.
pub async fn plan(phone: &Phone, name: &str, packets: &[&str], growers: &[&str]) -> String {
    phone.fill("#f-name", name).await;
    for mark in packets {
        phone.tick("#f-packet", mark).await;
    }
    for grower in growers {
        phone.tick("#f-grower", grower).await;
    }
    phone.tap("#new-ring .save button.main").await;
    phone.says("What this plan can show").await;
    phone.path().await
}

/// Changes the numbers of the plan that is open.
pub async fn numbers(phone: &Phone, bags: &str, seeds: &str) {
    phone.fill("#f-bags", bags).await;
    phone.fill("#f-bag_seeds", seeds).await;
    phone.tap_words("See what these can show").await;
    phone.says(&format!("{bags} bag of {seeds} seeds")).await;
}

/// Draws the lots of the plan that is open.
pub async fn draw(phone: &Phone) {
    phone.tap("form[action$='/draw'] button.main").await;
    phone.says("Drawn.").await;
}

/// Hands the packets of `to` out; the page of the ring trial is open.
pub async fn hand_out(phone: &Phone, to: &str) {
    phone.choose("#f-to", to).await;
    phone.tap("form[action$='/hand-out'] button.main").await;
    phone.says("Handed out:").await;
}

/// Opens the page of the ring trial through the navigation.
pub async fn go(phone: &Phone, name: &str) {
    phone.tap_words("Ring trials").await;
    phone.tap_words(name).await;
    phone.says("Ring trial, running.").await;
}

/// The grower's packets that wait, each put on paper dry; gives their bags.
pub async fn start(phone: &Phone, name: &str) -> Vec<String> {
    let mut bags = Vec::new();
    go(phone, name).await;
    while let Some(start) = phone.links("ul.due a.button[href^='/trials/new']").await.pop() {
        phone.goto(&start).await;
        phone.choose("#f-routine", "Dry seed, straight to paper").await;
        phone.tap("#start .save button.main").await;
        phone.says("Undo").await;
        phone.tap("main a[href$='/paper']").await;
        phone.tap("#paper .save button.main").await;
        phone.says("Undo").await;
        bags.extend(phone.links("main a.mark[href^='/bags/']").await.pop());
        go(phone, name).await;
    }
    bags
}

/// One look into each bag: as many rooted as stands beside the start of its mark.
pub async fn count(phone: &Phone, bags: &[String], rooted: &[(&str, &str)]) {
    assert_eq!(bags.len(), 2, "{bags:?}");
    for bag in bags {
        phone.goto(bag).await;
        let mark = phone.texts("h1 .mark").await.concat();
        let (_, rooted) = rooted.iter().find(|(start, _)| mark.starts_with(start)).expect(&mark);
        phone.fill("#f-rooted", rooted).await;
        phone.tap("main .save button.main").await;
        phone.says("Undo").await;
    }
}

/// Opens the ring trial at `address` before all is counted.
pub async fn open(phone: &Phone, address: &str, why: &str) {
    phone.goto(&format!("{address}/open")).await;
    phone.fill("#f-why", why).await;
    phone.tap("main .save button.main").await;
    phone.says(&format!("Opened early: {why}")).await;
}
