//! Older databases brought up to date: every kept schema with its rows, killed in the midst of it, by two at once, and
//! refused where a newer program was there. `HILUM_KILLS=200 cargo test --test endure upgrades:: -- --nocapture` for the
//! long run. The kills are those of strace, at a chosen call that writes: to the file, or to PostgreSQL.

use crate::schemas::STEPS;
use crate::support::{Told, at_step, empty, hilum, tables_of, times, whole};
use hilum::args;
use hilum::db::copy::Table;
use hilum::db::{Db, file, migrate, schema};
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
        assert_eq!(whole(&db, &self.tables).await, self.without(&[]), "rows of step {}", self.step);
        if step == self.step {
            assert_eq!(tables_of(&db).await, self.tables, "half of a step was done");
        } else {
            assert_eq!(step, migrate::newest());
        }
        db.close().await;
        step
    }

    fn without(&self, names: &[&str]) -> BTreeMap<String, Vec<String>> {
        self.rows
            .iter()
            .filter(|(n, _)| !names.contains(&n.as_str()))
            .map(|(n, r)| (n.clone(), r.clone()))
            .collect()
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
    for step in STEPS {
        let old = Old::new(*step).await;
        old.finish().await;
        let backups = old.backups();
        assert_eq!(backups.len(), 1, "{backups:?}");
        assert!(name(&backups[0]).contains(&format!("-schema-{step:04}-before-upgrade")), "{backups:?}");
        // what was kept is the club as it was
        let (url, data) = empty().await;
        let told = Told::from(hilum(&url, data.path()).arg("restore").arg(&backups[0]).output().unwrap());
        assert!(told.good && told.out.contains(&format!("(schema {step})")), "{told:?}");
        let back = Db::as_it_is(&url).await.unwrap();
        assert_eq!(whole(&back, &old.tables).await, old.rows);
        // the second start has nothing to do
        old.finish().await;
        assert_eq!(old.backups().len(), 1);
    }
}

/// The call by which the program changes what lasts.
fn writes(url: &str) -> &'static str {
    if file(url).is_some() { "pwrite64" } else { "sendto" }
}

fn traced(old: &Old, rest: &[&str]) -> Command {
    let check = old.check();
    let mut strace = Command::new("strace");
    strace
        .args(["-f", "-qq", "-e", "signal=none"])
        .args(rest)
        .arg(check.get_program())
        .args(check.get_args());
    strace.stdout(Stdio::null()).stderr(Stdio::null());
    strace
}

/// How many such calls one thread makes at most.
async fn moments(step: i64) -> usize {
    let old = Old::new(step).await;
    let log = old.data.path().join("calls");
    let call = writes(&old.url);
    let trace = format!("trace={call}");
    assert!(traced(&old, &["-o", log.to_str().unwrap(), "-e", &trace]).status().unwrap().success());
    let mut threads: BTreeMap<String, usize> = BTreeMap::new();
    for line in std::fs::read_to_string(log).unwrap().lines().filter(|line| line.contains(call)) {
        *threads.entry(line.split(' ').next().unwrap().to_owned()).or_default() += 1;
    }
    threads.into_values().max().expect("the upgrade writes")
}

#[tokio::test(flavor = "multi_thread")]
async fn killed_in_an_upgrade_it_is_wholly_old_or_wholly_new() {
    let kills = times("HILUM_KILLS", 3);
    for step in
        STEPS.iter().copied().filter(|step| kills > 3 || [STEPS[0], STEPS[STEPS.len() - 1]].contains(step))
    {
        let calls = moments(step).await;
        let (mut stayed, mut came) = (0, 0);
        for kill in 0..kills {
            let old = Old::new(step).await;
            let at = 1 + calls * (2 * kill + 1) / (2 * kills);
            let (call, log) = (writes(&old.url), old.data.path().join("calls"));
            let (trace, inject) = (format!("trace={call}"), format!("inject={call}:signal=KILL:when={at}"));
            let status =
                traced(&old, &["-o", log.to_str().unwrap(), "-e", &trace, "-e", &inject]).status().unwrap();
            assert!(!status.success(), "the kill at {at} of {calls} came too late");
            if old.look().await == step {
                stayed += 1
            } else {
                came += 1
            }
            old.finish().await;
        }
        println!(
            "step {step}: {kills} kills in {calls} calls, {stayed} times wholly old, {came} times wholly new"
        );
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn two_that_start_at_once_upgrade_once() {
    for _ in 0..times("HILUM_PAIRS", 2) {
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
        let told = Told::from(hilum.arg(command).env("RUST_BACKTRACE", "1").output().unwrap());
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
