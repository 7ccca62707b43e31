//! `hilum check`: each invariant broken by hand, and the breach it prints.

use crate::support::{Browser, Club};
use hilum::args;
use hilum::db::ids::{BagId, PlantingId, TrayId};
use hilum::marks;
use hilum::notebook::{About, Act, bag, planting};
use hilum::upkeep::check;
use std::process::Command;

struct Grown {
    club: Club,
    ann: Browser,
    bag: BagId,
}

/// A club with a packet, a trial, a bag of 10 with 4 rooted, and two of them planted in cell 1.
async fn grown() -> Grown {
    let club = Club::new().await;
    let ann = club.grower("Ann", "AN").await;
    let packet = club.packet(&ann, "Ember", 30).await;
    let trial = club.trial(&ann, &packet, 20).await;
    club.pass_days(1);
    let bag = club.bag(&ann, &trial, 10).await;
    club.pass_days(6);
    club.look(&ann, &bag, 4, 1).await;
    planted(&club, &ann, &bag, 2).await;
    Grown { club, ann, bag }
}

async fn planted(club: &Club, by: &Browser, bag_id: &BagId, seeds: i64) -> PlantingId {
    let now = club.app.now();
    let mut conn = club.app.db.write().await.unwrap();
    let (tray, id) = (TrayId::new(), PlantingId::new());
    let mark = marks::next_thing(&mut conn, "AN", "tray", &tray.0, now).await.unwrap();
    let sql = "INSERT INTO trays (id, owner_id, mark_key, mark, name, tray_rows, tray_cols, place, made_at, version)
        VALUES ($1, $2, $3, $4, '', 4, 6, '', $5, 1)";
    conn.run(sql, args![&tray, by.id(), &mark.key, &mark.shown, now]).await.unwrap();
    let sql = "INSERT INTO plantings (id, tray_id, cell, bag_id, unrooted, planted_at, voided, seeds, up, lost, thinned,
        potted, end_why) VALUES ($1, $2, 1, $3, FALSE, $4, FALSE, $5, 0, 0, 0, 0, '')";
    conn.run(sql, args![&id, &tray, bag_id, now, seeds]).await.unwrap();
    let act = Act::new(by.id(), "diary", now, now);
    let about = About { bag: Some(bag_id), tray: Some(&tray), planting: Some(&id), ..About::default() };
    bag::add_end(&mut conn, &act, about, "planted", seeds).await.unwrap();
    bag::keep(&mut conn, bag_id).await.unwrap();
    planting::keep(&mut conn, &id).await.unwrap();
    conn.commit().await.unwrap();
    id
}

impl Grown {
    async fn breaches(&self) -> Vec<String> {
        check::breaches(&self.club.app).await.unwrap()
    }

    /// Breaks the database with `sql` and expects a breach that starts and goes on like this.
    #[track_caller]
    fn broken_by(sql: &'static str, rule: &str, words: &str) {
        let (rule, words) = (rule.to_owned(), words.to_owned());
        let runtime = tokio::runtime::Runtime::new().unwrap();
        runtime.block_on(async move {
            let grown = grown().await;
            assert_eq!(grown.breaches().await, Vec::<String>::new());
            let mut conn = grown.club.app.db.write().await.unwrap();
            assert!(conn.run(sql, args![]).await.unwrap() > 0, "the break did nothing");
            conn.commit().await.unwrap();
            let found = grown.breaches().await;
            assert!(found.iter().any(|b| b.starts_with(&rule) && b.contains(&words)), "{found:#?}");
        });
    }
}

#[test]
fn i1_a_balance_that_is_not_its_ledger() {
    Grown::broken_by(
        "UPDATE packets SET balance = balance + 1",
        "I1 packet AN 1",
        "the ledger says 10, the balance 11",
    );
    Grown::broken_by(
        "UPDATE ledger SET seeds = 15 WHERE sort = 'received'",
        "I1 packet AN 1",
        "the ledger says -5",
    );
}

