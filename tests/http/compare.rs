//! Source against source over HTTP: the numbers are those of the calculation, and none stands where there is none.

use crate::support::{Browser, Club, Page, rooted_by_day};
use axum::http::StatusCode;
use hilum::args;
use hilum::rates::standing::{latest, refresh};
use hilum_calc::analyse;
use serde_json::Value;

const EMBER: &str = "/table/variety?kind=pepper&variety=Ember";

/// What Ann, Bo and Cy found of (variety, source) with 20 seeds each; `None` where they had none.
async fn found(club: &Club, growers: &[&Browser; 3], place: (&str, &str), rooted: [Option<i64>; 3]) {
    for (by, rooted) in growers.iter().zip(rooted) {
        if let Some(rooted) = rooted {
            rooted_by_day(club, by, place, 20, rooted).await;
        }
    }
}

/// Hollin is better than Testwood Seeds with everybody; nobody had Overlea beside another.
async fn club() -> (Club, Browser) {
    let club = Club::new().await;
    let growers =
        [&club.grower("Ann", "AN").await, &club.grower("Bo", "BO").await, &club.grower("Cy", "CY").await];
    let dee = club.grower("Dee", "DE").await;
    for _ in 0..2 {
        found(&club, &growers, ("Ember", "Hollin"), [Some(18), Some(17), Some(19)]).await;
        found(&club, &growers, ("Ember", "Testwood Seeds"), [Some(9), Some(8), Some(10)]).await;
        found(&club, &growers, ("Dusk", "Hollin"), [Some(15), Some(14), None]).await;
        found(&club, &growers, ("Dusk", "Testwood Seeds"), [Some(14), None, Some(15)]).await;
        found(&club, &growers, ("Wren", "Hollin"), [Some(12), Some(11), None]).await;
        found(&club, &growers, ("Wren", "Testwood Seeds"), [None, Some(10), Some(12)]).await;
        rooted_by_day(&club, &dee, ("Ember", "Overlea"), 20, 19).await;
    }
    club.pass_days(15);
    refresh(&club.app).await.unwrap();
    let reader = club.organiser("Lea", "LE").await;
    (club, reader)
}

/// What `hilum analyse` makes of the same bags.
async fn analysed(by: &Browser) -> Value {
    let counts = by.get("/counts.csv").await.body;
    let options = analyse::Options { of: hilum_calc::table::Of::Paper, ..analyse::Options::default() };
    analyse::run(&counts, options).unwrap().json()
}

fn percent(share: &Value) -> String {
    format!("{}", (share.as_f64().unwrap() * 100.0).round())
}

fn span(of: &Value) -> String {
    format!("{} % ({} to {})", percent(&of["rate"]), percent(&of["low"]), percent(&of["high"]))
}

#[tokio::test]
async fn the_answer_says_which_to_buy_how_sure_and_what_cannot_be_compared() {
    let (club, lea) = club().await;
    let page = lea.get(EMBER).await;
    assert_eq!(page.all(".answer"), ["Buy Hollin again: it roots better than Testwood Seeds."]);
    page.says("Hollin roots better than Testwood Seeds:").says("chance 99 %");
    page.says("Growers who had both (3 growers) found the same:");
    page.says("Overlea (grown by Dee) cannot be compared with Hollin or Testwood Seeds");
    page.says("no grower, nor a chain of growers, had both");
    page.says("Group 2 of 2: stands alone");
    let set_up = "Set up a ring trial of Ember";
    assert_eq!(page.link(set_up), "/rings/new", "no seed is left to test");
    for source in ["Hollin", "Overlea"] {
        club.packet_from(&lea, "Ember", source, 40).await;
    }
    let new = lea.get(&lea.get(EMBER).await.link(set_up)).await;
    new.says("Ring trial of Ember, pepper").says("Hollin").says("Overlea");
    let eve = club.grower("Eve", "EV").await;
    eve.get(EMBER).await.says("ask an organiser for one").says_not("Set up a ring trial");
    assert_eq!(
        page.all("table[aria-label] tbody tr, caption").len(),
        3,
        "two charts' tables and one of pairs"
    );
    let pairs: Vec<String> = page.all("tbody th").into_iter().filter(|t| t.contains("against")).collect();
    assert_eq!(pairs, ["Hollin against Testwood Seeds"], "nothing is said of a pair that is not linked");
}

