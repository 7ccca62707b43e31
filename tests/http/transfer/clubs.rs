//! Two clubs, two installations: what one lends the other goes by file, is a level of its own in the model, and is
//! never among own counts.

use super::package::{part, saved};
use super::writers::zip;
use crate::support::{Browser, Club, Page, rooted_by_day};
use axum::http::StatusCode;
use hilum::rates::standing::{Kept, latest, refresh};
use std::sync::Arc;

const SOURCES: [&str; 2] = ["Testwood Seeds", "Hollin"];

/// A club whose growers had the same varieties of two sources; `rooted` of 20 for each grower and source.
async fn club(letters: [&str; 2], rooted: [[i64; 2]; 2]) -> (Club, Browser) {
    let club = Club::new().await;
    let organiser = club.organiser(&format!("{} One", letters[0]), letters[0]).await;
    let grower = club.grower(&format!("{} Two", letters[1]), letters[1]).await;
    for (who, rooted) in [&organiser, &grower].into_iter().zip(rooted) {
        for variety in ["Ember", "Dusk", "Kestrel"] {
            for (source, n) in SOURCES.into_iter().zip(rooted) {
                rooted_by_day(&club, who, (variety, source), 20, n).await;
            }
        }
    }
    club.pass_days(15);
    (club, organiser)
}

async fn standing(club: &Club) -> Arc<Kept> {
    refresh(&club.app).await.unwrap();
    latest(&club.app, false).await.unwrap().unwrap()
}

async fn look(who: &Browser, file: &[u8]) -> Page {
    let page = who.get("/clubs").await;
    who.upload(&page, "/clubs/import", &[], ("table.zip", file)).await
}

async fn bring_in(who: &Browser, file: &[u8]) -> Page {
    let page = look(who, file).await;
    who.submit(&page, "/clubs/import/confirm", &[]).await
}

/// The cells of a file of the table that are of our own counts alone.
fn own_cells(table: &str) -> Vec<Vec<String>> {
    let mut reader = csv::Reader::from_reader(table.as_bytes());
    let heads = reader.headers().unwrap().clone();
    let own = |record: csv::StringRecord| {
        heads
            .iter()
            .zip(&record)
            .filter(|(head, _)| !head.starts_with("adjusted"))
            .map(|(_, c)| c.into())
            .collect()
    };
    reader.records().map(|record| own(record.unwrap())).collect()
}

#[tokio::test]
async fn what_another_club_found_is_a_level_of_the_model_and_never_an_own_count() {
    let (ours, jo) = club(["JB", "JK"], [[16, 12], [15, 10]]).await;
    let (theirs, kim) = club(["KB", "KK"], [[11, 6], [12, 5]]).await;
    rooted_by_day(&theirs, &kim, ("Night", "Hollin"), 20, 9).await;
    theirs.pass_days(15);
    ours.pass_days(15);
    let (jo, kim) = (ours.again(&jo).await, theirs.again(&kim).await);
    let before = standing(&ours).await;
    let own = jo.get("/table").await;
    let (table, counts) = (jo.get("/table.csv").await.body, jo.get("/counts.csv").await.body);
    let file = saved(&kim, &[("licence", "CC0-1.0")]).await;
    let page = look(&jo, &file).await;
    page.says("The table of Test Club")
        .says("260 seeds in 13 bags of 2 growers")
        .says("under CC0-1.0")
        .says("Night");
    let confirm = "/clubs/import/confirm";
    let (done, copy) = tokio::join!(jo.submit(&page, confirm, &[]), jo.submit(&page, confirm, &[]));
    assert!(done.text().contains("Brought in: the table of Test Club") || copy.text().contains("Brought in"));
    done.says("260 seeds");
    copy.says("260 seeds");

    let with = standing(&ours).await;
    let model = with.standing.model.as_ref().unwrap();
    assert!(model.clubs && model.status == "ok", "{model:?}");
    assert!(!before.standing.model.as_ref().unwrap().clubs);
    assert!(with.standing.adjusted.iter().any(|a| a.variety == "Night"));
    assert_ne!(before.standing.adjusted, with.standing.adjusted);
    // both clubs found Testwood better: together the interval of the difference is narrower
    let width = |kept: &Kept| {
        let pair = kept.standing.pairs.iter().find(|p| p.variety == "Ember").unwrap();
        let ratio = &pair.whole.as_ref().unwrap().log_odds_ratio;
        ratio.high - ratio.low
    };
    assert!(width(&with) < 0.9 * width(&before), "{} {}", width(&with), width(&before));

    // own counts stay own counts
    let with_theirs = jo.get("/table.csv").await.body;
    assert_eq!(own_cells(&with_theirs), own_cells(&table));
    assert!(with_theirs.lines().any(|line| line.ends_with("Z,40")), "{with_theirs}");
    assert_eq!(jo.get("/counts.csv").await.body, counts);
    let after = jo.get("/table").await;
    assert_eq!(rates(&after), rates(&own));
    after.says("with 40 seeds of 1 other club").says("of our own counts only").says_not("Night");
    jo.get("/table/variety?kind=pepper&variety=Ember")
        .await
        .says("40 seeds, 2 growers, with 40 seeds of 1 other club");
    jo.get("/table/source?source=Hollin").await.says("none of ours; 20 seeds of 1 other club");
    jo.get("/table/report").await.says("with 260 seeds of 1 other club").says_not("Night");
    // and do not go on to a third club
    let ours_file = saved(&jo, &[]).await;
    assert!(!part(&ours_file, "counts.csv").contains("Night"));
}

