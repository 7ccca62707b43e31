mod season;

use crate::support::{Browser, Club, routes};
use axum::body::Body;
use axum::http::header::{CONTENT_TYPE, HOST, LOCATION, ORIGIN};
use axum::http::{Request, StatusCode};
use season::Season;
use std::collections::BTreeSet;
use std::fmt::Debug;

/// Who may open an address. Others get: a stranger the way to the sign-in page, a grower on an organiser's page
/// 403, a member at somebody else's thing 404, organisers included.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Who {
    /// Everybody, signed in or not.
    Anybody,
    /// Whoever holds a link that is still good; else 404.
    Link,
    /// Every member.
    Members,
    Organisers,
    /// The member whose packet, trial or bag stands first in the path.
    Packet,
    Trial,
    Bag,
    Tray,
    Planting,
    Entry,
    /// The member whose thing it is, of which there is none here: 404 for all.
    Nobody,
}
use Who::*;

/// Every route of the app, one line each. A route that is missing here fails the test.
#[rustfmt::skip]
pub const TABLE: &[(&str, &str, Who)] = &[
    ("GET",  "/static/{build}/{name}", Anybody),
    // manual
    ("GET",  "/help", Anybody),
    ("GET",  "/help/{page}", Anybody),
    // host
    ("GET",  "/healthz", Anybody),
    ("GET",  "/readyz", Anybody),
    // phone
    ("GET",  "/sw.js", Anybody),
    ("GET",  "/offline.json", Members),
    ("GET",  "/outbox", Members),
    ("GET",  "/phone", Members),
    // accounts
    ("GET",  "/sign-in", Anybody),
    ("POST", "/sign-in", Anybody),
    ("POST", "/sign-in/passkey", Anybody),
    ("POST", "/sign-in/passkey/ask", Anybody),
    ("POST", "/sign-out", Anybody),
    ("GET",  "/join/{token}", Link),
    ("POST", "/join/{token}", Link),
    ("GET",  "/reset/{token}", Link),
    ("POST", "/reset/{token}", Link),
    ("GET",  "/members", Members),
    ("POST", "/members/invite", Organisers),
    ("POST", "/members/links/{id}/withdraw", Organisers),
    ("GET",  "/members/record", Organisers),
    ("GET",  "/members/{id}", Organisers),
    ("POST", "/members/{id}/sessions", Organisers),
    ("POST", "/members/{id}/reset", Organisers),
    ("POST", "/members/{id}/role", Organisers),
    ("POST", "/members/{id}/leave", Organisers),
    ("GET",  "/me", Members),
    ("POST", "/me", Members),
    ("POST", "/me/letters", Members),
    ("POST", "/me/password", Members),
    ("POST", "/me/calendar", Members),
    ("POST", "/me/calendar/end", Members),
    ("POST", "/me/sessions", Members),
    ("POST", "/me/sessions/{id}/end", Nobody),
    ("GET",  "/me/proof", Members),
    ("POST", "/me/proof", Members),
    ("GET",  "/me/data", Members),
    ("POST", "/me/data/copy.zip", Members),
    ("POST", "/me/data/erase", Members),
    ("GET",  "/me/passkeys", Members),
    ("POST", "/me/passkeys", Members),
    ("POST", "/me/passkeys/ask", Nobody),
    ("POST", "/me/passkeys/{id}/remove", Nobody),
    ("GET",  "/me/tokens", Members),
    ("POST", "/me/tokens", Members),
    ("POST", "/me/tokens/{id}/end", Nobody),
    ("GET",  "/backups", Organisers),
    // api: what takes a token is in the table of tests/http/api/isolation.rs
    ("GET",  "/api", Members),
    ("GET",  "/api/v1/openapi.json", Anybody),
    // calendar: whoever holds the address
    ("GET",  "/calendar/{file}", Link),
    // bags
    ("GET",  "/", Members),
    ("GET",  "/looks", Members),
    ("POST", "/looks", Members),
    ("GET",  "/bags/unknown", Members),
    ("POST", "/bags/unknown", Members),
    ("GET",  "/bags/{id}", Bag),
    ("POST", "/bags/{id}/count", Bag),
    ("GET",  "/bags/{id}/happened", Bag),
    ("POST", "/bags/{id}/happened", Bag),
    ("GET",  "/bags/{id}/elsewhere", Bag),
    ("POST", "/bags/{id}/elsewhere", Bag),
    ("GET",  "/bags/{id}/close", Bag),
    ("POST", "/bags/{id}/close", Bag),
    ("POST", "/bags/{id}/reopen", Bag),
    ("GET",  "/holders", Members),
    ("POST", "/holders", Members),
    ("GET",  "/holders/{id}", Nobody),
    ("POST", "/holders/{id}", Nobody),
    ("GET",  "/find", Members),
    ("GET",  "/L/{mark}", Members), ("GET",  "/l/{mark}", Members),
    ("POST", "/undo", Members),
    ("GET",  "/entries/{id}/void", Entry),
    ("POST", "/entries/{id}/void", Entry),
    // labels
    ("GET",  "/labels", Members),
    ("GET",  "/labels/print", Members),
    ("GET",  "/trials/{id}/labels", Trial),
    ("GET",  "/labels/paper/{size}", Nobody),
    ("GET",  "/labels/sheets", Members),
    ("GET",  "/labels/sheets/new", Members),
    ("POST", "/labels/sheets/new", Members),
    ("GET",  "/labels/sheets/{id}", Nobody),
    ("POST", "/labels/sheets/{id}", Nobody),
    ("POST", "/labels/sheets/{id}/remove", Nobody),
    ("GET",  "/labels/sheets/{id}/test", Nobody),
    ("GET",  "/V/{vial}", Nobody),
    ("GET",  "/P/{pot}", Nobody),
    // cards
    ("GET",  "/cards", Members),
    ("POST", "/cards", Members),
    ("GET",  "/cards/print", Members),
    ("GET",  "/cards/{id}", Nobody),
    ("POST", "/cards/{id}", Nobody),
    ("GET",  "/C/{card}", Nobody),
    // photos: of a bag of one's own
    ("GET",  "/photos/{id}", Nobody),
    ("GET",  "/photos/{id}/small", Nobody),
    // rates
    ("GET",  "/table", Members),
    ("GET",  "/table.csv", Members),
    ("GET",  "/counts.csv", Members),
    ("GET",  "/floaters", Members),
    // calculators
    ("GET",  "/calculators", Members),
    ("GET",  "/calculators/sowing", Members),
    ("GET",  "/calculators/comparison", Members),
    // planning
    ("GET",  "/plan", Members),
    ("GET",  "/plan/season", Members),
    ("POST", "/plan/season", Members),
    ("GET",  "/plan/lines", Members),
    ("POST", "/plan/lines", Nobody),
    ("POST", "/plan/accept", Nobody),
    ("GET",  "/plan/lines/{id}", Nobody),
    ("POST", "/plan/lines/{id}", Nobody),
    ("POST", "/plan/lines/{id}/accept", Nobody),
    ("POST", "/plan/lines/{id}/withdraw", Nobody),
    ("POST", "/plan/lines/{id}/delete", Nobody),
    ("GET",  "/plan/weeks", Members),
    ("GET",  "/plan/print", Members),
    ("GET",  "/plan/shopping", Members),
    ("GET",  "/packets/ageing", Members),
    ("GET",  "/plan.csv", Members),
    ("GET",  "/shopping.csv", Members),
    // compare: without a name there is nothing to show
    ("GET",  "/table/variety", Nobody),
    ("GET",  "/table/source", Nobody),
    ("GET",  "/table/care", Members),
    ("GET",  "/table/report", Members),
    // rings
    ("GET",  "/rings", Members),
    ("GET",  "/rings/new", Organisers),
    ("POST", "/rings/new", Organisers),
    ("GET",  "/rings/{id}", Nobody),
    ("POST", "/rings/{id}/numbers", Organisers),
    ("POST", "/rings/{id}/draw", Organisers),
    ("POST", "/rings/{id}/hand-out", Organisers),
    ("GET",  "/rings/{id}/labels", Organisers),
    ("GET",  "/rings/{id}/key", Organisers),
    ("GET",  "/rings/{id}/open", Organisers),
    ("POST", "/rings/{id}/open", Organisers),
    ("POST", "/rings/{id}/give-up", Organisers),
    // routines
    ("GET",  "/routines", Members),
    ("GET",  "/routines/new", Members),
    ("POST", "/routines/new", Members),
    ("GET",  "/routines/{id}", Members),
    ("GET",  "/routines/{id}/edit", Members),
    ("POST", "/routines/{id}/edit", Members),
    ("POST", "/routines/{id}/retire", Members),
    ("GET",  "/mix", Members),
    ("POST", "/mix", Members),
    // stock and transfer
    ("GET",  "/packets", Members),
    ("GET",  "/packets/new", Members),
    ("POST", "/packets/new", Members),
    ("GET",  "/packets/letters", Members),
    ("POST", "/packets/letters", Members),
    ("GET",  "/packets/{id}", Packet),
    ("GET",  "/packets/{id}/edit", Packet),
    ("POST", "/packets/{id}/edit", Packet),
    ("GET",  "/packets/{id}/seeds", Packet),
    ("POST", "/packets/{id}/seeds", Packet),
    ("GET",  "/packets/{id}/give", Packet),
    ("POST", "/packets/{id}/give", Packet),
    ("GET",  "/kinds", Members),
    ("POST", "/kinds", Members),
    ("GET",  "/kinds/{id}", Members),
    ("POST", "/kinds/{id}/name", Organisers),
    ("POST", "/kinds/{id}/join", Organisers),
    ("GET",  "/varieties", Members),
    ("GET",  "/varieties/{id}", Members),
    ("POST", "/varieties/{id}/merge", Organisers),
    ("POST", "/varieties/{id}/unmerge", Organisers),
    ("GET",  "/sources", Members),
    ("GET",  "/sources/{id}", Members),
    ("POST", "/sources/{id}/merge", Organisers),
    ("POST", "/sources/{id}/unmerge", Organisers),
    ("GET",  "/packets/import", Members),
    ("POST", "/packets/import", Members),
    ("POST", "/packets/import/confirm", Members),
    ("GET",  "/packets.csv", Members),
    ("GET",  "/packets/mcpd.csv", Members),
    ("GET",  "/counts/import", Members),
    ("POST", "/counts/import", Members),
    ("POST", "/counts/import/confirm", Members),
    ("GET",  "/clubs", Organisers),
    ("POST", "/clubs/table.zip", Organisers),
    ("POST", "/clubs/import", Organisers),
    ("POST", "/clubs/import/confirm", Organisers),
    ("POST", "/clubs/{code}/use", Organisers),
    ("POST", "/clubs/{code}/remove", Organisers),
    // trays
    ("GET",  "/trays", Members),
    ("GET",  "/trays/new", Members),
    ("POST", "/trays/new", Members),
    ("GET",  "/trays/{id}", Tray),
    ("POST", "/trays/{id}/place", Tray),
    ("POST", "/trays/{id}/finish", Tray),
    ("POST", "/trays/{id}/reopen", Tray),
    ("GET",  "/trays/{id}/outcomes", Tray),
    ("POST", "/trays/{id}/outcomes", Tray),
    ("GET",  "/trays/{id}/sheet", Tray),
    ("GET",  "/T/{mark}", Nobody),
    ("GET",  "/bags/{id}/plant", Bag),
    ("POST", "/bags/{id}/plant", Bag),
    ("GET",  "/plantings/{id}", Planting),
    ("POST", "/plantings/{id}/outcomes", Planting),
    ("POST", "/plantings/{id}/end", Planting),
    // trials
    ("GET",  "/trials", Members),
    ("GET",  "/trials/new", Members),
    ("POST", "/trials/new", Members),
    ("GET",  "/trials/{id}", Trial),
    ("POST", "/trials/{id}/step", Trial),
    ("POST", "/trials/{id}/note", Trial),
    ("GET",  "/trials/{id}/tally", Trial),
    ("POST", "/trials/{id}/tally", Trial),
    ("GET",  "/trials/{id}/paper", Trial),
    ("POST", "/trials/{id}/paper", Trial),
    ("GET",  "/trials/{id}/seeds", Trial),
    ("POST", "/trials/{id}/seeds", Trial),
];

