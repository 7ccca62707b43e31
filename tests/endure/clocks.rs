//! The server's clock is wrong by years, runs back, and goes through both changes of daylight saving time.

use crate::support::{Answer, Client, Program, START, fresh, held_off, key};
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
async fn note(client: &Client, trial: &str, text: &str) -> Answer {
    let path = format!("/trials/{trial}/note");
    client.post(&path, &key(), &[("sort", "note"), ("text", text)]).await.unwrap()
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
        let answer = note(&then, &trial, &format!("by {years} years")).await;
        // before the trial began nothing can have happened in it: what was typed comes back
        let refused = answer.status == 422 && answer.body.contains("by -10 years");
        assert!(if years > 0 { answer.status == 303 } else { refused }, "{years} {answer:?}");
        program.at_minute(1);
        assert_eq!(before.get("/").await.unwrap().status, 200, "the clock is right again");
        assert_eq!(
            then.get("/").await.unwrap().status,
            303,
            "a session of {years} years from now does not go on"
        );
    }
    assert_eq!(note(&before, &trial, "put right").await.status, 303);
    let all = notes(&db, &["by 10 years", "by -10 years", "put right"]).await;
    let minutes = [10 * YEAR, 1].map(|minutes| At(START).plus_minutes(minutes).0);
    assert_eq!(
        all.iter().map(|n| n.at).collect::<Vec<_>>(),
        minutes,
        "each once, at the moment its clock told"
    );
    assert!(all.iter().all(|n| n.recorded_at == n.at), "{all:?}");
    let page = before.get(&format!("/trials/{trial}")).await.unwrap();
    assert!(page.body.contains("by 10 years") && page.body.contains("put right"), "{}", page.body);
    // whoever looks after the club learns of what the clock did
    assert!(program.check().contains("lies in the future"), "{}", program.check());
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

/// London, 2026: on 29 March 01:00 becomes 02:00, on 25 October 02:00 becomes 01:00 (directive 2000/84/EC, which British
/// law still follows; from memory. The days are those of the calendar).
#[tokio::test(flavor = "multi_thread")]
async fn days_are_those_of_the_clubs_calendar_when_the_clocks_change() {
    let program = Program::demo_in(fresh().await, held_off).await;
    let db = program.db().await;
    let (trial, minute) = (trial(&db).await, |at: i64| (at - START) / 60);
    let moments = [
        (1_774_740_600, "28 Mar"), // 2026-03-28 23:30 UTC: 23:30 by winter time
        (1_774_823_400, "29 Mar"), // 2026-03-29 22:30 UTC: 23:30 by summer time
        (1_774_827_000, "30 Mar"), // 2026-03-29 23:30 UTC: half past midnight
        (1_792_884_600, "25 Oct"), // 2026-10-24 23:30 UTC: half past midnight
        (1_792_888_200, "25 Oct"), // 2026-10-25 00:30 UTC: 01:30, the first
        (1_792_891_800, "25 Oct"), // 2026-10-25 01:30 UTC: 01:30, the second
        (1_792_971_000, "25 Oct"), // 2026-10-25 23:30 UTC: 23:30 by winter time
        (1_792_972_800, "26 Oct"), // 2026-10-26 00:00 UTC: midnight
    ];
    for (at, day) in moments {
        program.at_minute(minute(at));
        let agnes = Client::sign_in(&program.base, &db, "agnes", At(at)).await;
        assert_eq!(note(&agnes, &trial, &format!("at {at}")).await.status, 303, "{day}");
        let shown = At(at).local(chrono_tz::Europe::London).format("%-d %b").to_string();
        assert_eq!(shown, day);
        let kept = notes(&db, &[&format!("at {at}")]).await;
        assert_eq!(kept.iter().map(|n| n.at).collect::<Vec<_>>(), [at]);
    }
    // seen weeks later, each stands in the history under its day
    program.at_minute(minute(1_796_472_000));
    let agnes = Client::sign_in(&program.base, &db, "agnes", At(1_796_472_000)).await;
    let page = agnes.get(&format!("/trials/{trial}")).await.unwrap();
    let places = moments.map(|(at, _)| page.body.find(&format!("at {at}")).unwrap());
    let down = places.is_sorted();
    let up = places.iter().rev().is_sorted();
    assert!(down || up, "in the order in which they happened: {places:?}");
    for (_, day) in moments {
        assert!(page.body.contains(day), "{day}");
    }
}