/// Own rates as the table shows them.
fn rates(page: &Page) -> Vec<String> {
    page.all("td[data-label=Rate]")
}

#[tokio::test]
async fn a_table_is_switched_off_replaced_and_removed() {
    let (ours, jo) = club(["JB", "JK"], [[16, 12], [15, 10]]).await;
    let (theirs, kim) = club(["KB", "KK"], [[11, 6], [12, 5]]).await;
    let before = standing(&ours).await;
    bring_in(&jo, &saved(&kim, &[]).await).await.says("240 seeds");
    let with = standing(&ours).await;
    let page = jo.get("/clubs").await;
    let code = page.all("form").len();
    assert!(code >= 4);
    let action = |page: &Page, end: &str| {
        let html = page.html();
        let all = html
            .select(&"form".try_into().unwrap())
            .filter_map(|f| f.attr("action"))
            .map(str::to_owned)
            .collect::<Vec<_>>();
        all.into_iter().find(|a| a.ends_with(end)).unwrap()
    };
    jo.submit(&page, &action(&page, "/use"), &[]).await.says("left out");
    assert_eq!(standing(&ours).await.standing, before.standing, "as if it was never there");
    jo.get("/table").await.says_not("other club");
    let page = jo.get("/clubs").await;
    jo.submit(&page, &action(&page, "/use"), &[]).await.says_not("left out");
    assert_eq!(standing(&ours).await.standing, with.standing);

    // a newer file of the same club takes the place of the older one
    rooted_by_day(&theirs, &kim, ("Ember", "Hollin"), 20, 6).await;
    let page = look(&jo, &saved(&kim, &[]).await).await;
    page.says("It takes the place of the table").says("260 seeds in 13 bags");
    jo.submit(&page, "/clubs/import/confirm", &[]).await.says("260 seeds").says_not("240 seeds");

    let page = jo.get("/clubs").await;
    let remove = action(&page, "/remove");
    jo.submit(&page, &remove, &[]).await;
    assert_eq!(jo.get("/clubs").await.all("section.entry").len(), 1, "not without a tick");
    jo.submit(&page, &remove, &[("sure", "yes")]).await.says("is gone").says("None yet");
    assert_eq!(standing(&ours).await.standing, before.standing);
}