#[test]
fn every_route_is_in_the_table() {
    let listed: BTreeSet<(String, String)> =
        TABLE.iter().map(|(method, path, _)| ((*path).to_owned(), (*method).to_owned())).collect();
    assert_eq!(listed.len(), TABLE.len(), "a line stands twice");
    let mut found = BTreeSet::new();
    for route in routes::all() {
        assert!(route.get || route.post, "{} answers to neither GET nor POST", route.path);
        found.extend(route.get.then(|| (route.path.clone(), "GET".to_owned())));
        found.extend(route.post.then(|| (route.path.clone(), "POST".to_owned())));
    }
    let missing: Vec<_> = found.difference(&listed).collect();
    assert!(missing.is_empty(), "say in the table who may open these: {missing:#?}");
    let gone: Vec<_> = listed.difference(&found).collect();
    assert!(gone.is_empty(), "these routes are no more: {gone:#?}");
}

/// What a visitor gets: the status, and where to go on.
pub async fn visit(browser: &Browser, method: &str, path: &str) -> (StatusCode, String) {
    let request = Request::builder().method(method).uri(path).header(HOST, "club.test");
    let key = format!("key={}", uuid::Uuid::new_v4().simple());
    let body = if method == "POST" { key } else { String::new() };
    let request = request
        .header(ORIGIN, "http://club.test")
        .header(CONTENT_TYPE, "application/x-www-form-urlencoded")
        .body(Body::from(body))
        .unwrap();
    let response = browser.raw(request).await;
    let to = response.headers().get(LOCATION).map(|v| v.to_str().unwrap().to_owned());
    (response.status(), to.unwrap_or_default())
}

