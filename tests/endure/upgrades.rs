//! Older databases brought up to date: every kept schema with its rows, killed in the midst of it, by two at once, and
//! refused where a newer program was there. `HILUM_KILLS=200 HILUM_PAIRS=100 cargo test --test endure upgrades:: -- --nocapture` for the
//! long run. The kills are those of strace, at a chosen call that writes: to the file, or to PostgreSQL.

use crate::schemas::STEPS;
use crate::support::{Told, at_step, empty, hilum, tables_of, times, whole};
use hilum::args;
use hilum::db::copy::Table;
use hilum::db::{Db, file, migrate, schema};
use serde_json::Value;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use tempfile::TempDir;

struct Old {
    url: String,
    data: TempDir,
    step: i64,
    tables: Vec<Table>,
    rows: BTreeMap<String, Vec<String>>,
}

impl Old {
    async fn new(step: i64) -> Self {
        let (url, data) = empty().await;
        at_step(&url, step).await;
        let db = Db::as_it_is(&url).await.unwrap();
        let tables = tables_of(&db).await;
        let rows = whole(&db, &tables).await;
        db.close().await;
        Self { url, data, step, tables, rows }
    }

    fn check(&self) -> Command {
        let mut command = hilum(&self.url, self.data.path());
        command.arg("check");
        command
    }

    /// The step it is at, and that all rows are there.
    async fn look(&self) -> i64 {
        let db = Db::as_it_is(&self.url).await.unwrap();
        let step = schema::step(&mut db.read().await.unwrap()).await.unwrap();
        let rows = if step == self.step { self.rows.clone() } else { self.later() };
        let mut found = whole(&db, &self.tables).await;
        if let Some(taken) = found.get_mut("backups") {
            // the upgrade writes down the one it took
            taken.retain(|row| !row.contains("-before-upgrade"));
        }
        assert_eq!(found, rows, "rows of step {}", self.step);
        if step == self.step {
            assert_eq!(tables_of(&db).await, self.tables, "half of a step was done");
        } else {
            assert_eq!(step, migrate::newest());
        }
        db.close().await;
        step
    }

    /// The rows once it is up to date: step 17 says of each session that it was last used a month before its end.
    fn later(&self) -> BTreeMap<String, Vec<String>> {
        const MONTH: i64 = 30 * 86_400;
        if self.step >= 17 {
            return self.rows.clone();
        }
        let sessions = self.tables.iter().find(|t| t.name == "sessions").unwrap();
        let place = |name: &str| sessions.columns.iter().position(|c| c.name == name).unwrap();
        let dated = |line: &String| {
            let mut row: Vec<Value> = serde_json::from_str(line).unwrap();
            row[place("seen_at")] = (row[place("expires_at")].as_i64().unwrap() - MONTH).into();
            Value::from(row).to_string()
        };
        let mut rows = self.rows.clone();
        let of_sessions = rows["sessions"].iter().map(dated).collect();
        rows.insert("sessions".to_owned(), of_sessions);
        rows
    }

    fn backups(&self) -> Vec<PathBuf> {
        let Ok(files) = std::fs::read_dir(self.data.path().join("backups")) else { return Vec::new() };
        let files = files.map(|f| f.unwrap().path());
        let mut found: Vec<PathBuf> = files.filter(|p| !name(p).starts_with(".making-")).collect();
        found.sort();
        found
    }

    /// Brings it up to date and expects all to be well.
    async fn finish(&self) {
        let told = Told::from(self.check().output().unwrap());
        assert!(told.good && told.out.contains("No breach"), "{told:?}");
        assert_eq!(self.look().await, migrate::newest());
    }
}

fn name(path: &Path) -> String {
    path.file_name().unwrap().to_string_lossy().into_owned()
}

#[tokio::test(flavor = "multi_thread")]
async fn every_kept_schema_comes_up_to_date_after_a_backup() {
    for step in STEPS.iter().copied() {
        let old = Old::new(step).await;
        old.finish().await;
        let backups = old.backups();
        if step == migrate::newest() {
            assert!(backups.is_empty(), "nothing was to be done: {backups:?}");
            continue;
        }
        assert_eq!(backups.len(), 1, "{backups:?}");
        assert!(name(&backups[0]).contains(&format!("-schema-{step:04}-before-upgrade")), "{backups:?}");
        if step == STEPS[0] || times("HILUM_KILLS", 0) > 0 {
            as_it_was(&old, &backups[0]).await;
            // the second start has nothing to do
            old.finish().await;
            assert_eq!(old.backups().len(), 1);
        }
    }
}

