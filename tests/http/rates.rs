//! The club table over HTTP: what enters a rate, what does not, filters, sorting, files, and two processes.

use crate::support::{Browser, Club, Page, looked_at, rooted_by_day};
use axum::http::StatusCode;
use hilum::app::App;
use hilum::args;
use hilum::db::Db;
use hilum::db::ids::{BagId, TrialId};
use hilum::notebook::{About, Act, bag, trial, void};
use hilum::rates::standing;
use hilum_calc::analyse;
use std::process::{Command, Stdio};

/// See [`rooted_by_day`].
async fn tried(club: &Club, by: &Browser, variety: &str, source: &str, seeds: i64, rooted: i64) -> BagId {
    rooted_by_day(club, by, (variety, source), seeds, rooted).await
}

async fn write<F>(club: &Club, by: &Browser, bag_id: &BagId, what: F)
where
    F: AsyncFnOnce(&mut hilum::db::Conn, &Act<'_>, About<'_>),
{
    let mut conn = club.app.db.write().await.unwrap();
    let act = Act::new(by.id(), "diary", club.app.now(), club.app.now());
    what(&mut conn, &act, About { bag: Some(bag_id), ..About::default() }).await;
    bag::keep(&mut conn, bag_id).await.unwrap();
    conn.commit().await.unwrap();
}

async fn close(club: &Club, by: &Browser, bag_id: &BagId, ending: &'static str, left: i64) {
    write(club, by, bag_id, async |conn, act, about| {
        let closing = bag::Closing { ending, fresh: left, ..bag::Closing::default() };
        bag::add_closing(conn, act, about, closing, "").await.unwrap();
    })
    .await;
}

async fn run(club: &Club, sql: &'static str) {
    let mut conn = club.app.db.write().await.unwrap();
    conn.run(sql, args![]).await.unwrap();
    conn.commit().await.unwrap();
}

fn rows(page: &Page) -> Vec<String> {
    page.all("table.list tbody tr")
}

#[tokio::test]
async fn a_rate_comes_with_its_interval_seeds_and_growers() {
    let club = Club::new().await;
    let ann = club.grower("Ann", "AN").await;
    tried(&club, &ann, "Ember", "Testwood Seeds", 20, 14).await;
    ann.get("/table").await.says("No bag has come to its standard day yet");
    club.pass_days(14);
    let page = ann.get("/table").await;
    // 14 of 20: statsmodels 0.14 proportion_confint(14, 20, method="wilson") gives 0.481 to 0.855
    page.says("70 % (48 to 85)")
        .says("20 seeds, 1 grower")
        .says("14 of 20")
        .says("few seeds")
        .says("pepper day 14");
    page.says("do not set them beside a printed germination percentage");
    page.says("Of the seeds started");
}

#[tokio::test]
async fn a_table_that_was_drawn_is_shown_to_others_and_never_for_another_address() {
    let club = Club::new().await;
    let (ann, ben) = (club.grower("Ann", "AN").await, club.grower("Ben", "BN").await);
    tried(&club, &ann, "Ember", "Fen Seeds", 20, 10).await;
    club.pass_days(14);
    for asked in ["of=started", "at=day", "of=started&way=down"] {
        for by in [&ann, &ben] {
            let page = by.get(&format!("/table?{asked}")).await;
            let link = page.says("10 of 20").link("Variety");
            assert!(link.contains(asked.split('&').next().unwrap()), "{asked}: {link}");
            assert_eq!(link.contains("at="), asked.contains("at="), "{asked}: {link}");
        }
    }
    tried(&club, &ben, "Ember", "Fen Seeds", 20, 20).await;
    club.pass_days(14);
    ann.get("/table?of=started").await.says("30 of 40").says_not("10 of 20");
}

