//! Nothing that a grower can open tells the variety or the source before the end.

use super::*;
use hilum::trays::store::{self, NewTray, Plan};
use scraper::Selector;
use std::collections::BTreeSet;

/// Lists of all names of the club, whoever's packets they are on: they tell nothing of one packet.
const NAMES_OF_THE_CLUB: [&str; 4] = ["/varieties", "/sources", "/packets/new", "/packets/import"];

/// Every address that the links of the pages lead to, from the front page on, with its page.
async fn walk(by: &Browser) -> Vec<Page> {
    let mut seen = BTreeSet::from(["/".to_owned()]);
    let (mut waiting, mut pages) = (vec!["/".to_owned()], Vec::new());
    while let Some(path) = waiting.pop() {
        let page = by.get(&path).await;
        let links = Selector::parse("a[href^='/'], form[action^='/']").unwrap();
        for link in page.html().select(&links) {
            let get = link.value().attr("method").is_none_or(|m| m == "get");
            let to = link.value().attr("href").or(link.value().attr("action")).unwrap();
            let to = to.split('#').next().unwrap().to_owned();
            if get && !NAMES_OF_THE_CLUB.iter().any(|n| to.starts_with(n)) && seen.insert(to.clone()) {
                waiting.push(to);
            }
        }
        pages.push(page);
        assert!(pages.len() < 600, "the walk does not end");
    }
    pages
}

#[track_caller]
fn tells_nothing(page: &Page) {
    for name in [&["Kestrel"], &SOURCES[..]].concat() {
        assert!(!page.body.contains(name), "{name} is on {}", page.path);
    }
}

/// A tray with the rooted seeds of the bag in it.
async fn plant(ring: &Ring, by: &Browser, bag: &BagId) {
    let now = ring.club.app.now();
    let mut conn = ring.club.app.db.write().await.unwrap();
    let new = NewTray { name: "Bench", rows: 2, cols: 3, place: "" };
    let (tray, _) = store::make(&mut conn, by.id(), &new, now).await.unwrap();
    let plan = Plan { bag, tray: &tray, seeds: 2, per_cell: 1, from: None, unrooted: false, over: None };
    store::plant(&mut conn, &Act::new(by.id(), "season", now, now), &plan).await.unwrap();
    conn.commit().await.unwrap();
}

#[tokio::test]
async fn no_page_of_a_grower_tells_what_is_in_a_packet() {
    let ring = Ring::new(400).await;
    let path = ring.handed_out().await;
    let ben = &ring.growers[1];
    let theirs = parts(&ring.club, ben).await;
    let soaking = ring.club.trial(ben, &theirs[0].packet_id, 20).await;
    let trial = ring.club.trial(ben, &theirs[1].packet_id, 20).await;
    ring.club.bag(ben, &trial, 10).await;
    let closed = ring.bag(ben, &trial, 6).await;
    ring.club.pass_days(15);
    plant(&ring, ben, &closed).await;
    let pages = walk(ben).await;
    pages.iter().for_each(tells_nothing);
    let visited: Vec<&str> = pages.iter().map(|p| p.path.as_str()).collect();
    let (packet, ours) = (format!("/packets/{}", theirs[0].packet_id), format!("/trials/{soaking}"));
    for wanted in [
        "/looks",
        "/packets.csv",
        "/table",
        "/counts.csv",
        "/trays",
        &path,
        &ours,
        &packet,
        &format!("{packet}/edit"),
        &format!("/bags/{closed}"),
        &format!("/trials/{soaking}/paper"),
    ] {
        assert!(visited.contains(&wanted), "{wanted} was not walked to: {visited:?}");
    }
    for sort in ["/sheet", "/close", "/happened", "/outcomes", "/void"] {
        assert!(visited.iter().any(|v| v.contains(sort)), "no {sort} was walked to: {visited:?}");
    }
    tells_nothing(&ben.get(&format!("{packet}/give")).await);
    tells_nothing(&ben.get("/packets?sort=variety").await);
    ben.get(&packet).await.says("blind: opened when the ring trial ends").says("Spring trial");
    ben.get(&path).await.says("Your packets").says("soaking").says("6 of 20 rooted").says_not("Progress");
    ben.get(&path).await.says_not("CT ").says_not("Ann");
}

