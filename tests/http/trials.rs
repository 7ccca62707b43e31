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
async fn floaters_are_tallied_and_kept_apart() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let trial = started(&club, &ines).await;
    let (tally, paper) = (at(&trial, "/tally"), at(&trial, "/paper"));
    let page = ines.get(&tally).await;
    ines.submit(&page, &tally, &[("sank", ""), ("floated", "-1")])
        .await
        .refuses("sank", "give a number")
        .refuses("floated", "from 0");
    ines.submit(&page, &tally, &[("sank", "8"), ("floated", "2")])
        .await
        .refuses("floaters", "what became of the floaters");
    let off = ines.submit(&page, &tally, &[("sank", "9"), ("floated", "2"), ("floaters", "own bag")]).await;
    off.refuses("recount", "10 seeds are soaking, and this makes 11");
    let done = ines.submit(&off, &tally, &[("recount", "yes")]).await;
    done.says("Float tally: 9 sank, 2 floated").says("2 floated: own bag");
    ines.submit(&off, &tally, &[("recount", "yes")]).await;
    assert_eq!(number(&club, "SELECT seeds AS n FROM trials WHERE id = $1", id(&trial)).await, 11);
    let again = ines.get(&tally).await;
    ines.submit(&again, &tally, &[("sank", "11"), ("floated", "0")]).await.refuses("sank", "was made");
    let page = ines.get(&paper).await;
    let preset = page.form(&paper).filled(&[]);
    for pair in [("seeds_1", "9"), ("seeds_2", "2"), ("floaters_2", "yes")] {
        assert!(preset.contains(&(pair.0.into(), pair.1.into())), "{pair:?}");
    }
    let on = ines.submit(&page, &paper, &[("place_1", "mat"), ("warmth_1", "28")]).await;
    on.says("On paper: 11 seeds in 2 bags").says("IB 1 a").says("mat, at 28 °C").says("floaters");
    adds_up(&club).await;
}

#[tokio::test]
async fn thrown_out_floaters_leave_and_carry_a_sign() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let trial = started(&club, &ines).await;
    let tally = at(&trial, "/tally");
    let page = ines.get(&tally).await;
    let done =
        ines.submit(&page, &tally, &[("sank", "7"), ("floated", "3"), ("floaters", "thrown out")]).await;
    done.says("floaters thrown out");
    assert_eq!(number(&club, "SELECT soaking AS n FROM trials WHERE id = $1", id(&trial)).await, 7);
    assert_eq!(number(&club, "SELECT thrown_out AS n FROM trials WHERE id = $1", id(&trial)).await, 3);
    adds_up(&club).await;
}

#[tokio::test]
async fn pelleted_seed_is_warned_about_and_not_tallied() {
    let club = Club::new().await;
    with_starters(&club).await;
    let ines = club.grower("Ines", "IB").await;
    let packet = club.packet(&ines, "Aji Rosado", 25).await;
    let mut conn = club.app.db.write().await.unwrap();
    conn.run("UPDATE packets SET state = 'pelleted' WHERE id = $1", args![&packet]).await.unwrap();
    conn.commit().await.unwrap();
    let routine = routine(&club, "Plain water").await;
    let page = ines.get(&format!("/trials/new?packet={packet}&routine={routine}")).await;
    page.says("a soak dissolves the pellet").says("come before this page");
    let trial = ines.submit(&page, "/trials/new", &[]).await;
    trial.says_not("Float tally");
    ines.get(&at(&trial, "/tally")).await.says("nothing to tally");
    let fields = [("key", "0123456789abcdef0123"), ("sank", "10"), ("floated", "0")];
    let refused = ines.post(&at(&trial, "/tally"), &fields).await;
    assert_eq!(refused.status, StatusCode::UNPROCESSABLE_ENTITY);
}

#[tokio::test]
async fn seeds_go_on_paper_on_different_days_and_may_have_rooted() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let trial = started(&club, &ines).await;
    let paper = at(&trial, "/paper");
    let page = ines.get(&paper).await;
    let empty = [("seeds_1", "")];
    ines.submit(&page, &paper, &empty).await.refuses("seeds_1", "How many seeds");
    let odd = [("seeds_1", "4"), ("rooted_1", "5"), ("warmth_1", "61"), ("place_1", "my shelf")];
    let bad = ines.submit(&page, &paper, &odd).await;
    bad.refuses("rooted_1", "More rooted than").refuses("warmth_1", "-30 to 60");
    assert!(bad.body.contains("my shelf"));
    let before = [("seeds_1", "4"), ("at", "2026-03-02T08:00")];
    ines.submit(&page, &paper, &before).await.refuses("at", "began after that");
    let first = ines.submit(&page, &paper, &[("seeds_1", "4"), ("rooted_1", "1")]).await;
    first.says("4 seeds, 1 rooted, 3 still on paper");
    club.pass_days(1);
    let page = ines.get(&paper).await;
    let many = ines.submit(&page, &paper, &[("seeds_1", "7")]).await;
    many.refuses("recount", "6 seeds are soaking, and this makes 7");
    let second = ines.submit(&many, &paper, &[("recount", "yes")]).await;
    second.says("IB 1 b").says("On paper: 7 seeds in 1 bag").says_not("Put on paper");
    assert_eq!(number(&club, "SELECT seeds AS n FROM trials WHERE id = $1", id(&trial)).await, 11);
    ines.submit(&many, &paper, &[("recount", "yes")]).await;
    assert_eq!(number(&club, "SELECT COUNT(*) AS n FROM bags WHERE trial_id = $1", id(&trial)).await, 2);
    adds_up(&club).await;
}

