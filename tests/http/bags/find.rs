use super::Bench;
use axum::http::StatusCode;

#[tokio::test]
async fn a_mark_opens_its_thing_however_it_is_written() {
    let b = Bench::new().await;
    for typed in ["JB+1+a", "jb1a", "JB-1-A", "jbia", "JBla"] {
        assert_eq!(b.jo.get(&format!("/find?mark={typed}")).await.path, b.path(), "{typed}");
    }
    assert_eq!(b.jo.get("/find?mark=jb+1").await.path, format!("/packets/{}", b.packet));
    assert_eq!(b.jo.get("/find?mark=JB+1,+vial+2").await.path, format!("/packets/{}", b.packet));
    let page = b.jo.get("/find?mark=jb+2+a").await;
    page.says("Nothing has the mark jb 2 a").says("Marks of yours that are near");
    assert_eq!(page.link("JB 1 a"), b.path());
    b.jo.get("/find?mark=").await.says("Type the mark");
    b.jo.get("/find").await.says("Type the mark");
    // a zero is no text that a database can keep
    b.jo.get("/find?mark=jb+2%00").await.says("Nothing has the mark");
    assert_eq!(b.jo.get("/bags/a%00b").await.status, StatusCode::NOT_FOUND);
    let kim = b.club.grower("Kim", "KR").await;
    kim.get("/find?mark=jb1a").await.says("JB 1 a is not yours").says_not("near");
}

#[tokio::test]
async fn an_unknown_bag_is_found_by_seeds_and_date() {
    let b = Bench::new().await;
    let other = b.club.bag(&b.jo, &b.trial, 5).await;
    let all = b.jo.get("/bags/unknown").await;
    all.says("JB 1 a").says("JB 1 b");
    b.jo.get("/bags/unknown?seeds=5").await.says("JB 1 b").says_not("JB 1 a");
    b.jo.get("/bags/unknown?to=2026-03-02").await.says("JB 1 a").says_not("JB 1 b");
    b.jo.get("/bags/unknown?from=2026-03-06").await.says("None of your open bags");
    b.jo.get("/bags/unknown?seeds=some").await.refuses("seeds", "A whole number");
    let none = [("outcome", "in doubt"), ("note", "label washed off")];
    b.jo.submit(&all, "/bags/unknown", &none).await.refuses("bag", "Tick the bags");
    let pairs = all.form("/bags/unknown");
    let mut pairs = pairs.filled(&[("outcome", "resolved"), ("note", "washed off")]);
    pairs.extend([("bag".to_owned(), b.bag.0.clone()), ("bag".to_owned(), other.0.clone())]);
    let sent: Vec<(&str, &str)> = pairs.iter().map(|(n, v)| (n.as_str(), v.as_str())).collect();
    b.jo.post("/bags/unknown", &sent).await.refuses("bag", "Tick only the one");
    let sent: Vec<_> =
        sent.into_iter().map(|(n, v)| (n, if n == "outcome" { "in doubt" } else { v })).collect();
    b.jo.post("/bags/unknown", &sent).await.says("JB 1 a, JB 1 b: in doubt");
    assert!(b.sums().await.in_doubt && b.sums_of(&other).await.in_doubt);
    let kim = b.club.grower("Kim", "KR").await;
    kim.get("/bags/unknown").await.says_not("JB 1 a");
    let page = b.jo.get("/bags/unknown").await;
    let stranger: Vec<(&str, &str)> =
        sent.iter().map(|(n, v)| (*n, if *n == "key" { "0123456789abcdef0123" } else { *v })).collect();
    assert_eq!(kim.post("/bags/unknown", &stranger).await.status, StatusCode::NOT_FOUND);
    let one = [("outcome", "resolved"), ("note", "found it"), ("bag", b.bag.0.as_str())];
    b.jo.submit(&page, "/bags/unknown", &one).await.says("JB 1 a: resolved");
    assert!(!b.sums().await.in_doubt);
}
