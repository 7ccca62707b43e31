//! Backups by themselves: when, how long they are kept, that each is tried out, and what the organiser is told.

use crate::support::{Browser, Club};
use hilum::app::App;
use hilum::args;
use hilum::backups::names::{self, Why};
use hilum::backups::take::{self, Wanted};
use hilum::backups::{keep, schedule, size};
use hilum::config::Config;
use hilum::db::ids::At;
use std::path::PathBuf;
use std::sync::Arc;
use tempfile::TempDir;

/// A club that takes a backup each day into a folder of its own.
struct Kept {
    club: Club,
    app: App,
    data: TempDir,
    olga: Browser,
}

impl Kept {
    async fn new() -> Self {
        let club = Club::new().await;
        let data = TempDir::new().unwrap();
        let mut app = club.app.clone();
        let config = Config { data: data.path().to_owned(), backup_every: 24, ..(*app.config).clone() };
        app.config = Arc::new(config);
        let known = club.organiser("Olga", "OL").await;
        let olga = Browser::new(app.clone().router(), Some(known.cookie("hilum")), Some(known.id().clone()));
        let packet = club.packet(&known, "Ember", 30).await;
        club.trial(&known, &packet, 20).await;
        Self { club, app, data, olga }
    }

    async fn taken(&self) -> bool {
        schedule::when_due(&self.app).await.unwrap()
    }

    fn files(&self) -> Vec<PathBuf> {
        let files = std::fs::read_dir(self.data.path().join("backups")).unwrap();
        let mut files: Vec<PathBuf> = files.map(|f| f.unwrap().path()).collect();
        files.sort();
        files
    }

