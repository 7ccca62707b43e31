use super::Bench;
use crate::support::Club;
use hilum::db::ids::BagId;

#[tokio::test]
async fn an_empty_bench_says_what_to_do_first() {
    let club = Club::new().await;
    let jo = club.grower("Jo", "JB").await;
    let page = jo.get("/").await;
    page.says("nothing is on paper yet");
    assert_eq!(page.link("Bring in a list"), "/packets/import");
    assert_eq!(page.link("Start trials"), "/trials/new");
}

#[tokio::test]
async fn a_bag_is_due_each_day_until_it_was_looked_at() {
    let b = Bench::new().await;
    let page = b.jo.get("/").await;
    page.says("Kestrel: look, day 3 on paper. 10 seeds still on paper.").says("2 days late");
    assert_eq!(page.link("Count"), b.path());
    b.count("", "1").await;
    b.jo.get("/")
        .await
        .says("No bag is due now. 1 bag on paper waits for a later look, the next due Fri 6 Mar.");
    // midnight in Berlin is 15 hours after 09:00
    b.club.pass_minutes(15 * 60 - 1);
    b.jo.get("/").await.says("No bag is due");
    b.club.pass_minutes(1);
    b.jo.get("/").await.says("look, day 4 on paper").says_not("late");
}

#[tokio::test]
async fn rooted_seeds_and_empty_bags_ask_for_the_next_step() {
    let b = Bench::new().await;
    b.count("4", "6").await;
    let page = b.jo.get("/").await;
    page.says("4 rooted seeds wait for a cell").says("nothing is left on paper. Close the bag");
    assert_eq!(page.link("Plant"), b.under("plant"));
    assert_eq!(page.link("Close"), b.under("close"));
}

#[tokio::test]
async fn nobody_sees_the_bags_of_another_member() {
    let b = Bench::new().await;
    let kim = b.club.organiser("Kim", "KR").await;
    kim.get("/").await.says_not("JB 1 a").says("nothing is on paper yet");
}

#[tokio::test]
async fn many_bags_are_offered_in_one_screen() {
    let b = Bench::new().await;
    let packet = b.club.packet(&b.jo, "Merlin", 900).await;
    let trial = b.club.trial(&b.jo, &packet, 800).await;
    let mut last: Option<BagId> = None;
    for _ in 0..70 {
        last = Some(b.club.bag(&b.jo, &trial, 10).await);
    }
    b.club.pass_days(1);
    let page = b.jo.get("/").await;
    page.says("Look at all 71 due bags in one screen").says("And 11 more");
    // 60 bags, and two trials that still have seeds to go on paper
    assert_eq!(page.all("ul.due > li").len(), 62);
    let looks = b.jo.get("/looks").await;
    looks.says("Looks at 71 bags");
    b.jo.submit(&looks, "/looks", &[("rest", "yes")])
        .await
        .says("Saved: the 71 bags looked at, nothing new.");
    assert!(b.sums_of(&last.unwrap()).await.looked_at.is_some());
}

#[tokio::test]
async fn soaks_come_first_with_their_clock() {
    let b = Bench::new().await;
    // the bench's trial has 30 seeds left in a routine without steps
    let page = b.jo.get("/").await;
    page.says("Kestrel: 30 seeds wait to go on paper.");
    assert_eq!(page.link("To paper"), format!("/trials/{}/paper", b.trial));
    let mut conn = b.club.app.db.write().await.unwrap();
    let sql = "INSERT INTO routine_steps (version_id, position, act, agent, dose, minutes, place, note)
        VALUES ('rv-dry', 1, 'priming soak', 'water', '', $1, '', '')";
    conn.run(sql, hilum::args![3 * 1440 + 12]).await.unwrap();
    conn.commit().await.unwrap();
    let page = b.jo.get("/").await;
    page.says("30 seeds, out in 12 min").says("out at 09:12");
    assert_eq!(page.link("Next step"), format!("/trials/{}#step", b.trial));
    let other = b.club.packet(&b.jo, "Merlin", 50).await;
    b.club.trial(&b.jo, &other, 20).await;
    assert_eq!(b.jo.get("/").await.all(".due .timer"), ["out at 09:12", "out Sun 8 Mar 09:12"]);
    b.club.pass_minutes(12);
    b.jo.get("/").await.says("30 seeds, out now");
}