#[tokio::test]
async fn bags_running_or_closed_early_are_not_failures() {
    let club = Club::new().await;
    let ann = club.grower("Ann", "AN").await;
    tried(&club, &ann, "Ember", "Testwood Seeds", 20, 20).await;
    let packet = club.packet(&ann, "Ember", 40).await;
    let trial = club.trial(&ann, &packet, 40).await;
    let early = club.bag(&ann, &trial, 20).await;
    club.pass_days(3);
    club.look(&ann, &early, 0, 0).await;
    close(&club, &ann, &early, "final count", 20).await;
    let young = club.bag(&ann, &trial, 20).await;
    club.pass_days(1);
    club.look(&ann, &young, 0, 0).await;
    club.pass_days(10);
    let page = ann.get("/table").await;
    page.says("100 %").says("1 bag closed before the day").says("1 bag not there yet").says("estimated");
    assert!(rows(&page)[0].contains("20 of 40"), "{:?}", rows(&page));
}

#[tokio::test]
async fn thrown_out_floaters_count_of_seeds_started_only() {
    let club = Club::new().await;
    let ann = club.grower("Ann", "AN").await;
    let packet = club.packet(&ann, "Ember", 30).await;
    let trial_id = club.trial(&ann, &packet, 30).await;
    let (one, two) = (club.bag(&ann, &trial_id, 12).await, club.bag(&ann, &trial_id, 8).await);
    move_seeds(&club, &ann, &trial_id, &[("thrown out", 5), ("lost", 3), ("returned", 2)]).await;
    looked_at(&club, &ann, &one, 12).await;
    looked_at(&club, &ann, &two, 8).await;
    club.pass_days(15);
    ann.get("/table").await.says("80 %").says("20 of 25").says("25 seeds").says("floaters thrown out");
    let paper = ann.get("/table?of=paper").await;
    paper.says("100 %").says("20 of 20").says("Of the seeds that went on paper");
    let counts = ann.get("/counts.csv").await.body;
    let soaked: Vec<&str> = counts.lines().skip(1).map(|l| l.split(',').nth(11).unwrap()).collect();
    assert_eq!(soaked, ["17", "17", "8", "8"], "the trial's first bag stands for the floaters: {counts}");
}

async fn move_seeds(club: &Club, by: &Browser, id: &TrialId, moves: &[(&str, i64)]) {
    let mut conn = club.app.db.write().await.unwrap();
    let act = Act::new(by.id(), "diary", club.app.now(), club.app.now());
    let about = About { trial: Some(id), ..About::default() };
    for (sort, seeds) in moves {
        trial::add_seeds(&mut conn, &act, about, sort, *seeds).await.unwrap();
    }
    trial::keep(&mut conn, id).await.unwrap();
    conn.commit().await.unwrap();
}

#[tokio::test]
async fn bags_in_doubt_or_abandoned_leave_the_rate_and_their_number_shows() {
    let club = Club::new().await;
    let ann = club.grower("Ann", "AN").await;
    tried(&club, &ann, "Ember", "Testwood Seeds", 20, 20).await;
    let doubtful = tried(&club, &ann, "Ember", "Testwood Seeds", 20, 0).await;
    let left = tried(&club, &ann, "Ember", "Testwood Seeds", 20, 0).await;
    club.pass_days(15);
    write(&club, &ann, &doubtful, async |conn, act, about| {
        let event = bag::Event { sort: "in doubt", ..bag::Event::default() };
        bag::add_event(conn, act, about, event).await.unwrap();
    })
    .await;
    close(&club, &ann, &left, "abandoned", 20).await;
    let page = ann.get("/table").await;
    page.says("100 %").says("20 of 20").says("1 bag in doubt").says("1 bag abandoned");
    page.says("Not in the rates: 0 bags that went on paper too lately, 1 bag in doubt, 1 bag abandoned.");
}

#[tokio::test]
async fn voided_looks_never_count() {
    let club = Club::new().await;
    let ann = club.grower("Ann", "AN").await;
    tried(&club, &ann, "Ember", "Testwood Seeds", 20, 5).await;
    club.pass_days(15);
    ann.get("/table").await.says("5 of 20");
    #[derive(hilum::db::FromRow)]
    struct Id {
        id: String,
    }
    let mut conn = club.app.db.write().await.unwrap();
    let sql = "SELECT e.id FROM entries e JOIN looks l ON l.entry_id = e.id WHERE l.rooted = 5";
    let look: Id = conn.one(sql, args![]).await.unwrap();
    void::entry(&mut conn, ann.id(), &look.id, "typed five for none", club.app.now()).await.unwrap();
    conn.commit().await.unwrap();
    ann.get("/table").await.says("0 of 20").says_not("5 of 20");
}

