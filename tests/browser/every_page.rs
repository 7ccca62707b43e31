//! Every page of the app, found by following links from Due now, in six states each: axe-core, reflow, large text; in
//! German in three.

use crate::ring;
use crate::support::{Phone, Program, STATES, Walk};
use hilum::texts::Language;

const DAY: i64 = 24 * 60;
/// Answers of forms that ask by their address, and what is not there.
const ASKED: [&str; 10] = [
    "/labels/print",
    "/cards/print",
    "/find?mark=ZZ+9",
    "/calculators/sowing?plants=24&certainty=90&rooted=73&tested=104",
    "/calculators/sowing?plants=many",
    "/calculators/comparison?one=70&other=55&certainty=80",
    "/mix?percent=9",
    "/floaters?kind=pepper",
    "/table?at=close&of=paper",
    "/nowhere",
];
/// Pages whose first form is sent empty.
const REFUSED: &[&str] = &[
    "/packets/new",
    "/packets/import",
    "/packets/{id}/give",
    "/packets/{id}/seeds",
    "/kinds",
    "/trials/new",
    "/routines/new",
    "/rings/new",
    "/plan/season",
    "/plan/lines",
    "/bags/{id}/happened",
    "/labels/sheets/new",
    "/cards/{id}",
    "/me",
    "/me/tokens",
];
const GROWERS: [&str; 2] = ["Bartek Wolny", "Chidi Anozie"];

#[tokio::test(flavor = "multi_thread")]
async fn every_page_is_plain_to_everyone() {
    let program = Program::demo().await;
    let phone = Phone::open(&program.base).await;
    let mut walk = Walk::new(&phone);
    walk.visit("/sign-in").await;
    phone.sign_in("agnes").await;
    let links = make_links(&phone, &mut walk).await;
    let rings = make_things(&phone, &program).await;
    for address in rings.iter().map(String::as_str).chain(ASKED) {
        walk.visit(address).await;
    }
    walk.follow().await;
    for pattern in REFUSED {
        walk.send_empty(pattern).await;
    }
    make_token(&phone, &mut walk).await;
    sign_out(&phone).await;
    for link in &links {
        walk.visit(link).await;
    }
    phone.sign_in("bartek").await;
    for address in rings.iter().map(String::as_str).chain(["/", "/packets", "/members", "/members/1"]) {
        walk.visit(address).await;
    }
    println!("{} pages in {STATES} states each", walk.pages);
    let unseen = walk.unseen();
    assert!(unseen.is_empty(), "no page leads to these, and no list names them: {unseen:#?}");
    assert!(walk.faults.is_empty(), "{} faults: {:#?}", walk.faults.len(), walk.faults);
    phone.close().await;
}

/// The same pages in German, in the states that its longer words can break.
#[tokio::test(flavor = "multi_thread")]
async fn every_page_has_room_for_german() {
    let program = Program::demo().await;
    let phone = Phone::open(&program.base).await;
    let mut walk = Walk::of_words(&phone);
    phone.asks_for(Language::German).await;
    walk.visit("/sign-in").await;
    phone.asks_for(Language::English).await;
    phone.sign_in("agnes").await;
    let rings = make_things(&phone, &program).await;
    phone.speaks(Language::German).await;
    for address in rings.iter().map(String::as_str).chain(ASKED) {
        walk.visit(address).await;
    }
    walk.follow().await;
    println!("{} pages in German", walk.pages);
    assert!(walk.pages > 100 && walk.faults.is_empty(), "{} faults: {:#?}", walk.faults.len(), walk.faults);
    phone.close().await;
}

/// What makes the club's pages full: ring trials, of which it gives the addresses, a holder, a plan, paper.
async fn make_things(phone: &Phone, program: &Program) -> Vec<String> {
    let rings = make_rings(phone, program).await;
    make_holder(phone).await;
    make_plan(phone).await;
    make_paper(phone).await;
    rings
}

async fn sign_out(phone: &Phone) {
    phone.goto("/").await;
    phone.tap("footer form button").await;
    phone.says("Sign in").await;
}

/// An invitation and a reset link; their pages are looked at while they are shown.
async fn make_links(phone: &Phone, walk: &mut Walk<'_>) -> Vec<String> {
    let mut made = Vec::new();
    phone.goto("/members").await;
    phone.tap("form[action='/members/invite'] button").await;
    for way in ["invitation", "reset link"] {
        phone.says("It is shown only now").await;
        made.push(phone.find("#link").await.prop("value").await.unwrap().unwrap());
        walk.look_at(way).await;
        if way == "invitation" {
            phone.goto("/members").await;
            phone.tap_words("Edda Lund").await;
            phone.tap("form[action$='/reset'] button").await;
        }
    }
    made
}

/// A token while it is shown, and the page that lists it.
async fn make_token(phone: &Phone, walk: &mut Walk<'_>) {
    phone.goto("/me/tokens").await;
    phone.fill("#f-name", "Scale in the shed").await;
    phone.tap("#make button.main").await;
    phone.says("It is shown only now").await;
    walk.look_at("token").await;
    phone.goto("/me/tokens").await;
    walk.look_at("/me/tokens with one").await;
}

async fn make_holder(phone: &Phone) {
    phone.goto("/holders").await;
    phone.fill("#f-place", "mat").await;
    phone.tap("#holder button.main").await;
    phone.says("Now put bags into it").await;
}

/// A plan with a line that there is seed for, and one that there is not.
async fn make_plan(phone: &Phone) {
    phone.goto("/plan/season").await;
    phone.choose("#f-routine", "Plain water overnight").await;
    phone.fill("#f-mat_bags", "2").await;
    phone.tap("#season button.main").await;
    phone.says("Add to the plan").await;
    phone.fill("#f-list", "Marsh Ember, 24, 1 June\ntomato: Wharf Red, 6, 1 June").await;
    phone.tap("#lines .save button.main").await;
    phone.says("Added: 2 lines.").await;
}

/// A label sheet of one's own, and a count card.
async fn make_paper(phone: &Phone) {
    phone.goto("/labels/sheets/new?from=roll-62x29").await;
    phone.fill("#f-name", "Shed roll").await;
    phone.tap("#sheet button.main").await;
    phone.says("Test page of Shed roll").await;
    phone.goto("/cards").await;
    phone.tap("#cards button.main").await;
    phone.says("US Letter instead").await;
}

/// Ring trials in each stage, the last with counts by one grower; gives their addresses.
async fn make_rings(phone: &Phone, program: &Program) -> Vec<String> {
    let mut made = Vec::new();
    for stage in ["Planned", "Given up", "Running", "Opened"] {
        phone.goto("/table/variety?kind=pepper&variety=Marsh+Ember").await;
        phone.tap_words("Set up a ring trial of Marsh Ember").await;
        made.push(ring::plan(phone, stage, &["JA 2", "HM 1"], &GROWERS).await);
        if stage == "Given up" {
            phone.tap_words("Give up this plan").await;
            phone.tap("form[action$='/give-up'] button").await;
            phone.says("given up").await;
        } else if stage != "Planned" {
            ring::numbers(phone, "1", "5").await;
            ring::draw(phone).await;
            ring::hand_out(phone, "Bartek Wolny").await;
        }
    }
    sign_out(phone).await;
    phone.sign_in("bartek").await;
    let bags = ring::start(phone, "Opened").await;
    program.at_minute(8 * DAY);
    ring::count(phone, &bags, &[("BW", "4")]).await;
    sign_out(phone).await;
    phone.sign_in("agnes").await;
    ring::open(phone, &made[3], "A test.").await;
    made
}
