//! The calculators over HTTP: answers against the expected values, the club's own numbers, bad input.

use crate::support::{Browser, Club, Page};
use axum::http::StatusCode;
use hilum::args;
use serde_json::Value;
use std::time::{Duration, Instant};

const SOWING: &str = "/calculators/sowing";
const COMPARISON: &str = "/calculators/comparison";

async fn ask(by: &Browser, path: &str, pairs: &[(&str, &str)]) -> Page {
    by.get(&format!("{path}?{}", serde_html_form::to_string(pairs).unwrap())).await
}

fn cases(text: &str) -> Vec<Value> {
    serde_json::from_str::<Value>(text).unwrap()["cases"].as_array().unwrap().clone()
}

/// Every case of tests/reference/oracles/m7_sowing.json (scipy 1.17.1: binom, betabinom) but those of seeds to a cell.
#[tokio::test]
async fn sowing_answers_the_expected_numbers() {
    let club = Club::new().await;
    let ann = club.grower("Ann", "AN").await;
    let mut asked = 0;
    for case in cases(include_str!("../reference/oracles/m7_sowing.json")) {
        let input = &case["input"];
        let percent = |name: &str| (input[name].as_f64().unwrap() * 100.0).to_string();
        let plain = |name: &str| input[name].to_string();
        let mut pairs = vec![("plants", plain("k")), ("certainty", percent("conf"))];
        match input["kind"].as_str().unwrap() {
            "known" => pairs.push(("rate", percent("p"))),
            "beta" => pairs.extend([("rooted", plain("x")), ("tested", plain("n"))]),
            "two_stage" => pairs.extend([
                ("rooted", plain("x1")),
                ("tested", plain("n1")),
                ("grown", plain("x2")),
                ("planted", plain("n2")),
            ]),
            "two_stage_known" => pairs.extend([("rate", percent("p1")), ("onward", percent("p2"))]),
            _ => continue,
        }
        let pairs: Vec<(&str, &str)> = pairs.iter().map(|(n, v)| (*n, v.as_str())).collect();
        let page = ask(&ann, SOWING, &pairs).await;
        let expected = &case["expected"];
        page.says(&format!("Soak {} seeds.", expected["n"]));
        let chance = |name: &str| (expected[name].as_f64().unwrap() * 100.0).round();
        page.says(&format!("about {} would give", chance("probability")));
        page.says(&format!("it would be about {}.", chance("probability_one_fewer")));
        asked += 1;
    }
    assert_eq!(asked, 10);
}

#[tokio::test]
async fn a_known_rate_is_asked_tested_and_explained() {
    let club = Club::new().await;
    let ann = club.grower("Ann", "AN").await;
    let page = ann.get("/calculators").await;
    assert_eq!(page.link("Mixing"), "/mix");
    let page = ann.get(&page.link("How many to sow")).await;
    page.says_not("Where the numbers came from").says_not("No answer yet");
    let page = ann.submit(&page, SOWING, &[("plants", "10"), ("rate", "80")]).await;
    // 13 seeds give 10 plants or more in 0.7473: scipy 1.17.1, binom.sf(9, 13, 0.8)
    page.says("Soak 15 seeds.").says("By hand, 10 ÷ 80 % = 13 seeds").says("only about 75 of 100");
    page.says("your rate, taken as certain").says("every rooted seed is taken for a plant");
    let rows = page.all("table.list tbody tr");
    // binom.sf(9, n, 0.8): 14 seeds 0.8702, 15 seeds 0.9389, 16 seeds 0.9733
    assert_eq!(rows, ["80 % 14 11", "90 % 15 12", "95 % 16 13"]);
}

