//! A damaged database (SQLite): found at the start or when a damaged page is met; from then on nothing is written,
//! pages are read where they can be, and each says so. A sound file and a start end that.
//!
//! Long: `HILUM_DAMAGES=200 cargo test --test endure damaged`

use crate::support::by_lot;
use crate::support::cluster::on_postgres;
use crate::support::{Client, Program, START, breaches, fresh, held_off, key, time_is_left, times};
use hilum::args;
use hilum::db::ids::At;
use hilum::db::{Db, FromRow};
use std::os::unix::fs::FileExt;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

const PAGE: u64 = 4096;
const BANNER: &str = "data is damaged";

#[derive(FromRow)]
struct Number {
    n: i64,
}

/// A club at rest, all of it in one file.
struct Club {
    program: Program,
    client: Client,
    file: PathBuf,
    sound: Vec<u8>,
    trial: String,
}

#[derive(FromRow)]
struct Trial {
    id: String,
}

impl Club {
    async fn at_rest() -> Self {
        let mut program = Program::demo_in(fresh().await, held_off).await;
        let db = program.db().await;
        let client = Client::sign_in(&program.base, &db, "agnes", At(START)).await;
        let sql = "SELECT t.id FROM trials t JOIN members m ON m.id = t.owner_id WHERE m.sign_in = 'agnes' ORDER BY t.id";
        let trial: Trial = db.read().await.unwrap().one(sql, args![]).await.unwrap();
        program.stop();
        // the last to close moves the log into the file
        db.close().await;
        let file = PathBuf::from(program.database.url.trim_start_matches("sqlite:"));
        let sound = std::fs::read(&file).unwrap();
        Self { program, client, file, sound, trial: trial.id }
    }

    async fn note(&self) -> crate::support::Answer {
        let path = format!("/trials/{}/note", self.trial);
        self.client.post(&path, &key(), &[("sort", "note"), ("text", "endured")]).await.unwrap()
    }

    /// The sound file is back.
    fn restored(&self) {
        for end in ["-wal", "-shm"] {
            let _ = std::fs::remove_file(format!("{}{end}", self.file.display()));
        }
        std::fs::write(&self.file, &self.sound).unwrap();
    }
}

/// Overwrites the head of a page, so that it is no page any more. Pages count from 1.
fn damage(file: &Path, page: u64) {
    let file = std::fs::OpenOptions::new().write(true).open(file).unwrap();
    file.write_all_at(&[0xff; 64], (page - 1) * PAGE).unwrap();
}

/// The first page of a table.
async fn page_of(file: &Path, table: &str) -> u64 {
    let db = Db::open(&format!("sqlite:{}", file.display())).await.unwrap();
    let sql = "SELECT rootpage AS n FROM sqlite_schema WHERE name = $1";
    let number: Number = db.read().await.unwrap().one(sql, args![table]).await.unwrap();
    db.close().await;
    number.n.unsigned_abs()
}

#[tokio::test(flavor = "multi_thread")]
async fn damage_found_at_the_start_stops_writing_and_is_said_on_each_page() {
    if on_postgres() {
        return;
    }
    let mut club = Club::at_rest().await;
    damage(&club.file, page_of(&club.file, "photos").await);
    club.program.again().await;
    for path in ["/", "/packets", "/me"] {
        let page = club.client.get(path).await.unwrap();
        assert!(page.status == 200 && page.body.contains(BANNER), "{path} {page:?}");
    }
    let answer = club.note().await;
    assert_eq!(answer.status, 503);
    assert!(
        answer.body.contains("endured") && answer.body.contains("restore the last backup"),
        "{}",
        answer.body
    );
    assert!(club.program.check().contains("damaged"), "{}", club.program.check());
    club.program.stop();
    club.restored();
    club.program.again().await;
    assert!(!club.client.get("/").await.unwrap().body.contains(BANNER));
    assert_eq!(club.note().await.status, 303);
}