#[tokio::test]
async fn no_answer_to_a_growers_program_tells_it_either() {
    let ring = Ring::new(400).await;
    ring.handed_out().await;
    let ben = &ring.growers[1];
    let packet = parts(&ring.club, ben).await[0].packet_id.clone();
    let trial = ring.club.trial(ben, &packet, 20).await;
    let bag = ring.bag(ben, &trial, 6).await;
    ring.club.pass_days(15);
    plant(&ring, ben, &bag).await;
    let token = crate::api::token(&ring.club, ben, "read").await;
    let answer = async |path: &str| {
        let path = format!("/api/v1{path}");
        let sent = crate::api::Sent { method: "GET", path: &path, token: &token, body: None, headers: &[] };
        let answer = crate::api::send(&ring.club.stranger(), sent).await;
        assert_eq!(answer.status, StatusCode::OK, "{path}: {answer:?}");
        let told = answer.json.to_string();
        assert!([&["Kestrel"], &SOURCES[..]].concat().iter().all(|n| !told.contains(n)), "{path}: {told}");
        told
    };
    for path in ["/due", "/packets", "/trials", "/bags", "/trays", "/counts", "/outcomes", "/table"] {
        answer(path).await;
    }
    for path in [format!("/trials/{trial}"), format!("/bags/{bag}"), format!("/bags/{bag}/entries")] {
        answer(&path).await;
    }
    assert!(answer(&format!("/packets/{packet}")).await.contains("blind lot"));
    let ledger = answer(&format!("/packets/{packet}/entries")).await;
    assert!(
        ledger.contains("taken") && !ledger.contains("received"),
        "the entry's id tells the order: {ledger}"
    );
}

#[tokio::test]
async fn strangers_to_a_ring_trial_see_nothing_of_it() {
    let ring = Ring::new(400).await;
    let dan = ring.club.grower("Dan", "DN").await;
    let planned = ring.plan(&[]).await.path;
    assert_eq!(ring.growers[0].get(&planned).await.status, StatusCode::NOT_FOUND, "only planned");
    let path = ring.handed_out().await;
    assert_eq!(dan.get(&path).await.status, StatusCode::NOT_FOUND);
    dan.get("/rings").await.says("You take part in none").says_not("Spring trial");
    ring.growers[0].get("/rings").await.says("Spring trial").says_not("Kestrel");
    for name in ["/varieties", "/sources", "/kinds"] {
        dan.get(name).await.says_not("blind").says_not("hidden source");
    }
}

#[tokio::test]
async fn an_organiser_who_grows_is_asked_before_the_key() {
    let mut ring = Ring::new(400).await;
    let max = ring.club.organiser("Max", "MX").await;
    ring.growers[2] = max;
    let path = ring.handed_out().await;
    let max = &ring.growers[2];
    let page = max.get(&path).await;
    page.says("You grow in this ring trial yourself").says("Progress");
    tells_nothing(&page);
    let asked = max.get(&format!("{path}/key")).await;
    tells_nothing(&asked);
    max.get(&asked.link("all the same")).await.says("Testwood Seeds");
}

