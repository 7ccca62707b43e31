use super::{Answer, Shed, counted, save_id, token};
use axum::http::StatusCode;
use serde_json::{Value, json};
use std::collections::BTreeSet;

/// Every item of a list, following `next`; and how many pages that took.
async fn all(s: &Shed, path: &str) -> (Vec<Value>, usize) {
    let (mut items, mut pages, mut next) = (Vec::new(), 0, path.to_owned());
    loop {
        let page: Answer = s.get(&next).await;
        assert_eq!(page.status, StatusCode::OK, "{next}: {page:?}");
        items.extend(page.json["items"].as_array().unwrap().iter().cloned());
        pages += 1;
        let Some(to) = page.json["next"].as_str() else {
            assert_eq!(page.header("link"), "");
            return (items, pages);
        };
        assert_eq!(page.header("link"), format!("<{to}>; rel=\"next\""));
        next = to.to_owned();
    }
}

#[tokio::test]
async fn lists_come_a_page_at_a_time_each_thing_once() {
    let s = Shed::new().await;
    for n in 0..13 {
        s.club.packet(&s.jo, &format!("Variety {n}"), 10).await;
    }
    let (whole, pages) = all(&s, "/api/v1/packets").await;
    assert_eq!((whole.len(), pages), (14, 1));
    for limit in [1, 3, 7, 13, 14, 200] {
        let (items, pages) = all(&s, &format!("/api/v1/packets?limit={limit}")).await;
        assert_eq!(items, whole, "by {limit}");
        assert_eq!(pages, 14usize.div_ceil(limit), "by {limit}");
    }
    let ids: BTreeSet<&str> = whole.iter().map(|p| p["id"].as_str().unwrap()).collect();
    assert_eq!(ids.len(), 14);
}

#[tokio::test]
async fn what_is_added_meanwhile_comes_once_at_the_end() {
    let s = Shed::new().await;
    s.club.packet(&s.jo, "Second", 10).await;
    let first = s.get("/api/v1/packets?limit=1").await.json;
    s.club.packet(&s.jo, "Third", 10).await;
    let (rest, _) = all(&s, first["next"].as_str().unwrap()).await;
    let names: Vec<&str> = rest.iter().map(|p| p["variety"].as_str().unwrap()).collect();
    assert_eq!((first["items"][0]["variety"].as_str(), names), (Some("Kestrel"), vec!["Second", "Third"]));
}

#[tokio::test]
async fn every_list_can_be_read_one_by_one() {
    let s = Shed::new().await;
    s.post(&s.of_bag("/counts"), &counted(1, 2)).await;
    let tally = json!({ "id": save_id(2), "sank": 30, "floated": 0 });
    s.post(&format!("/api/v1/trials/{}/tallies", s.trial), &tally).await;
    let up = json!({ "id": save_id(3), "up": 1 });
    s.post(&format!("/api/v1/plantings/{}/outcomes", s.planting), &up).await;
    let lists: [(&str, usize); 13] = [
        ("/api/v1/due", 2),
        ("/api/v1/packets", 1),
        ("/api/v1/trials", 1),
        ("/api/v1/bags?open=yes", 1),
        ("/api/v1/trays", 1),
        ("/api/v1/counts", 3),
        ("/api/v1/tallies", 1),
        ("/api/v1/outcomes", 1),
        (&format!("/api/v1/trays/{}/plantings", s.tray), 1),
        (&format!("/api/v1/packets/{}/entries", s.packet), 2),
        (&s.of_bag("/entries"), 7),
        (&format!("/api/v1/trials/{}/entries", s.trial), 3),
        (&format!("/api/v1/plantings/{}/entries", s.planting), 2),
    ];
    for (path, least) in lists {
        let (whole, _) = all(&s, path).await;
        assert!(whole.len() >= least, "{path}: {} of {least}: {whole:?}", whole.len());
        let sign = if path.contains('?') { '&' } else { '?' };
        let (items, pages) = all(&s, &format!("{path}{sign}limit=1")).await;
        assert_eq!((items, pages), (whole.clone(), whole.len()), "{path}");
    }
    let (kinds, _) = all(&s, "/api/v1/kinds?limit=10").await;
    let pepper = kinds.iter().find(|k| k["id"] == "pepper").unwrap();
    assert_eq!(pepper["final_count_day"], 14, "7 CFR 201.58 Table 2");
    assert_eq!(&s.get("/api/v1/kinds/pepper").await.json, pepper);
}

#[tokio::test]
async fn a_bag_is_told_as_its_page_tells_it() {
    let s = Shed::new().await;
    let bag = s.bag().await;
    assert_eq!((&bag["rooted"], &bag["on_paper"], &bag["waiting"]), (&json!(4), &json!(5), &json!(3)));
    assert_eq!((&bag["mark"], &bag["day"], &bag["warmth_c"]), (&json!("JB 1 a"), &json!(3), &json!(28.0)));
    s.jo.get(&format!("/bags/{}", s.bag))
        .await
        .says("5 seeds still on paper, day 3 on paper, 4 rooted, 3 not planted");
    let due = s.get("/api/v1/due").await.json;
    let whats: Vec<&str> =
        due["items"].as_array().unwrap().iter().map(|d| d["what"].as_str().unwrap()).collect();
    assert_eq!(whats, ["step", "plant"], "looked at today");
    s.club.pass_days(1);
    let due = s.get("/api/v1/due").await.json;
    let look = due["items"].as_array().unwrap().iter().find(|d| d["what"] == "look").unwrap().clone();
    assert_eq!((&look["seeds"], &look["due"]), (&json!(5), &json!("2026-03-07T00:00:00+01:00")));
}

#[tokio::test]
async fn the_club_table_is_everybodys_and_things_are_ones_own() {
    let s = Shed::new().await;
    let kim = s.club.grower("Kim", "KL").await;
    let hers = token(&s.club, &kim, "read").await;
    s.club.pass_days(20);
    for path in ["packets", "trials", "bags", "trays", "counts", "due"] {
        let list = s.get_with(&hers, &format!("/api/v1/{path}")).await;
        assert_eq!(list.json["items"], json!([]), "{path}");
    }
    let table = s.get_with(&hers, "/api/v1/table?at=day&of=paper").await;
    let row = &table.json["items"][0];
    assert_eq!((&row["variety"], &row["source"]), (&json!("Kestrel"), &json!("Testwood Seeds")));
    assert_eq!((&row["rooted"], &row["seeds_on_paper"], &row["bags"]), (&json!(4), &json!(10), &json!(1)));
    s.get("/api/v1/table?of=everything").await.refuses("of", "choose one");
    s.get("/api/v1/table?season=soon").await.refuses("season", "A year, please");
}
