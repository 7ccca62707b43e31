use super::{add, club, number};
use axum::http::StatusCode;

#[tokio::test]
async fn a_packet_gets_a_mark_and_stands_in_the_list() {
    let club = club().await;
    let jo = club.grower("Jo", "JB").await;
    let fields = [("source", "Testwood Seeds"), ("place", "tin 3"), ("state", "pelleted"), ("code", "L-9")];
    let page = add(&jo, "Kestrel", &fields).await;
    page.says("Added: JB 1, 25 seeds. Write JB 1 on it.").says("Testwood Seeds").says("L-9").says("tin 3");
    page.says("this seed is pelleted").says("2 years old; keeps for 2 to 3 years as published");
    page.says("Jo: received +25");
    add(&jo, "Osprey", &[("number", "40"), ("rough", "yes")]).await.says("about 25 seeds left");
    add(&jo, "Wren", &[]).await.says("JB 41");
    let marks = |page: &crate::support::Page| page.all("#packets .mark");
    assert_eq!(marks(&jo.get("/packets").await), ["JB 1", "JB 40", "JB 41"]);
    assert_eq!(marks(&jo.get("/packets?sort=variety&q=testwood").await), ["JB 1", "JB 40", "JB 41"]);
    assert_eq!(marks(&jo.get("/packets?q=tin+kestrel").await), ["JB 1"]);
    assert_eq!(marks(&jo.get("/packets?kind=tomato").await), Vec::<String>::new());
    let list = jo.get("/packets").await;
    let ids: Vec<String> = list.form("/trials/new").filled(&[]).into_iter().map(|(n, _)| n).collect();
    assert!(ids.is_empty(), "nothing is ticked at first");
    assert_eq!(list.body.matches("name=\"packet\"").count(), 3);
}

#[tokio::test]
async fn seeds_by_weight_use_the_published_figure_unless_one_is_typed() {
    let club = club().await;
    let jo = club.grower("Jo", "JB").await;
    // 165 seeds in a gram: 7 CFR 201.46 Table 1
    add(&jo, "Kestrel", &[("seeds", ""), ("grams", "0.5")]).await.says("about 83 seeds left");
    add(&jo, "Osprey", &[("seeds", ""), ("grams", "2"), ("seeds_per_gram", "150")])
        .await
        .says("about 300 seeds");
    let own = [("kind", "sea holly"), ("seeds", ""), ("grams", "1")];
    let form = jo.get("/packets/new").await;
    let all = [&own[..], &[("variety", "Blue"), ("source", "Testwood")]].concat();
    jo.submit(&form, "/packets/new", &all).await.refuses("seeds_per_gram", "None is published");
}

#[tokio::test]
async fn each_field_says_what_is_wrong_and_keeps_what_was_typed() {
    let club = club().await;
    let jo = club.grower("Jo", "JB").await;
    let long = "x".repeat(121);
    let cases: [(&str, &str, &str); 16] = [
        ("kind", "", "fill this in"),
        ("kind", "???", "letters or digits"),
        ("variety", "", "fill this in"),
        ("variety", &long, "At most 120"),
        ("source", "--", "letters or digits"),
        ("year", "1899", "from 1900"),
        ("year", "2028", "from 1900 to 2027"),
        ("seeds", "-1", "from 0"),
        ("seeds", "1.5", "whole number"),
        ("grams", "1", "not both"),
        ("seeds_per_gram", "0", "from 0.01"),
        ("number", "0", "from 1"),
        ("number", "99999999999999999999", "from 1 to 999"),
        ("received_on", "yesterday", "A date"),
        ("state", "boiled", "choose one"),
        ("letters", "QQ", "not your letters"),
    ];
    for (field, value, error) in cases {
        let page = add(&jo, "Kestrel", &[(field, value), ("place", "tin 7")]).await;
        page.refuses(field, error);
        assert!(page.body.contains("value=\"tin 7\""), "{field}: what was typed is gone");
    }
    assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM packets").await, 0);
}