    async fn says(&self, words: &[&str]) {
        let page = self.olga.get("/backups").await;
        for words in words {
            page.says(words);
        }
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn one_is_taken_each_day_tried_out_and_told() {
    let kept = Kept::new().await;
    kept.says(&["Last good backup none yet", "every day", "There is none yet."]).await;
    assert!(kept.taken().await && !kept.taken().await, "once a day");
    assert_eq!(kept.files().len(), 1, "{:?}", kept.files());
    let name = kept.files()[0].file_name().unwrap().to_string_lossy().into_owned();
    assert!(name.starts_with("hilum-2026-03-02T080000Z-schema-"), "{name}");
    let tried = "restored for a trial and checked again";
    kept.says(&["Last good backup today 09:00", "Last restored for a trial today 09:00", &name, tried]).await;
    kept.olga.get("/backups").await.says_not("Warning");
    kept.olga.get("/members").await.says("Backups of the club’s data");
    kept.club.pass_minutes(23 * 60);
    assert!(!kept.taken().await);
    kept.club.pass_minutes(60);
    assert!(kept.taken().await);
    assert_eq!(kept.files().len(), 2);
    // each day's, then one of each week
    for _ in 0..30 {
        kept.club.pass_days(1);
        assert!(kept.taken().await);
    }
    let days = kept.files().len();
    assert!((16..=18).contains(&days), "{days}: {:?}", kept.files());
}

#[tokio::test(flavor = "multi_thread")]
async fn two_processes_take_one_between_them() {
    let kept = Kept::new().await;
    let (one, two) = tokio::join!(schedule::when_due(&kept.app), schedule::when_due(&kept.app));
    assert_ne!(one.unwrap(), two.unwrap());
    assert_eq!(kept.files().len(), 1);
}

#[tokio::test(flavor = "multi_thread")]
async fn one_by_hand_is_listed_and_stands_in_the_record() {
    let kept = Kept::new().await;
    let wanted = Wanted { folder: kept.data.path().join("backups"), archive: true, why: Why::Safety };
    let taken = take::take(&kept.app.config, &wanted, kept.app.now()).await.unwrap();
    schedule::write_down(&kept.app, &taken).await.unwrap();
    kept.says(&["Last good backup today 09:00", taken.path.file_name().unwrap().to_str().unwrap()]).await;
    kept.olga.get("/members/record").await.says("took a backup by hand");
}

#[tokio::test(flavor = "multi_thread")]
async fn only_files_that_are_there_count() {
    let kept = Kept::new().await;
    assert!(kept.taken().await);
    let file = kept.files().remove(0);
    std::fs::remove_file(&file).unwrap();
    let name = file.file_name().unwrap().to_str().unwrap();
    kept.says(&[&format!("The last backup, {name}, is not in the folder “backups”.")]).await;
    kept.says(&["Last good backup none in the folder “backups”", "Not in the folder “backups” now."]).await;
    assert!(kept.taken().await, "another at once");
    assert_eq!(kept.files().len(), 1);
    kept.says(&["Last good backup today 09:00"]).await;
    kept.olga.get("/backups").await.says_not("Warning");
    // one that was put elsewhere is listed with its path and is no reason to wait
    kept.club.pass_days(1);
    let elsewhere = TempDir::new().unwrap();
    let wanted = Wanted { folder: elsewhere.path().to_owned(), archive: true, why: Why::Safety };
    let taken = take::take(&kept.app.config, &wanted, kept.app.now()).await.unwrap();
    schedule::write_down(&kept.app, &taken).await.unwrap();
    kept.says(&[taken.path.canonicalize().unwrap().to_str().unwrap(), "Kept elsewhere, by hand."]).await;
    kept.says(&["Last good backup yesterday 09:00"]).await;
    assert!(kept.taken().await);
}

#[tokio::test(flavor = "multi_thread")]
async fn no_folder_is_made_that_somebody_may_have_to_plug_in() {
    let kept = Kept::new().await;
    let missing = kept.data.path().join("disk");
    let wanted = Wanted { folder: missing.join("hilum"), archive: true, why: Why::Safety };
    let fault = take::take(&kept.app.config, &wanted, kept.app.now()).await.unwrap_err().to_string();
    assert!(fault.contains("There is no folder") && fault.contains("not plugged in"), "{fault}");
    assert!(!missing.exists());
    let config = Config { data: missing.clone(), ..(*kept.app.config).clone() };
    let wanted = Wanted { folder: missing.join("backups"), archive: true, why: Why::Safety };
    assert!(take::take(&config, &wanted, kept.app.now()).await.is_err());
    assert!(!missing.exists(), "nor a data folder");
}

#[tokio::test(flavor = "multi_thread")]
async fn a_failure_and_an_old_backup_are_told_to_the_organiser() {
    let kept = Kept::new().await;
    assert!(kept.taken().await);
    let folder = kept.data.path().join("backups");
    std::fs::rename(&folder, kept.data.path().join("put away")).unwrap();
    std::fs::write(&folder, "in the way").unwrap();
    kept.club.pass_days(1);
    let error = schedule::when_due(&kept.app).await.unwrap_err();
    assert!(format!("{error:#}").contains("cannot be written to"), "{error:#}");
    kept.says(&["Warning: The last backup failed.", "cannot be written to", "none came about"]).await;
    kept.says(&["Last good backup none in the folder “backups”"]).await;
    assert!(!kept.taken().await, "not at once again");
    kept.club.pass_minutes(61);
    assert!(schedule::when_due(&kept.app).await.is_err(), "after an hour");
    std::fs::remove_file(&folder).unwrap();
    std::fs::rename(kept.data.path().join("put away"), &folder).unwrap();
    kept.says(&["Last good backup yesterday 09:00"]).await;
    kept.club.pass_days(1);
    kept.says(&["The last good backup is 2 days old. Tell whoever hosts the club."]).await;
    assert!(kept.taken().await);
    kept.olga.get("/backups").await.says_not("Warning");
}

#[tokio::test(flavor = "multi_thread")]
async fn a_breach_is_told_and_removes_no_older_backup() {
    let kept = Kept::new().await;
    assert!(kept.taken().await);
    let mut conn = kept.app.db.write().await.unwrap();
    conn.run("UPDATE packets SET balance = balance + 1", args![]).await.unwrap();
    conn.commit().await.unwrap();
    for _ in 0..20 {
        kept.club.pass_days(1);
        assert!(kept.taken().await);
    }
    assert_eq!(kept.files().len(), 21);
    kept.says(&["The last backup is doubtful. The check finds 1: I1 packet OL 1"]).await;
    kept.says(&["The last good backup is 20 days old."]).await;
}

#[tokio::test(flavor = "multi_thread")]
async fn one_that_cannot_be_restored_is_found_out() {
    let kept = Kept::new().await;
    assert!(kept.taken().await);
    let file = &kept.files()[0];
    let (folder, now) = (kept.data.path(), kept.app.now());
    assert_eq!(schedule::try_out(file, folder, now).await, "");
    let bytes = std::fs::read(file).unwrap();
    std::fs::write(file, &bytes[..bytes.len() * 2 / 3]).unwrap();
    assert!(schedule::try_out(file, folder, now).await.contains("is damaged"));
    let mut conn = kept.app.db.write().await.unwrap();
    conn.run("UPDATE backups SET tried_problem = 'It is damaged.'", args![]).await.unwrap();
    conn.commit().await.unwrap();
    kept.says(&["The last backup could not be restored for a trial. It is damaged."]).await;
}

#[tokio::test]
async fn nothing_is_taken_where_it_is_switched_off() {
    let club = Club::new().await;
    let olga = club.organiser("Olga", "OL").await;
    assert!(!schedule::when_due(&club.app).await.unwrap());
    olga.get("/backups").await.says("The program takes no backups by itself here.");
    assert_eq!(club.grower("Gus", "GU").await.get("/backups").await.status, 403);
}

#[test]
fn all_of_some_days_stay_then_one_of_each_week_for_a_year() {
    let now = At(1_772_438_400);
    let name = |days: i64| names::name(now.plus_days(-days), 16, Why::Safety, 1, "db");
    let mut files: Vec<String> = (0..500).map(name).collect();
    files.push(names::name(now.plus_days(-400), 12, Why::BeforeUpgrade, 1, "db"));
    files.push(names::name(now.plus_days(-400), 12, Why::Damaged, 2, "db"));
    files.extend(["letters.zip".to_owned(), ".making-x".to_owned(), "hilum-today.db".to_owned()]);
    let gone = keep::surplus(&files, now, 14);
    let stay: Vec<&String> = files.iter().filter(|f| !gone.contains(f)).collect();
    assert!((0..14).all(|days| stay.contains(&&name(days))), "{stay:?}");
    assert!((367..500).all(|days| gone.contains(&name(days))), "{gone:?}");
    // 2026-03-02 is a Monday: the weeks before end on Sundays
    assert!(stay.contains(&&name(15)) && gone.contains(&name(16)) && stay.contains(&&name(22)), "{stay:?}");
    assert_eq!(stay.len() - 5, 14 + 51, "{stay:?}");
    assert_eq!(keep::surplus(&[name(900), name(800)], now, 14), [name(900)], "the newest stays");
    let two = names::name(now, 16, Why::Safety, 2, "zip");
    assert_eq!((two.as_str(), names::made(&two)), ("hilum-2026-03-02T080000Z-schema-0016-2.zip", Some(now)));
    assert_eq!([size(1), size(2_340_000), size(3_000_000_000)], ["1 kB", "2.3 MB", "3.0 GB"]);
}
