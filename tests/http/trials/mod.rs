mod paper;
mod rooting;

use crate::support::{Browser, Club, Page};
use axum::http::StatusCode;
use hilum::db::FromRow;
use hilum::db::ids::{PacketId, RoutineId, TrialId};
use hilum::notebook::{self, Act};
use hilum::trials::model::{NewTrial, Next, Paper, StepDone, Tally};
use hilum::trials::store;
use hilum::{args, routines};

async fn with_starters(club: &Club) {
    let mut conn = club.app.db.write().await.unwrap();
    routines::ensure_starters(&mut conn, club.app.now()).await.unwrap();
    conn.commit().await.unwrap();
}

async fn routine(club: &Club, name: &str) -> RoutineId {
    let all = routines::store::routines(&mut club.app.db.read().await.unwrap()).await.unwrap();
    all.into_iter().find(|r| r.name.starts_with(name)).unwrap().id
}

#[derive(FromRow)]
struct Number {
    n: i64,
}

async fn number(club: &Club, sql: &'static str, id: &str) -> i64 {
    let row: Number = club.app.db.read().await.unwrap().one(sql, args![id]).await.unwrap();
    row.n
}

async fn balance(club: &Club, packet: &PacketId) -> i64 {
    number(club, "SELECT balance AS n FROM packets WHERE id = $1", &packet.0).await
}

/// What every test must leave behind: I1 by the check, I2 for each trial from its bags.
async fn adds_up(club: &Club) {
    let mut conn = club.app.db.read().await.unwrap();
    let found = notebook::check::all(&mut conn, club.app.now()).await.unwrap();
    assert!(!found.iter().any(|b| ["I1", "I2", "I3"].iter().any(|rule| b.starts_with(rule))), "{found:?}");
    let off: Number = conn
        .one(
            "SELECT COUNT(*) AS n FROM trials t WHERE t.seeds < t.soaking + t.thrown_out + t.lost + t.returned
             + (SELECT COALESCE(SUM(b.seeds), 0) FROM bags b WHERE b.trial_id = t.id AND NOT b.voided)",
            args![],
        )
        .await
        .unwrap();
    assert_eq!(off.n, 0);
}

/// A trial of 10 in the peroxide routine, by the form.
async fn started(club: &Club, by: &Browser) -> Page {
    with_starters(club).await;
    let packet = club.packet(by, "Aji Rosado", 25).await;
    let routine = routine(club, "Peroxide").await;
    let page = by.get(&format!("/trials/new?packet={packet}&routine={routine}")).await;
    by.submit(&page, "/trials/new", &[]).await
}

fn at(page: &Page, rest: &str) -> String {
    format!("{}{rest}", page.path)
}

async fn step(by: &Browser, trial: &Page, fields: &[(&str, &str)]) -> Page {
    let page = by.get(&trial.path).await;
    by.submit(&page, &at(trial, "/step"), fields).await
}

#[tokio::test]
async fn one_save_starts_many_trials_once() {
    let club = Club::new().await;
    with_starters(&club).await;
    let ines = club.grower("Ines", "IB").await;
    let a = club.packet(&ines, "Aji Rosado", 25).await;
    let b = club.packet(&ines, "Tepin", 6).await;
    let choose = ines.get("/trials/new").await;
    choose.says("IB 1").says("Tepin: 6 seeds left");
    let page = ines.get(&format!("/trials/new?packet={a}&packet={b}")).await;
    let routine = routine(&club, "Peroxide").await;
    let form = page.form("/trials/new").filled(&[("routine", &routine.0)]);
    assert!(
        form.contains(&(format!("seeds_{a}"), "10".into()))
            && form.contains(&(format!("seeds_{b}"), "6".into()))
    );
    let list = ines.submit(&page, "/trials/new", &[("routine", &routine.0)]).await;
    list.says("Started: 2 trials, 16 seeds").says("out today 09:30");
    ines.submit(&page, "/trials/new", &[("routine", &routine.0)]).await;
    assert_eq!((balance(&club, &a).await, balance(&club, &b).await), (15, 0));
    assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM trials WHERE owner_id = $1", &ines.id().0).await, 2);
    adds_up(&club).await;
}