#[tokio::test]
async fn a_mark_is_never_given_twice() {
    let club = club().await;
    let jo = club.grower("Jo", "JB").await;
    add(&jo, "Kestrel", &[("number", "7")]).await.says("JB 7");
    add(&jo, "Wren", &[("number", "7")]).await.refuses("number", "JB 7 was given before");
    // three at the same moment: two want 8, one the next free
    for round in 0..4 {
        let n = (100 * (round + 1)).to_string();
        let fields = [("number", n.as_str())];
        let (a, b, c) =
            tokio::join!(add(&jo, "Wren", &fields), add(&jo, "Dunlin", &fields), add(&jo, "Knot", &[]));
        let fine = [&a, &b].iter().filter(|p| p.status == StatusCode::OK).count();
        assert_eq!(fine, 1, "{} / {}", a.text(), b.text());
        assert_eq!(c.status, StatusCode::OK);
    }
    let distinct = number(&club, "SELECT COUNT(DISTINCT mark_key) AS n FROM packets").await;
    assert_eq!((distinct, number(&club, "SELECT COUNT(*) AS n FROM packets").await), (9, 9));
}

#[tokio::test]
async fn the_same_form_sent_twice_adds_one_packet() {
    let club = club().await;
    let jo = club.grower("Jo", "JB").await;
    let form = jo.get("/packets/new").await;
    let fields = [("kind", "pepper"), ("variety", "Kestrel"), ("source", "Testwood"), ("seeds", "5")];
    let (a, b) =
        tokio::join!(jo.submit(&form, "/packets/new", &fields), jo.submit(&form, "/packets/new", &fields));
    assert_eq!((a.status, a.path), (b.status, b.path));
    assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM packets").await, 1);
    let other = [("kind", "pepper"), ("variety", "Wren"), ("source", "Testwood"), ("seeds", "5")];
    assert_eq!(jo.submit(&form, "/packets/new", &other).await.status, StatusCode::CONFLICT);
}

#[tokio::test]
async fn a_packet_is_nobody_elses() {
    let club = club().await;
    let (jo, kim) = (club.grower("Jo", "JB").await, club.organiser("Kim", "KK").await);
    let page = add(&jo, "Kestrel", &[]).await;
    let path = page.path.clone();
    for end in ["", "/edit", "/seeds", "/give"] {
        assert_eq!(kim.get(&format!("{path}{end}")).await.status, StatusCode::NOT_FOUND);
    }
    for (end, field) in
        [("/edit", ("variety", "X")), ("/seeds", ("sort", "found")), ("/give", ("seeds", "1"))]
    {
        let form = kim.get("/packets/new").await;
        let key = form.form("/packets/new").filled(&[]).into_iter().find(|(n, _)| n == "key").unwrap().1;
        let answer = kim.post(&format!("{path}{end}"), &[("key", &key), field]).await;
        assert_eq!(answer.status, StatusCode::NOT_FOUND, "{end}");
    }
    let parent = path.replace("/packets/", "/packets/new?parent=");
    assert_eq!(kim.get(&parent).await.status, StatusCode::NOT_FOUND);
    kim.get("/packets").await.says("No packet yet");
    club.stranger().get(&path).await.says("Sign in");
}

#[tokio::test]
async fn an_edit_of_what_changed_meanwhile_shows_both() {
    let club = club().await;
    let jo = club.grower("Jo", "JB").await;
    let path = format!("{}/edit", add(&jo, "Kestrel", &[]).await.path);
    let (first, second) = (jo.get(&path).await, jo.get(&path).await);
    jo.submit(&first, &path, &[("place", "tin 1")]).await.says("Saved: JB 1").says("tin 1");
    let stale = jo.submit(&second, &path, &[("place", "shed"), ("note", "dry")]).await;
    stale.refuses("place", "You typed “shed”; meanwhile it was made “tin 1”. Save again to let yours stand.");
    assert!(stale.text().contains("Kept in: You typed “shed”"), "the list of errors names the field");
    jo.submit(&stale, &path, &[]).await.says("shed").says("dry");
    let form = jo.get(&path).await;
    jo.submit(&form, &path, &[("variety", "")]).await.refuses("variety", "fill this in");
    jo.submit(&form, &path, &[("variety", "Merlin"), ("year", "2023")]).await.says("Merlin").says("2023");
}

#[tokio::test]
async fn an_edit_is_not_stale_because_seeds_were_taken() {
    let club = club().await;
    let jo = club.grower("Jo", "JB").await;
    let page = add(&jo, "Kestrel", &[]).await;
    let path = format!("{}/edit", page.path);
    let form = jo.get(&path).await;
    let id = hilum::db::ids::PacketId(page.path.replace("/packets/", ""));
    club.trial(&jo, &id, 10).await;
    jo.submit(&form, &path, &[("place", "tin 1")])
        .await
        .says("15 seeds left")
        .says("tin 1")
        .says("Dry, 10 seeds");
}

