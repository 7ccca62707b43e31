use super::database::Database;
use super::{answers, free_port};
use hilum::db::Db;
use std::io::{BufRead, BufReader};
use std::path::PathBuf;
use std::process::{Child, ChildStdout, Command, Stdio};
use tempfile::TempDir;

/// Monday 2026-03-02, 18:00 in Berlin.
pub const START: i64 = 1_772_470_800;

/// The program itself, serving a database of its own, with a clock that the test sets.
pub struct Program {
    child: Option<Child>,
    pub port: u16,
    pub base: String,
    /// The one-time link it printed for the first organiser.
    pub set_up: String,
    folder: TempDir,
    database: Database,
}

impl Program {
    pub async fn start() -> Self {
        let database = Database::fresh().await;
        database.db.close().await;
        let folder = TempDir::new().unwrap();
        let port = free_port();
        let base = format!("http://127.0.0.1:{port}");
        std::fs::write(folder.path().join("clock"), START.to_string()).unwrap();
        let mut program = Self { child: None, port, base, set_up: String::new(), folder, database };
        let out = program.run().await;
        program.set_up = set_up_link(out);
        program
    }

    async fn run(&mut self) -> ChildStdout {
        let mut child = self.command();
        child.args(["--listen", &format!("127.0.0.1:{}", self.port)]);
        let mut child = child.stdout(Stdio::piped()).spawn().unwrap();
        let out = child.stdout.take().unwrap();
        self.child = Some(child);
        answers(self.port).await;
        out
    }

    fn command(&self) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_hilum"));
        command.args(["--data", self.folder.path().to_str().unwrap()]);
        command.args(["--database-url", &self.database.url]);
        command.args(["--clock-file", clock(&self.folder).to_str().unwrap()]);
        command
    }

    /// Ends the program; its data stays.
    pub fn stop(&mut self) {
        if let Some(mut child) = self.child.take() {
            let _ = child.kill();
            let _ = child.wait();
        }
    }

    /// Starts it anew on the same port and data.
    pub async fn again(&mut self) {
        let out = self.run().await;
        std::thread::spawn(move || BufReader::new(out).lines().map_while(Result::ok).for_each(drop));
    }

    /// What `hilum check` says of its data.
    pub fn check(&self) -> String {
        let out = self.command().arg("check").output().unwrap();
        String::from_utf8_lossy(&out.stdout).into_owned()
    }

    /// Its data, for the test's own questions.
    pub async fn db(&self) -> Db {
        Db::open(&self.database.url).await.unwrap()
    }

    /// Sets the clock to this many minutes after the start.
    pub fn at_minute(&self, minutes: i64) {
        std::fs::write(clock(&self.folder), (START + minutes * 60).to_string()).unwrap();
    }
}

impl Drop for Program {
    fn drop(&mut self) {
        self.stop();
    }
}

fn clock(folder: &TempDir) -> PathBuf {
    folder.path().join("clock")
}

fn set_up_link(out: ChildStdout) -> String {
    let mut lines = BufReader::new(out).lines().map_while(Result::ok);
    let link = lines.find(|line| line.contains("/join/")).expect("the program prints a set-up link");
    std::thread::spawn(move || lines.for_each(drop));
    link.trim().to_owned()
}