#[tokio::test(flavor = "multi_thread")]
async fn damage_met_while_running_stops_writing_until_a_start_with_a_sound_file() {
    if on_postgres() {
        return;
    }
    let mut club = Club::at_rest().await;
    let page = page_of(&club.file, "steps_done").await;
    club.program.again().await;
    assert_eq!(club.note().await.status, 303);
    damage(&club.file, page);
    // the save before made every connection forget the pages that it knew; a trial's page reads that table
    let met = club.client.get(&format!("/trials/{}", club.trial)).await.unwrap();
    assert_eq!(met.status, 503, "{met:?}");
    assert!(met.body.contains(BANNER), "{}", met.body);
    for way in ["href=\"/packets\"", "href=\"/trays\""] {
        assert!(met.body.contains(way), "what may still be read is offered: {}", met.body);
    }
    assert_eq!(club.note().await.status, 503);
    assert!(club.client.get("/").await.unwrap().body.contains(BANNER));
    club.program.stop();
    club.restored();
    club.program.again().await;
    assert_eq!(club.note().await.status, 303);
}

/// A file of more than 64 MiB is looked over while it is served: a start does not wait for it.
#[tokio::test(flavor = "multi_thread")]
async fn damage_of_a_large_file_is_found_without_anybody_meeting_it() {
    if on_postgres() {
        return;
    }
    let mut club = Club::at_rest().await;
    enlarge(&club.program.database.url, 66).await;
    assert!(club.file.metadata().unwrap().len() > 64 * 1024 * 1024);
    damage(&club.file, page_of(&club.file, "photos").await);
    club.program.again().await;
    let began = Instant::now();
    while !club.client.get("/packets").await.unwrap().body.contains(BANNER) {
        assert!(began.elapsed() < Duration::from_secs(30), "nobody looked it over");
        tokio::time::sleep(Duration::from_millis(50)).await;
    }
    let answer = club.note().await;
    assert!(answer.status == 503 && answer.body.contains("endured"), "{answer:?}");
}

/// Adds photos of so many MiB.
async fn enlarge(url: &str, mib: i64) {
    let db = Db::open(url).await.unwrap();
    let mut conn = db.write().await.unwrap();
    let sql = "INSERT INTO photos (id, entry_id, jpeg, small, small_width, small_height)
        SELECT id, id, zeroblob(1048576), zeroblob(1), 1, 1 FROM entries
        WHERE id NOT IN (SELECT entry_id FROM photos) ORDER BY id LIMIT $1";
    conn.run(sql, args![mib]).await.unwrap();
    conn.commit().await.unwrap();
    db.close().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn no_damaged_page_goes_unnoticed() {
    if on_postgres() {
        return;
    }
    let club = Club::at_rest().await;
    let mut chance = by_lot("damaged pages");
    let (tries, pages) = (times("HILUM_DAMAGES", 20), club.sound.len() / PAGE as usize);
    let sql = "SELECT freelist_count AS n FROM pragma_freelist_count";
    let db = club.program.db().await;
    let free: Number = db.read().await.unwrap().one(sql, args![]).await.unwrap();
    db.close().await;
    assert_eq!(free.n, 0, "every page holds something");
    let (mut refused, mut read_only) = (0, 0);
    for _ in (0..tries).take_while(|_| time_is_left()) {
        let page = 1 + chance.below(pages) as u64;
        club.restored();
        damage(&club.file, page);
        match Db::open(&club.program.database.url).await {
            Err(why) => {
                assert!(why.to_string().contains("restore the last backup"), "page {page}: {why}");
                refused += 1;
            }
            Ok(db) => {
                assert!(db.damaged() && db.write().await.is_err(), "page {page} went unnoticed");
                assert!(!breaches(&db).await.is_empty(), "page {page}");
                db.close().await;
                read_only += 1;
            }
        }
    }
    let tries = read_only + refused;
    println!("{tries} damaged pages: {read_only} opened for reading only, {refused} refused, none unnoticed");
}
