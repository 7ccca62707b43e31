use super::Bench;
use axum::http::StatusCode;

#[tokio::test]
async fn a_holder_groups_bags_that_are_moved_and_damped_in_one_save() {
    let b = Bench::new().await;
    let other = b.club.bag(&b.jo, &b.trial, 5).await;
    let page = b.jo.get("/holders").await;
    b.jo.submit(&page, "/holders", &[("warmth", "hot")]).await.refuses("warmth", "A number, please");
    let made = b.jo.submit(&page, "/holders", &[("place", "shelf"), ("warmth", "22")]).await;
    made.says("Write JB H1 on the holder").says("0 open bags");
    assert_eq!(b.jo.submit(&page, "/holders", &[("place", "shelf"), ("warmth", "22")]).await.path, made.path);
    let path = made.path.clone();
    b.jo.submit(&made, &path, &[("what", "put in")]).await.refuses("bag", "Tick the bags");
    let first = [("what", "put in"), ("bag", b.bag.0.as_str())];
    b.jo.submit(&made, &path, &first).await.says("put in: 1 bag");
    let page = b.jo.get(&path).await;
    let second = [("what", "put in"), ("bag", other.0.as_str())];
    let inside = b.jo.submit(&page, &path, &second).await;
    inside.says("2 open bags");
    let s = b.sums().await;
    assert_eq!((s.place.as_str(), s.warmth_c), ("shelf", Some(22.0)), "a bag is where its holder is");
    b.jo.submit(&inside, &path, &[("what", "moved")]).await.refuses("place", "Give the place");
    b.jo.submit(&inside, &path, &[("what", "moved"), ("place", "mat 2")]).await.says("moved: 2 bags");
    assert_eq!(b.sums_of(&other).await.place, "mat 2");
    let page = b.jo.get(&path).await;
    b.jo.submit(&page, &path, &[("what", "damped")]).await.says("damped: 2 bags");
    b.jo.get(&format!("/bags/{other}")).await.says("Jo, damped");
    let holder = path.rsplit('/').next().unwrap();
    b.jo.get(&format!("/looks?holder={holder}&all=yes")).await.says("Looks at 2 bags");
    let page = b.jo.get(&path).await;
    let out = [("what", "taken out"), ("bag", other.0.as_str())];
    b.jo.submit(&page, &path, &out).await.says("1 open bag");
    assert_eq!(b.sums_of(&other).await.holder_id, None);
}

#[tokio::test]
async fn a_holder_is_its_members_own() {
    let b = Bench::new().await;
    let kim = b.club.grower("Kim", "KR").await;
    let page = b.jo.get("/holders").await;
    let made = b.jo.submit(&page, "/holders", &[]).await;
    assert_eq!(kim.get(&made.path).await.status, StatusCode::NOT_FOUND);
    kim.get("/holders").await.says_not("JB H1");
    let theirs = kim.submit(&kim.get("/holders").await, "/holders", &[]).await;
    let stolen = theirs.form(&theirs.path).filled(&[("what", "put in")]);
    let mut pairs: Vec<(&str, &str)> = stolen.iter().map(|(n, v)| (n.as_str(), v.as_str())).collect();
    pairs.push(("bag", b.bag.0.as_str()));
    assert_eq!(kim.post(&theirs.path, &pairs).await.status, StatusCode::NOT_FOUND);
    assert_eq!(b.sums().await.holder_id, None);
}
