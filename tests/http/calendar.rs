//! The calendar is read by a parser of its own, as strict as RFC 5545 where it says MUST.

use crate::support::{Browser, Club};
use axum::body::Body;
use axum::http::header::{CACHE_CONTROL, CONTENT_TYPE, ETAG, IF_NONE_MATCH};
use axum::http::{HeaderMap, Request, StatusCode};
use hilum::db::ids::TrialId;
use http_body_util::BodyExt;
use std::collections::BTreeMap;

/// One component: its properties in order, and the components in it.
#[derive(Debug, Default)]
struct Part {
    name: String,
    properties: Vec<(String, String)>,
    parts: Vec<Part>,
}

impl Part {
    /// The value of a property that must stand once, by its name with parameters.
    #[track_caller]
    fn one(&self, name: &str) -> &str {
        let found: Vec<&String> = self.properties.iter().filter(|(n, _)| n == name).map(|(_, v)| v).collect();
        assert_eq!(found.len(), 1, "{name} of {self:?}");
        found[0]
    }

    fn events(&self) -> Vec<&Self> {
        self.parts.iter().filter(|p| p.name == "VEVENT").collect()
    }

    #[track_caller]
    fn event(&self, summary: &str) -> &Self {
        let found = self.events().into_iter().find(|e| e.one("SUMMARY").starts_with(summary));
        found.unwrap_or_else(|| panic!("no '{summary}' in {self:#?}"))
    }
}

/// Content lines end in CRLF, are at most 75 octets and are unfolded at a break with a space (RFC 5545, 3.1).
fn lines(text: &str) -> Vec<String> {
    let body = text.strip_suffix("\r\n").expect("the last line ends in CRLF");
    let mut whole: Vec<String> = Vec::new();
    for raw in body.split("\r\n") {
        assert!(!raw.contains(['\r', '\n']), "a bare break in {raw:?}");
        assert!(!raw.is_empty() && raw.len() <= 75, "{} octets: {raw:?}", raw.len());
        match raw.strip_prefix(' ') {
            Some(rest) => whole.last_mut().expect("something to go on").push_str(rest),
            None => whole.push(raw.to_owned()),
        }
    }
    whole
}

/// A text value with its escapes undone (3.3.11); a bare comma or semicolon is a fault.
fn plain(value: &str) -> String {
    let (mut out, mut chars) = (String::new(), value.chars());
    while let Some(c) = chars.next() {
        assert!(c != ',' && c != ';', "a bare {c} in {value:?}");
        match c {
            '\\' => match chars.next() {
                Some('n' | 'N') => out.push('\n'),
                Some(c @ ('\\' | ',' | ';')) => out.push(c),
                other => panic!("\\{other:?} in {value:?}"),
            },
            c => out.push(c),
        }
    }
    out
}

fn parse(text: &str) -> Part {
    let mut open: Vec<Part> = vec![Part::default()];
    for line in lines(text) {
        let (name, value) = line.split_once(':').unwrap_or_else(|| panic!("no colon in {line:?}"));
        let well = name.chars().all(|c| c.is_ascii_uppercase() || "-;=".contains(c));
        assert!(well, "the name of {line:?}");
        match name {
            "BEGIN" => open.push(Part { name: value.into(), ..Part::default() }),
            "END" => {
                let done = open.pop().unwrap();
                assert_eq!(done.name, value, "components nest");
                open.last_mut().unwrap().parts.push(done);
            }
            "SUMMARY" | "DESCRIPTION" | "NAME" => {
                open.last_mut().unwrap().properties.push((name.into(), plain(value)));
            }
            _ => open.last_mut().unwrap().properties.push((name.into(), value.into())),
        }
    }
    assert_eq!(open.len(), 1, "every component ends");
    let calendar = open.remove(0).parts.remove(0);
    assert_eq!(calendar.name, "VCALENDAR");
    checked(&calendar);
    calendar
}

/// What must stand in a calendar (3.6), an event (3.6.1) and an alarm (3.6.6); DTSTAMP and other moments by UTC.
fn checked(calendar: &Part) {
    assert_eq!(calendar.one("VERSION"), "2.0");
    assert!(calendar.one("PRODID").starts_with("-//"));
    assert!(!calendar.parts.is_empty(), "at least one component");
    let mut uids = BTreeMap::new();
    for event in calendar.events() {
        assert!(event.one("UID").len() >= 32, "3.8.4.7: unique in the world");
        assert_eq!(uids.insert(event.one("UID"), ()), None, "a UID stands twice");
        assert!(is_utc(event.one("DTSTAMP")), "3.8.7.2");
        let day = event.properties.iter().any(|(n, _)| n == "DTSTART;VALUE=DATE");
        if day {
            let (from, to) = (event.one("DTSTART;VALUE=DATE"), event.one("DTEND;VALUE=DATE"));
            assert!(from.len() == 8 && to.len() == 8 && from < to, "the end is not in it: {from} {to}");
        } else {
            assert!(is_utc(event.one("DTSTART")), "{event:?}");
            let alarm = &event.parts[0];
            assert_eq!((alarm.name.as_str(), alarm.one("ACTION")), ("VALARM", "DISPLAY"));
            assert_eq!(alarm.one("TRIGGER"), "PT0S");
            assert!(!alarm.one("DESCRIPTION").is_empty());
        }
    }
}

