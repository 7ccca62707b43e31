use super::{add, club, number};
use crate::support::Browser;
use axum::http::StatusCode;
use hilum::args;

async fn merge(who: &Browser, root: &str, from: &str, into: &str) -> crate::support::Page {
    let list = who.get(root).await;
    let (from, into) = (list.link(from), list.link(into));
    let page = who.get(&from).await;
    who.submit(&page, &format!("{from}/merge"), &[("into", into.rsplit('/').next().unwrap())]).await
}

async fn unmerge(who: &Browser, root: &str, from: &str) -> crate::support::Page {
    let from = who.get(root).await.link(from);
    let page = who.get(&from).await;
    who.submit(&page, &format!("{from}/unmerge"), &[]).await
}

/// What each name of the list counts under.
async fn counted(who: &Browser, root: &str) -> Vec<String> {
    who.get(root).await.all("#names tbody td:nth-child(3)")
}

#[tokio::test]
async fn kinds_show_their_facts_and_sources() {
    let club = club().await;
    let jo = club.grower("Jo", "JB").await;
    let page = jo.get("/kinds/pepper").await;
    page.says("day 14")
        .says("55 % normal seedlings")
        .says("7 CFR 201.58(c) Table 2")
        .says("; noted from memory");
    page.says("20-30 °C").says("not of root emergence").says("165").says("R.L. Watts, Vegetable Gardening");
    jo.get("/kinds").await.says("aubergine").says("6 and 14");
    let form = jo.get("/kinds").await;
    jo.submit(&form, "/kinds", &[("name", "sea holly")]).await.says("Nothing published");
    let form = jo.get("/kinds").await;
    jo.submit(&form, "/kinds", &[("name", "Eggplant")]).await.refuses("name", "here already, as aubergine");
    jo.submit(&form, "/kinds", &[("name", " ")]).await.refuses("name", "fill this in");
    assert_eq!(jo.get("/kinds/none").await.status, StatusCode::NOT_FOUND);
    let before = number(&club, "SELECT COUNT(*) AS n FROM kinds").await;
    let mut conn = club.app.db.write().await.unwrap();
    hilum::stock::ensure_kinds(&mut conn, club.app.now()).await.unwrap();
    conn.commit().await.unwrap();
    assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM kinds").await, before);
}

/// A club had a kind of its own before the program knew its name as that of another.
#[tokio::test]
async fn a_kind_of_ones_own_keeps_its_name_when_the_program_learns_it() {
    let club = club().await;
    let jo = club.grower("Jo", "JB").await;
    let mut conn = club.app.db.write().await.unwrap();
    let sql = "INSERT INTO kinds (id, name, name_key, built_in, made_at) VALUES ('own', $1, $2, FALSE, $3)";
    conn.run(sql, args!["Karotten", "karotten", club.app.now()]).await.unwrap();
    conn.commit().await.unwrap();
    add(&jo, "Lange Rote", &[("kind", "Karotten")]).await;
    add(&jo, "Kurze Rote", &[("kind", "Karotte")]).await;
    for kind in ["own", "carrot"] {
        jo.get(&format!("/kinds/{kind}")).await.says("Varieties of it in the club: 1.");
    }
}

#[tokio::test]
async fn merging_chains_and_taking_back_restores_exactly() {
    let club = club().await;
    let kim = club.organiser("Kim", "KK").await;
    for name in ["Kestrel", "Kestrell", "Kestril"] {
        add(&kim, name, &[]).await;
    }
    let root = "/varieties";
    kim.get(root).await.says("Near in spelling");
    merge(&kim, root, "Kestrell", "Kestril").await.says("Kestrell counts under Kestril now");
    assert_eq!(counted(&kim, root).await, ["", "Kestril", ""]);
    // the whole chain moves on
    let list = kim.get(root).await;
    let chain = list.all("#names tbody th");
    assert_eq!(chain, ["Kestrel", "Kestrell", "Kestril"]);
    merge(&kim, root, "Kestril", "Kestrel").await.says("counts under Kestrel now");
    assert_eq!(counted(&kim, root).await, ["", "Kestrel", "Kestrel"]);
    let packet = kim.get("/packets").await.link("KK 2");
    kim.get(&packet).await.says("counts under Kestrel");
    // back in any order: the first merge first
    unmerge(&kim, root, "Kestrell").await.says("Kestrell counts by itself again");
    assert_eq!(counted(&kim, root).await, ["", "", "Kestrel"]);
    unmerge(&kim, root, "Kestril").await;
    assert_eq!(counted(&kim, root).await, ["", "", ""]);
    // and the second first
    merge(&kim, root, "Kestrell", "Kestril").await;
    merge(&kim, root, "Kestril", "Kestrel").await;
    unmerge(&kim, root, "Kestril").await;
    assert_eq!(counted(&kim, root).await, ["", "Kestril", ""]);
}