#[tokio::test]
async fn merged_names_count_together_and_doubtful_crosses_apart() {
    let club = Club::new().await;
    let ann = club.grower("Ann", "AN").await;
    tried(&club, &ann, "Ember", "Testwood Seeds", 20, 10).await;
    tried(&club, &ann, "Embre", "Testwood Seeds", 20, 16).await;
    club.pass_days(15);
    assert_eq!(rows(&ann.get("/table").await).len(), 2);
    run(&club, "UPDATE varieties SET root_id = 'v-Ember', version = version + 1 WHERE id = 'v-Embre'").await;
    let page = ann.get("/table").await;
    assert_eq!(rows(&page).len(), 1);
    page.says("26 of 40");
    run(&club, "UPDATE lots SET doubtful_cross = TRUE WHERE id = 'l-Embre-Testwood Seeds'").await;
    let page = ann.get("/table").await;
    page.says("Ember (doubtful cross)").says("16 of 20").says("10 of 20");
}

#[tokio::test]
async fn seeds_sown_unrooted_are_not_known_not_failed() {
    let club = Club::new().await;
    let ann = club.grower("Ann", "AN").await;
    tried(&club, &ann, "Ember", "Testwood Seeds", 20, 20).await;
    let packet = club.packet(&ann, "Ember", 10).await;
    let trial = club.trial(&ann, &packet, 10).await;
    let id = club.bag(&ann, &trial, 10).await;
    club.pass_days(5);
    club.look(&ann, &id, 0, 0).await;
    write(&club, &ann, &id, async |conn, act, about| {
        bag::add_seeds(conn, act, about, "sown unrooted", 6, None).await.unwrap();
    })
    .await;
    club.pass_days(9);
    club.look(&ann, &id, 4, 0).await;
    let page = ann.get("/table").await;
    page.says("100 %").says("24 of 30");
    page.says("estimated");
}

#[tokio::test]
async fn filters_narrow_and_say_what_they_cannot_read() {
    let club = Club::new().await;
    let (ann, bo) = (club.grower("Ann", "AN").await, club.grower("Bo", "BO").await);
    tried(&club, &ann, "Ember", "Testwood Seeds", 20, 10).await;
    tried(&club, &bo, "Ember", "Testwood Seeds", 20, 20).await;
    club.pass_days(15);
    let page = ann.get("/table").await;
    page.says("30 of 40").says("2 growers");
    let own = ann.submit(&page, "/table", &[("grower", &bo.id().0)]).await;
    own.says("20 of 20").says("1 grower");
    ann.submit(&page, "/table", &[("season", "2026")]).await.says("30 of 40");
    ann.get("/table?season=2025").await.says("none fits what you chose");
    ann.get("/table?kind=pepper").await.says("30 of 40");
    ann.get("/table?kind=none-such").await.says("none fits what you chose");
    ann.get("/table?routine=r-dry").await.says("30 of 40");
    ann.get("/table?routine=other").await.says("none fits what you chose");
    ann.get("/table?season=soon").await.refuses("season", "A year, please");
    ann.get("/table?of=wishes").await.refuses("of", "Please choose one.");
    ann.get("/table?sort=luck").await.refuses("sort", "no such column");
    assert_eq!(ann.get("/table.csv?of=wishes").await.status, StatusCode::BAD_REQUEST);
    assert!(club.stranger().get("/table").await.path.starts_with("/sign-in"));
    assert!(club.stranger().get("/counts.csv").await.path.starts_with("/sign-in"));
}

