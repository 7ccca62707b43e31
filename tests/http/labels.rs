use crate::support::{Browser, Club};
use axum::http::StatusCode;
use hilum::web::code;

/// Jo soaks 40 seeds in two vials of one packet, and has a bag on paper from one of them.
async fn soaking() -> (Club, Browser, [String; 2], String) {
    let club = Club::at(Some("https://seed.example.org")).await;
    let jo = club.grower("Jo", "JB").await;
    // by https the session cookie has the prefix that binds it to the host
    let jo = jo.with_cookie("__Host-hilum", &jo.cookie("hilum"));
    let packet = club.packet(&jo, "Kestrel", 100).await;
    let first = club.trial(&jo, &packet, 20).await;
    let second = club.trial(&jo, &packet, 20).await;
    let bag = club.bag(&jo, &first, 12).await;
    (club, jo, [first.0, second.0], bag.0)
}

/// How often the code of this address is drawn on the page.
fn codes(body: &str, address: &str) -> usize {
    body.matches(&code::symbol(address).unwrap().path).count()
}

#[tokio::test]
async fn a_trials_labels_are_its_vial_once_and_its_bags_twice_coded() {
    let (_club, jo, [first, second], bag) = soaking().await;
    let page = jo.get(&format!("/trials/{first}/labels")).await;
    page.says("2 labels.").says("Kestrel");
    assert_eq!(page.all(".drawn .m"), ["JB 1", "JB 1 a"]);
    assert_eq!(codes(&page.body, "https://seed.example.org/V/JB1-1"), 1);
    assert_eq!(codes(&page.body, "https://seed.example.org/L/JB1A"), 2, "damp blots: two on a bag");
    assert!(page.body.contains(r#"width="70mm" height="37mm""#));
    assert!(page.body.contains("scale(0.5)"), "a module is half a millimetre");
    assert_eq!(jo.get("/L/JB1A").await.path, format!("/bags/{bag}"));
    assert_eq!(jo.get("/l/jb1a").await.path, format!("/bags/{bag}"));
    for (n, trial) in [(1, &first), (2, &second)] {
        assert_eq!(jo.get(&format!("/V/JB1-{n}")).await.path, format!("/trials/{trial}"));
    }
    for wrong in ["/V/JB1-3", "/V/JB1-0", "/V/JB1", "/V/JB1-x", "/V/JB9-1"] {
        assert_eq!(jo.get(wrong).await.status, StatusCode::NOT_FOUND, "{wrong}");
    }
}

#[tokio::test]
async fn labels_of_several_trials_lie_on_one_sheet_from_the_first_free_one() {
    let (_club, jo, [first, second], _) = soaking().await;
    let choose = jo.get("/labels").await;
    choose.says("1 vial and 1 bag").says("1 vial");
    let both = format!("/labels/print?trial={first}&trial={second}&paper=letter&first=5");
    let page = jo.get(&both).await;
    page.says("3 labels.");
    assert_eq!(page.all(".drawn .m"), ["JB 1", "JB 1 a", "JB 1"]);
    page.says("Dry, 20 seeds, vial 2");
    assert_eq!(page.all("ul.up-30 li").len(), 4 + 3);
    assert!(page.body.contains(r#"width="66.675mm" height="25.4mm""#));
    let full = jo.get(&format!("/labels/print?trial={first}&paper=a4&first=24")).await;
    assert_eq!(full.all("ul.up-24").len(), 2, "what does not fit goes on a further sheet");
    jo.get("/labels/print").await.says("Nothing here needs a label now");
    jo.get("/labels/print?trial=nothing&first=-3").await.says("Nothing here needs a label now");
}

#[tokio::test]
async fn labels_of_others_are_not_printed() {
    let (club, _jo, [first, _], _) = soaking().await;
    let kim = club.grower("Kim", "KR").await;
    let kim = kim.with_cookie("__Host-hilum", &kim.cookie("hilum"));
    kim.get(&format!("/labels/print?trial={first}")).await.says("Nothing here needs a label now");
    assert_eq!(kim.get(&format!("/trials/{first}/labels")).await.status, StatusCode::NOT_FOUND);
    assert_eq!(kim.get("/V/JB1-1").await.status, StatusCode::NOT_FOUND);
    kim.get("/L/JB1A").await.says("JB 1 a is not yours");
    kim.get("/labels").await.says("Nothing needs a label now");
    let stranger = club.stranger().get("/L/JB1A").await;
    assert_eq!(stranger.path, "/sign-in?next=%2FL%2FJB1A", "who signs in comes back to the thing");
}

#[tokio::test]
async fn a_mark_of_each_kind_of_thing_opens_it_and_a_near_one_is_offered() {
    let (_club, jo, [_, _], bag) = soaking().await;
    let holders = jo.get("/holders").await;
    jo.submit(&holders, "/holders", &[("place", "mat")]).await.says("JB H1");
    let trays = jo.get("/trays/new").await;
    let tray = [("name", "Bench"), ("geometry", "16x8")];
    let tray = jo.submit(&trays, "/trays/new", &tray).await;
    tray.says("JB T1");
    assert!(jo.get("/L/JBH1").await.path.starts_with("/holders/"));
    for typed in ["jb+h1", "JBHI", "jb-hl"] {
        assert!(jo.get(&format!("/find?mark={typed}")).await.path.starts_with("/holders/"), "{typed}");
    }
    for typed in ["jb+t1", "JBTI", "jb.tl"] {
        assert!(jo.get(&format!("/find?mark={typed}")).await.path.starts_with("/trays/"), "{typed}");
    }
    assert!(jo.get("/find?mark=jb+i").await.path.starts_with("/packets/"));
    let near = jo.get("/find?mark=jb+1b").await;
    near.says("Marks of yours that are near");
    assert_eq!(near.link("JB 1 a"), format!("/bags/{bag}"));
    assert!(jo.get("/find?mark=jb+h7").await.link("JB H1").starts_with("/holders/"));
    assert!(jo.get("/find?mark=jb+t7").await.link("JB T1").starts_with("/trays/"));
}