/// What was kept is the club as it was.
async fn as_it_was(old: &Old, backup: &Path) {
    let (url, data) = empty().await;
    let told =
        Told::from(hilum(&url, data.path()).args(["restore", "--as-it-was"]).arg(backup).output().unwrap());
    assert!(told.good && told.out.contains(&format!("(schema {})", old.step)), "{told:?}");
    let back = Db::as_it_is(&url).await.unwrap();
    assert_eq!(whole(&back, &old.tables).await, old.later());
    back.close().await;
}

/// Which calls of the program are counted: all that write to any file, or those alone that reach the database.
#[derive(Clone, Copy, Debug)]
enum Aim {
    Anywhere,
    Database,
}

/// The program under strace, with what strace is to do at the calls aimed at.
fn traced(old: &Old, aim: Aim, inject: &str) -> Command {
    let (mut export, log) = (hilum(&old.url, old.data.path()), old.data.path().join("calls"));
    export.args(["export", "packets", "--letters", "AM"]);
    let mut strace = Command::new("strace");
    strace.args(["-f", "-qq", "-e", "signal=none", "-o"]).arg(log);
    match (file(&old.url), aim) {
        (None, _) => strace.args(["-e", "trace=sendto"]),
        (Some(_), Aim::Anywhere) => strace.args(["-e", "trace=pwrite64"]),
        (Some(path), Aim::Database) => {
            let journal = format!("{}-wal", path.display());
            strace.args(["-e", "trace=pwrite64", "-P", path.to_str().unwrap(), "-P", &journal])
        }
    };
    if !inject.is_empty() {
        let call = if file(&old.url).is_some() { "pwrite64" } else { "sendto" };
        strace.args(["-e", &format!("inject={call}:{inject}")]);
    }
    strace.arg(export.get_program()).args(export.get_args()).env("TOKIO_WORKER_THREADS", "1");
    strace.stdout(Stdio::null()).stderr(Stdio::null());
    strace
}

/// How many such calls one thread makes at most.
async fn moments(step: i64, aim: Aim) -> usize {
    let old = Old::new(step).await;
    assert!(traced(&old, aim, "").status().unwrap().success());
    let calls = std::fs::read_to_string(old.data.path().join("calls")).unwrap();
    let mut threads: BTreeMap<&str, usize> = BTreeMap::new();
    for line in calls.lines().filter(|line| line.contains("pwrite64(") || line.contains("sendto(")) {
        *threads.entry(line.split(' ').next().unwrap()).or_default() += 1;
    }
    threads.into_values().max().expect("the upgrade writes")
}

#[tokio::test(flavor = "multi_thread")]
async fn killed_in_an_upgrade_it_is_wholly_old_or_wholly_new() {
    let kills = times("HILUM_KILLS", 0);
    let older: Vec<i64> = STEPS.iter().copied().filter(|step| *step < migrate::newest()).collect();
    let steps = if kills > 0 { &older[..] } else { &older[..1] };
    // what goes to PostgreSQL all reaches the database
    let aims = if file(&empty().await.0).is_some() {
        vec![Aim::Database, Aim::Anywhere]
    } else {
        vec![Aim::Database]
    };
    for (step, aim) in steps.iter().flat_map(|step| aims.iter().map(|aim| (*step, *aim))) {
        let kills = if kills > 0 { kills.div_ceil(aims.len()) } else { 3 };
        let calls = moments(step, aim).await;
        let (mut stayed, mut came, mut late) = (0, 0, 0);
        for kill in 0..kills {
            let old = Old::new(step).await;
            // the first such call, the last, and those between
            let at = 1 + (calls - 1) * kill / (kills - 1).max(1);
            let status = traced(&old, aim, &format!("signal=KILL:when={at}")).status().unwrap();
            late += usize::from(status.success());
            if old.look().await == step {
                stayed += 1
            } else {
                came += 1
            }
            old.finish().await;
        }
        println!(
            "step {step}, {aim:?}: {kills} kills in {calls} calls, {stayed} wholly old, {came} wholly new, {late} ended before"
        );
    }
}

