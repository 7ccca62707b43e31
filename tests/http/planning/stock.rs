use super::{club, paste, plan, row};
use crate::support::{Browser, Club, looked_at, rooted_by_day};
use hilum::args;
use hilum::rates::standing::refresh;

#[tokio::test]
async fn published_lives_stand_until_the_clubs_own_trials_show_a_fall() {
    let (club, jo) = club().await;
    jo.get("/packets/ageing").await.says("You have no packet with seed.");
    club.packet(&jo, "Kestrel", 400).await;
    let page = jo.get("/packets/ageing").await;
    // the lot is of 2025; storage_life_years.csv: pepper 2 and 3 years
    page.says("1 year").says("the club cannot say").says("2 years (C. Wilson").says("3 years (R.L. Watts");
    page.says("pepper: too little to tell, 0 closed bags of 0 ages. It takes 10 bags of 3 ages.");
    page.says("No packet needs a test now.");
    for (year, rooted) in [(2026, 18), (2024, 14), (2022, 8)] {
        let packet = club.packet_from(&jo, "Kestrel", &format!("Source {year}"), 80).await;
        of_year(&club, &format!("l-Kestrel-Source {year}"), year).await;
        for _ in 0..4 {
            let trial = club.trial(&jo, &packet, 20).await;
            let bag = club.bag(&jo, &trial, 20).await;
            looked_at(&club, &jo, &bag, rooted).await;
            close(&club, &bag.0).await;
        }
    }
    club.pass_days(15);
    let page = jo.get("/packets/ageing").await;
    page.says("pepper: falls with age, by 12 closed bags.").says("by the club’s 12 bags of pepper");
    page.says("by the club’s own trials");
}

/// The seed of this lot is of this year.
async fn of_year(club: &Club, lot: &str, year: i64) {
    let mut conn = club.app.db.write().await.unwrap();
    assert_eq!(conn.run("UPDATE lots SET year = $2 WHERE id = $1", args![lot, year]).await.unwrap(), 1);
    conn.commit().await.unwrap();
}

async fn close(club: &Club, bag: &str) {
    let mut conn = club.app.db.write().await.unwrap();
    let sql = "UPDATE bags SET closed_at = $2, ending = 'final count' WHERE id = $1";
    conn.run(sql, args![bag, club.app.now()]).await.unwrap();
    conn.commit().await.unwrap();
}

#[tokio::test]
async fn seed_that_was_never_tested_asks_for_a_test() {
    let (club, jo) = club().await;
    let packet = club.packet(&jo, "Kestrel", 40).await;
    of_year(&club, "l-Kestrel-Testwood Seeds", 2020).await;
    let page = jo.get("/packets/ageing").await;
    page.says("Not tested within a year of its coming.").says("past its best by the shorter published life");
    assert_eq!(page.link("Test JB 1"), format!("/trials/new?packet={packet}"));
    let trial = club.trial(&jo, &packet, 20).await;
    let bag = club.bag(&jo, &trial, 20).await;
    looked_at(&club, &jo, &bag, 12).await;
    close(&club, &bag.0).await;
    let page = jo.get("/packets/ageing").await;
    page.says("No packet needs a test now. Those past their best below were tested, or came, not long ago.");
    page.says("past its best by the shorter published life")
        .says("no test is due before 2 Mar 2027")
        .says("since it was tested");
    let kim = club.grower("Kim", "KL").await;
    kim.get("/packets/ageing").await.says("You have no packet with seed.");
}

/// Hollin is better than Testwood Seeds with everybody; Overlea was had by nobody who had another.
async fn sources(club: &Club) {
    let (ann, bo, cy, dee) = (
        club.grower("Ann", "AN").await,
        club.grower("Bo", "BO").await,
        club.grower("Cy", "CY").await,
        club.grower("Dee", "DE").await,
    );
    let found = async |by: &Browser, place, rooted| {
        for _ in 0..2 {
            rooted_by_day(club, by, place, 20, rooted).await;
        }
    };
    for (by, hollin, testwood) in [(&ann, 18, 9), (&bo, 17, 8), (&cy, 19, 10)] {
        found(by, ("Ember", "Hollin"), hollin).await;
        found(by, ("Ember", "Testwood Seeds"), testwood).await;
        found(by, ("Dusk", "Hollin"), 15).await;
        found(by, ("Dusk", "Testwood Seeds"), 14).await;
    }
    found(&dee, ("Ember", "Overlea"), 19).await;
}

#[tokio::test]
async fn the_shopping_list_joins_plan_stock_and_club_table() {
    let club = Club::new().await;
    club.app.furnish().await.unwrap();
    sources(&club).await;
    club.pass_days(15);
    refresh(&club.app).await.unwrap();
    let jo = club.grower("Jo", "JB").await;
    plan(&club, &jo, &[]).await;
    club.packet_from(&jo, "Ember", "Hollin", 6).await;
    club.packet_from(&jo, "Dusk", "Hollin", 600).await;
    paste(
        &jo,
        "Ember, 12, 2026-06-15\nDusk, 3, 2026-06-15\nEmber, 6, 2026-06-22\npepper: New One, 2, 2026-06-15",
    )
    .await
    .says("Added: 4 lines");
    let page = jo.get("/plan/shopping").await;
    page.says("Buy Hollin again: it roots better than Testwood Seeds.");
    page.says("Overlea (grown by Dee) cannot be compared with Hollin or Testwood Seeds");
    page.says("your packets hold 6 of them").says("The club has not counted this variety from any source.");
    page.says_not("Dusk");
    let overlea = row(&page, "Overlea");
    let hollin = row(&page, "Hollin");
    assert!(hollin.starts_with("Hollin 1 ") && hollin.contains("120 seeds, 3 growers"), "{hollin}");
    assert!(
        overlea.starts_with("Overlea 2 ") && overlea.contains("1 grower"),
        "a group of its own: {overlea}"
    );
    let file = jo.get(&page.link("Save as a file")).await;
    let lines: Vec<&str> = file.body.lines().collect();
    assert_eq!(lines.len(), 5, "{}", file.body);
    assert!(lines[1].starts_with("pepper,Ember,,") && lines[1].contains("Group"), "{}", file.body);
    assert!(lines[4].starts_with("pepper,New One,,"), "{}", file.body);
}
