use super::database::Database;
use super::{answers, free_port};
use std::io::{BufRead, BufReader};
use std::path::PathBuf;
use std::process::{Child, Command, Stdio};
use tempfile::TempDir;

/// Monday 2026-03-02, 18:00 in Berlin.
const START: i64 = 1_772_470_800;

/// The program itself, serving a database of its own, with a clock that the test sets.
pub struct Program {
    child: Child,
    pub base: String,
    /// The one-time link it printed for the first organiser.
    pub set_up: String,
    folder: TempDir,
    _database: Database,
}

impl Program {
    pub async fn start() -> Self {
        let database = Database::fresh().await;
        database.db.close().await;
        let folder = TempDir::new().unwrap();
        let port = free_port();
        let base = format!("http://127.0.0.1:{port}");
        std::fs::write(folder.path().join("clock"), START.to_string()).unwrap();
        let mut child = Command::new(env!("CARGO_BIN_EXE_hilum"))
            .args(["--data", folder.path().to_str().unwrap()])
            .args(["--database-url", &database.url])
            .args(["--listen", &format!("127.0.0.1:{port}")])
            .args(["--clock-file", clock(&folder).to_str().unwrap()])
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        let set_up = set_up_link(&mut child);
        answers(port).await;
        Self { child, base, set_up, folder, _database: database }
    }

    /// Sets the clock to this many minutes after the start.
    pub fn at_minute(&self, minutes: i64) {
        std::fs::write(clock(&self.folder), (START + minutes * 60).to_string()).unwrap();
    }
}

impl Drop for Program {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

fn clock(folder: &TempDir) -> PathBuf {
    folder.path().join("clock")
}

fn set_up_link(child: &mut Child) -> String {
    let out = BufReader::new(child.stdout.take().unwrap());
    let mut lines = out.lines().map_while(Result::ok);
    let link = lines.find(|line| line.contains("/join/")).expect("the program prints a set-up link");
    std::thread::spawn(move || lines.for_each(drop));
    link.trim().to_owned()
}