#[tokio::test]
async fn names_of_another_club_are_matched_by_spelling_and_by_hand() {
    let (ours, jo) = club(["JB", "JK"], [[16, 12], [15, 10]]).await;
    let theirs = Club::new().await;
    let kim = theirs.organiser("Kim", "KB").await;
    rooted_by_day(&theirs, &kim, ("EMBER", "testwood seeds"), 20, 11).await;
    rooted_by_day(&theirs, &kim, ("Kestrell", "Hollins"), 20, 12).await;
    theirs.pass_days(15);
    let page = look(&jo, &saved(&kim, &[]).await).await;
    assert_eq!(page.all("fieldset legend"), ["The variety Kestrell", "The source Hollins"]);
    page.says("as Ember, Testwood Seeds");
    let answers = [("variety:pepper:kestrell", "Kestrel"), ("source:hollins", "")];
    jo.submit(&page, "/clubs/import/confirm", &answers).await.says("40 seeds");
    standing(&ours).await;
    jo.get("/table/variety?kind=pepper&variety=Ember").await.says("with 20 seeds of 1 other club");
    let kestrel = jo.get("/table/variety?kind=pepper&variety=Kestrel").await;
    kestrel.says("Hollins").says("none of ours; 20 seeds of 1 other club");
}

#[tokio::test]
async fn a_file_that_was_tampered_with_is_refused() {
    let (_ours, jo) = club(["JB", "JK"], [[16, 12], [15, 10]]).await;
    let theirs = Club::new().await;
    let kim = theirs.organiser("Kim", "KB").await;
    rooted_by_day(&theirs, &kim, ("Ember", "Hollin"), 20, 11).await;
    theirs.pass_days(15);
    let file = saved(&kim, &[]).await;
    let (head, counts) = (part(&file, "datapackage.json"), part(&file, "counts.csv"));
    let packed = |head: &str, counts: &str| {
        zip(&[("datapackage.json", head.as_bytes()), ("counts.csv", counts.as_bytes())])
    };
    let signed = |counts: &str| {
        let digest = |text: &str| {
            use sha2::Digest;
            data_encoding::HEXLOWER.encode(&sha2::Sha256::digest(text.as_bytes()))
        };
        packed(&head.replace(&digest(&part(&file, "counts.csv")), &digest(counts)), counts)
    };
    let more = counts.replacen(",20,", ",8,", 1);
    assert_ne!(more, counts);
    let installation = head.split("\"installation\": \"").nth(1).unwrap()[..32].to_owned();
    for (file, why) in [
        (b"hello".to_vec(), "not the shared table"),
        (zip(&[("counts.csv", counts.as_bytes())]), "not the shared table of a club"),
        (packed("{", &counts), "damaged"),
        (packed("{}", &counts), "does not name its club"),
        (packed(&head.replace(&installation, "../../etc"), &counts), "which installation"),
        (packed(&head.replace("2026", "2126"), &counts), "a day in the future"),
        (packed(&head, &more), "changed or damaged"),
        (zip(&[("datapackage.json", head.as_bytes())]), "no counts.csv"),
    ] {
        let page = look(&jo, &file).await;
        page.refuses("file", why);
    }
    for (counts, why) in [
        (more, "more seeds rooted"),
        (counts.replace("Ember", "<b>\u{7}"), "cannot be printed"),
        (counts.replace("2026-", "2126-"), "in the future"),
        (counts.replace("hours", "hrs"), "this column is missing"),
        (counts.replace("Ember", "!!"), "is no name"),
    ] {
        let page = look(&jo, &signed(&counts)).await;
        assert_eq!(page.status, StatusCode::UNPROCESSABLE_ENTITY);
        assert!(page.all(".flash li").iter().any(|f| f.contains(why)), "{why}: {}", page.text());
    }
    let html = signed(&counts.replace("Ember", "<script>alert(1)</script>"));
    let page = look(&jo, &html).await;
    assert!(page.status == StatusCode::OK && !page.body.contains("<script>alert"), "{}", page.body);
    look(&jo, &saved(&jo, &[]).await).await.refuses("file", "our own club");
    assert_eq!(jo.get("/clubs").await.all("section.entry").len(), 0);
}
