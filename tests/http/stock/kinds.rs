//! Kinds of the club's own: called otherwise, and put under another kind.

use super::{add, club, number, sound};
use crate::support::{Browser, Page};
use axum::http::StatusCode;

/// The page of a kind, as the list of kinds leads there.
async fn page_of(who: &Browser, kind: &str) -> Page {
    who.get(&who.get("/kinds").await.link(kind)).await
}

async fn join(who: &Browser, page: &Page, fields: &[(&str, &str)]) -> Page {
    who.submit(page, &format!("{}/join", page.path.trim_end_matches("/join")), fields).await
}

async fn rename(who: &Browser, page: &Page, name: &str) -> Page {
    who.submit(page, &format!("{}/name", page.path.trim_end_matches("/name")), &[("name", name)]).await
}

#[tokio::test]
async fn an_organiser_renames_a_kind_of_the_clubs_own() {
    let club = club().await;
    let (kim, jo) = (club.organiser("Kim", "KK").await, club.grower("Jo", "JB").await);
    add(&jo, "Kestrel", &[("kind", "Sea hollie")]).await;
    page_of(&jo, "Sea hollie").await.says_not("Rename it");
    kim.get("/kinds/pepper").await.says_not("Rename it");
    let page = page_of(&kim, "Sea hollie").await;
    rename(&kim, &page, "Eggplant").await.refuses("name", "here already, as aubergine");
    rename(&kim, &page, " ").await.refuses("name", "fill this in");
    rename(&kim, &page, "Sea holly").await.says("Sea hollie is called Sea holly now.");
    rename(&kim, &page_of(&kim, "Sea holly").await, "sea Holly").await.says("is called sea Holly now");
    jo.get("/varieties").await.says("sea Holly").says_not("hollie");
    add(&jo, "Wren", &[("kind", "SEA HOLLY")]).await;
    page_of(&jo, "sea Holly").await.says("Varieties of it in the club: 2.");
    // the old name goes on meaning it, and may come back
    add(&jo, "Dunlin", &[("kind", "Sea hollie")]).await;
    rename(&kim, &page_of(&kim, "sea Holly").await, "Sea hollie").await.says("is called Sea hollie now");
    page_of(&jo, "Sea hollie").await.says("Varieties of it in the club: 3.");
    // however its letters are put together
    let form = kim.get("/kinds").await;
    kim.submit(&form, "/kinds", &[("name", "caf\u{e9}")]).await.says("Nothing published");
    let form = kim.get("/kinds").await;
    kim.submit(&form, "/kinds", &[("name", "Cafe\u{301}")]).await.refuses("name", "here already");
    let built_in = kim.post("/kinds/pepper/name", &[("key", "0123456789abcdef"), ("name", "x")]).await;
    assert_eq!(built_in.status, StatusCode::NOT_FOUND);
    kim.get("/members/record").await.says("renamed a kind");
}

#[tokio::test]
async fn a_kind_that_is_another_one_goes_there_with_its_varieties_and_its_name() {
    let club = club().await;
    let (kim, jo) = (club.organiser("Kim", "KK").await, club.grower("Jo", "JB").await);
    add(&jo, "Kestrel", &[]).await;
    for variety in ["Kestrel", "Wren"] {
        add(&jo, variety, &[("kind", "Fire pods")]).await;
    }
    let old = page_of(&kim, "Fire pods").await;
    join(&kim, &old, &[("sure", "yes")]).await.refuses("into", "choose one");
    let unsure = join(&kim, &old, &[("into", "pepper")]).await;
    unsure.refuses("sure", "tick this");
    join(&kim, &unsure, &[("sure", "yes")])
        .await
        .says("Fire pods is part of pepper now.")
        .says("in the club: 3.");
    kim.get(&old.path).await.says("in the club: 3.").says_not("Rename it");
    kim.get("/kinds").await.says_not("Fire pods");
    let late = rename(&kim, &old, "Fire fruit").await;
    assert_eq!(late.status, StatusCode::CONFLICT);
    assert!(late.text().contains("This kind is part of pepper by now."), "{}", late.text());
    assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM varieties WHERE kind_id <> 'pepper'").await, 0);
    let names = jo.get("/varieties").await;
    assert_eq!(names.all("#names tbody th"), ["Kestrel", "Kestrel (Fire pods)", "Wren"]);
    assert_eq!(names.all("#names tbody td:nth-child(3)"), ["", "Kestrel", ""]);
    // whoever types the old name means that kind, as a list that is brought in does
    add(&jo, "Wren", &[("kind", "fire pods"), ("year", "2025")]).await;
    assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM varieties WHERE name = 'Wren'").await, 1);
    // the name that both had is a merge like others
    let page = kim.get(&kim.get("/varieties").await.link("Kestrel (Fire pods)")).await;
    kim.submit(&page, &format!("{}/unmerge", page.path), &[]).await.says("counts by itself");
    kim.get("/members/record").await.says("merged two names (kind)");
    sound(&club).await;
}

/// One that was put under another leads on with it.
#[tokio::test]
async fn a_kind_under_a_kind_goes_where_that_goes() {
    let club = club().await;
    let kim = club.organiser("Kim", "KK").await;
    for (variety, kind) in [("Kestrel", "Fire fruit"), ("Kestrel", "Fire pods"), ("Kestrel", "pepper")] {
        add(&kim, variety, &[("kind", kind)]).await;
    }
    let pods = kim.get("/kinds").await.link("Fire pods").rsplit('/').next().unwrap().to_owned();
    let first = page_of(&kim, "Fire fruit").await;
    join(&kim, &first, &[("into", &pods), ("sure", "yes")])
        .await
        .says("Fire fruit is part of Fire pods now.");
    let second = page_of(&kim, "Fire pods").await;
    join(&kim, &second, &[("into", "pepper"), ("sure", "yes")])
        .await
        .says("Fire pods is part of pepper now.");
    add(&kim, "Wren", &[("kind", "Fire fruit")]).await;
    let names = kim.get("/varieties").await;
    assert_eq!(
        names.all("#names tbody th"),
        ["Kestrel", "Kestrel (Fire fruit)", "Kestrel (Fire pods)", "Wren"]
    );
    assert_eq!(names.all("#names tbody td:nth-child(3)"), ["", "Kestrel", "Kestrel", ""]);
}