#[tokio::test]
async fn a_merge_that_makes_no_sense_is_refused() {
    let club = club().await;
    let kim = club.organiser("Kim", "KK").await;
    add(&kim, "Kestrel", &[]).await;
    add(&kim, "Wren", &[("source", "Fernhill")]).await;
    let form = kim.get("/packets/new").await;
    let tomato = [("kind", "tomato"), ("variety", "Dunlin"), ("source", "Fernhill"), ("seeds", "5")];
    kim.submit(&form, "/packets/new", &tomato).await;
    merge(&kim, "/varieties", "Wren", "Dunlin").await.refuses("into", "different kinds");
    merge(&kim, "/sources", "Fernhill", "Testwood").await.says("Fernhill counts under Testwood Seeds now");
    let (fern, test) =
        (kim.get("/sources").await.link("Fernhill"), kim.get("/sources").await.link("Testwood"));
    let page = kim.get(&test).await;
    page.says("Counted under it Fernhill");
    let key = kim.get("/packets/new").await.form("/packets/new").filled(&[]);
    let key = key.iter().find(|(n, _)| n == "key").unwrap().1.clone();
    let id = |path: &str| path.rsplit('/').next().unwrap().to_owned();
    let circle = kim.post(&format!("{test}/merge"), &[("key", &key), ("into", &id(&fern))]).await;
    assert_eq!(circle.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(circle.text().contains("under this one already"));
    let again = kim.post(&format!("{fern}/merge"), &[("key", &key), ("into", &id(&test))]).await;
    assert!(again.text().contains("under another one already"));
    let nothing = kim.post(&format!("{test}/merge"), &[("key", &key), ("into", "none")]).await;
    assert!(nothing.text().contains("choose one"));
}

#[tokio::test]
async fn only_organisers_merge_and_only_once() {
    let club = club().await;
    let (kim, jo) = (club.organiser("Kim", "KK").await, club.grower("Jo", "JB").await);
    add(&kim, "Kestrel", &[]).await;
    add(&kim, "Kestrell", &[]).await;
    let list = kim.get("/varieties").await;
    let (from, into) = (list.link("Kestrell"), list.link("Kestrel"));
    jo.get(&from).await.says_not("Let it count under");
    let key = jo.get("/packets/new").await.form("/packets/new").filled(&[]);
    let key = key.iter().find(|(n, _)| n == "key").unwrap().1.clone();
    let id = into.rsplit('/').next().unwrap();
    let answer = jo.post(&format!("{from}/merge"), &[("key", &key), ("into", id)]).await;
    assert_eq!(answer.status, StatusCode::FORBIDDEN);
    // two forms at the same moment, one each way: only one stands
    let (one, two) = (kim.get(&from).await, kim.get(&into).await);
    let (from_id, to_id) = (from.rsplit('/').next().unwrap(), into.rsplit('/').next().unwrap());
    let (there, back) = (format!("{from}/merge"), format!("{into}/merge"));
    let fields = ([("into", to_id)], [("into", from_id)]);
    let (a, b) = tokio::join!(kim.submit(&one, &there, &fields.0), kim.submit(&two, &back, &fields.1));
    let mut answers = [a.status, b.status];
    answers.sort();
    assert_eq!(answers, [StatusCode::OK, StatusCode::UNPROCESSABLE_ENTITY]);
    assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM merges").await, 1);
    assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM varieties WHERE root_id = id").await, 1);
}

#[tokio::test]
async fn letters_for_a_season() {
    let club = club().await;
    let (jo, kim) = (club.grower("Jo", "JB").await, club.grower("Kim", "KK").await);
    add(&jo, "Kestrel", &[("number", "1")]).await;
    let form = jo.get("/packets/letters").await;
    jo.submit(&form, "/packets/letters", &[("letters", "KK")]).await.refuses("letters", "that are taken");
    jo.submit(&form, "/packets/letters", &[("letters", "J1")]).await.refuses("letters", "1 to 4 letters");
    jo.submit(&form, "/packets/letters", &[("letters", "jc")]).await.says("Yours now: JC");
    club.pass_minutes(1);
    add(&jo, "Kestrel", &[("letters", "JC"), ("number", "1")]).await.says("JC 1");
    add(&kim, "Kestrel", &[("letters", "JC")]).await.refuses("letters", "not your letters");
}

#[tokio::test]
async fn two_people_adding_one_name_at_once_share_it() {
    let club = club().await;
    let (jo, kim) = (club.grower("Jo", "JB").await, club.grower("Kim", "KK").await);
    for name in ["Kestrel", "Wren", "Dunlin"] {
        let fields = [("source", name)];
        let (a, b) = tokio::join!(add(&jo, name, &fields), add(&kim, name, &fields));
        assert_eq!((a.status, b.status), (StatusCode::OK, StatusCode::OK), "{} {}", a.text(), b.text());
    }
    assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM varieties").await, 3);
    assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM lots").await, 3);
}