#[tokio::test]
async fn one_variety_has_one_species() {
    let club = club().await;
    let jo = club.grower("Jo", "JB").await;
    add(&jo, "Kestrel", &[("species", "Capsicum annuum")]).await.says("Capsicum annuum");
    add(&jo, "Kestrel", &[]).await.says("Capsicum annuum");
    add(&jo, "Kestrel", &[("species", "Capsicum chinense")])
        .await
        .refuses("species", "noted as Capsicum annuum");
}

#[tokio::test]
async fn own_seed_knows_its_parent() {
    let club = club().await;
    let jo = club.grower("Jo", "JB").await;
    let parent = add(&jo, "Kestrel", &[]).await;
    let form = jo.get(&parent.link("Seed saved from it")).await;
    let fields = [("seeds", "80"), ("year", "2025"), ("pollination", "isolated")];
    let child = jo.submit(&form, "/packets/new", &fields).await;
    child.says("saved by Jo").says("JB 1 Kestrel, isolated").says_not("doubtful cross");
    jo.get(&parent.path).await.says("Seed saved from its plants").says("JB 2");
    // other plants, same year: a lot code is needed to tell them apart
    let doubtful = [("seeds", "9"), ("year", "2025"), ("pollination", "open"), ("doubtful_cross", "yes")];
    let form = jo.get(&parent.link("Seed saved from it")).await;
    jo.submit(&form, "/packets/new", &doubtful).await.refuses("code", "tells the two apart");
    let coded = [&doubtful[..], &[("code", "bed 2")]].concat();
    let second = jo.submit(&form, "/packets/new", &coded).await;
    second.says("open pollinated").says("doubtful cross");
    let edit = format!("{}/edit", second.path);
    let form = jo.get(&edit).await;
    jo.submit(&form, &edit, &[("pollination", "isolated")]).await.says("isolated");
    assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM lots").await, 3);
}

#[tokio::test]
async fn a_parent_cannot_be_slipped_into_an_edit() {
    let club = club().await;
    let (jo, kim) = (club.grower("Jo", "JB").await, club.grower("Kim", "KK").await);
    let theirs = add(&kim, "Wren", &[]).await.path.replace("/packets/", "");
    let path = format!("{}/edit", add(&jo, "Kestrel", &[]).await.path);
    let mut pairs = jo.get(&path).await.form(&path).filled(&[("year", "2020")]);
    pairs.push(("parent".into(), theirs));
    pairs.push(("pollination".into(), "open".into()));
    let pairs: Vec<(&str, &str)> = pairs.iter().map(|(n, v)| (n.as_str(), v.as_str())).collect();
    jo.post(&path, &pairs).await.says("2020").says_not("Saved from");
}

#[tokio::test]
async fn five_hundred_packets_are_listed_quickly() {
    let club = club().await;
    let jo = club.grower("Jo", "JB").await;
    let rows: String =
        (0..500).map(|n| format!("pepper,Kestrel {n},Testwood,2024,25,refrigerator tin {n}\n")).collect();
    let text = format!("kind,variety,source,year,seeds,place\n{rows}");
    let mut conn = club.app.db.write().await.unwrap();
    let added =
        hilum::transfer::import_season_list(&mut conn, jo.id(), "JB", (text.as_bytes(), ""), club.app.now())
            .await;
    assert_eq!(added.unwrap().unwrap().len(), 500);
    conn.commit().await.unwrap();
    let began = std::time::Instant::now();
    let page = jo.get("/packets").await;
    let took = began.elapsed();
    assert_eq!(page.all("#packets tbody tr").len(), 500);
    assert!(took.as_millis() < 2000, "{took:?}");
}

#[tokio::test]
async fn a_new_name_near_a_known_one_is_asked_about() {
    let club = club().await;
    let jo = club.grower("Jo", "JB").await;
    add(&jo, "Kestrel", &[]).await;
    let form = jo.get("/packets/new").await;
    let typed = [("kind", "peper"), ("variety", "Kestrell"), ("source", "Testwod Seeds"), ("seeds", "5")];
    let asked = jo.submit(&form, "/packets/new", &typed).await;
    asked.refuses("kind", "peper would be new, and is near pepper");
    let asked = jo.submit(&asked, "/packets/new", &[("meant_kind", "pepper"), ("kind", "pepper")]).await;
    asked.refuses("variety", "near Kestrel").refuses("source", "near Testwood Seeds");
    let meant = [("meant_variety", "Kestrell"), ("meant_source", "Testwood Seeds")];
    let added = jo.submit(&asked, "/packets/new", &meant).await;
    added.says("Kestrell").says("Testwood Seeds").says_not("Testwod");
}