#[tokio::test]
async fn a_blind_packet_keeps_its_lot_and_its_grower() {
    let ring = Ring::new(400).await;
    ring.handed_out().await;
    let ben = &ring.growers[1];
    let packet = format!("/packets/{}", parts(&ring.club, ben).await[0].packet_id);
    let edit = format!("{packet}/edit");
    let form = ben.get(&edit).await;
    form.says("variety, source and year are opened when the ring trial ends");
    ben.submit(&form, &edit, &[("place", "shed")]).await.says("Saved").says("shed").says("blind lot");
    let forged =
        [form_pairs(&ben.get(&edit).await, &edit), vec![("variety".into(), "Osprey".into())]].concat();
    let forged: Vec<(&str, &str)> = forged.iter().map(|(n, v)| (n.as_str(), v.as_str())).collect();
    ben.post(&edit, &forged).await;
    ben.get(&packet).await.says("blind lot").says_not("Osprey");
    let give = format!("{packet}/give");
    let page = ben.get(&give).await;
    let to = ring.growers[0].id().0.clone();
    ben.submit(&page, &give, &[("to", &to), ("seeds", "5")]).await.refuses("to", "part of a ring trial");
    let own = ben.get(&packet.replace("/packets/", "/packets/new?parent=")).await;
    assert_eq!(own.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(own.text().contains("once the ring trial is opened"));
    let typed = ben.get("/packets/new").await;
    let named = [
        ("kind", "pepper"),
        ("variety", "blind lot"),
        ("source", "a hidden source"),
        ("seeds", "5"),
        ("letters", "BE"),
    ];
    ben.submit(&typed, "/packets/new", &named).await.says("Added");
    assert_eq!(number(&ring.club, "SELECT COUNT(*) AS n FROM varieties WHERE name = 'blind lot'").await, 2);
    sound(&ring.club).await;
}

fn form_pairs(page: &Page, action: &str) -> Vec<(String, String)> {
    page.form(action).filled(&[])
}

#[tokio::test]
async fn the_check_finds_packets_that_are_blind_for_ever_or_known_too_early() {
    let ring = Ring::new(400).await;
    let path = ring.handed_out().await;
    sound(&ring.club).await;
    let breaches = async |sql: &'static str| {
        let mut conn = ring.club.app.db.write().await.unwrap();
        conn.run(sql, args![]).await.unwrap();
        notebook::check::all(&mut conn, ring.club.app.now()).await.unwrap()
    };
    let early = "UPDATE packets SET lot_id = 'l-Kestrel-Marsh Farm' WHERE mark = 'BE 2'";
    assert_eq!(
        breaches(early).await,
        ["ring trial packet BE 2: is not blind, and its ring trial still runs"]
    );
    let open = format!("{path}/open");
    ring.send(&open, &open, &[("why", "test")]).await.says("Opened early");
    sound(&ring.club).await;
    let late = "UPDATE packets SET lot_id = (SELECT blind_lot FROM rings) WHERE mark = 'BE 2'";
    assert_eq!(
        breaches(late).await,
        ["ring trial packet BE 2: is blind, and no running ring trial will open it"]
    );
}

#[tokio::test]
async fn a_grower_cannot_find_out_by_taking_a_hand_out_back() {
    let ring = Ring::new(400).await;
    ring.handed_out().await;
    let ben = &ring.growers[1];
    let theirs = parts(&ring.club, ben).await;
    let packet = ben.get(&format!("/packets/{}", theirs[0].packet_id)).await;
    assert!(!packet.says("received").body.contains("/void"), "the entry's address tells the order");
    let sql = "SELECT e.id FROM entries e JOIN ledger g ON g.entry_id = e.id WHERE e.packet_id = $1 AND g.sort = 'received'";
    #[derive(FromRow)]
    struct Id {
        id: String,
    }
    let mut conn = ring.club.app.db.read().await.unwrap();
    let received: Id = conn.one(sql, args![&theirs[0].packet_id]).await.unwrap();
    let asked = ben.get(&format!("/entries/{}/void", received.id)).await;
    assert_eq!(asked.status, StatusCode::FORBIDDEN);
    ring.lea.get(&format!("/entries/{}/void", received.id)).await.says("given");
}

#[tokio::test]
async fn the_name_must_not_tell() {
    let ring = Ring::new(400).await;
    let mut fields: Vec<_> = ring.fields().into_iter().filter(|(name, _)| *name != "name").collect();
    fields.push(("name", "fen merchant against the rest"));
    let form = ring.lea.get("/rings/new?variety=v-Kestrel").await;
    let told = ring.lea.submit(&form, "/rings/new", &fields).await;
    told.refuses("name", "leave Fen Merchant out of it");
}
