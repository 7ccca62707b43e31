//! The same thing wanted by two to eight people at the same moment, over sockets: as many get it as there is of it, the
//! others are told so in clear words, nobody sees an error of ours, and the sums are right.
//! `HILUM_RACES=1000 cargo test --test endure races` races each for so many times.

use crate::support::{Answer, Client, START, Season, at_once, time_is_left, times};
use hilum::accounts::store::links::{self, NewLink};
use hilum::args;
use hilum::db::ids::At;

const RUNNERS: usize = 8;
const USUAL: usize = 20;

/// So many won; the others were refused in words that a person can use.
#[track_caller]
fn won(answers: &[Answer], wins: usize) {
    let gone_on = |a: &&Answer| a.status == 303 && !a.location.starts_with("/sign-in");
    assert_eq!(answers.iter().filter(gone_on).count(), wins, "{answers:?}");
    for lost in answers.iter().filter(|a| !gone_on(a)) {
        let refused = lost.status.is_client_error() || lost.location.starts_with("/sign-in");
        assert!(refused && !lost.body.contains("Something went wrong"), "{lost:?}");
    }
}

/// Two to eight, in turn.
fn runners(round: usize) -> usize {
    2 + round % (RUNNERS - 1)
}

async fn devices(season: &Season) -> Vec<Client> {
    let mut all = Vec::new();
    for _ in 0..RUNNERS {
        all.push(season.device("agnes").await);
    }
    all
}

/// Each runner opens the page for itself, so that each form has a key of its own; then all are sent.
async fn race(runners: &[Client], page: &str, action: &str, fields: &[(&str, &str)]) -> Vec<Answer> {
    let mut forms = Vec::new();
    for by in runners {
        forms.push((by.clone(), by.filled(page, action, fields).await));
    }
    at_once(forms).await
}

async fn last_seeds(season: &Season, all: &[Client]) {
    let packet = season.packet("Fenside Lantern", "Lode Lane Seeds", "10").await;
    let page = format!("/packets/{packet}/seeds");
    let answers = race(all, &page, &page, &[("sort", "spoiled"), ("seeds", "4")]).await;
    won(&answers, 2);
    let left = season.number("SELECT balance AS n FROM packets WHERE id = $1", args![&packet]).await;
    assert_eq!(left, 2);
}

async fn last_seeds_for_trials(season: &Season, all: &[Client]) {
    let packet = season.packet("Fenside Lantern", "Lode Lane Seeds", "9").await;
    let sql = "SELECT id AS text FROM routines WHERE name = 'Dry seed, straight to paper'";
    let routine = season.text(sql, args![]).await;
    let page = format!("/trials/new?packet={packet}&routine={routine}");
    let seeds = format!("seeds_{packet}");
    won(&race(all, &page, "/trials/new", &[(&seeds, "9")]).await, 1);
}

async fn same_cell(season: &Season, all: &[Client]) {
    let bags = season.bags(10).await;
    for bag in &bags {
        season.look(bag, "9").await;
    }
    let tray = season.tray().await;
    let mut forms = Vec::new();
    for (n, by) in all.iter().enumerate() {
        let page = format!("/bags/{}/plant", bags[n % 2]);
        let fields = [("tray", tray.as_str()), ("seeds", "1"), ("cell", "B2")];
        forms.push((by.clone(), by.filled(&format!("{page}?tray={tray}"), &page, &fields).await));
    }
    won(&at_once(forms).await, 1);
    let sql = "SELECT COUNT(*) AS n FROM tray_cells WHERE tray_id = $1";
    assert_eq!(season.number(sql, args![&tray]).await, 1);
}

async fn same_mark(all: &[Client], round: usize) {
    // packets without a number of their own go on above the highest that was given
    let number = (200_000 - round).to_string();
    let fields =
        [("kind", "Pepper"), ("variety", "Fenside Lantern"), ("source", "Lode Lane Seeds"), ("seeds", "5")];
    let fields = [&fields[..], &[("number", number.as_str())]].concat();
    won(&race(all, "/packets/new", "/packets/new", &fields).await, 1);
}

/// A word of four letters that no other round has.
fn letters(round: usize) -> String {
    const SHAPES: &[u8] = b"CDEFHJKMNPRTUVWXY";
    let letter = |n: usize| char::from(SHAPES[n % SHAPES.len()]);
    let (one, two, three) = (round, round / SHAPES.len(), round / SHAPES.len() / SHAPES.len());
    ['Z', letter(three), letter(two), letter(one)].iter().collect()
}

async fn same_letters(season: &Season, members: &[Client], round: usize) {
    let letters = letters(round);
    won(&race(members, "/me", "/me/letters", &[("letters", &letters)]).await, 1);
    // for the next round: nobody has more than twenty sets
    season.run("DELETE FROM letters WHERE shown = $1", args![letters]).await;
}

async fn same_invitation(season: &Season, all: usize, round: usize) {
    let mut conn = season.db.write().await.unwrap();
    let new = NewLink { purpose: "invitation", role: "grower", member: None, by: None, days: 7 };
    let token = links::make(&mut conn, &new, At(START)).await.unwrap();
    conn.commit().await.unwrap();
    let mut forms = Vec::new();
    for n in 0..all {
        let by = Client::with_session(&season.program.base, String::new());
        let (name, letters) = (format!("runner-{round}-{n}"), format!("{}{n}", &letters(round)[1..]));
        let letters = letters.replace('0', "A").replace('1', "B").replace('2', "G");
        let fields = [
            ("name", name.as_str()),
            ("sign_in", &name),
            ("letters", &letters),
            ("password", "four unrelated words here"),
        ];
        forms.push((by.clone(), by.filled(&format!("/join/{token}"), "", &fields).await));
    }
    won(&at_once(forms).await, 1);
    let sql = "SELECT COUNT(*) AS n FROM members WHERE sign_in LIKE $1";
    assert_eq!(season.number(sql, args![format!("runner-{round}-%")]).await, 1);
}