#[tokio::test]
async fn two_papers_at_once_never_use_more_than_soak() {
    for _ in 0..4 {
        let club = Club::new().await;
        let ines = club.grower("Ines", "IB").await;
        let trial = started(&club, &ines).await;
        let paper = at(&trial, "/paper");
        let (one, two) = (ines.get(&paper).await, ines.get(&paper).await);
        let six = [("seeds_1", "6")];
        let (a, b) = tokio::join!(ines.submit(&one, &paper, &six), ines.submit(&two, &paper, &six));
        let good = [a.status, b.status].iter().filter(|s| **s == StatusCode::OK).count();
        assert_eq!(good, 1, "{} / {}", a.text(), b.text());
        assert_eq!(number(&club, "SELECT soaking AS n FROM trials WHERE id = $1", id(&trial)).await, 4);
        adds_up(&club).await;
    }
}

#[tokio::test]
async fn seeds_leave_the_soak_and_return_to_their_packet() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let trial = started(&club, &ines).await;
    let seeds = at(&trial, "/seeds");
    let page = ines.get(&seeds).await;
    ines.submit(&page, &seeds, &[("seeds", "2")]).await.refuses("sort", "choose one");
    ines.submit(&page, &seeds, &[("seeds", "11"), ("sort", "lost")]).await.refuses("seeds", "At most 10");
    for (sort, left, kept) in [("lost", 8, 15), ("returned", 6, 17), ("sown", 4, 17), ("spoiled", 2, 17)] {
        let page = ines.get(&seeds).await;
        ines.submit(&page, &seeds, &[("seeds", "2"), ("sort", sort)]).await.says(&format!("2 seeds {sort}"));
        assert_eq!(number(&club, "SELECT soaking AS n FROM trials WHERE id = $1", id(&trial)).await, left);
        let sql = "SELECT p.balance AS n FROM packets p JOIN trials t ON t.packet_id = p.id WHERE t.id = $1";
        assert_eq!(number(&club, sql, id(&trial)).await, kept);
    }
    adds_up(&club).await;
}

#[tokio::test]
async fn a_stranger_finds_nothing() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let trial = started(&club, &ines).await;
    for other in [club.grower("Tomas", "TK").await, club.organiser("Mira", "MO").await] {
        for page in ["", "/tally", "/paper", "/seeds"] {
            assert_eq!(other.get(&at(&trial, page)).await.status, StatusCode::NOT_FOUND, "{page}");
        }
        let good: [(&str, &[(&str, &str)]); 5] = [
            ("/step", &[("step", "1")]),
            ("/note", &[("sort", "note"), ("text", "x")]),
            ("/tally", &[("sank", "10"), ("floated", "0")]),
            ("/paper", &[("rows", "1"), ("seeds_1", "10")]),
            ("/seeds", &[("seeds", "1"), ("sort", "lost")]),
        ];
        for (n, (page, fields)) in good.iter().enumerate() {
            let key = format!("0123456789abcdef{}{n}", other.id());
            let fields: Vec<(&str, &str)> =
                [("key", &key[..50.min(key.len())])].into_iter().chain(fields.iter().copied()).collect();
            assert_eq!(other.post(&at(&trial, page), &fields).await.status, StatusCode::NOT_FOUND, "{page}");
        }
        other.get("/trials").await.says("Nothing is soaking");
    }
    assert_eq!(number(&club, "SELECT soaking AS n FROM trials WHERE id = $1", id(&trial)).await, 10);
}