fn asks_to_sign_in((status, to): &(StatusCode, String)) -> bool {
    *status == StatusCode::SEE_OTHER && to.starts_with("/sign-in")
}

#[track_caller]
fn lets_in(what: impl Debug, answer: &(StatusCode, String)) {
    let refused = [StatusCode::FORBIDDEN, StatusCode::METHOD_NOT_ALLOWED].contains(&answer.0);
    let in_order = !refused && !answer.0.is_server_error() && !asks_to_sign_in(answer);
    assert!(in_order, "{what:?} should be let in: {answer:?}");
}

#[tokio::test]
async fn each_page_opens_to_those_it_is_for() {
    let season = Season::new().await;
    for line in TABLE {
        let (method, pattern, who) = *line;
        let path = season.path(pattern, who);
        let stranger = visit(&season.club.stranger(), method, &path).await;
        let kim = visit(&season.club.again(&season.kim).await, method, &path).await;
        let lea = visit(&season.club.again(&season.lea).await, method, &path).await;
        match who {
            Anybody => assert!(!stranger.0.is_server_error(), "{line:?}: {stranger:?}"),
            Link => assert_eq!(stranger.0, StatusCode::NOT_FOUND, "{line:?}"),
            _ => assert!(asks_to_sign_in(&stranger), "a stranger at {line:?}: {stranger:?}"),
        }
        match who {
            Anybody | Link => {}
            Members => lets_in(("a grower", line), &kim),
            Organisers => {
                assert_eq!(kim.0, StatusCode::FORBIDDEN, "a grower at {line:?}");
                lets_in(("an organiser", line), &lea);
            }
            Nobody => assert_eq!(kim.0, StatusCode::NOT_FOUND, "a grower at {line:?}"),
            Packet | Trial | Bag | Tray | Planting | Entry => {
                assert_eq!(kim.0, StatusCode::NOT_FOUND, "another grower at {line:?}");
                assert_eq!(lea.0, StatusCode::NOT_FOUND, "an organiser at {line:?}");
                if method == "GET" {
                    let jo = visit(&season.jo, method, &path).await;
                    assert!(jo.0.is_success(), "the owner at {line:?}: {jo:?}");
                }
            }
        }
        if method == "GET" && who == Members && !path.contains("/1") {
            assert!(kim.0.is_success(), "a grower at {line:?}: {kim:?}");
        }
    }
}

#[tokio::test]
async fn an_owned_address_names_its_own_thing_first() {
    let season = Season::new().await;
    for (who, id) in [(Packet, &season.packet), (Trial, &season.trial), (Bag, &season.bag)] {
        assert_eq!(season.path("/things/{id}/parts/{n}", who), format!("/things/{id}/parts/1"));
    }
    assert_eq!(season.path("/members/{id}/role", Organisers), "/members/1/role");
    assert_eq!(season.path("/me", Members), "/me");
}

#[tokio::test]
async fn a_stranger_comes_back_to_the_page_asked_for() {
    let club = Club::new().await;
    let (_, to) = visit(&club.stranger(), "GET", "/members?link=shown").await;
    assert_eq!(to, "/sign-in?next=%2Fmembers%3Flink%3Dshown");
}
