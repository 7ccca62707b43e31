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
    assert_eq!(page.all(".on-paper .m"), ["JB 1", "JB 1 a"]);
    assert_eq!(codes(&page.body, "https://seed.example.org/V/JB1-1"), 1);
    assert_eq!(codes(&page.body, "https://seed.example.org/L/JB1A"), 2, "damp blots: two on a bag");
    assert!(page.body.contains(r#"width="210mm" height="296.70mm""#));
    assert!(page.body.contains(r#"x="70.000" y="0.500" width="70" height="37""#), "the second label");
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
    let both = format!("/labels/print?trial={first}&trial={second}&sheet=letter-3x10&first=5");
    let page = jo.get(&both).await;
    page.says("3 labels.");
    assert_eq!(page.all(".on-paper .m"), ["JB 1", "JB 1 a", "JB 1"]);
    page.says("Dry, 20 seeds, vial 2");
    assert!(page.body.contains(r#"y="38.100" width="66.675" height="25.4""#), "the fifth place");
    assert!(page.body.contains(r#"href="/labels/paper/215.9x279.4.css""#));
    let full = jo.get(&format!("/labels/print?trial={first}&sheet=a4-3x8&first=24&lines=yes")).await;
    assert_eq!(full.all(".label-page").len(), 2, "what does not fit goes on a further sheet");
    assert_eq!(full.all(".on-paper rect").len(), 2, "outlines to cut along");
    jo.get("/labels/print").await.says("Nothing here needs a label now.");
    jo.get("/labels/print?trial=nothing&first=-3").await.says("Nothing here needs a label now.");
}

#[tokio::test]
async fn labels_of_others_are_not_printed() {
    let (club, _jo, [first, _], _) = soaking().await;
    let kim = club.grower("Kim", "KR").await;
    let kim = kim.with_cookie("__Host-hilum", &kim.cookie("hilum"));
    kim.get(&format!("/labels/print?trial={first}")).await.says("Nothing here needs a label now.");
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

/// The form's fields for 2 by 3 labels of 80 x 50 mm on a page of one's own.
const OWN: [(&str, &str); 14] = [
    ("name", "Shed roll"),
    ("page", "own"),
    ("page_width", "170"),
    ("page_height", "160"),
    ("from_left", "2"),
    ("from_top", "3,5"),
    ("width", "80"),
    ("height", "50"),
    ("pitch_x", "82.5"),
    ("pitch_y", ""),
    ("across", "2"),
    ("down", "3"),
    ("nudge_x", "0.4"),
    ("nudge_y", "-0.3"),
];

#[tokio::test]
async fn a_sheet_is_kept_by_its_measures_and_printed_on() {
    let (_club, jo, [first, _], _) = soaking().await;
    let form = jo.get("/labels/sheets/new").await;
    let test = jo.submit(&form, "/labels/sheets/new", &OWN).await;
    test.says("Shed roll is kept.").says("100 mm; nudge 0.4 / -0.3");
    assert_eq!(test.all(".on-paper rect").len(), 6);
    assert!(test.body.contains(r#"<rect x="84.900" y="103.200" width="80" height="50""#), "the sixth");
    let css = jo.get("/labels/paper/170x160.css").await;
    assert_eq!(css.body, "@page labels { size: 170mm 159.46mm; margin: 0; }\n");
    assert_eq!(css.headers["content-type"], "text/css; charset=utf-8");
    for wrong in ["170x160", "x.css", "170x.css", "1x1.css", "NaNx20.css", "170x9e9.css"] {
        let answer = jo.get(&format!("/labels/paper/{wrong}")).await;
        assert_eq!(answer.status, StatusCode::NOT_FOUND, "{wrong}");
    }
    let page = jo.get(&format!("/trials/{first}/labels")).await;
    assert_eq!(page.all("#sheet option")[0], "Shed roll", "one's own is offered first");
    assert!(page.body.contains(r#"x="84.900" y="3.200" width="80" height="50""#));
    let edit = jo.get(&jo.get("/labels/sheets").await.link("Change Shed roll")).await;
    let changed = jo.submit(&edit, &edit.path, &[("nudge_x", "0")]).await;
    changed.says("Shed roll is changed.").says("nudge 0 / -0.3");
    jo.submit(&form, "/labels/sheets/new", &OWN).await;
    let again = jo.get("/labels/sheets/new?from=roll-62x29").await;
    jo.submit(&again, "/labels/sheets/new", &[("name", "shed  ROLL")]).await.refuses("name", "of that name");
    let gone = format!("{}/remove", edit.path);
    jo.submit(&jo.get(&edit.path).await, &gone, &[]).await.says("Shed roll is forgotten.");
    assert_eq!(jo.get(&edit.path).await.status, StatusCode::NOT_FOUND);
    assert_eq!(jo.get("/labels/sheets").await.all(".lines li").len(), 7, "the common ones stay");
}

#[tokio::test]
async fn measures_that_cannot_be_are_refused_beside_their_field_and_kept_as_typed() {
    let club = Club::new().await;
    let jo = club.grower("Jo", "JB").await;
    let form = jo.get("/labels/sheets/new").await;
    let wrong: [(&str, &str, &str, &str); 11] = [
        ("name", "", "name", "Please fill this in"),
        ("page", "a5", "page", "Please choose one"),
        (
            "page_width",
            "160",
            "across",
            "The last label would end 164.5 mm from the edge, and the page is only 160 mm wide",
        ),
        ("down", "4", "down", "the page is only 160 mm high"),
        ("pitch_x", "79", "pitch_x", "would lie on one another: each is 80 mm wide"),
        ("pitch_y", "49.9", "pitch_y", "each is 50 mm high"),
        ("width", "20", "width", "A number from 28 to 500"),
        ("height", "eleven", "height", "A number, please"),
        ("across", "0", "across", "A whole number from 1 to 20"),
        ("from_left", "", "from_left", "Please give a number of mm"),
        ("nudge_y", "10.5", "nudge_y", "A number from -10 to 10"),
    ];
    for (name, value, field, error) in wrong {
        let fields: Vec<(&str, &str)> =
            OWN.iter().map(|(n, v)| (*n, if *n == name { value } else { *v })).collect();
        let back = jo.submit(&form, "/labels/sheets/new", &fields).await;
        back.refuses(field, error);
        let kept = back.form("/labels/sheets/new").filled(&[]);
        for (n, v) in fields.iter().filter(|(n, _)| *n != "page") {
            assert!(kept.contains(&((*n).to_owned(), (*v).to_owned())), "{n} is lost when {name} is {value}");
        }
    }
    assert_eq!(jo.get("/labels/sheets").await.all(".lines li").len(), 7, "nothing was kept");
}

#[tokio::test]
async fn only_an_organiser_shares_a_sheet_and_only_its_owner_changes_it() {
    let club = Club::new().await;
    let (lea, jo) = (club.organiser("Lea", "LM").await, club.grower("Jo", "JB").await);
    let shared = [&OWN[..], &[("shared", "yes")]].concat();
    let form = lea.get("/labels/sheets/new").await;
    let kept = lea.submit(&form, "/labels/sheets/new", &shared).await;
    jo.get("/labels/sheets").await.says("Shed roll");
    jo.get(&kept.path).await.says("Test page of Shed roll");
    let own = kept.path.trim_end_matches("/test");
    assert_eq!(jo.get(own).await.status, StatusCode::NOT_FOUND);
    let key = [("key", "0123456789abcdef")];
    assert_eq!(jo.post(&format!("{own}/remove"), &key).await.status, StatusCode::NOT_FOUND);
    let mut sly = jo.get("/labels/sheets/new").await.form("/labels/sheets/new").filled(&OWN[1..]);
    sly.extend([("name".to_owned(), "Mine".to_owned()), ("shared".to_owned(), "yes".to_owned())]);
    let sly: Vec<(&str, &str)> = sly
        .iter()
        .filter(|(n, v)| n != "name" || !v.is_empty())
        .map(|(n, v)| (n.as_str(), v.as_str()))
        .collect();
    jo.post("/labels/sheets/new", &sly).await.says("Mine is kept.");
    lea.get("/labels/sheets").await.says_not("Mine");
}

#[tokio::test]
async fn a_code_without_room_is_left_off_and_said() {
    let (_club, jo, [first, _], _) = soaking().await;
    let form = jo.get("/labels/sheets/new").await;
    let small = [("width", "30"), ("height", "13"), ("pitch_x", "30")];
    let fields: Vec<(&str, &str)> =
        OWN.iter().map(|(n, v)| (*n, small.iter().find(|(m, _)| m == n).map_or(*v, |(_, v)| v))).collect();
    jo.submit(&form, "/labels/sheets/new", &fields).await.says("Shed roll is kept.");
    let page = jo.get(&format!("/trials/{first}/labels")).await;
    page.says("No code on 2 of them:");
    assert_eq!(page.all(".on-paper .m"), ["JB 1", "JB 1 a"]);
    assert!(!page.body.contains("scale("));
    let large = jo.get(&format!("/trials/{first}/labels?sheet=a4-3x8")).await;
    large.says_not("No code on");
}

#[tokio::test]
async fn pots_have_a_label_each_and_trays_one_for_either_end() {
    let (club, jo, _, bag) = soaking().await;
    club.pass_days(4);
    club.look(&jo, &hilum::db::ids::BagId(bag.clone()), 4, 0).await;
    club.pass_minutes(5);
    let trays = jo.get("/trays/new").await;
    let made = jo.submit(&trays, "/trays/new", &[("name", "Bench"), ("geometry", "16x8")]).await;
    let tray = made.path.trim_start_matches("/trays/").to_owned();
    let plant = jo.get(&format!("/bags/{bag}/plant")).await;
    let planted = [("seeds", "4"), ("per_cell", "2"), ("tray", tray.as_str())];
    jo.submit(&plant, &plant.path, &planted).await;
    club.pass_days(20);
    let cell = jo.get(&format!("/trays/{tray}")).await.link("JB 1 a");
    let page = jo.get(&cell).await;
    jo.submit(&page, &format!("{cell}/outcomes"), &[("up", "2"), ("potted", "2")]).await;
    let choose = jo.get("/labels").await;
    choose.says("Kestrel, JB T1, cell A1: 2 pots, potted 26 Mar 2026").says("Bench, 128 cells");
    let id = cell.trim_start_matches("/plantings/");
    let labels = jo.get(&format!("/labels/print?pot={id}&tray={tray}")).await;
    labels.says("4 labels.").says("potted 26 Mar 2026").says("first row here");
    assert_eq!(labels.all(".on-paper .m"), ["JB 1 a", "JB 1 a", "JB T1", "JB T1"]);
    assert_eq!(codes(&labels.body, "https://seed.example.org/P/JB1A-1"), 2);
    assert_eq!(codes(&labels.body, "https://seed.example.org/T/JBT1"), 2);
    let papers = jo.get("/labels").await;
    let choice = papers
        .html()
        .select(&"select[name=sheet] option".try_into().unwrap())
        .filter_map(|o| o.attr("value").map(str::to_owned))
        .collect::<Vec<_>>();
    assert!(choice.len() > 5, "{choice:?}");
    for paper in choice {
        let small = jo.get(&format!("/labels/print?tray={tray}&sheet={paper}")).await;
        let ends = small.all(".on-paper .one .b");
        assert!(ends.iter().any(|w| w.starts_with("first")), "{paper}: {ends:?}");
        assert!(ends.iter().any(|w| w.starts_with("last")), "{paper}: {ends:?}");
    }
    assert_eq!(jo.get("/P/JB1A-1").await.path, cell);
    assert!(jo.get("/P/JB1A-2").await.path.starts_with("/plantings/"));
    for wrong in ["/P/JB1A-3", "/P/JB1A-0", "/P/JB1A", "/P/JB9A-1"] {
        assert_eq!(jo.get(wrong).await.status, StatusCode::NOT_FOUND, "{wrong}");
    }
    let kim = club.grower("Kim", "KR").await;
    let kim = kim.with_cookie("__Host-hilum", &kim.cookie("hilum"));
    kim.get(&format!("/labels/print?pot={id}&tray={tray}")).await.says("Nothing here needs a label now.");
    assert_eq!(kim.get("/P/JB1A-1").await.status, StatusCode::NOT_FOUND);
}

#[tokio::test]
async fn a_first_free_label_that_is_none_is_refused_beside_its_field() {
    let (_club, jo, [first, _], _) = soaking().await;
    for typed in ["abc", "0", "25", "-1", "1.5"] {
        let page = jo.get(&format!("/labels/print?trial={first}&sheet=a4-3x8&first={typed}")).await;
        assert_eq!(page.status, axum::http::StatusCode::UNPROCESSABLE_ENTITY, "{typed}");
        assert_eq!(
            page.all("#first-error"),
            ["A whole number from 1 to 24, please: so many labels are on this sheet."]
        );
        assert!(page.body.contains(&format!("value=\"{typed}\"")), "{typed} stays");
    }
}