#[tokio::test]
async fn columns_sort_both_ways_and_long_tables_have_pages() {
    let club = Club::new().await;
    let ann = club.grower("Ann", "AN").await;
    for n in 0..52 {
        tried(&club, &ann, &format!("V{n:02}"), "Testwood Seeds", 20, n % 21).await;
    }
    club.pass_days(15);
    let page = ann.get("/table").await;
    page.says("page 1 of 2");
    assert_eq!((rows(&page).len(), rows(&ann.get(&page.link("Later")).await).len()), (50, 2));
    let by_rate = ann.get(&page.link("Rate")).await;
    assert_eq!(by_rate.all("th[aria-sort=ascending]"), ["Rate"]);
    by_rate.says("0 of 20");
    assert!(rows(&by_rate)[0].contains("0 %"), "{}", rows(&by_rate)[0]);
    let down = ann.get(&by_rate.link("Rate")).await;
    assert_eq!(down.all("th[aria-sort=descending]"), ["Rate"]);
    assert!(rows(&down)[0].contains("100 %"), "{}", rows(&down)[0]);
    assert_eq!(rows(&ann.get("/table?page=99").await).len(), 2);
}

#[tokio::test]
async fn the_table_as_a_file_is_what_the_command_makes_of_the_counts() {
    let club = Club::new().await;
    let (ann, bo) = (club.grower("Ann", "AN").await, club.grower("Bo", "BO").await);
    for (variety, source, rooted) in
        [("Ember", "Testwood Seeds", 12), ("Ember", "=Swap", 17), ("Dusk", "=Swap", 9)]
    {
        tried(&club, &ann, variety, source, 20, rooted).await;
        tried(&club, &bo, variety, source, 20, rooted - 3).await;
    }
    club.pass_days(15);
    let counts = ann.get("/counts.csv").await;
    assert_eq!(counts.headers["content-type"], "text/csv; charset=utf-8");
    assert!(counts.body.contains(",'=Swap,"), "{}", counts.body);
    standing::refresh(&club.app).await.unwrap();
    let table = ann.get("/table.csv?of=paper").await.body;
    assert_eq!(table.lines().count(), 4, "{table}");
    assert!(table.starts_with("kind,variety,source,growers,trials,bags,seeds,soaked,rooted,rate,low,high,"));
    let now = club.app.now().in_utc();
    let stamped = format!(",{now},{now},0\r\n");
    assert_eq!(table.matches(&stamped).count(), 3, "{table}");
    let table = table
        .replace(&stamped, "\r\n")
        .replace(",as_of,adjusted_as_of,adjusted_seeds_of_other_clubs\r\n", "\r\n");

    let folder = tempfile::TempDir::new().unwrap();
    let file = folder.path().join("counts.csv");
    std::fs::write(&file, &counts.body).unwrap();
    let hilum = env!("CARGO_BIN_EXE_hilum");
    let out =
        Command::new(hilum).arg("analyse").arg(&file).args(["--table", "--of", "paper"]).output().unwrap();
    assert_eq!(String::from_utf8(out.stdout).unwrap(), table);

    let page = ann.get("/table").await;
    let analysis = analyse::run(&counts.body, analyse::Options::default()).unwrap().json();
    for row in analysis["table"].as_array().unwrap() {
        let rate = (row["rate"].as_f64().unwrap() * 100.0).round();
        let (low, high) = (row["low"].as_f64().unwrap() * 100.0, row["high"].as_f64().unwrap() * 100.0);
        page.says(&format!("{rate} % ({} to {})", low.round(), high.round()));
    }
}

#[tokio::test]
async fn another_process_on_the_same_database_is_seen_at_once() {
    let club = Club::new().await;
    let ann = club.grower("Ann", "AN").await;
    let id = tried(&club, &ann, "Ember", "Testwood Seeds", 20, 10).await;
    club.pass_days(15);
    ann.get("/table").await.says("10 of 20");
    let db = Db::open(&club.app.config.database()).await.unwrap();
    let other = App::new(db, (*club.app.config).clone(), club.app.clock.clone());
    let mut conn = other.db.write().await.unwrap();
    let at = hilum::db::ids::At(club.app.now().0 - 86_400);
    let act = Act::new(ann.id(), "diary", at, club.app.now());
    let about = About { bag: Some(&id), ..About::default() };
    bag::add_look(&mut conn, &act, about, bag::Look { rooted: 7, ..bag::Look::default() }, "").await.unwrap();
    bag::keep(&mut conn, &id).await.unwrap();
    conn.commit().await.unwrap();
    ann.get("/table").await.says("17 of 20");
}