#[tokio::test]
async fn numbers_are_those_of_the_calculation() {
    let (club, lea) = club().await;
    let json = analysed(&lea).await;
    let table = lea.get("/table").await;
    let page = lea.get(EMBER).await;
    for row in json["table"].as_array().unwrap() {
        let adjusted = span(&row["adjusted"]);
        table.says(&adjusted);
        if row["variety"] == "Ember" {
            page.says(&adjusted);
        }
    }
    let of = |p: &&Value| p["variety"] == "Ember" && p["linked"] == true;
    let pair = json["pairs"].as_array().unwrap().iter().find(of).unwrap();
    let rate = |source| {
        let row = json["table"]
            .as_array()
            .unwrap()
            .iter()
            .find(|r| r["variety"] == "Ember" && r["source"] == source);
        row.unwrap()["adjusted"]["rate"].as_f64().unwrap()
    };
    let (a, b) = (rate("Hollin"), rate("Testwood Seeds"));
    let (logit, expit) = (|p: f64| (p / (1.0 - p)).ln(), |x: f64| 1.0 / (1.0 + (-x).exp()));
    let middle = (logit(a) + logit(b)) / 2.0;
    let within = ["log_odds_ratio", "low", "high"].map(|name| {
        let ratio = pair["within_growers"][name].as_f64().unwrap();
        (100.0 * (expit(middle + ratio / 2.0) - expit(middle - ratio / 2.0))).round()
    });
    page.says(&format!("{} more of 100 seeds ({} to {}), 3 growers", within[0], within[1], within[2]));
    let kept = latest(&club.app, false).await.unwrap().unwrap();
    let whole = kept.standing.pairs.iter().find(|p| p.variety == "Ember" && p.linked).unwrap().whole.unwrap();
    let [value, low, high] =
        [whole.difference.value, whole.difference.low, whole.difference.high].map(|x| (100.0 * x).round());
    assert_eq!(value, (100.0 * (a - b)).round());
    page.says(&format!("{value} more of 100 seeds ({low} to {high}), chance 99 %"));
}

#[tokio::test]
async fn no_difference_is_said_as_such_with_the_seeds_to_show_one() {
    let (_club, lea) = club().await;
    let page = lea.get("/table/variety?kind=pepper&variety=Dusk").await;
    let lead = page.all(".answer").concat();
    assert!(lead.starts_with("No difference shown between"), "{lead}");
    page.says("To show a difference of 10 in 100 it would take about").says("seeds of each");
    page.says("If anything,");
}

#[tokio::test]
async fn a_filter_on_growers_seasons_or_routines_hides_the_adjusted_column() {
    let (club, lea) = club().await;
    let shown = |page: &Page| page.all("[data-label=Adjusted]").len();
    assert_eq!(shown(&lea.get("/table").await), 7);
    assert_eq!(shown(&lea.get("/table?kind=pepper&of=paper&at=close").await), 7);
    let dee = club.grower("Ed", "ED").await.id().0.clone();
    for filter in ["season=2026", "routine=r-dry", &format!("grower={dee}")] {
        let page = lea.get(&format!("/table?{filter}")).await;
        assert_eq!(shown(&page), 0, "{filter}");
        page.says("they come from the whole club at once");
        assert!(!page.all("thead th").contains(&"Adjusted".to_owned()), "{filter}");
    }
    let down = lea.get("/table?sort=adjusted&way=down").await;
    let rates: Vec<i64> =
        down.all("[data-label=Adjusted] b").iter().map(|t| t[..2].parse().unwrap()).collect();
    assert!(rates.is_sorted_by(|a, b| a >= b) && rates[0] > rates[6], "{rates:?}");
}

#[tokio::test]
async fn a_source_has_a_page_across_its_varieties() {
    let (_club, lea) = club().await;
    let table = lea.get("/table").await;
    let page = lea.get(&table.link("Testwood Seeds")).await;
    assert_eq!(page.all("tbody th"), ["Dusk", "Ember", "Wren"]);
    page.says("fewer of 100 seeds than Hollin");
    page.says("Cannot be compared with Overlea");
    let overlea = lea.get("/table/source?source=Overlea").await;
    overlea.says("Cannot be compared with Hollin or Testwood Seeds").says_not("than Hollin");
    assert_eq!(lea.get("/table/source?source=Nobody").await.status, StatusCode::NOT_FOUND);
    assert_eq!(lea.get("/table/source").await.status, StatusCode::NOT_FOUND);
}

