use super::Bench;
use axum::http::StatusCode;

#[tokio::test]
async fn an_entry_is_taken_back_with_who_when_and_why() {
    let b = Bench::new().await;
    b.count("4", "").await;
    let void = b.jo.get(&b.path()).await.link("look: 4 rooted");
    let form = b.jo.get(&void).await;
    form.says("Jo, look: 4 rooted");
    b.jo.submit(&form, &void, &[]).await.refuses("why", "Please fill this in");
    let back = b.jo.submit(&form, &void, &[("why", "typed four for one")]).await;
    assert_eq!(back.path, b.path());
    back.says("Taken back by Jo: typed four for one").says("look: 4 rooted");
    assert_eq!(b.sums().await.rooted, 0);
    b.jo.get(&void).await.says("Taken back by Jo").says_not("Leave it");
    let twice = b.jo.submit(&form, &void, &[("why", "typed four for one")]).await;
    assert_eq!(twice.path, b.path(), "the same form again is the same save");
}

#[tokio::test]
async fn a_chain_goes_from_its_end() {
    let b = Bench::new().await;
    b.count("4", "").await;
    let page = b.jo.get(&b.under("elsewhere")).await;
    b.jo.submit(&page, &b.under("elsewhere"), &[("went", "given"), ("seeds", "2")]).await;
    let history = b.jo.get(&b.path()).await;
    let (look, given) = (history.link("look: 4 rooted"), history.link("given: 2 seeds"));
    let paper = history.link("on paper: 10 seeds");
    for (first, stands) in [(&paper, "The look of JB 1 a"), (&look, "The rooted end of JB 1 a")] {
        let form = b.jo.get(first).await;
        b.jo.submit(&form, first, &[("why", "wrong")]).await.refuses("entry", stands);
    }
    for path in [&given, &look] {
        let form = b.jo.get(path).await;
        b.jo.submit(&form, path, &[("why", "wrong")]).await.says("Taken back");
    }
    let s = b.sums().await;
    assert_eq!((s.rooted, s.ended, s.on_paper), (0, 0, 10));
}

#[tokio::test]
async fn the_last_save_is_undone_within_a_minute_and_not_after() {
    let b = Bench::new().await;
    let saved = b.count("4", "1").await;
    b.club.pass_minutes(1);
    b.jo.submit(&saved, "/undo", &[]).await.says("Undone.");
    assert_eq!(b.sums().await.on_paper, 10);
    b.jo.submit(&saved, "/undo", &[]).await.says("Undone.");
    let saved = b.count("3", "").await;
    b.club.pass_minutes(2);
    let late = b.jo.submit(&saved, "/undo", &[]).await;
    assert_eq!(late.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(late.text().contains("too late to undo"), "{}", late.text());
    assert_eq!(b.sums().await.rooted, 3);
}

#[tokio::test]
async fn what_ticks_added_is_undone_with_the_look() {
    let b = Bench::new().await;
    let page = b.jo.get(&b.path()).await;
    let fields = [("rooted", "2"), ("mould", "yes"), ("paper", "yes")];
    let saved = b.jo.submit(&page, &b.under("count"), &fields).await;
    saved.says("Counted 2 rooted, 0 dead, mould seen, paper changed");
    let undone = b.jo.submit(&saved, "/undo", &[]).await;
    assert_eq!(undone.all(".history .void").len(), 3);
}

#[tokio::test]
async fn nobody_takes_back_what_is_not_theirs() {
    let b = Bench::new().await;
    let saved = b.count("4", "").await;
    let void = b.jo.get(&b.path()).await.link("look: 4 rooted");
    let kim = b.club.organiser("Kim", "KR").await;
    assert_eq!(kim.get(&void).await.status, StatusCode::NOT_FOUND);
    let form = b.jo.get(&void).await;
    let pairs = form.form(&void).filled(&[("why", "because")]);
    let pairs: Vec<(&str, &str)> = pairs.iter().map(|(n, v)| (n.as_str(), v.as_str())).collect();
    assert_eq!(kim.post(&void, &pairs).await.status, StatusCode::NOT_FOUND);
    let undo = saved.form("/undo").filled(&[]);
    let undo: Vec<(&str, &str)> = undo.iter().map(|(n, v)| (n.as_str(), v.as_str())).collect();
    assert_eq!(kim.post("/undo", &undo).await.status, StatusCode::NOT_FOUND);
    assert_eq!(b.sums().await.rooted, 4);
    assert_eq!(b.jo.get("/entries/none/void").await.status, StatusCode::NOT_FOUND);
}