#[test]
fn i2_seeds_of_a_trial_that_are_not_all_somewhere() {
    Grown::broken_by(
        "UPDATE trials SET soaking = 9",
        "I2 trial of AN 1",
        "soaking is kept as 9, the entries say 10",
    );
    Grown::broken_by(
        "UPDATE ledger SET seeds = -19 WHERE sort = 'taken'",
        "I2 trial of AN 1",
        "20 seeds were taken, the packet gave 19",
    );
    Grown::broken_by(
        "UPDATE trial_seeds SET seeds = 21 WHERE sort = 'to paper'",
        "I2 trial of AN 1",
        "more seeds left the soak than went in",
    );
    Grown::broken_by(
        "UPDATE bag_seeds SET seeds = 11 WHERE sort = 'on paper'",
        "I2 trial of AN 1",
        "10 seeds went to paper, its bags were given 11",
    );
}

#[test]
fn i3_seeds_of_a_bag_that_are_not_all_somewhere() {
    Grown::broken_by(
        "UPDATE bags SET dead = 2, on_paper = on_paper - 1",
        "I3 bag AN 1 a",
        "dead is kept as 2, the entries say 1",
    );
    Grown::broken_by(
        "UPDATE looks SET dead = 8",
        "I3 bag AN 1 a",
        "more seeds are accounted for than were in the bag",
    );
}

#[test]
fn i4_ends_of_rooted_seeds() {
    Grown::broken_by("UPDATE bags SET ended = 3", "I4 bag AN 1 a", "ended is kept as 3, the entries say 2");
    Grown::broken_by(
        "UPDATE rooted_ends SET seeds = 5",
        "I3 bag AN 1 a",
        "more rooted seeds were planted or ended",
    );
    Grown::broken_by(
        "UPDATE plantings SET seeds = 3",
        "I4 planting of AN 1 a",
        "the bag gave 2 seeds, the planting has 3",
    );
}

#[test]
fn i5_cells_and_plantings() {
    Grown::broken_by(
        "DELETE FROM tray_cells",
        "I5 planting of AN 1 a in cell 1",
        "the cell does not hold it",
    );
    Grown::broken_by("UPDATE tray_cells SET cell = 2", "I5 planting of AN 1 a", "the cell does not hold it");
    Grown::broken_by(
        "UPDATE plantings SET up = 1",
        "I5 planting of AN 1 a",
        "up is kept as 1, the entries say 0",
    );
    Grown::broken_by("UPDATE plantings SET cell = 25", "I5 planting of AN 1 a in cell 25", "only 24 cells");
    Grown::broken_by(
        "UPDATE plantings SET ended_at = planted_at",
        "I5 planting of AN 1 a",
        "still holds its cell",
    );
}

#[test]
fn i6_the_order_of_moments() {
    Grown::broken_by("UPDATE trials SET began_at = began_at + 200000", "I6 AN 1 a", "before the trial began");
    Grown::broken_by(
        "UPDATE entries SET at = at - 600000 WHERE what = 'look'",
        "I6 AN 1 a: the look",
        "is before the bag was on paper",
    );
    Grown::broken_by(
        "UPDATE bags SET closed_at = on_paper_at + 1",
        "I6 AN 1 a: the look",
        "is after the bag was closed",
    );
    Grown::broken_by(
        "UPDATE entries SET at = at + 9 WHERE what = 'look'",
        "I6 AN 1 a: the look",
        "in the future",
    );
    Grown::broken_by("UPDATE bags SET looked_at = NULL", "I6 bag AN 1 a", "looked at is kept as null");
}

#[test]
fn i7_voids() {
    const HALF: &str = "INSERT INTO voids (entry_id, by_member, at, why)
        SELECT id, by_member, recorded_at, 'a slip' FROM entries WHERE what = 'trial seeds' AND bag_id IS NOT NULL";
    Grown::broken_by(HALF, "I7 AN 1 a: the bag seeds", "stands, though others of the same act are voided");
    const EARLY: &str = "INSERT INTO voids (entry_id, by_member, at, why)
        SELECT id, by_member, recorded_at - 1, 'a slip' FROM entries WHERE what = 'look'";
    Grown::broken_by(EARLY, "I7 AN 1 a: the look", "voided before it was written down");
    const MUTE: &str = "INSERT INTO voids (entry_id, by_member, at, why)
        SELECT id, by_member, recorded_at, ' ' FROM entries WHERE what = 'look'";
    Grown::broken_by(MUTE, "I7 AN 1 a: the look", "without a reason");
    Grown::broken_by("DELETE FROM looks", "I7 AN 1 a: the look", "lost its particulars");
}