#[tokio::test]
async fn a_start_of_no_packet_says_what_is_missing() {
    let club = Club::new().await;
    let jo = club.grower("Jo", "JB").await;
    club.packet(&jo, "Kestrel", 40).await;
    jo.get("/trials/new").await.says_not("Please tick");
    let page = jo.get("/trials/new?go=on&pair=yes").await;
    page.refuses("packet", "Please tick at least one");
    assert!(page.text().contains("No trial is started yet"));
    assert!(page.body.contains(r#"name="pair" value="yes" checked"#));
}

#[tokio::test]
async fn errors_of_a_start_stand_beside_their_fields() {
    let club = Club::new().await;
    with_starters(&club).await;
    let ines = club.grower("Ines", "IB").await;
    let packet = club.packet(&ines, "Aji Rosado", 25).await;
    let page = ines.get(&format!("/trials/new?packet={packet}")).await;
    let seeds = format!("seeds_{packet}");
    let bad = ines.submit(&page, "/trials/new", &[(&seeds, "0"), ("at", "2026-03-02T09:01")]).await;
    bad.refuses(&seeds, "from 1 to").refuses("routine", "fill this in").refuses("at", "in the future");
    let stranger = club.grower("Tomas", "TK").await;
    let foreign = stranger.get(&format!("/trials/new?packet={packet}")).await;
    assert_eq!(foreign.status, StatusCode::NOT_FOUND);
    let routine = routine(&club, "Dry").await;
    let fields = [
        ("key", "0123456789abcdef0123"),
        ("packet", packet.0.as_str()),
        (seeds.as_str(), "1"),
        ("routine", routine.0.as_str()),
    ];
    assert_eq!(stranger.post("/trials/new", &fields).await.status, StatusCode::NOT_FOUND);
    assert_eq!(balance(&club, &packet).await, 25);
}

#[tokio::test]
async fn taking_more_than_the_book_says_offers_a_recount_in_the_same_save() {
    let club = Club::new().await;
    with_starters(&club).await;
    let ines = club.grower("Ines", "IB").await;
    let packet = club.packet(&ines, "Aji Rosado", 8).await;
    let routine = routine(&club, "Dry").await;
    let page = ines.get(&format!("/trials/new?packet={packet}&routine={routine}")).await;
    let (seeds, recount) = (format!("seeds_{packet}"), format!("recount_{packet}"));
    let short = ines.submit(&page, "/trials/new", &[(&seeds, "12")]).await;
    short.refuses(&seeds, "there are 8 seeds left, and 12 are wanted");
    let still = ines.submit(&short, "/trials/new", &[(&recount, "11")]).await;
    still.refuses(&seeds, "there are 11 seeds left");
    ines.submit(&still, "/trials/new", &[(&recount, "14")]).await.says("Started: 1 trial, 12 seeds");
    assert_eq!(balance(&club, &packet).await, 2);
    adds_up(&club).await;
}

#[tokio::test]
async fn the_last_seeds_go_to_one_of_two() {
    for _ in 0..4 {
        let club = Club::new().await;
        with_starters(&club).await;
        let ines = club.grower("Ines", "IB").await;
        let packet = club.packet(&ines, "Aji Rosado", 10).await;
        let routine = routine(&club, "Dry").await;
        let address = format!("/trials/new?packet={packet}&routine={routine}");
        let (one, two) = (ines.get(&address).await, ines.get(&address).await);
        let (a, b) =
            tokio::join!(ines.submit(&one, "/trials/new", &[]), ines.submit(&two, "/trials/new", &[]));
        let good = [&a, &b].iter().filter(|p| p.status == StatusCode::OK).count();
        let refused = [&a, &b].iter().filter(|p| p.status == StatusCode::UNPROCESSABLE_ENTITY).count();
        assert_eq!((good, refused), (1, 1));
        assert_eq!(balance(&club, &packet).await, 0);
        adds_up(&club).await;
    }
}

#[tokio::test]
async fn a_start_sent_twice_at_once_counts_once() {
    for _ in 0..4 {
        let club = Club::new().await;
        with_starters(&club).await;
        let ines = club.grower("Ines", "IB").await;
        let packet = club.packet(&ines, "Aji Rosado", 25).await;
        let routine = routine(&club, "Dry").await;
        let page = ines.get(&format!("/trials/new?packet={packet}&routine={routine}")).await;
        let (a, b) =
            tokio::join!(ines.submit(&page, "/trials/new", &[]), ines.submit(&page, "/trials/new", &[]));
        assert_eq!((a.status, b.status), (StatusCode::OK, StatusCode::OK));
        assert_eq!(a.path, b.path);
        assert_eq!(balance(&club, &packet).await, 15);
    }
}

#[tokio::test]
async fn a_packet_is_split_into_paired_trials() {
    let club = Club::new().await;
    with_starters(&club).await;
    let ines = club.grower("Ines", "IB").await;
    let packet = club.packet(&ines, "Aji Rosado", 25).await;
    let (wet, dry) = (routine(&club, "Peroxide").await, routine(&club, "Dry").await);
    let page = ines.get(&format!("/trials/new?packet={packet}&pair=yes")).await;
    let more = ines.submit(&page, "/trials/new", &[("routine_1", &wet.0), ("more", "yes")]).await;
    more.says("Trial 4");
    let fields = [
        ("routine_2", dry.0.as_str()),
        ("seeds_1", "8"),
        ("seeds_2", "9"),
        ("routine_3", dry.0.as_str()),
        ("seeds_3", "9"),
        ("warmth_3", "32"),
    ];
    let short = ines.submit(&more, "/trials/new", &fields).await;
    short.refuses("seeds_1", "26 are wanted");
    let list = ines.submit(&short, "/trials/new", &[("seeds_3", "8")]).await;
    list.says("Started: 3 trials, 25 seeds").says("paired");
    assert_eq!(
        number(&club, "SELECT COUNT(DISTINCT pair) AS n FROM trials WHERE packet_id = $1", &packet.0).await,
        1
    );
    assert_eq!(
        number(&club, "SELECT COUNT(DISTINCT began_at) AS n FROM trials WHERE packet_id = $1", &packet.0)
            .await,
        1
    );
    let pages = list.html();
    let links = scraper::Selector::parse("ul.lines a.mark").unwrap();
    let mut said = String::new();
    for link in pages.select(&links).map(|a| a.attr("href").unwrap().to_owned()).collect::<Vec<_>>() {
        let page = ines.get(&link).await;
        page.says("Paired with");
        assert_eq!(page.all("a.mark").len(), 3, "the packet and the two others");
        said.push_str(&page.text());
    }
    assert!(said.contains("meant for 32 °C"));
    adds_up(&club).await;
}

#[tokio::test]
async fn steps_go_in_order_and_late_is_recorded_as_late() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let trial = started(&club, &ines).await;
    trial.says("out at 09:30").says("Set your phone's alarm");
    assert!(trial.body.contains("data-until"));
    club.pass_minutes(43);
    ines.get(&trial.path).await.says("late by 13 min");
    let early = step(&ines, &trial, &[("at", "2026-03-02T08:59")]).await;
    early.refuses("at", "The trial began after that");
    step(&ines, &trial, &[("percent", "0"), ("minutes", "x")]).await.refuses("percent", "0.01 to 100");
    let page = ines.get(&trial.path).await;
    let done = ines.submit(&page, &at(&trial, "/step"), &[("percent", "1.2"), ("minutes", "41")]).await;
    done.says("Done: step 1").says("took 41 min, 11 min longer than planned, at 1.2 %").says("out at 09:48");
    ines.submit(&page, &at(&trial, "/step"), &[("percent", "1.2"), ("minutes", "41")]).await;
    assert_eq!(number(&club, "SELECT step AS n FROM trials WHERE id = $1", id(&trial)).await, 2);
    let stale = ines.submit(&page, &at(&trial, "/step"), &[("skipped", "yes")]).await;
    assert_eq!(stale.status, StatusCode::CONFLICT);
    step(&ines, &trial, &[("skipped", "yes")]).await.says("Skipped: step 2").says("skipped today 09:43");
    club.pass_minutes(12 * 60);
    let ready = step(&ines, &trial, &[]).await;
    ready.says("took 12 h").says("Float tally").says_not("alarm");
    let gone =
        ines.post(&at(&trial, "/step"), &[("key", "0123456789abcdef0123"), ("step", "1"), ("at", "")]).await;
    assert_eq!(gone.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(gone.text().contains("not running any more"));
}

#[tokio::test]
async fn a_step_cut_short_is_told_as_short() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let trial = started(&club, &ines).await;
    club.pass_minutes(20);
    step(&ines, &trial, &[]).await.says("took 20 min, 10 min shorter than planned");
}

#[tokio::test]
async fn what_was_typed_of_a_step_that_is_over_becomes_a_note() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let trial = started(&club, &ines).await;
    club.pass_minutes(43);
    let (one, two) = (ines.get(&trial.path).await, ines.get(&trial.path).await);
    ines.submit(&one, &at(&trial, "/step"), &[("minutes", "40")]).await.says("Done: step 1");
    let typed = [("minutes", "41"), ("note", "smelt of vinegar")];
    let over = ines.submit(&two, &at(&trial, "/step"), &typed).await;
    over.refuses("text", "save it as a note of the trial");
    assert!(over.text().contains("not running any more"), "{}", over.text());
    let typed_again = over.form(&at(&trial, "/step")).filled(&[]);
    assert!(
        typed_again.iter().all(|(_, v)| !v.contains("vinegar") && v != "41"),
        "not for step 2: {typed_again:?}"
    );
    let noted = ines.submit(&over, &at(&trial, "/note"), &[]).await;
    noted.says("Noted.").says("Step 1: 41 minutes, at 1.5 %, smelt of vinegar");
}

