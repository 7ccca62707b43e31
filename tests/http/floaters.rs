//! The floaters page over HTTP: what the club's own float tallies say, and what they leave out.

use crate::support::{Browser, Club};
use hilum::args;
use hilum::db::ids::{BagId, TrialId};
use hilum::notebook::{About, Act, bag, trial};

/// Closes a bag of `seeds` seeds of which `rooted` rooted, now; the rest is found dead.
async fn close(club: &Club, by: &Browser, id: &BagId, left: i64, ending: &'static str) {
    let mut conn = club.app.db.write().await.unwrap();
    let act = Act::new(by.id(), "diary", club.app.now(), club.app.now());
    let closing = bag::Closing { ending, fresh: left, ..bag::Closing::default() };
    bag::add_closing(&mut conn, &act, About { bag: Some(id), ..About::default() }, closing, "")
        .await
        .unwrap();
    bag::keep(&mut conn, id).await.unwrap();
    conn.commit().await.unwrap();
}

async fn fate(club: &Club, trial: &TrialId, floated: i64, floaters: &str) {
    let mut conn = club.app.db.write().await.unwrap();
    let sql = "UPDATE trials SET floaters = $2, floated = $3 WHERE id = $1";
    conn.run(sql, args![trial, floaters, floated]).await.unwrap();
    conn.commit().await.unwrap();
}

async fn of_floaters(club: &Club, id: &BagId) {
    let mut conn = club.app.db.write().await.unwrap();
    conn.run("UPDATE bags SET floaters = TRUE WHERE id = $1", args![id]).await.unwrap();
    conn.commit().await.unwrap();
}

/// A trial with two bags, floaters first: (rooted, failed) of each. Rooted on day 5, not closed.
async fn split(club: &Club, by: &Browser, variety: &str, counts: [(i64, i64); 2]) -> [BagId; 2] {
    let [floated, sank] = counts.map(|(rooted, failed)| rooted + failed);
    let packet = club.packet(by, variety, floated + sank).await;
    let trial = club.trial(by, &packet, floated + sank).await;
    fate(club, &trial, floated, "own bag").await;
    let bags = [club.bag(by, &trial, floated).await, club.bag(by, &trial, sank).await];
    of_floaters(club, &bags[0]).await;
    club.pass_days(5);
    for (id, (rooted, _)) in bags.iter().zip(counts) {
        club.look(by, id, rooted, 0).await;
    }
    bags
}

/// The same, closed on day 14.
async fn closed(club: &Club, by: &Browser, variety: &str, counts: [(i64, i64); 2]) {
    let start = club.app.now();
    let bags = split(club, by, variety, counts).await;
    club.pass_days(9);
    for (id, (_, failed)) in bags.iter().zip(counts) {
        close(club, by, id, failed, "final count").await;
    }
    club.app.clock.set(start);
}

/// tests/reference/oracles/m2_two_proportions.json, "two sources over four growers": R 4.2.2 mantelhaen.test gives
/// 2.0011 (1.1679 to 3.4286); statsmodels 0.15.0 StratifiedTable.riskratio_pooled gives 1.2111.
#[tokio::test]
async fn the_common_odds_are_those_of_the_reference() {
    let club = Club::new().await;
    let ann = club.grower("Ann", "AN").await;
    ann.get("/floaters").await.says("No lot has both yet: put floaters in a bag of their own to find out.");
    for (variety, [a, b, c, d]) in [
        ("Ash", [38, 12, 30, 20]),
        ("Birk", [17, 8, 14, 11]),
        ("Cole", [45, 5, 41, 9]),
        ("Dusk", [9, 16, 5, 20]),
    ] {
        closed(&club, &ann, variety, [(b, a), (d, c)]).await;
    }
    club.pass_days(14);
    let page = ann.get("/floaters").await;
    page.says("2.0 (1.2 to 3.4)").says("floaters failed somewhat more often than sunk seeds of the same lot");
    // 41 of 150 and 60 of 150: statsmodels 0.15.0 proportion_confint(method="wilson") 0.208 to 0.350, 0.325 to 0.480
    page.says("27 % (21 to 35): 41 of 150 seeds").says("40 % (33 to 48): 60 of 150 seeds");
    page.says("Nothing else is left out.").says("Published evidence for peppers was not found");
    let rows = page.all("table.list tbody tr");
    assert_eq!(rows.len(), 4);
    assert_eq!(rows[0], "Ash Testwood Seeds, 2025 50, rooted 12 50, rooted 20");
    ann.get("/floaters?kind=pepper").await.says("2.0 (1.2 to 3.4)");
    ann.get("/floaters?kind=tomato").await.says("No lot has both yet");
    assert!(club.stranger().get("/floaters").await.path.starts_with("/sign-in"));
}