/// `HILUM_DISK_STEPS=1` for every such call of the upgrade; what goes to PostgreSQL's own disk is not Hilum's to write.
#[tokio::test(flavor = "multi_thread")]
async fn on_a_disk_that_fails_in_an_upgrade_it_is_wholly_old_or_wholly_new() {
    if file(&empty().await.0).is_none() {
        return;
    }
    let step = STEPS.iter().copied().filter(|step| *step < migrate::newest()).max().unwrap();
    for aim in [Aim::Database, Aim::Anywhere] {
        let calls = moments(step, aim).await;
        let every = times("HILUM_DISK_STEPS", 0) > 0;
        let at: Vec<usize> = if every { (1..=calls).collect() } else { vec![1, calls.div_ceil(2), calls] };
        let (mut stayed, mut came) = (0, 0);
        for (n, at) in at.into_iter().enumerate() {
            for error in if every { &["ENOSPC", "EIO"][..] } else { &["ENOSPC", "EIO"][n % 2..=n % 2] } {
                let old = Old::new(step).await;
                let broken = traced(&old, aim, &format!("error={error}:when={at}+"));
                fails_in_words(broken);
                if old.look().await == step {
                    stayed += 1
                } else {
                    came += 1
                }
                old.finish().await;
            }
        }
        println!("step {step}, {aim:?}: {calls} calls, {stayed} wholly old, {came} wholly new");
    }
}

/// It may have been done before the disk failed; else it says what is wrong, and not as programs do.
fn fails_in_words(mut command: Command) {
    let told = Told::from(command.stderr(Stdio::piped()).output().unwrap());
    assert!(!told.err.contains("panicked"), "{told:?}");
    assert!(told.good || told.err.lines().any(|line| line.contains(' ')), "{told:?}");
}

#[tokio::test(flavor = "multi_thread")]
async fn two_that_start_at_once_upgrade_once() {
    for _ in 0..times("HILUM_PAIRS", 1) {
        let old = Old::new(STEPS[0]).await;
        let start = || old.check().stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
        for child in [start(), start(), start()] {
            let told = Told::from(child.wait_with_output().unwrap());
            assert!(told.good && told.out.contains("No breach"), "{told:?}");
        }
        assert_eq!(old.look().await, migrate::newest());
        assert_eq!(old.backups().len(), 1, "{:?}", old.backups());
    }
    // the same where there is nothing yet
    let (url, data) = empty().await;
    let start = || {
        hilum(&url, data.path()).arg("check").stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap()
    };
    for child in [start(), start(), start()] {
        let told = Told::from(child.wait_with_output().unwrap());
        assert!(told.good, "{told:?}");
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn an_older_program_refuses_a_newer_database() {
    let (url, data) = empty().await;
    Db::open(&url).await.unwrap().close().await;
    let db = Db::alone(&url).await.unwrap();
    let mut conn = db.write().await.unwrap();
    let sql = "INSERT INTO _sqlx_migrations (version, description, success, checksum, execution_time)
        SELECT 9001, 'of a newer program', TRUE, checksum, 0 FROM _sqlx_migrations WHERE version = 1";
    conn.run(sql, args![]).await.unwrap();
    conn.commit().await.unwrap();
    db.close().await;
    for command in ["serve", "check"] {
        let mut hilum = hilum(&url, data.path());
        hilum.env("HILUM_LOG_LEVEL", "warn").env("RUST_BACKTRACE", "1");
        let told = Told::from(hilum.arg(command).output().unwrap());
        let known = format!("the steps up to {}", migrate::newest());
        let words = [
            "at step 9001 of the schema",
            "made by a newer Hilum",
            env!("CARGO_PKG_VERSION"),
            known.as_str(),
        ];
        assert!(!told.good && words.iter().all(|w| told.err.contains(w)), "{told:?}");
        assert!(!told.err.contains("backtrace") && told.err.lines().count() == 1, "{told:?}");
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn without_a_backup_no_upgrade_is_begun() {
    let old = Old::new(STEPS[0]).await;
    std::fs::write(old.data.path().join("backups"), "in the way").unwrap();
    let told = Told::from(old.check().output().unwrap());
    assert!(!told.good && told.err.contains("The upgrade was not begun, nothing was changed."), "{told:?}");
    assert!(told.err.contains("cannot be written to"), "{told:?}");
    assert_eq!(old.look().await, old.step);
}