fn id(trial: &Page) -> &str {
    trial.path.rsplit('/').next().unwrap()
}

#[tokio::test]
async fn a_step_is_done_for_several_trials_together() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let (a, b, c) = (started(&club, &ines).await, started(&club, &ines).await, started(&club, &ines).await);
    let page = ines.get(&a.path).await;
    assert_eq!(page.all("input[name=also]").len(), 2);
    let done = ines.submit(&page, &at(&a, "/step"), &[("also", id(&b))]).await;
    done.says("Done: step 1 of 2 trials");
    let at_step = "SELECT step AS n FROM trials WHERE id = $1";
    let steps = [
        number(&club, at_step, id(&a)).await,
        number(&club, at_step, id(&b)).await,
        number(&club, at_step, id(&c)).await,
    ];
    assert_eq!(steps, [2, 2, 1]);
    let other = club.grower("Tomas", "TK").await;
    let theirs = started(&club, &other).await;
    let page = other.get(&theirs.path).await;
    let fields = [("key", "0123456789abcdef0123"), ("step", "1"), ("also", id(&c))];
    assert_eq!(other.post(&at(&theirs, "/step"), &fields).await.status, StatusCode::NOT_FOUND);
    assert!(page.all("input[name=also]").is_empty());
    assert_eq!(number(&club, at_step, id(&theirs)).await, 1, "nothing of a refused save stays");
}