async fn last_organiser(season: &Season, round: usize) {
    season.run("UPDATE members SET role = 'organiser' WHERE sign_in IN ('agnes', 'bartek')", args![]).await;
    let sql = "SELECT id AS text FROM members WHERE sign_in = $1";
    let [one, two] = [season.text(sql, args!["agnes"]).await, season.text(sql, args!["bartek"]).await];
    // each the other, or each themselves
    let wanted = if round.is_multiple_of(2) {
        [("agnes", &two), ("bartek", &one)]
    } else {
        [("agnes", &one), ("bartek", &two)]
    };
    let mut forms = Vec::new();
    for (name, other) in wanted {
        let (by, page) = (season.device(name).await, format!("/members/{other}"));
        let form = by.filled(&page, &format!("{page}/role"), &[("role", "grower")]).await;
        forms.push((by, form));
    }
    won(&at_once(forms).await, 1);
    let sql = "SELECT COUNT(*) AS n FROM members WHERE role = 'organiser' AND left_at IS NULL";
    assert_eq!(season.number(sql, args![]).await, 1);
}

/// A move is no prize: each is kept. But the bags are where the holder is.
async fn same_holder(season: &Season, all: &[Client]) {
    let bags = season.bags(5).await;
    let made = season.agnes.save("/holders", "/holders", &[]).await;
    let put = [("what", "put in"), ("bag", bags[0].as_str()), ("bag", bags[1].as_str())];
    season.agnes.save(&made, &made, &put).await;
    let mut forms = Vec::new();
    for (n, by) in all.iter().enumerate() {
        let place = format!("shelf {n}");
        let fields = if n % 2 == 0 { ("place", place.as_str()) } else { ("warmth", "21") };
        forms.push((by.clone(), by.filled(&made, &made, &[("what", "moved"), fields]).await));
    }
    won(&at_once(forms).await, all.len());
    let apart = "SELECT COUNT(*) AS n FROM bags b JOIN holders h ON h.id = b.holder_id
        WHERE h.id = $1 AND (b.place <> h.place OR b.warmth_c <> h.warmth_c)";
    assert_eq!(season.number(apart, args![made.trim_start_matches("/holders/")]).await, 0);
}

async fn same_line(season: &Season, all: &[Client], round: usize) {
    let [_, line] = season.plan(&format!("race {round}")).await;
    let page = format!("/plan/lines/{line}");
    won(&race(all, &page, &format!("{page}/accept"), &[("seeds", "1")]).await, 1);
    let sql = "SELECT COUNT(*) AS n FROM promises WHERE line_id = $1";
    assert_eq!(season.number(sql, args![&line]).await, 1);
}

async fn same_entry(season: &Season, all: &[Client]) {
    let [bag, _] = season.bags(5).await;
    let key = season.look(&bag, "2").await;
    let entry = season.text("SELECT id AS text FROM entries WHERE save_key = $1", args![key]).await;
    let page = format!("/entries/{entry}/void");
    won(&race(all, &page, &page, &[("why", "a slip")]).await, 1);
    let rooted = season.number("SELECT rooted AS n FROM bags WHERE id = $1", args![&bag]).await;
    assert_eq!(rooted, 0);
}

async fn same_new_names(season: &Season, all: &[Client], round: usize) {
    let name = hilum::web::session::hash(&format!("variety {round}"))[..14].to_owned();
    let fields = [("kind", "Pepper"), ("variety", name.as_str()), ("source", &name), ("seeds", "5")];
    won(&race(all, "/packets/new", "/packets/new", &fields).await, all.len());
    let sql = "SELECT COUNT(*) AS n FROM varieties WHERE name = $1";
    assert_eq!(season.number(sql, args![&name]).await, 1, "one variety, whoever was first");
}

#[tokio::test(flavor = "multi_thread", worker_threads = 4)]
async fn seeds_cells_marks_and_names() {
    let mut season = Season::new().await;
    let all = devices(&season).await;
    let rounds = times("HILUM_RACES", USUAL);
    let mut done = 0;
    for round in (0..rounds).take_while(|_| time_is_left()) {
        let some = &all[..runners(round)];
        last_seeds(&season, some).await;
        last_seeds_for_trials(&season, some).await;
        same_cell(&season, some).await;
        same_mark(some, round).await;
        same_new_names(&season, some, round).await;
        done += 1;
    }
    season.sound();
    println!("{done} rounds of five races");
}

#[tokio::test(flavor = "multi_thread", worker_threads = 4)]
async fn places_plans_entries_and_people() {
    let mut season = Season::new().await;
    let all = devices(&season).await;
    let mut members = Vec::new();
    for name in ["agnes", "bartek", "chidi", "dorothea", "edda", "farid", "gwen", "hugo"] {
        members.push(season.device(name).await);
    }
    let rounds = times("HILUM_RACES", USUAL);
    let mut done = 0;
    for round in (0..rounds).take_while(|_| time_is_left()) {
        let n = runners(round);
        same_holder(&season, &all[..n]).await;
        same_line(&season, &all[..n], round).await;
        same_entry(&season, &all[..n]).await;
        same_letters(&season, &members[..n], round).await;
        same_invitation(&season, 2 + round % 2, round).await;
        done += 1;
    }
    for round in 0..done {
        last_organiser(&season, round).await;
    }
    season.sound();
    println!("{done} rounds of six races");
}