#[tokio::test]
async fn unknown_names_are_not_found_and_odd_ones_are() {
    let club = Club::new().await;
    let (ann, bo) = (club.grower("Ann", "AN").await, club.grower("Bo", "BO").await);
    let (variety, source) = ("A/B \"Ø & <Ñandú>\"?x=1#y", "Seeds & Sons 50% + 'more'");
    for by in [&ann, &bo] {
        rooted_by_day(&club, by, (variety, source), 20, 15).await;
        rooted_by_day(&club, by, (variety, "Hollin"), 20, 12).await;
    }
    club.pass_days(15);
    refresh(&club.app).await.unwrap();
    let table = ann.get("/table").await;
    let page = ann.get(&table.link(variety)).await;
    page.says(variety).says(source);
    assert_eq!(page.all("svg .name").len(), 2);
    ann.get(&page.link(source)).await.says(source).says(variety);
    ann.get("/table/report").await.says(variety);
    for path in
        ["/table/variety", "/table/variety?kind=pepper&variety=Dusk", "/table/variety?kind=leek&variety=A"]
    {
        assert_eq!(ann.get(path).await.status, StatusCode::NOT_FOUND, "{path}");
    }
}

#[tokio::test]
async fn a_club_with_nothing_has_nothing_to_compare() {
    let club = Club::new().await;
    let ann = club.grower("Ann", "AN").await;
    for path in ["/table", "/table/care", "/table/report"] {
        ann.get(path).await.says("being compared for the first time");
    }
    refresh(&club.app).await.unwrap();
    for path in ["/table", "/table/care", "/table/report"] {
        ann.get(path).await.says("No bag has come to its standard day yet, so there is nothing to compare.");
    }
}

#[tokio::test]
async fn what_nobody_varied_has_no_number_but_advice() {
    let (_club, lea) = club().await;
    let page = lea.get("/table/care").await;
    page.says("Does the routine help? Nobody has tried it both ways yet")
        .says("Split one packet into paired trials");
    page.says("Do floaters root? Nobody has tried it both ways yet").says_not("of 100 seeds (");
}

#[tokio::test]
async fn what_growers_varied_is_told_within_them() {
    let (club, lea) = club().await;
    let mut conn = club.app.db.write().await.unwrap();
    let sql = "UPDATE bags SET warmth_c = 22 WHERE id IN
        (SELECT MIN(b.id) FROM bags b JOIN trials t ON t.id = b.trial_id GROUP BY t.packet_id, t.owner_id)
        AND id IN (SELECT id FROM bags ORDER BY id LIMIT 12)";
    conn.run(sql, args![]).await.unwrap();
    conn.run("UPDATE packets SET lot_changes = lot_changes + 1", args![]).await.unwrap();
    conn.commit().await.unwrap();
    assert!(refresh(&club.app).await.unwrap());
    let page = lea.get("/table/care").await;
    page.says("Each 5 °C warmer:").says("of 100 seeds").says("growers who varied it");
}

#[tokio::test]
async fn the_report_holds_every_variety_with_two_sources() {
    let (club, lea) = club().await;
    rooted_by_day(&club, &lea, ("Lone", "Hollin"), 20, 12).await;
    club.pass_days(15);
    refresh(&club.app).await.unwrap();
    let page = lea.get("/table/report?paper=letter").await;
    assert_eq!(page.all(".sheet.letter").len(), 1);
    let heads = page.all(".entry h3");
    assert_eq!(heads.len(), 3, "{heads:?}");
    page.says("Ember: Buy Hollin again").says("1 more variety was tried from one source only.");
    page.says("How to read this").says("As of ").says_not("As of today");
    assert_eq!(lea.get("/table/report?paper=a4").await.all(".sheet.a4").len(), 1);
}

#[tokio::test]
async fn floaters_thrown_out_are_policy_with_a_bound_beside() {
    let (club, lea) = club().await;
    lea.get(EMBER).await.says_not("Floaters were thrown out");
    let mut conn = club.app.db.write().await.unwrap();
    let sql = "UPDATE trials SET thrown_out = 5 WHERE id IN (SELECT t.id FROM trials t JOIN packets p ON p.id = t.packet_id
        WHERE p.lot_id = 'l-Ember-Hollin')";
    conn.run(sql, args![]).await.unwrap();
    conn.run("UPDATE packets SET lot_changes = lot_changes + 1", args![]).await.unwrap();
    conn.commit().await.unwrap();
    refresh(&club.app).await.unwrap();
    let adjusted = analysed(&lea).await["table"].as_array().unwrap().iter().find_map(|row| {
        (row["variety"] == "Ember" && row["source"] == "Hollin")
            .then(|| row["adjusted"]["rate"].as_f64().unwrap())
    });
    // 20 of the 25 seeds that each trial started went on paper
    let bound = (adjusted.unwrap() * 0.8 * 100.0).round();
    lea.get(EMBER)
        .await
        .says(&format!("in 6 trials: if none of them would have rooted, the adjusted rate is {bound} %"));
}