#[tokio::test]
async fn a_noted_solution_is_used_and_warned_about() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let trial = started(&club, &ines).await;
    let fields = [
        ("key", "0123456789abcdef0123"),
        ("agent", "hydrogen peroxide"),
        ("stock", "3"),
        ("strength", "1.5"),
        ("vessels", "1"),
        ("size", "50"),
        ("measure", "ml"),
    ];
    ines.post("/mix", &fields).await.says("Noted");
    let page = ines.get(&trial.path).await;
    let options = page.all("#f-solution option");
    assert_eq!(options[1], "hydrogen peroxide 1.5 %, made today 09:00");
    let html = page.html();
    let option = scraper::Selector::parse("#f-solution option").unwrap();
    let solution = html.select(&option).nth(1).unwrap().attr("value").unwrap().to_owned();
    let done = ines.submit(&page, &at(&trial, "/step"), &[("solution", &solution)]).await;
    done.says("from the noted hydrogen peroxide");
    ines.get("/mix").await.says("used before");
    assert!(ines.get(&trial.path).await.all("#f-solution option")[1].ends_with("(used before)"));
    let other = club.grower("Tomas", "TK").await;
    let theirs = started(&club, &other).await;
    let foreign = [("key", "0123456789abcdef9999"), ("step", "1"), ("solution", solution.as_str())];
    other.post(&at(&theirs, "/step"), &foreign).await.refuses("solution", "one of your solutions");
}

#[tokio::test]
async fn no_trial_begins_before_its_seed_was_there() {
    let club = Club::new().await;
    with_starters(&club).await;
    let ines = club.grower("Ines", "IB").await;
    let seed = [
        ("kind", "pepper"),
        ("variety", "Kestrel"),
        ("source", "Testwood"),
        ("seeds", "9"),
        ("year", "2026"),
    ];
    let added = ines.submit(&ines.get("/packets/new").await, "/packets/new", &seed).await;
    let packet = added.path.rsplit('/').next().unwrap().to_owned();
    let routine = routine(&club, "Dry").await;
    let page = ines.get(&format!("/trials/new?packet={packet}&routine={routine}")).await;
    for (at, why) in [
        ("2019-05-05 09:00", "IB 1 is seed of 2026: it cannot have begun in 2019"),
        ("1900-01-01 09:00", "more than 30 years ago"),
    ] {
        let refused = ines.submit(&page, "/trials/new", &[("at", at)]).await;
        refused.refuses("at", why);
        assert!(
            refused.body.contains(&at.replace(' ', "T")) || refused.body.contains(at),
            "what was typed is kept"
        );
    }
    // seed packed for a year is sold in the year before
    let started = ines.submit(&page, "/trials/new", &[("at", "2025-12-01 09:00")]).await;
    assert_eq!(started.status, StatusCode::OK, "{}", started.text());
}