/// A look of 3 rooted whose id was made before those already read, and saved after them.
async fn late_entry(club: &Club, by: &Browser, id: &BagId) {
    let now = club.app.now();
    let mut conn = club.app.db.write().await.unwrap();
    let sql = "INSERT INTO entries (id, act_id, save_key, what, bag_id, by_member, at, recorded_at, note)
        VALUES ('0', '0', 'late', 'look', $1, $2, $3, $3, '')";
    conn.run(sql, args![id, by.id(), now]).await.unwrap();
    conn.run("INSERT INTO looks (entry_id, rooted, abnormal, dead) VALUES ('0', 3, 0, 0)", args![])
        .await
        .unwrap();
    bag::keep(&mut conn, id).await.unwrap();
    conn.commit().await.unwrap();
}

/// What is read in steps, save by save, must be what is read at once.
#[tokio::test]
async fn reading_on_from_save_to_save_ends_where_reading_all_does() {
    let club = Club::new().await;
    let ann = club.grower("Ann", "AN").await;
    let first = tried(&club, &ann, "Ember", "Testwood Seeds", 20, 10).await;
    club.pass_days(15);
    ann.get("/table").await.says("10 of 20");
    club.look(&ann, &first, 2, 1).await;
    ann.get("/table").await.says("10 of 20");
    ann.get("/table?at=close").await.says("12 of 20");
    let second = tried(&club, &ann, "Dusk", "Testwood Seeds", 12, 6).await;
    club.pass_days(15);
    ann.get("/table").await.says("6 of 12");
    close(&club, &ann, &second, "final count", 6).await;
    ann.get("/table").await;
    late_entry(&club, &ann, &first).await;
    ann.get("/table?at=close").await.says("15 of 20");
    let stepped = ann.get("/counts.csv").await.body;
    let db = Db::open(&club.app.config.database()).await.unwrap();
    let afresh = App::new(db, (*club.app.config).clone(), club.app.clock.clone());
    let mut conn = afresh.db.write().await.unwrap();
    let token = hilum::web::session::open(&mut conn, ann.id(), club.app.now()).await.unwrap();
    conn.commit().await.unwrap();
    let other = Browser::new(afresh.router(), Some(token), Some(ann.id().clone()));
    assert_eq!(other.get("/counts.csv").await.body, stepped);
}

#[test]
fn the_commands_answer_faults_with_status_two() {
    let hilum = env!("CARGO_BIN_EXE_hilum");
    let reckon = |method: &str, input: &str| {
        use std::io::Write;
        let mut child = Command::new(hilum)
            .args(["reckon", method])
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        child.stdin.take().unwrap().write_all(input.as_bytes()).unwrap();
        let out = child.wait_with_output().unwrap();
        let json: serde_json::Value = serde_json::from_slice(&out.stdout).unwrap();
        (out.status.code(), json)
    };
    let (status, fault) = reckon("linked", "[]");
    assert_eq!(status, Some(2));
    assert!(fault["error"].is_string() && fault["field"].is_string(), "{fault}");
    assert_eq!(reckon("linked", "not json").0, Some(2));
    let (status, fault) = reckon("guess", "{}");
    assert_eq!((status, fault["field"].as_str()), (Some(2), Some("method")));

    let oracle = include_str!("../reference/oracles/m3_time_metrics.json");
    let oracle: serde_json::Value = serde_json::from_str(oracle).unwrap();
    let case = &oracle["cases"][0];
    let (status, answer) = reckon("times", &case["input"].to_string());
    let (got, want) = (answer["mgt"].as_f64().unwrap(), case["expected"]["mgt"].as_f64().unwrap());
    assert_eq!(status, Some(0));
    assert!((got - want).abs() < 1e-9, "{got} is not {want}");

    let folder = tempfile::TempDir::new().unwrap();
    let file = folder.path().join("counts.csv");
    std::fs::write(&file, "kind,variety,source\npepper,Dusk,x\n").unwrap();
    let out = Command::new(hilum).arg("analyse").arg(&file).output().unwrap();
    let said = String::from_utf8(out.stdout).unwrap();
    assert_eq!(out.status.code(), Some(2));
    assert!(said.contains("line 1, column hours: this column is missing"), "{said}");
}