/// statsmodels 0.15.0 StratifiedTable: odds ratio 9.39 (3.87 to 22.79), risk ratio 3.65.
#[tokio::test]
async fn a_clear_finding_leads_and_nothing_is_written_off() {
    let club = Club::new().await;
    let ann = club.grower("Ann", "AN").await;
    for (variety, [a, b, c, d]) in [("Ash", [12, 4, 6, 22]), ("Birk", [9, 3, 4, 20]), ("Cole", [5, 5, 5, 25])]
    {
        closed(&club, &ann, variety, [(b, a), (d, c)]).await;
    }
    let page = ann.get("/floaters").await;
    page.says("floaters failed about 3.6 times as often as sunk seeds of the same lot");
    page.says("9.4 (3.9 to 22.8)").says("never writes floaters off by itself");
    assert_eq!(ann.get("/table").await.link("Do floaters fail?"), "/floaters");
}

#[tokio::test]
async fn few_seeds_and_equal_seeds_support_nothing() {
    let club = Club::new().await;
    let ann = club.grower("Ann", "AN").await;
    closed(&club, &ann, "Ash", [(2, 1), (8, 2)]).await;
    ann.get("/floaters").await.says("The club's seeds do not tell yet");
    closed(&club, &ann, "Birk", [(160, 40), (160, 40)]).await;
    ann.get("/floaters").await.says("Floaters rooted about as well as sunk seeds");
    closed(&club, &ann, "Cole", [(195, 5), (100, 100)]).await;
    ann.get("/floaters").await.says("floaters failed less often");
}

#[tokio::test]
async fn running_doubtful_and_thrown_out_seeds_stay_out_and_are_named() {
    let club = Club::new().await;
    let ann = club.grower("Ann", "AN").await;
    let [floaters, sank] = split(&club, &ann, "Ash", [(1, 3), (8, 2)]).await;
    ann.get("/floaters")
        .await
        .says("14 seeds of trials with a bag that still runs")
        .says("No lot has both yet");
    close(&club, &ann, &sank, 2, "final count").await;
    ann.get("/floaters").await.says("14 seeds of trials").says("No lot has both yet");
    club.pass_days(9);
    club.look(&ann, &floaters, 0, 0).await;
    let page = ann.get("/floaters").await;
    page.says("4, rooted 1").says("10, rooted 8").says("some bag was given up before the standard day");
    let [doubtful, given_up] = split(&club, &ann, "Birk", [(0, 5), (5, 0)]).await;
    let mut conn = club.app.db.write().await.unwrap();
    conn.run("UPDATE bags SET in_doubt = TRUE, version = version + 1 WHERE id = $1", args![&doubtful])
        .await
        .unwrap();
    conn.commit().await.unwrap();
    close(&club, &ann, &given_up, 0, "abandoned").await;
    let page = ann.get("/floaters").await;
    page.says("1 bag in doubt, 1 bag abandoned").says_not("Birk");
    let packet = club.packet(&ann, "Cole", 20).await;
    let trial_id = club.trial(&ann, &packet, 20).await;
    fate(&club, &trial_id, 6, "thrown out").await;
    let mut conn = club.app.db.write().await.unwrap();
    let act = Act::new(ann.id(), "diary", club.app.now(), club.app.now());
    let about = About { trial: Some(&trial_id), ..About::default() };
    trial::add_seeds(&mut conn, &act, about, "thrown out", 6).await.unwrap();
    trial::keep(&mut conn, &trial_id).await.unwrap();
    conn.run("UPDATE trials SET floaters = 'thrown out', floated = 6 WHERE id = $1", args![&trial_id])
        .await
        .unwrap();
    conn.commit().await.unwrap();
    ann.get("/floaters").await.says("Floaters thrown out: 6 seeds of 1 trial.");
    let tally = format!("/trials/{trial_id}/tally");
    assert_eq!(ann.get(&tally).await.link("Do floaters fail?"), "/floaters");
}