fn is_utc(moment: &str) -> bool {
    moment.len() == 16 && moment.ends_with('Z') && moment.as_bytes()[8] == b'T'
}

/// The path of a new secret address of this member's.
async fn address(by: &Browser) -> String {
    let shown = by.submit(&by.get("/me").await, "/me/calendar", &[]).await;
    shown.says("It is shown only now");
    let link = shown.all("textarea#link").remove(0);
    link.strip_prefix("http://127.0.0.1:8420").expect("the club's address").to_owned()
}

async fn read(club: &Club, path: &str, tag: Option<&str>) -> (StatusCode, HeaderMap, String) {
    let mut request = Request::get(path);
    if let Some(tag) = tag {
        request = request.header(IF_NONE_MATCH, tag);
    }
    // whoever reads it is not signed in
    let response = club.stranger().raw(request.body(Body::empty()).unwrap()).await;
    let (parts, body) = response.into_parts();
    let bytes = body.collect().await.unwrap().to_bytes();
    (parts.status, parts.headers, String::from_utf8(bytes.to_vec()).unwrap())
}

async fn calendar(club: &Club, path: &str) -> Part {
    let (status, _, text) = read(club, path, None).await;
    assert_eq!(status, StatusCode::OK, "{text}");
    parse(&text)
}

/// Gives the diary's routine a priming soak of `minutes`, so that trials in it have a clock.
async fn steep(club: &Club, minutes: i64) {
    let mut conn = club.app.db.write().await.unwrap();
    let sql = "INSERT INTO routine_steps (version_id, position, act, agent, dose, minutes, place, note)
        VALUES ('rv-dry', 1, 'priming soak', 'water', '', $1, '', '')";
    conn.run(sql, hilum::args![minutes]).await.unwrap();
    conn.commit().await.unwrap();
}

async fn soak(club: &Club, by: &Browser, variety: &str) -> TrialId {
    let packet = club.packet(by, variety, 50).await;
    club.trial(by, &packet, 20).await
}

#[tokio::test]
async fn soaks_looks_and_plantings_are_events() {
    let club = Club::new().await;
    let jo = club.grower("Jo", "JB").await;
    let path = address(&jo).await;
    let first = soak(&club, &jo, "Kestrel; red, long\\fruited, and as hot as a name can be that folds").await;
    soak(&club, &jo, "Merlin").await;
    steep(&club, 750).await;
    let bag = club.bag(&jo, &first, 10).await;
    let other = club.bag(&jo, &first, 5).await;
    let c = calendar(&club, &path).await;
    assert_eq!(c.one("NAME"), "Due now: Test Club");
    // the clock stands at 08:00 UTC on 2 March
    let out = c.event("Out of the soak: JB 1 and JB 2");
    assert_eq!(out.one("DTSTART"), "20260302T203000Z");
    assert!(out.one("DESCRIPTION").contains("JB 1, Kestrel; red, long\\fruited"));
    let look = c.event("Look at 2 bags: JB 1 a and JB 1 b");
    assert_eq!(look.one("DTSTART;VALUE=DATE"), "20260303");
    assert_eq!(look.one("DTEND;VALUE=DATE"), "20260304");
    assert_eq!(c.events().len(), 2);
    club.pass_days(2);
    club.look(&jo, &bag, 4, 0).await;
    let c = calendar(&club, &path).await;
    assert_eq!(c.event("Plant 4 rooted seeds: JB 1 a").one("DTSTART;VALUE=DATE"), "20260304");
    let late = c.event("Look at 1 bag: JB 1 b");
    assert_eq!(late.one("DTSTART;VALUE=DATE"), "20260304", "what is late stands on today");
    assert_eq!(c.event("Look at 1 bag: JB 1 a").one("DTSTART;VALUE=DATE"), "20260305");
    club.look(&jo, &other, 0, 5).await;
    calendar(&club, &path).await.event("Close 1 bag: JB 1 b");
}

#[tokio::test]
async fn planned_starts_are_events_of_their_day_and_late_ones_of_today() {
    let (club, jo) = crate::planning::club().await;
    club.packet(&jo, "Kestrel", 20).await;
    let path = address(&jo).await;
    let (_, _, before) = read(&club, &path, None).await;
    assert!(!before.contains("BEGIN:VEVENT"), "{before}");
    crate::planning::paste(&jo, "Kestrel, 12, 2026-05-18").await;
    let line = crate::planning::line(&jo, "Kestrel").await;
    let page = jo.get(&line).await;
    jo.submit(&page, &format!("{line}/accept"), &[("seeds", "24"), ("start", "2026-03-04")]).await;
    let c = calendar(&club, &path).await;
    let start = c.event("Start 1 trial: JB 1");
    assert_eq!(start.one("DTSTART;VALUE=DATE"), "20260304");
    assert!(start.one("DESCRIPTION").contains("Kestrel: 20 of 24 seeds of JB 1, 4 short"), "{start:?}");
    club.pass_days(5);
    let late = calendar(&club, &path).await;
    assert_eq!(late.event("Start 1 trial: JB 1").one("DTSTART;VALUE=DATE"), "20260307");
    let due = jo.get("/").await;
    let start = jo.get(&due.link("Start")).await;
    jo.submit(&start, "/trials/new", &[]).await.says("Started: 1 trial");
    let (_, _, after) = read(&club, &path, None).await;
    assert!(!after.contains("Start 1 trial"), "{after}");
}

