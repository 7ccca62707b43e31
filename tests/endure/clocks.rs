//! The server's clock is wrong by years, runs back, and goes through both changes of daylight saving time.

use crate::support::{Client, Program, START, fresh, held_off, key};
use hilum::args;
use hilum::db::ids::At;
use hilum::db::{Db, FromRow};

const YEAR: i64 = 525_960;

#[derive(FromRow)]
struct Trial {
    id: String,
}

#[derive(Debug, FromRow)]
struct Note {
    at: i64,
    recorded_at: i64,
}

/// A note on a trial of Agnes's, saved now by the program's clock.
async fn note(client: &Client, trial: &str, text: &str) -> u16 {
    let path = format!("/trials/{trial}/note");
    client.post(&path, &key(), &[("sort", "note"), ("text", text)]).await.unwrap().status.as_u16()
}

async fn trial(db: &Db) -> String {
    let sql = "SELECT t.id FROM trials t JOIN members m ON m.id = t.owner_id WHERE m.sign_in = 'agnes' ORDER BY t.id";
    let trial: Trial = db.read().await.unwrap().one(sql, args![]).await.unwrap();
    trial.id
}

/// The notes with these words.
async fn notes(db: &Db, texts: &[&str]) -> Vec<Note> {
    let mut found = Vec::new();
    for text in texts {
        let sql = "SELECT at, recorded_at FROM entries WHERE note = $1 ORDER BY id";
        found.extend(db.read().await.unwrap().all::<Note>(sql, args![*text]).await.unwrap());
    }
    found
}

#[tokio::test(flavor = "multi_thread")]
async fn a_clock_that_is_years_wrong_ends_no_session_for_good_and_makes_none_for_ever() {
    let program = Program::demo_in(fresh().await, held_off).await;
    let db = program.db().await;
    let (trial, before) = (trial(&db).await, Client::sign_in(&program.base, &db, "agnes", At(START)).await);
    for years in [10, -10] {
        program.at_minute(years * YEAR);
        let wrong = At(START).plus_minutes(years * YEAR);
        assert_eq!(before.get("/").await.unwrap().status, 303, "{years} years: to sign in");
        let then = Client::sign_in(&program.base, &db, "agnes", wrong).await;
        assert_eq!(then.get("/").await.unwrap().status, 200);
        assert_eq!(note(&then, &trial, &format!("by {years} years")).await, 303);
        program.at_minute(1);
        assert_eq!(before.get("/").await.unwrap().status, 200, "the clock is right again");
        assert_eq!(
            then.get("/").await.unwrap().status,
            303,
            "a session of {years} years from now does not go on"
        );
    }
    assert_eq!(note(&before, &trial, "put right").await, 303);
    let all = notes(&db, &["by 10 years", "by -10 years", "put right"]).await;
    let minutes = [10 * YEAR, -10 * YEAR, 1].map(|minutes| At(START).plus_minutes(minutes).0);
    assert_eq!(
        all.iter().map(|n| n.at).collect::<Vec<_>>(),
        minutes,
        "each once, at the moment its clock told"
    );
    assert!(all.iter().all(|n| n.recorded_at == n.at), "{all:?}");
    // a page that shows them all, in their order
    let page = before.get(&format!("/trials/{trial}")).await.unwrap();
    let place = |text: &str| page.body.find(text).unwrap_or_else(|| panic!("{text} is not shown"));
    let mut places = ["by 10 years", "put right", "by -10 years"].map(place);
    if places[0] > places[2] {
        places.reverse();
    }
    assert!(places.is_sorted(), "{places:?}");
}

#[tokio::test(flavor = "multi_thread")]
async fn a_clock_set_back_by_an_hour_keeps_everybody_signed_in() {
    let program = Program::demo_in(fresh().await, held_off).await;
    let db = program.db().await;
    let agnes = Client::sign_in(&program.base, &db, "agnes", At(START)).await;
    program.at_minute(-60);
    assert_eq!(agnes.get("/").await.unwrap().status, 200);
    program.at_minute(60 * 24 * 60 + 1);
    assert_eq!(agnes.get("/").await.unwrap().status, 303, "after its 60 days it is over");
}

/// Berlin, 2026: 29 March 02:00 becomes 03:00 and 25 October 03:00 becomes 02:00 (the rules of the EU, directive
/// 2000/84/EC; days from the calendar).
#[tokio::test(flavor = "multi_thread")]
async fn days_are_those_of_the_clubs_calendar_when_the_clocks_change() {
    let program = Program::demo_in(fresh().await, held_off).await;
    let db = program.db().await;
    let (trial, minute) = (trial(&db).await, |at: i64| (at - START) / 60);
    // 00:30 UTC is 01:30 by winter time, 01:30 UTC 03:30 by summer time; autumn has 02:30 twice
    let moments = [
        (1_774_744_200, "29 Mar"), // 2026-03-29 00:30 UTC
        (1_774_747_800, "29 Mar"), // 2026-03-29 01:30 UTC
        (1_792_888_200, "25 Oct"), // 2026-10-25 00:30 UTC
        (1_792_891_800, "25 Oct"), // 2026-10-25 01:30 UTC
        (1_792_965_600, "25 Oct"), // 2026-10-25 22:00 UTC is 23:00 there
        (1_792_969_200, "26 Oct"), // 2026-10-25 23:00 UTC is midnight there
    ];
    for (at, day) in moments {
        program.at_minute(minute(at));
        let agnes = Client::sign_in(&program.base, &db, "agnes", At(at)).await;
        assert_eq!(note(&agnes, &trial, &format!("at {at}")).await, 303, "{day}");
        let shown = At(at).local(chrono_tz::Europe::Berlin).format("%-d %b").to_string();
        assert_eq!(shown, day);
        let kept = notes(&db, &[&format!("at {at}")]).await;
        assert_eq!(kept.iter().map(|n| n.at).collect::<Vec<_>>(), [at]);
    }
    // seen from the year after, each stands in the history under its day
    program.at_minute(minute(1_792_969_200 + 40 * 86_400));
    let agnes = Client::sign_in(&program.base, &db, "agnes", At(1_792_969_200 + 40 * 86_400)).await;
    let page = agnes.get(&format!("/trials/{trial}")).await.unwrap();
    let places = moments.map(|(at, _)| page.body.find(&format!("at {at}")).unwrap());
    let down = places.is_sorted();
    let up = places.iter().rev().is_sorted();
    assert!(down || up, "in the order in which they happened: {places:?}");
    for (_, day) in moments {
        assert!(page.body.contains(day), "{day}");
    }
}