#[test]
fn i8_saves_that_count_once() {
    const NOWHERE: &str = "INSERT INTO once (key, member_id, action, digest, location, at)
        SELECT 'key-of-sixteen-and-more', id, 'look', 'x', '', made_at FROM members";
    Grown::broken_by(NOWHERE, "I8 Ann: the save (look)", "led nowhere");
}

#[tokio::test]
async fn i8_a_look_twice_from_one_save_and_a_save_of_another() {
    let grown = grown().await;
    grown.club.look(&grown.ann, &grown.bag, 1, 0).await;
    let bo = grown.club.grower("Bo", "BO").await;
    let mut conn = grown.club.app.db.write().await.unwrap();
    let sql = "UPDATE entries SET save_key = 'key-of-sixteen-and-more' WHERE what = 'look'";
    conn.run(sql, args![]).await.unwrap();
    let sql = "INSERT INTO once (key, member_id, action, digest, location, at)
        VALUES ('key-of-sixteen-and-more', $1, 'look', 'x', '/', 1)";
    conn.run(sql, args![bo.id()]).await.unwrap();
    conn.commit().await.unwrap();
    let found = grown.breaches().await;
    assert!(found.iter().any(|b| b.starts_with("I8 AN 1 a") && b.contains("stands twice")), "{found:#?}");
    assert!(found.iter().any(|b| b.contains("of another member than the save")), "{found:#?}");
}

#[test]
fn i9_marks() {
    Grown::broken_by(
        "UPDATE marks SET shown = 'AN 2' WHERE thing = 'packet'",
        "I9 mark AN 2",
        "it folds to AN2",
    );
    Grown::broken_by(
        "UPDATE marks SET thing_id = 'x' WHERE thing = 'bag'",
        "I9 bag AN 1 a",
        "was given to another bag",
    );
    Grown::broken_by("UPDATE bags SET mark = 'AN 1 b'", "I9 bag AN 1 b", "written otherwise");
    const AGAIN: &str = "INSERT INTO marks (key, shown, thing, thing_id, made_at)
        SELECT 'ZZ1', 'an-1', 'packet', 'x', made_at FROM marks WHERE thing = 'packet'";
    Grown::broken_by(AGAIN, "I9 mark an-1", "after folding");
}

#[tokio::test(flavor = "multi_thread")]
async fn the_command_prints_breaches_and_says_so_by_its_status() {
    let grown = grown().await;
    let check = || {
        let mut command = Command::new(env!("CARGO_BIN_EXE_hilum"));
        let command = command.arg("check").env("HILUM_DATABASE_URL", grown.club.app.config.database());
        let out = command.output().unwrap();
        (out.status.code(), String::from_utf8(out.stdout).unwrap())
    };
    let (status, said) = check();
    assert_eq!(status, Some(0), "{said}");
    assert!(said.starts_with("No breach: I1 to I9 hold"), "{said}");
    let mut conn = grown.club.app.db.write().await.unwrap();
    conn.run("UPDATE packets SET balance = 3", args![]).await.unwrap();
    conn.commit().await.unwrap();
    let (status, said) = check();
    assert_eq!((status, said.as_str()), (Some(1), "I1 packet AN 1: the ledger says 10, the balance 3\n"));
    let out = Command::new(env!("CARGO_BIN_EXE_hilum"))
        .args(["check", "--data", "/no-such-folder"])
        .output()
        .unwrap();
    assert_eq!(out.status.code(), Some(1));
    assert!(String::from_utf8(out.stderr).unwrap().contains("there is no database"), "names what is missing");
}

#[test]
fn the_invented_club_takes_no_folder_of_data() {
    let hilum = env!("CARGO_BIN_EXE_hilum");
    let mut demo = std::process::Command::new(hilum)
        .args(["demo", "--data", "somewhere", "--listen", "127.0.0.1:0"])
        .stdout(std::process::Stdio::null())
        .stderr(std::process::Stdio::piped())
        .spawn()
        .unwrap();
    for _ in 0..200 {
        if demo.try_wait().unwrap().is_some() {
            break;
        }
        std::thread::sleep(std::time::Duration::from_millis(50));
    }
    let _ = demo.kill();
    let out = demo.wait_with_output().unwrap();
    let said = String::from_utf8(out.stderr).unwrap();
    assert!(out.status.code() == Some(1) && said.contains("leave --data"), "{:?} {said}", out.status);
    assert!(!std::path::Path::new("somewhere").exists());
}