/// The titles of all events in a new calendar of this member.
pub async fn titles(club: &Club, by: &Browser) -> Vec<String> {
    let path = address(by).await;
    calendar(club, &path).await.events().iter().map(|event| event.one("SUMMARY").to_owned()).collect()
}

#[tokio::test]
async fn a_changed_event_keeps_its_uid_and_an_unchanged_calendar_is_not_sent_again() {
    let club = Club::new().await;
    let jo = club.grower("Jo", "JB").await;
    let path = address(&jo).await;
    let trial = soak(&club, &jo, "Kestrel").await;
    club.bag(&jo, &trial, 5).await;
    let before = calendar(&club, &path).await;
    let (_, headers, _) = read(&club, &path, None).await;
    let tag = headers[ETAG].to_str().unwrap().to_owned();
    assert_eq!(headers[CONTENT_TYPE], "text/calendar; charset=utf-8");
    assert_eq!(headers[CACHE_CONTROL], "private, no-cache");
    club.pass_minutes(30);
    let (status, _, body) = read(&club, &path, Some(&tag)).await;
    assert_eq!((status, body.as_str()), (StatusCode::NOT_MODIFIED, ""));
    club.bag(&jo, &trial, 5).await;
    assert_eq!(read(&club, &path, Some(&tag)).await.0, StatusCode::OK);
    let after = calendar(&club, &path).await;
    let (old, new) = (before.event("Look at 1 bag"), after.event("Look at 2 bags"));
    assert_eq!(old.one("UID"), new.one("UID"));
    assert!(old.one("DTSTAMP") < new.one("DTSTAMP"), "what changed says when");
}

#[tokio::test]
async fn a_calendar_without_events_is_a_calendar() {
    let club = Club::new().await;
    let jo = club.grower("Jo", "JB").await;
    let c = calendar(&club, &address(&jo).await).await;
    assert!(c.events().is_empty());
}

#[tokio::test]
async fn the_address_is_the_members_own_and_can_be_ended() {
    let club = Club::new().await;
    let (jo, kim) = (club.grower("Jo", "JB").await, club.grower("Kim", "KR").await);
    soak(&club, &jo, "Kestrel").await;
    let old = address(&jo).await;
    let kims = address(&kim).await;
    assert!(calendar(&club, &kims).await.events().is_empty(), "each sees their own");
    calendar(&club, &old).await.event("1 soak goes on: JB 1");
    let me = jo.get("/me").await;
    me.says("made today 09:00");
    assert!(!me.body.contains(&old), "the address is not shown again");
    let new = address(&jo).await;
    assert_eq!(read(&club, &old, None).await.0, StatusCode::NOT_FOUND, "a new one ends the old");
    calendar(&club, &new).await;
    let page = jo.get("/me").await;
    jo.submit(&page, "/me/calendar/end", &[]).await.says("no longer works");
    assert_eq!(read(&club, &new, None).await.0, StatusCode::NOT_FOUND);
    calendar(&club, &kims).await;
    // the same form again neither makes an address nor shows one
    let page = kim.get("/me").await;
    kim.submit(&page, "/me/calendar", &[]).await.says("shown only now");
    kim.submit(&page, "/me/calendar", &[]).await.says_not("shown only now");
    let without = new.strip_suffix(".ics").unwrap();
    assert_eq!(read(&club, without, None).await.0, StatusCode::NOT_FOUND);
}

#[tokio::test]
async fn somebody_who_left_has_no_calendar_and_guessing_is_slowed_down() {
    let club = Club::new().await;
    let lea = club.organiser("Lea", "LM").await;
    let jo = club.grower("Jo", "JB").await;
    let path = address(&jo).await;
    let page = lea.get(&format!("/members/{}", jo.id())).await;
    lea.submit(&page, &format!("/members/{}/leave", jo.id()), &[("sure", "yes")]).await;
    assert_eq!(read(&club, &path, None).await.0, StatusCode::NOT_FOUND);
    let leas = address(&lea).await;
    let mut refused = 0;
    for n in 0..60 {
        let (status, _, _) = read(&club, &format!("/calendar/guess{n}.ics"), None).await;
        refused += i32::from(status == StatusCode::TOO_MANY_REQUESTS);
        assert!([StatusCode::NOT_FOUND, StatusCode::TOO_MANY_REQUESTS].contains(&status));
    }
    assert!(refused >= 15, "{refused} of 60 were not looked at");
    club.pass_minutes(2);
    calendar(&club, &leas).await;
}
