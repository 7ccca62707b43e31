//! Saves that wait for one another on SQLite last by one commit: see `server/db/turns.rs`.

use crate::support::Club;
use hilum::args;
use hilum::db::{Conn, Db, FromRow, Trouble, attend};
use std::time::Duration;
use tokio::task::JoinHandle;

const ADD: &str = "INSERT INTO leases (job, holder, until_at) VALUES ($1, $2, $3)";
const SEEN: &str = "SELECT COUNT(*) AS n FROM leases WHERE job = $1 AND until_at = $2";

#[derive(FromRow)]
struct Tally {
    n: i64,
}

async fn club() -> Option<Club> {
    let club = Club::new().await;
    matches!(club.app.db, Db::Sqlite { .. }).then_some(club)
}

async fn add(conn: &mut Conn, job: &str) {
    conn.later(ADD, args![job, "nobody", 7_i64]).await.unwrap();
}

async fn is_there(conn: &mut Conn, job: &str) -> bool {
    conn.one::<Tally>(SEEN, args![job, 7_i64]).await.unwrap().n == 1
}

async fn lasts(db: &Db, job: &str) -> bool {
    is_there(&mut db.read().await.unwrap(), job).await
}

/// A save that adds what is named and ends as `commits` says; it waits for its turn at once.
async fn save(db: &Db, job: &'static str, commits: bool) -> JoinHandle<Result<(), sqlx::Error>> {
    let db = db.clone();
    let saving = tokio::spawn(async move {
        let mut conn = db.write().await?;
        add(&mut conn, job).await;
        assert!(is_there(&mut conn, job).await, "a save sees its own");
        if commits { conn.commit().await } else { Ok(()) }
    });
    tokio::task::yield_now().await;
    saving
}

