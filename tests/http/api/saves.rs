use super::{Shed, counted, save_id};
use axum::http::StatusCode;
use futures_util::future::join_all;
use serde_json::{Value, json};

#[tokio::test]
async fn a_save_sent_again_and_again_counts_once_and_gets_the_same_answer() {
    let s = Shed::new().await;
    let path = s.of_bag("/counts");
    let first = s.post(&path, &counted(1, 2)).await;
    assert_eq!(first.status, StatusCode::CREATED, "{first:?}");
    assert_eq!(first.header("location"), s.of_bag(""));
    assert_eq!(first.json["location"], s.of_bag(""));
    assert_eq!(first.json["entries"][0]["what"], "look");
    assert_eq!(first.json["entries"][0]["bag"], s.bag.0);
    // the order of the fields is not part of the content
    let turned: Value = serde_json::from_str(&format!("{{\"rooted\":2,\"id\":\"{}\"}}", save_id(1))).unwrap();
    for body in [counted(1, 2), turned, counted(1, 2)] {
        let again = s.post(&path, &body).await;
        assert_eq!((again.status, &again.json), (StatusCode::OK, &first.json));
        assert_eq!(again.header("location"), first.header("location"));
    }
    assert_eq!(s.bag().await["rooted"], 6);
}

#[tokio::test]
async fn the_same_id_with_other_content_is_refused() {
    let s = Shed::new().await;
    let path = s.of_bag("/counts");
    assert_eq!(s.post(&path, &counted(1, 2)).await.status, StatusCode::CREATED);
    s.post(&path, &counted(1, 3)).await.is_problem(409, "id-taken");
    s.post(&s.of_bag("/events"), &json!({ "id": save_id(1), "happened": "damped" }))
        .await
        .is_problem(409, "id-taken");
    // the same words about another bag are other content
    let other = s.club.bag(&s.jo, &s.trial, 5).await;
    s.post(&format!("/api/v1/bags/{other}/counts"), &counted(1, 2)).await.is_problem(409, "id-taken");
    assert_eq!(s.bag().await["rooted"], 6);
    let untouched = s.get(&format!("/api/v1/bags/{other}")).await;
    assert_eq!(untouched.json["rooted"], 0);
}

#[tokio::test]
async fn a_count_by_form_and_by_api_with_one_key_counts_once() {
    let s = Shed::new().await;
    let form = format!("/bags/{}/count", s.bag);
    s.jo.post(&form, &[("key", &save_id(1)), ("rooted", "2")]).await.says("Counted 2 rooted");
    let by_api = s.post(&s.of_bag("/counts"), &counted(1, 2)).await;
    assert_eq!(by_api.status, StatusCode::OK, "the very same: {by_api:?}");
    assert_eq!(s.post(&s.of_bag("/counts"), &counted(2, 1)).await.status, StatusCode::CREATED);
    s.jo.post(&form, &[("key", &save_id(2)), ("rooted", "1")]).await.says("JB 1 a");
    assert_eq!(s.bag().await["rooted"], 7);
}

#[tokio::test]
async fn eight_at_once_count_once() {
    let s = Shed::new().await;
    let (path, body) = (s.of_bag("/counts"), counted(1, 2));
    let all = join_all((0..8).map(|_| s.post(&path, &body))).await;
    assert!(all.iter().all(|a| a.status.is_success()), "{all:?}");
    assert!(all.iter().all(|a| a.json == all[0].json));
    assert_eq!(s.bag().await["rooted"], 6);
}

#[tokio::test]
async fn nobody_saves_under_the_id_of_another_member() {
    let s = Shed::new().await;
    let kim = s.club.grower("Kim", "KL").await;
    let hers = super::token(&s.club, &kim, "record").await;
    let path = s.of_bag("/counts");
    assert_eq!(s.post(&path, &counted(1, 2)).await.status, StatusCode::CREATED);
    s.post_with(&hers, &path, &counted(1, 2)).await.is_problem(409, "id-taken");
    s.post_with(&hers, &path, &counted(2, 2)).await.is_problem(404, "not-found");
    assert_eq!(s.bag().await["rooted"], 6);
}

#[tokio::test]
async fn what_is_refused_says_where_and_can_be_mended_under_its_id() {
    let s = Shed::new().await;
    let path = s.of_bag("/counts");
    let refused = s.post(&path, &counted(1, 50)).await;
    refused.refuses("/there_were", "If the bag held 55 seeds from the start");
    let bad = |field: &str, value: Value| {
        let mut body = counted(1, 1);
        body[field] = value;
        body
    };
    s.post(&path, &bad("rooted", json!(-1))).await.refuses("/rooted", "from 0 to 100000");
    s.post(&path, &bad("rooted", json!("one"))).await.refuses("/rooted", "expected a whole number");
    s.post(&path, &bad("rotted", json!(1))).await.refuses("/rotted", "unknown field");
    s.post(&path, &bad("id", json!("short"))).await.refuses("/id", "32 hexadecimal digits");
    s.post(&path, &bad("at", json!("yesterday"))).await.refuses("/at", "offset from UTC");
    s.post(&path, &bad("at", json!("2031-01-01T00:00:00Z"))).await.refuses("/at", "in the future");
    s.post(&path, &json!({ "id": save_id(1) })).await.refuses("/rooted", "Type what is new");
    s.post(&path, &json!({ "rooted": 1 })).await.refuses("", "missing field `id`");
    assert_eq!(s.bag().await["rooted"], 4);
    assert_eq!(s.post(&path, &counted(1, 2)).await.status, StatusCode::CREATED);
}