#[tokio::test]
async fn the_clubs_own_numbers_fill_in() {
    let club = Club::new().await;
    let ann = club.grower("Ann", "AN").await;
    let packet = club.packet(&ann, "Ember", 40).await;
    let trial = club.trial(&ann, &packet, 20).await;
    let bag = club.bag(&ann, &trial, 20).await;
    club.pass_days(10);
    club.look(&ann, &bag, 16, 0).await;
    club.pass_days(4);
    club.look(&ann, &bag, 0, 0).await;
    let page = ann.get(SOWING).await;
    let from = "pepper / Ember / Testwood Seeds";
    page.says("Ember, Testwood Seeds: 80 % of 20 seeds");
    // m7_sowing.json, kind=beta k=10 x=16 n=20 conf=0.9: one trial has design effect 1, so 20 seeds count as 20
    let page = ann.submit(&page, SOWING, &[("plants", "10"), ("from", from)]).await;
    page.says("Soak 16 seeds.").says("a test of 20 seeds of which 16 rooted").says("1 bag by 1 grower");
    let both = ann.submit(&page, SOWING, &[("rate", "80")]).await;
    both.refuses("from", "Either the club's numbers or your own");
    assert!(both.body.contains(r#"value="80""#), "what was typed stays");
    ask(&ann, SOWING, &[("plants", "10"), ("from", "pepper / Gone / Nobody")])
        .await
        .refuses("from", "not in the club table");
    in_cells(&club, &ann, &bag.0).await;
    let page = ask(&ann, SOWING, &[("plants", "10"), ("from", from)]).await;
    page.says("every rooted seed is taken for a plant");
    club.pass_days(21);
    let page = ask(&ann, SOWING, &[("plants", "10"), ("from", from)]).await;
    // of 3 + 2 seeds: 2 up and 1 lost; 1 up and 1 of which nobody knows yet
    page.says("where 3 of 4 rooted seeds of it").says("over rooting and then growing on");
}

/// Two plantings of 3 and 2 rooted seeds, with what became of them.
async fn in_cells(club: &Club, by: &Browser, bag: &str) {
    let now = club.app.now();
    let mut conn = club.app.db.write().await.unwrap();
    let sql = "INSERT INTO marks (key, shown, thing, thing_id, made_at) VALUES ('ANT1', 'AN T1', 'tray', 'tray', $1)";
    conn.run(sql, args![now]).await.unwrap();
    let sql = "INSERT INTO trays (id, owner_id, mark_key, mark, name, tray_rows, tray_cols, place, made_at, version)
        VALUES ('tray', $1, 'ANT1', 'AN T1', '', 2, 3, '', $2, 1)";
    conn.run(sql, args![by.id(), now]).await.unwrap();
    for (id, cell, seeds, up, lost) in [("one", 1_i64, 3_i64, 2_i64, 1_i64), ("two", 2, 2, 1, 0)] {
        let sql =
            "INSERT INTO plantings (id, tray_id, cell, bag_id, unrooted, planted_at, voided, seeds, up, lost,
            thinned, potted, end_why) VALUES ($1, 'tray', $2, $3, FALSE, $4, FALSE, $5, $6, $7, 0, 0, '')";
        conn.run(sql, args![id, cell, bag, now, seeds, up, lost]).await.unwrap();
    }
    conn.commit().await.unwrap();
}

/// Every case of tests/reference/oracles/m8_power.json (R 4.2.2 power.prop.test; exact power by enumeration, scipy).
#[tokio::test]
async fn comparisons_answer_the_expected_numbers() {
    let club = Club::new().await;
    let ann = club.grower("Ann", "AN").await;
    for case in cases(include_str!("../reference/oracles/m8_power.json")) {
        let (input, expected) = (&case["input"], &case["expected"]);
        let percent = |name: &str| (input[name].as_f64().unwrap() * 100.0).round().to_string();
        let or = |name: &str, value: &str| match &input[name] {
            Value::Null => value.to_owned(),
            given => given.to_string(),
        };
        let pairs = [
            ("one", percent("p1")),
            ("other", percent("p2")),
            ("certainty", percent("power")),
            ("bag", or("bag", "1")),
            ("alike", or("rho", "0")),
        ];
        let pairs: Vec<(&str, &str)> = pairs.iter().map(|(n, v)| (*n, v.as_str())).collect();
        let page = ask(&ann, COMPARISON, &pairs).await;
        let methods = page.all("dl.facts dd");
        let wanted = ["n_normal_ceil", "n_corrected_ceil", "n_fisher_stays"].map(|n| expected[n].to_string());
        assert_eq!(methods, wanted, "{pairs:?}");
        if let Some(bags) = expected["bags_per_group"].as_u64() {
            page.says(&format!("{bags} bags of {} seeds from each source.", input["bag"]));
            page.says(&format!("({} would do", expected["n_with_design_effect"]));
            page.says("2.9 seeds here tell as much as 1 seed alone").says("That is a lot.");
        }
    }
}

#[tokio::test]
async fn a_comparison_says_what_it_means_and_what_it_guesses() {
    let club = Club::new().await;
    let ann = club.grower("Ann", "AN").await;
    let page = ann.get(COMPARISON).await;
    page.says("Your club has too few trials yet").says_not("from each source.");
    let page =
        ann.submit(&page, COMPARISON, &[("one", "30"), ("other", "90"), ("alike", "0"), ("bag", "6")]).await;
    page.says("of 100 such comparisons about 80 find the difference and 20 miss it");
    page.says("about 5 find one that is not there").says_not("That is a lot");
    let equal = ann.submit(&page, COMPARISON, &[("other", "30")]).await;
    equal.refuses("other", "half a per cent apart");
    assert!(club.stranger().get(COMPARISON).await.path.starts_with("/sign-in"));
}

#[tokio::test]
async fn what_cannot_be_is_said_beside_its_field() {
    let club = Club::new().await;
    let ann = club.grower("Ann", "AN").await;
    let good = [("plants", "10"), ("certainty", "90")];
    let with = |more: &[(&'static str, &'static str)]| {
        let mut pairs: Vec<(&str, &str)> =
            good.iter().copied().filter(|g| more.iter().all(|m| m.0 != g.0)).collect();
        pairs.extend(more);
        pairs
    };
    for (more, field, error) in [
        (&[("rate", "86"), ("rooted", "3"), ("tested", "4")][..], "rate", "not both"),
        (&[("rooted", "5"), ("tested", "4")][..], "rooted", "more than there were"),
        (&[("rooted", "5")][..], "tested", "Of how many?"),
        (&[("tested", "5")][..], "rooted", "How many of them?"),
        (&[("rooted", "0"), ("tested", "0")][..], "tested", "at least 1"),
        (&[][..], "rate", "Give a rate"),
        (&[("rate", "86"), ("planted", "4"), ("grown", "9")][..], "grown", "more than there were"),
        (&[("rate", "86"), ("certainty", "100")][..], "certainty", "from 50 to 99.9"),
        (&[("rate", "86"), ("plants", "")][..], "plants", "give a number"),
        (&[("rate", "86"), ("plants", "1000000000")][..], "plants", "from 1 to 100000"),
    ] {
        let page = ask(&ann, SOWING, &with(more)).await;
        page.refuses(field, error);
        assert!(page.text().contains("No answer yet."));
        for (_, value) in more.iter().filter(|m| !m.1.is_empty()) {
            assert!(page.body.contains(&format!("value=\"{value}\"")), "{value} stays: {more:?}");
        }
    }
}

/// Neither page hangs or breaks, whatever is in whichever field.
#[tokio::test]
async fn hostile_values_are_answered_at_once() {
    let club = Club::new().await;
    let ann = club.grower("Ann", "AN").await;
    let hostile = [
        "1e308",
        "-1e308",
        "NaN",
        "inf",
        "-1",
        "",
        "1000000000",
        "99999999999999999999",
        "0",
        "1e-300",
        "<b>",
    ];
    let sowing = [("plants", "10"), ("certainty", "90"), ("rooted", "8"), ("tested", "10"), ("onward", "90")];
    let comparison = [("one", "80"), ("other", "90"), ("certainty", "80"), ("bag", "10"), ("alike", "0.1")];
    for (path, usual) in [(SOWING, &sowing[..]), (COMPARISON, &comparison[..])] {
        for (i, (field, _)) in usual.iter().enumerate() {
            for value in hostile {
                let mut pairs = usual.to_vec();
                pairs[i].1 = value;
                let page = answered(&ann, path, &pairs).await;
                assert!(!page.body.contains("<b>\""), "{field}={value}");
            }
        }
    }
    let most = [("plants", "100000"), ("certainty", "99.9"), ("rate", "0.1"), ("onward", "0.1")];
    answered(&ann, SOWING, &most).await.says("Up to 1000000000 no number of seeds is enough");
    let worst = [
        ("plants", "900"),
        ("certainty", "99.9"),
        ("rooted", "0"),
        ("tested", "1"),
        ("grown", "0"),
        ("planted", "1"),
    ];
    answered(&ann, SOWING, &worst).await.says("Up to 3000 no number of seeds is enough").says("out of reach");
    let near = [("one", "50"), ("other", "50.5"), ("certainty", "99"), ("bag", "100000"), ("alike", "1")];
    answered(&ann, COMPARISON, &near).await.says("That is a lot.");
}

async fn answered(by: &Browser, path: &str, pairs: &[(&str, &str)]) -> Page {
    let start = Instant::now();
    let page = ask(by, path, pairs).await;
    assert!(
        [StatusCode::OK, StatusCode::UNPROCESSABLE_ENTITY].contains(&page.status),
        "{pairs:?}: {}",
        page.text()
    );
    assert!(start.elapsed() < Duration::from_secs(5), "{pairs:?} took {:?}", start.elapsed());
    page
}

/// Twelve bags of 20, 10 and 18 rooted in turn: by hand 6 (10 x 10 + 18 x 2) / (12 x 20 x 19) = 0.1789 of the
/// ordered pairs of a bag are one rooted and one not, (168 x 72 - 816) / (12 x 11 x 20 x 20) = 0.2136 of those of
/// two bags: 1 - 0.1789 / 0.2136 = 0.162.
#[tokio::test]
async fn the_clubs_own_bags_say_how_unlike_they_are() {
    let club = Club::new().await;
    let ann = club.grower("Ann", "AN").await;
    for n in 0..12 {
        let packet = club.packet(&ann, "Ember", 20).await;
        let trial = club.trial(&ann, &packet, 20).await;
        let bag = club.bag(&ann, &trial, 20).await;
        let start = club.app.now();
        club.pass_days(14);
        club.look(&ann, &bag, if n % 2 == 0 { 10 } else { 18 }, 0).await;
        club.app.clock.set(start);
    }
    club.pass_days(14);
    let page = ann.get(COMPARISON).await;
    page.says("Your club's bags so far: 0.16.");
    let preset = page.form(COMPARISON).filled(&[]);
    for (name, value) in [("alike", "0.16"), ("bag", "20")] {
        assert!(preset.contains(&(name.into(), value.into())), "{preset:?}");
    }
    // 1 + 19 x 0.16
    ann.submit(&page, COMPARISON, &[])
        .await
        .says("4.0 seeds here tell as much as 1 seed alone")
        .says("has 240 seeds");
}
