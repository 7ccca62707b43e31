//! The club's data is found damaged (SQLite): a count stays on the phone, which says why and whom to tell; so does the
//! page for signing in. Once the file is sound again, the count is sent.

use super::all_sent;
use crate::support::{Phone, Program};
use hilum::args;
use hilum::db::{Db, FromRow};
use std::os::unix::fs::FileExt;
use std::path::Path;

const PAGE: u64 = 4096;
const TOLD: &str = "The data on the club's computer is damaged";

#[derive(FromRow)]
struct Number {
    n: i64,
}

#[derive(FromRow)]
struct Bag {
    id: String,
}

async fn one<T>(db: &Db, sql: &'static str) -> T
where
    T: hilum::db::Row,
{
    db.read().await.unwrap().one(sql, args![]).await.unwrap()
}

#[tokio::test]
async fn a_count_for_damaged_data_stays_on_the_phone_which_says_why() {
    let mut program = Program::demo().await;
    let Some(file) = program.database.url.strip_prefix("sqlite:").map(str::to_owned) else { return };
    let db = program.db().await;
    let open = "SELECT b.id FROM bags b JOIN members m ON m.id = b.owner_id
        WHERE m.sign_in = 'agnes' AND b.closed_at IS NULL AND b.on_paper > 2 ORDER BY b.id LIMIT 1";
    let bag: Bag = one(&db, open).await;
    let looks = "SELECT COUNT(*) AS n FROM looks";
    let before: Number = one(&db, looks).await;
    // a table that the pages below do not read
    let passkeys: Number = one(&db, "SELECT rootpage AS n FROM sqlite_schema WHERE name = 'passkeys'").await;
    let phone = Phone::open(&program.base).await;
    phone.sign_in("agnes").await;
    program.stop();
    // the last to close moves the log into the file
    db.close().await;
    let sound = std::fs::read(&file).unwrap();
    let damaged = std::fs::OpenOptions::new().write(true).open(&file).unwrap();
    damaged.write_all_at(&[0xff; 64], (passkeys.n.unsigned_abs() - 1) * PAGE).unwrap();
    program.again().await;

    phone.goto(&format!("/bags/{}", bag.id)).await;
    phone.says("Tell whoever looks after the club's computer to restore the last backup").await;
    phone.fill("#f-rooted", "1").await;
    phone.tap(".save button.main").await;
    phone.says("Saved on this phone: Root out: 1").await;
    phone.says(TOLD).await;
    phone.says("tell whoever looks after it. The count stays on this phone").await;
    phone.hides("sent when there is signal").await;
    phone.says("1 waiting").await;
    phone.says("Nothing is saved any more").await;
    phone.look("count-for-damaged-data").await;
    phone.goto("/outbox").await;
    phone.says(TOLD).await;
    phone.says("Root out: 1").await;
    phone.look("outbox-for-damaged-data").await;

    let stranger = Phone::open(&program.base).await;
    stranger.goto("/sign-in").await;
    stranger.says("The club's data is damaged").await;
    stranger.says("Nobody can sign in until then").await;
    stranger.look("sign-in-for-damaged-data").await;
    stranger.fill("#f-sign_in", "agnes").await;
    stranger.fill("#f-password", hilum::upkeep::demo::PASSWORD).await;
    stranger.tap(".save button.main").await;
    stranger.says("Not signed in").await;
    stranger.look("sign-in-refused-for-damaged-data").await;
    stranger.close().await;

    program.stop();
    restored(Path::new(&file), &sound);
    program.again().await;
    phone.goto("/").await;
    all_sent(&phone).await;
    let db = program.db().await;
    let after: Number = one(&db, looks).await;
    assert_eq!(after.n, before.n + 1, "the count came in once");
    phone.close().await;
}

/// The sound file is back.
fn restored(file: &Path, sound: &[u8]) {
    for end in ["-wal", "-shm"] {
        let _ = std::fs::remove_file(format!("{}{end}", file.display()));
    }
    std::fs::write(file, sound).unwrap();
}