#[tokio::test]
async fn what_was_taken_cannot_be_voided_under_its_bags() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let trial = started(&club, &ines).await;
    let paper = at(&trial, "/paper");
    let page = ines.get(&paper).await;
    ines.submit(&page, &paper, &[]).await;
    let taken = "SELECT e.id FROM entries e JOIN trial_seeds s ON s.entry_id = e.id WHERE e.trial_id = $1 AND s.sort = $2";
    #[derive(FromRow)]
    struct Entry {
        id: String,
    }
    let entry = |sort: &'static str| {
        let (club, trial) = (&club, id(&trial));
        async move {
            let row: Entry = club.app.db.read().await.unwrap().one(taken, args![trial, sort]).await.unwrap();
            row.id
        }
    };
    let (first, onto) = (entry("taken").await, entry("to paper").await);
    let mut conn = club.app.db.write().await.unwrap();
    let refused = notebook::void::entry(&mut conn, ines.id(), &first, "typed wrong", club.app.now()).await;
    let said = refused.unwrap_err().to_string();
    assert!(said.contains("IB 1 a") && said.contains("more seeds left the soak"), "{said}");
    drop(conn);
    let mut conn = club.app.db.write().await.unwrap();
    notebook::void::entry(&mut conn, ines.id(), &onto, "wrong bag", club.app.now()).await.unwrap();
    notebook::void::entry(&mut conn, ines.id(), &first, "typed wrong", club.app.now()).await.unwrap();
    conn.commit().await.unwrap();
    let page = ines.get(&trial.path).await;
    page.says("voided").says("Voided by Ines: wrong bag");
    ines.get("/trials").await.says("Nothing is soaking");
    adds_up(&club).await;
}

#[tokio::test]
async fn notes_and_a_second_treatment_stay_with_the_trial() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let trial = started(&club, &ines).await;
    let note = at(&trial, "/note");
    ines.submit(&trial, &note, &[("text", "")]).await.refuses("text", "fill this in");
    ines.submit(&trial, &note, &[("text", "coats look dull")]).await.says("Note: coats look dull");
    let page = ines.get(&trial.path).await;
    ines.submit(&page, &note, &[("sort", "treated again")]).await.says("treated again");
}

#[tokio::test]
async fn other_features_call_the_store_with_plain_arguments() {
    let club = Club::new().await;
    with_starters(&club).await;
    let ines = club.grower("Ines", "IB").await;
    let packet = club.packet(&ines, "Aji Rosado", 25).await;
    let routine = routine(&club, "Peroxide").await;
    let mut conn = club.app.db.write().await.unwrap();
    let now = club.app.now();
    let act =
        |minutes: i64| Act::new(ines.id(), "demo", now.plus_minutes(minutes), now.plus_minutes(minutes));
    let new = NewTrial { packet, routine, seeds: 10, recount: None, pair: None, plan: String::new() };
    let trial: TrialId = store::start(&mut conn, &act(0), &[new]).await.unwrap().remove(0);
    let due = store::due(&mut conn, ines.id()).await.unwrap().remove(0);
    assert_eq!(
        (due.next(), due.due_at(), due.soaking, due.mark.as_str()),
        (Next::Step, now.plus_minutes(30), 10, "IB 1")
    );
    assert_eq!(due.words(), "Sanitising soak in hydrogen peroxide");
    for (position, minutes) in [(1, 30), (2, 35), (3, 760)] {
        let done = StepDone { position, ..StepDone::default() };
        store::step_done(&mut conn, &act(minutes), &trial, &done).await.unwrap();
    }
    let due = store::due(&mut conn, ines.id()).await.unwrap().remove(0);
    assert_eq!((due.next(), due.all_done(), due.due_at()), (Next::Tally, true, now.plus_minutes(760)));
    let found = Tally { sank: 9, floated: 1, floaters: "kept in".into(), recount: false };
    store::tally(&mut conn, &act(770), &trial, &found).await.unwrap();
    assert_eq!(store::due(&mut conn, ines.id()).await.unwrap()[0].next(), Next::Paper);
    let paper = Paper { seeds: 10, place: "mat".into(), warmth_c: Some(28.0), rooted: 2, ..Paper::default() };
    let bags = store::put_on_paper(&mut conn, &act(780), &trial, &[paper], false).await.unwrap();
    assert_eq!(bags.len(), 1);
    assert!(store::due(&mut conn, ines.id()).await.unwrap().is_empty());
    conn.commit().await.unwrap();
    adds_up(&club).await;
}

#[tokio::test]
async fn past_trials_come_in_pages() {
    let club = Club::new().await;
    let ines = club.grower("Ines", "IB").await;
    let packet = club.packet(&ines, "Aji Rosado", 60).await;
    for _ in 0..52 {
        let trial = club.trial(&ines, &packet, 1).await;
        let mut conn = club.app.db.write().await.unwrap();
        let act = Act::new(ines.id(), "diary", club.app.now(), club.app.now());
        store::leave(&mut conn, &act, &trial, "sown", 1).await.unwrap();
        conn.commit().await.unwrap();
    }
    let first = ines.get("/trials").await;
    assert_eq!(first.all("ul.lines > li").len(), 50);
    let second = ines.get(&first.link("Earlier")).await;
    assert_eq!(second.all("ul.lines > li").len(), 2);
    second.says("Later").says_not("Earlier");
}
