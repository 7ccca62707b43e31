//! The club's comparison is fitted off the request path, by one process at a time, and pages say as of when.

use crate::support::{Browser, Club, rooted_by_day};
use hilum::app::App;
use hilum::args;
use hilum::db::Db;
use hilum::rates::standing::{latest, refresh};

const LEASE: &str = "INSERT INTO leases (job, holder, until_at) VALUES ('standing', 'elsewhere', $1)
    ON CONFLICT (job) DO UPDATE SET holder = excluded.holder, until_at = excluded.until_at";

/// Two growers, two sources of Ember: the least that can be compared.
async fn club() -> (Club, Browser) {
    let club = Club::new().await;
    let (ann, bo) = (club.grower("Ann", "AN").await, club.grower("Bo", "BO").await);
    for by in [&ann, &bo] {
        rooted_by_day(&club, by, ("Ember", "Testwood Seeds"), 20, 16).await;
        rooted_by_day(&club, by, ("Ember", "Hollin"), 20, 11).await;
    }
    club.pass_days(15);
    (club, ann)
}

async fn lease_until(club: &Club, minutes: i64) {
    let mut conn = club.app.db.write().await.unwrap();
    conn.run(LEASE, args![club.app.now().plus_minutes(minutes)]).await.unwrap();
    conn.commit().await.unwrap();
}

/// Another process on the same database.
async fn process(club: &Club) -> App {
    let db = Db::open(&club.app.config.database()).await.unwrap();
    App::new(db, (*club.app.config).clone(), club.app.clock.clone())
}

#[tokio::test]
async fn a_fit_is_made_once_and_again_after_a_count_or_a_day() {
    let (club, ann) = club().await;
    assert!(latest(&club.app, false).await.unwrap().is_none());
    assert!(refresh(&club.app).await.unwrap());
    let first = latest(&club.app, false).await.unwrap().unwrap();
    assert_eq!((first.standing.adjusted.len(), first.made_at), (2, club.app.now()));
    assert!(!refresh(&club.app).await.unwrap(), "nothing is new");
    assert!(latest(&club.app, true).await.unwrap().is_some(), "at the close stands beside it");

    rooted_by_day(&club, &ann, ("Dusk", "Hollin"), 20, 9).await;
    assert!(refresh(&club.app).await.unwrap(), "a count came in");
    assert!(!refresh(&club.app).await.unwrap());
    club.pass_days(15);
    assert!(refresh(&club.app).await.unwrap(), "a day has passed");
    let last = latest(&club.app, false).await.unwrap().unwrap();
    assert_eq!(last.standing.adjusted.len(), 3, "Dusk has come to its day");
}

#[tokio::test]
async fn one_process_fits_at_a_time_and_takes_over_from_a_dead_one() {
    let (club, ann) = club().await;
    let other = process(&club).await;
    lease_until(&club, 3).await;
    assert!(!refresh(&club.app).await.unwrap(), "somebody else has the job");
    assert!(!refresh(&other).await.unwrap());
    assert!(latest(&other, false).await.unwrap().is_none());
    club.pass_minutes(4);
    assert!(refresh(&other).await.unwrap(), "the lease has run out");
    assert!(!refresh(&club.app).await.unwrap(), "the other process has done it");
    let (ours, theirs) = (latest(&club.app, false).await.unwrap(), latest(&other, false).await.unwrap());
    assert_eq!(ours.unwrap().standing, theirs.unwrap().standing);
    rooted_by_day(&club, &ann, ("Dusk", "Hollin"), 20, 9).await;
    assert!(refresh(&club.app).await.unwrap(), "the other process let go of the job");
}

#[tokio::test]
async fn of_two_that_start_together_one_fits() {
    let (club, _) = club().await;
    let other = process(&club).await;
    let (one, two) = tokio::join!(refresh(&club.app), refresh(&other));
    let (one, two) = (one.unwrap(), two.unwrap());
    assert!(one != two, "{one} and {two}");
}

#[tokio::test]
async fn pages_say_as_of_when_and_what_is_not_in_it() {
    let (club, ann) = club().await;
    for path in ["/table", "/table/variety?kind=pepper&variety=Ember", "/table/source?source=Hollin"] {
        ann.get(path).await.says("being compared for the first time");
    }
    refresh(&club.app).await.unwrap();
    for path in ["/table", "/table/variety?kind=pepper&variety=Ember", "/table/source?source=Hollin"] {
        ann.get(path).await.says("As of today 09:00, with every count in it.");
    }
    rooted_by_day(&club, &ann, ("Ember", "Hollin"), 20, 9).await;
    for path in ["/table", "/table/care", "/table/variety?kind=pepper&variety=Ember"] {
        ann.get(path).await.says("As of today 09:00. Counts since then are not in it yet");
    }
    ann.get("/table/report").await.says(" 2026 09:00. Counts since then are not in it yet");
}

#[tokio::test]
async fn no_number_comes_from_a_fit_that_did_not_settle() {
    let (club, ann) = club().await;
    refresh(&club.app).await.unwrap();
    ann.get("/table").await.says("Adjusted");
    let mut conn = club.app.db.write().await.unwrap();
    let sql = "UPDATE standings SET document = REPLACE(document, '\"status\":\"ok\"', '\"status\":\"not_estimable\"'),
        made_at = made_at + 1";
    conn.run(sql, args![]).await.unwrap();
    conn.commit().await.unwrap();
    for path in [
        "/table",
        "/table/variety?kind=pepper&variety=Ember",
        "/table/source?source=Hollin",
        "/table/care",
        "/table/report",
    ] {
        let page = ann.get(path).await;
        page.says("The comparison did not settle").says_not("of 100").says_not("chance");
        assert!(page.all("svg.chart").is_empty(), "{path} draws what did not settle");
        assert!(page.all("[data-label=Adjusted]").is_empty(), "{path} shows an adjusted rate");
    }
}
