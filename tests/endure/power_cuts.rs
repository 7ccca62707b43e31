//! Power cuts (SQLite): the program's writes to its data are recorded, and the files are put together as a disk could
//! hold them after a cut at any moment: all that was synced, and of the rest any part, in any order, torn between
//! sectors. The idea is that of crash-consistency testing (Pillai and others 2014, "All File Systems Are Not Created
//! Equal", OSDI; from memory). What had been answered by then is there.
//!
//! Long: `HILUM_PROGRAM=target/release/hilum HILUM_POWER_CUTS=1000 cargo test --test endure power_cuts`

mod disk;

use crate::support::cluster::on_postgres;
use crate::support::hand::hands;
use crate::support::ledger::Ledger;
use crate::support::strace::{Strace, WRITES};
use crate::support::{Chance, by_lot};
use crate::support::{Program, breaches, fresh, time_is_left, times};
use disk::{Disk, Step};
use hilum::db::Db;
use std::path::{Path, PathBuf};
use std::sync::Mutex;
use tempfile::TempDir;

/// As many saves to a recording: enough for the log to be moved into the database several times.
const A_REEL: usize = 150;
/// As many cuts of a recording.
const CUTS: usize = 100;

/// A recording: how the files were at first, and what was done then.
struct Reel {
    before: TempDir,
    name: String,
    steps: Vec<Step>,
    ledger: Ledger,
}

async fn record() -> Reel {
    let program = Program::demo_in(fresh().await, async |_| ()).await;
    let db = program.db().await;
    let mut hands = hands(&program.base, &db, 3, 2).await;
    let ledger = Mutex::new(Ledger::default());
    for hand in &mut hands {
        for _ in 0..hand.turns() {
            assert!(hand.save(&ledger).await);
        }
    }
    let mut learned = ledger.into_inner().unwrap();
    learned.learn(&db).await;
    db.close().await;
    let path = PathBuf::from(program.database.url.trim_start_matches("sqlite:"));
    let strace = Strace::attach(&program, &["-s", "1000000", "-e", WRITES]);
    let before = copy(&path);
    let ledger = Mutex::new(learned);
    let mut keys = Vec::new();
    for n in 0..A_REEL {
        let of = n % hands.len();
        let act = hands[of].coming();
        keys.push(act.about());
        hands[of].pending = Some(act);
        assert!(hands[of].save(&ledger).await);
    }
    let calls = strace.detach();
    let folder = path.parent().unwrap().to_str().unwrap().to_owned();
    let steps = disk::steps(&calls, &folder, &keys);
    let name = path.file_name().unwrap().to_str().unwrap().to_owned();
    Reel { before, name, steps, ledger: ledger.into_inner().unwrap() }
}

/// The files beside `path`, at a moment when nobody writes.
fn copy(path: &Path) -> TempDir {
    let to = TempDir::new().unwrap();
    for file in std::fs::read_dir(path.parent().unwrap()).unwrap() {
        let file = file.unwrap();
        if !file.file_name().to_string_lossy().ends_with("-shm") {
            std::fs::copy(file.path(), to.path().join(file.file_name())).unwrap();
        }
    }
    to
}

impl Reel {
    /// What is wrong after a cut at a moment drawn by lot.
    async fn cut(&self, chance: &mut Chance, syncs: bool) -> Vec<String> {
        let at = chance.below(self.steps.len() + 1);
        let mut disk = Disk::read(self.before.path());
        let answered = disk.play(&self.steps[..at], syncs);
        let folder = TempDir::new().unwrap();
        disk.lose_power(chance).write(folder.path());
        let url = format!("sqlite:{}", folder.path().join(&self.name).display());
        let db = match Db::open(&url).await {
            Ok(db) => db,
            Err(why) => return vec![format!("cut {at}: it does not open: {why}")],
        };
        let mut wrong = if db.damaged() { vec!["damaged".to_owned()] } else { breaches(&db).await };
        if wrong.is_empty() {
            wrong = self.ledger.lost(&db, &answered).await;
        }
        db.close().await;
        wrong.into_iter().map(|what| format!("cut {at} of {}: {what}", self.steps.len())).collect()
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn nothing_that_was_answered_is_lost_when_the_power_goes() {
    if on_postgres() {
        return;
    }
    let mut chance = by_lot("power cuts");
    let cuts = times("HILUM_POWER_CUTS", 20);
    let (mut done, mut unsafe_ones, mut of) = (0, 0, 0);
    for begun in (0..cuts).step_by(CUTS).take_while(|_| time_is_left()) {
        let reel = record().await;
        for _ in begun..cuts.min(begun + CUTS) {
            let wrong = reel.cut(&mut chance, true).await;
            assert!(wrong.is_empty(), "{}", wrong.join("\n"));
            done += 1;
        }
        // and were no sync ever done, the same cuts would show it
        for _ in 0..20 {
            unsafe_ones += usize::from(!reel.cut(&mut chance, false).await.is_empty());
            of += 1;
        }
    }
    assert!(unsafe_ones > 0, "a disk that ignores syncs must lose something, or these cuts prove nothing");
    println!("{done} power cuts, none lost; {unsafe_ones} of {of} lost where syncs are ignored");
}