#[tokio::test]
async fn a_count_is_of_the_moment_it_tells() {
    let s = Shed::new().await;
    let at = "2026-03-05T12:34:56+02:00";
    let body = json!({ "id": save_id(1), "at": at, "rooted": 1 });
    let saved = s.post(&s.of_bag("/counts"), &body).await;
    assert_eq!(saved.status, StatusCode::CREATED, "{saved:?}");
    let entries = s.get(&s.of_bag("/entries")).await;
    let wrote = saved.json["entries"][0]["id"].clone();
    let mut found = entries.json["items"].as_array().unwrap().iter().filter(|e| e["id"] == wrote);
    assert_eq!(found.next().unwrap()["at"], "2026-03-05T11:34:56+01:00");
    let early = json!({ "id": save_id(2), "at": "2026-03-01T00:00:00Z", "rooted": 1 });
    s.post(&s.of_bag("/counts"), &early).await.refuses("/at", "");
}

#[tokio::test]
async fn a_whole_season_goes_through_the_api() {
    let s = Shed::new().await;
    let post = async |path: &str, n: u32, mut body: Value| {
        body["id"] = json!(save_id(n));
        let answer = s.post(path, &body).await;
        assert_eq!(answer.status, StatusCode::CREATED, "{path}: {answer:?}");
        answer.json
    };
    let routines = s.get("/api/v1/routines").await.json;
    let dry = routines["items"].as_array().unwrap().last().unwrap()["id"].clone();
    let began = post("/api/v1/trials", 1, json!({ "packet": s.packet.0, "routine": dry, "seeds": 12 })).await;
    let trial = began["location"].as_str().unwrap().to_owned();
    assert_eq!(s.get(&trial).await.json["soaking"], 12);
    let tally = json!({ "sank": 10, "floated": 2, "floaters": "thrown out" });
    post(&format!("{trial}/tallies"), 2, tally).await;
    let paper = json!({ "bags": [{ "seeds": 10, "place": "mat", "warmth_c": 27.5 }] });
    let made = post(&format!("{trial}/bags"), 3, paper).await;
    let bag = made["entries"].as_array().unwrap().iter().find_map(|e| e["bag"].as_str()).unwrap();
    let bag = format!("/api/v1/bags/{bag}");
    s.club.pass_days(4);
    post(&format!("{bag}/counts"), 4, json!({ "rooted": 7, "dead": 1, "damped": true })).await;
    let planted =
        post(&format!("{bag}/plantings"), 5, json!({ "tray": s.tray.0, "seeds": 6, "per_cell": 2 })).await;
    let plantings: Vec<&str> =
        planted["entries"].as_array().unwrap().iter().filter_map(|e| e["planting"].as_str()).collect();
    post(&format!("{bag}/closings"), 6, json!({ "ending": "final count", "fresh": 2 })).await;
    s.club.pass_days(9);
    let up = post(&format!("/api/v1/plantings/{}/outcomes", plantings[0]), 7, json!({ "up": 2 })).await;
    let shown = s.get(up["location"].as_str().unwrap()).await.json;
    assert_eq!((&shown["up"], &shown["seeds"], &shown["cell"]), (&json!(2), &json!(2), &json!("B1")));
    let closed = s.get(&bag).await.json;
    assert_eq!(
        (&closed["rooted"], &closed["on_paper"], &closed["waiting"]),
        (&json!(7), &json!(0), &json!(1))
    );
    assert_eq!((&closed["ending"], &closed["warmth_c"]), (&json!("final count"), &json!(27.5)));
    let entry = up["entries"][0]["id"].as_str().unwrap();
    let void = format!("/api/v1/entries/{entry}/voids");
    post(&void, 8, json!({ "why": "wrong cell" })).await;
    let again = s.post(&void, &json!({ "id": save_id(8), "why": "wrong cell" })).await;
    assert_eq!(again.status, StatusCode::OK, "{again:?}");
    s.post(&void, &json!({ "id": save_id(9), "why": "twice" })).await.refuses("", "taken back already");
    assert_eq!(s.get(up["location"].as_str().unwrap()).await.json["up"], 0);
    let outcomes = s.get("/api/v1/outcomes").await.json;
    assert_eq!(outcomes["items"][0]["voided"], json!({ "by": "Jo", "why": "wrong cell" }));
    let breaches = hilum::upkeep::check::breaches(&s.club.app).await.unwrap();
    assert!(breaches.is_empty(), "{breaches:?}");
}

#[tokio::test]
async fn warmth_is_in_celsius_whatever_the_member_measures_in() {
    let s = Shed::new().await;
    let page = s.jo.get("/me").await;
    s.jo.submit(&page, "/me", &[("measures", "us")]).await.says("Saved");
    let moved = json!({ "id": save_id(1), "happened": "moved", "place": "sill", "warmth_c": 21.5 });
    assert_eq!(s.post(&s.of_bag("/events"), &moved).await.status, StatusCode::CREATED);
    assert_eq!(s.bag().await["warmth_c"], 21.5);
}

#[tokio::test]
async fn a_database_that_is_away_is_a_problem_to_come_back_for() {
    let s = Shed::new().await;
    s.club.app.db.close().await;
    for answer in [s.get(&s.of_bag("")).await, s.post(&s.of_bag("/counts"), &counted(1, 2)).await] {
        assert_eq!(answer.is_problem(503, "busy").header("retry-after"), "30");
    }
}
