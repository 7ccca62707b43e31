use super::{add, club, number, sound};
use axum::http::StatusCode;
use hilum::db::ids::PacketId;

#[tokio::test]
async fn seeds_come_and_go_and_the_balance_is_their_sum() {
    let club = club().await;
    let jo = club.grower("Jo", "JB").await;
    let path = add(&jo, "Kestrel", &[("rough", "yes")]).await.path;
    let action = format!("{path}/seeds");
    let steps = [
        ("found", "3", "28 seeds", "found +3"),
        ("spoiled", "8", "20 seeds", "spoiled -8"),
        ("returned", "2", "22 seeds", "returned +2"),
        ("recount", "19", "19 seeds", "recount -3"),
    ];
    for (sort, seeds, left, line) in steps {
        let form = jo.get(&action).await;
        let page = jo.submit(&form, &action, &[("sort", sort), ("seeds", seeds), ("note", "bench")]).await;
        page.says(&format!("JB 1 has {left} left")).says(line).says("(bench)");
    }
    jo.get(&path).await.says("19 seeds left").says_not("about 19");
    sound(&club).await;
}

#[tokio::test]
async fn a_ledger_form_says_what_is_wrong() {
    let club = club().await;
    let jo = club.grower("Jo", "JB").await;
    let path = add(&jo, "Kestrel", &[]).await.path;
    let action = format!("{path}/seeds");
    let form = jo.get(&action).await;
    jo.submit(&form, &action, &[("sort", "spoiled"), ("seeds", "26")])
        .await
        .refuses("seeds", "25 seeds left");
    jo.submit(&form, &action, &[("sort", "found"), ("seeds", "0")]).await.refuses("seeds", "from 1");
    jo.submit(&form, &action, &[("sort", "taken"), ("seeds", "2")]).await.refuses("sort", "choose one");
    jo.submit(&form, &action, &[("seeds", "")]).await.refuses("seeds", "give a number");
    let late = [("seeds", "3"), ("at", "2026-03-05T09:00")];
    jo.submit(&form, &action, &late).await.refuses("at", "in the future");
    // the edge: all of them
    jo.submit(&form, &action, &[("sort", "spoiled"), ("seeds", "25")]).await.says("0 seeds left");
    let empty = jo.get("/packets?hide=yes").await;
    empty.says("No packet is like that");
    sound(&club).await;
}

#[tokio::test]
async fn a_ledger_form_sent_twice_counts_once() {
    let club = club().await;
    let jo = club.grower("Jo", "JB").await;
    let action = format!("{}/seeds", add(&jo, "Kestrel", &[]).await.path);
    let form = jo.get(&action).await;
    let fields = [("sort", "found"), ("seeds", "5")];
    let (a, b) = tokio::join!(jo.submit(&form, &action, &fields), jo.submit(&form, &action, &fields));
    assert_eq!((a.status, b.status), (StatusCode::OK, StatusCode::OK));
    assert_eq!(number(&club, "SELECT balance AS n FROM packets").await, 30);
}

#[tokio::test]
async fn giving_is_one_act_and_keeps_lot_and_source() {
    let club = club().await;
    let (jo, kim) = (club.grower("Jo", "JB").await, club.grower("Kim", "KK").await);
    let path = add(&jo, "Kestrel", &[]).await.path;
    let action = format!("{path}/give");
    let form = jo.get(&action).await;
    let to = kim.id().0.clone();
    jo.submit(&form, &action, &[("seeds", "10")]).await.refuses("to", "Who gets");
    jo.submit(&form, &action, &[("to", &to), ("seeds", "26")]).await.refuses("seeds", "25 seeds left");
    jo.submit(&form, &action, &[("to", &to), ("seeds", "0")]).await.refuses("seeds", "from 1");
    let given = jo.submit(&form, &action, &[("to", &to), ("seeds", "10")]).await;
    given.says("10 seeds of JB 1 to Kim. Their packet is KK 1").says("given -10");
    jo.submit(&form, &action, &[("to", &to), ("seeds", "10")]).await;
    let theirs = kim.get("/packets").await.link("KK 1");
    let page = kim.get(&theirs).await;
    page.says("10 seeds left")
        .says("Testwood Seeds")
        .says("Came through Jo, out of JB 1")
        .says("received +10");
    assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM lots").await, 1);
    assert_eq!(number(&club, "SELECT COUNT(DISTINCT act_id) AS n FROM entries").await, 2);
    sound(&club).await;
}

#[tokio::test]
async fn a_gift_is_taken_back_whole_or_not_at_all() {
    let club = club().await;
    let (jo, kim) = (club.grower("Jo", "JB").await, club.grower("Kim", "KK").await);
    let path = add(&jo, "Kestrel", &[]).await.path;
    let action = format!("{path}/give");
    let form = jo.get(&action).await;
    jo.submit(&form, &action, &[("to", &kim.id().0), ("seeds", "10")]).await;
    let entry = jo.get(&path).await.link("Take back given").split('/').nth(2).unwrap().to_owned();
    let theirs = PacketId(kim.get("/packets").await.link("KK 1").replace("/packets/", ""));
    club.trial(&kim, &theirs, 4).await;
    let now = club.app.now();
    let mut conn = club.app.db.write().await.unwrap();
    let refused = hilum::notebook::void::entry(&mut conn, jo.id(), &entry, "wrong", now).await;
    assert!(refused.is_err(), "four of the seeds are soaking");
    drop(conn);
    sound(&club).await;
}

#[tokio::test]
async fn the_last_seeds_are_given_once() {
    let club = club().await;
    let (jo, kim) = (club.grower("Jo", "JB").await, club.grower("Kim", "KK").await);
    for _ in 0..4 {
        let path = add(&jo, "Kestrel", &[]).await.path;
        let action = format!("{path}/give");
        let (one, two) = (jo.get(&action).await, jo.get(&action).await);
        let fields = [("to", kim.id().0.as_str()), ("seeds", "20")];
        let (a, b) = tokio::join!(jo.submit(&one, &action, &fields), jo.submit(&two, &action, &fields));
        let mut answers = [a.status, b.status];
        answers.sort();
        assert_eq!(answers, [StatusCode::OK, StatusCode::UNPROCESSABLE_ENTITY]);
    }
    sound(&club).await;
}