/// Saves that waited for one another, and the turn behind them.
async fn waited(
    db: &Db,
    wanted: &[(&'static str, bool)],
) -> (Vec<JoinHandle<Result<(), sqlx::Error>>>, Conn) {
    let first = db.write().await.unwrap();
    let mut saves = Vec::new();
    for (job, commits) in wanted {
        saves.push(save(db, job, *commits).await);
    }
    let last = db.write();
    drop(first);
    (saves, last.await.unwrap())
}

/// Time enough for whatever may go on by itself.
async fn a_while() {
    tokio::time::sleep(Duration::from_millis(300)).await;
}

#[tokio::test]
async fn one_that_is_given_up_takes_no_other_with_it() {
    let Some(club) = club().await else { return };
    let db = &club.app.db;
    let wanted = [("a", true), ("b", false), ("c", true), ("d", false)];
    let (saves, last) = waited(db, &wanted).await;
    a_while().await;
    assert!(!saves[0].is_finished() && !saves[2].is_finished(), "nobody hears of it before the commit");
    assert!(!lasts(db, "a").await);
    drop(last);
    for save in saves {
        save.await.unwrap().unwrap();
    }
    for (job, there) in wanted {
        assert_eq!(lasts(db, job).await, there, "{job}");
    }
}

#[tokio::test]
async fn eight_saves_last_without_those_behind_them() {
    let Some(club) = club().await else { return };
    let db = &club.app.db;
    let wanted = ["a", "b", "c", "d", "e", "f", "g", "h"].map(|job| (job, true));
    let (saves, mut ninth) = waited(db, &wanted).await;
    for save in saves {
        tokio::time::timeout(Duration::from_secs(5), save).await.expect("it waits").unwrap().unwrap();
    }
    assert!(lasts(db, "h").await && is_there(&mut ninth, "a").await);
}

#[tokio::test]
async fn who_saw_a_save_and_gives_up_answers_when_it_lasts() {
    let Some(club) = club().await else { return };
    let db = &club.app.db;
    let first = db.write().await.unwrap();
    let save = save(db, "a", true).await;
    let other = db.clone();
    let answer = tokio::spawn(attend(async move {
        let mut conn = other.write().await.unwrap();
        let seen = is_there(&mut conn, "a").await;
        drop(conn);
        (seen, lasts(&other, "a").await)
    }));
    tokio::task::yield_now().await;
    let last = db.write();
    drop(first);
    let last = last.await.unwrap();
    a_while().await;
    assert!(!answer.is_finished(), "it rests on what may still be lost");
    drop(last);
    assert_eq!(answer.await.unwrap().unwrap(), (true, true));
    save.await.unwrap().unwrap();
}

/// A save of "a" and what `then` does in the next turn of the same commit: what each was told.
async fn save_and<F>(db: &Db, then: impl FnOnce(Conn) -> F + Send + 'static) -> [Result<(), sqlx::Error>; 2]
where
    F: Future<Output = Result<(), sqlx::Error>> + Send,
{
    let first = db.write().await.unwrap();
    let save = save(db, "a", true).await;
    let other = db.clone();
    let next = tokio::spawn(async move { then(other.write().await?).await });
    tokio::task::yield_now().await;
    drop(first);
    [save.await.unwrap(), next.await.unwrap()]
}

#[tokio::test]
async fn where_the_engine_may_have_taken_all_back_the_others_are_tried_again() {
    let Some(club) = club().await else { return };
    let breaks = |mut conn: Conn| async move {
        conn.run("UPDATE nowhere SET n = 1", args![]).await.unwrap_err();
        conn.commit().await
    };
    let [saved, broke] = save_and(&club.app.db, breaks).await;
    broke.unwrap_err();
    let told = saved.unwrap_err();
    assert_eq!(Trouble::of(&told), Some(Trouble::Contended), "{told}");
    assert!(!lasts(&club.app.db, "a").await);
}

#[tokio::test]
async fn a_rule_that_is_broken_takes_its_own_save_back_alone() {
    let Some(club) = club().await else { return };
    let breaks = |mut conn: Conn| async move {
        add(&mut conn, "b").await;
        add(&mut conn, "a").await;
        conn.commit().await
    };
    let [saved, broke] = save_and(&club.app.db, breaks).await;
    let told = broke.unwrap_err();
    assert!(hilum::db::is_taken(&told), "{told}");
    saved.unwrap();
    let db = &club.app.db;
    assert_eq!((lasts(db, "a").await, lasts(db, "b").await), (true, false));
}

#[tokio::test]
async fn statements_put_off_are_run_in_order_with_their_own_parameters() {
    let club = Club::new().await;
    let db = &club.app.db;
    let mut conn = db.write().await.unwrap();
    for n in 0..20_i64 {
        conn.later(ADD, args![format!("job {n}"), "nobody", n]).await.unwrap();
        conn.later(
            "UPDATE leases SET until_at = until_at + $2 WHERE job = $1",
            args![format!("job {n}"), 100_i64],
        )
        .await
        .unwrap();
    }
    let touched = conn.run("UPDATE leases SET holder = $1 WHERE until_at >= $2", args!["all", 115_i64]).await;
    assert_eq!(touched.unwrap(), 5, "only what the last statement touched is told");
    let seen: Tally = conn
        .one(
            "SELECT COUNT(*) AS n FROM leases WHERE holder = $1 AND job = 'job ' || (until_at - $2)",
            args!["all", 100_i64],
        )
        .await
        .unwrap();
    assert_eq!(seen.n, 5);
    conn.commit().await.unwrap();
}

#[tokio::test(flavor = "multi_thread", worker_threads = 4)]
async fn those_cut_off_at_any_moment_take_no_other_with_them() {
    let Some(club) = club().await else { return };
    let db = &club.app.db;
    let mut saves = Vec::new();
    for n in 0..400_i64 {
        let (db, cut) = (db.clone(), n % 2 == 1);
        let save = async move {
            for _ in 0..5 {
                let mut conn = db.write().await.unwrap();
                let added = conn.run(ADD, args![format!("job {n}"), "nobody", 7_i64]).await;
                let saved = match added {
                    Ok(_) => conn.commit().await,
                    Err(error) => Err(error),
                };
                match saved {
                    Ok(()) => return,
                    Err(error) => assert_eq!(Trouble::of(&error), Some(Trouble::Contended), "{error}"),
                }
            }
            panic!("taken back five times");
        };
        let saving = tokio::spawn(save);
        if cut {
            tokio::time::sleep(Duration::from_micros(37 * (n as u64 % 23))).await;
            saving.abort();
        } else {
            saves.push((n, saving));
        }
    }
    for (n, save) in saves {
        save.await.unwrap();
        assert!(lasts(db, &format!("job {n}")).await, "{n}");
    }
}
