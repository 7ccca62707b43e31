use super::database::Database;
use super::{answers, free_port};
use hilum::app::App;
use hilum::config::Config;
use hilum::db::Db;
use hilum::rates::standing;
use hilum::upkeep::demo;
use std::io::{BufRead, BufReader};
use std::path::PathBuf;
use std::process::{Child, ChildStdout, Command, Stdio};
use tempfile::TempDir;

/// Monday 2026-03-02, 18:00 in Berlin.
pub const START: i64 = 1_772_470_800;

/// The program itself, serving a database of its own, with a clock that the test sets.
pub struct Program {
    pub child: Option<Child>,
    pub port: u16,
    pub base: String,
    /// The one-time link it printed for the first organiser; empty where the club is there already.
    pub set_up: String,
    pub folder: TempDir,
    /// Flags besides, from its next start on.
    pub settings: Vec<&'static str>,
    pub database: Database,
}

impl Program {
    /// With an empty database.
    pub async fn start() -> Self {
        let (mut program, link) = Self::serve(Database::fresh().await, stopped_clock(), "/join/").await;
        program.set_up = link;
        program
    }

    /// With the invented club, on either engine.
    pub async fn demo() -> Self {
        Self::demo_and(async |_| ()).await
    }

    /// With the invented club, and what `fill` adds to it before the program starts.
    pub async fn demo_and(fill: impl AsyncFnOnce(&App)) -> Self {
        Self::demo_in(Database::fresh().await, fill).await
    }

    /// The same in a database of the test's own.
    pub async fn demo_in(database: Database, fill: impl AsyncFnOnce(&App)) -> Self {
        let folder = stopped_clock();
        let config = Config {
            data: folder.path().to_owned(),
            database_url: Some(database.url.clone()),
            clock_file: Some(clock(&folder)),
            ..Config::default()
        };
        let clock = config.clock();
        let app = App::new(database.db.clone(), config, clock);
        demo::club(&app).await.unwrap();
        fill(&app).await;
        standing::refresh(&app).await.unwrap();
        Self::serve(database, folder, "Hilum is at").await.0
    }

    /// The program once it has printed a line with `words`, and that line.
    async fn serve(database: Database, folder: TempDir, words: &str) -> (Self, String) {
        database.db.close().await;
        let port = free_port();
        let base = format!("http://127.0.0.1:{port}");
        let mut program =
            Self { child: None, port, base, set_up: String::new(), folder, settings: Vec::new(), database };
        let line = printed(program.run().await, words);
        (program, line)
    }

    async fn run(&mut self) -> ChildStdout {
        let mut child = self.command();
        child.args(["--listen", &format!("127.0.0.1:{}", self.port)]);
        if self.base.contains("localhost") {
            child.args(["--base-url", &self.base]);
        }
        child.args(&self.settings);
        let mut child = child.stdout(Stdio::piped()).spawn().unwrap();
        let out = child.stdout.take().unwrap();
        self.child = Some(child);
        answers(self.port).await;
        out
    }

    /// The program on the same data, for its other commands.
    pub fn command(&self) -> Command {
        let mut command = Command::new(program());
        command.args(["--data", self.folder.path().to_str().unwrap()]);
        command.args(["--database-url", &self.database.url, "--backup-every", "0"]);
        command.args(["--clock-file", clock(&self.folder).to_str().unwrap()]);
        // its clock stands still, and no pace would ever come back
        command.args(["--saves-a-minute", "1000000"]);
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

    /// Leaves connections open and answers nothing, or goes on.
    pub fn hang(&self, hangs: bool) {
        let signal = if hangs { "-STOP" } else { "-CONT" };
        let pid = self.pid().to_string();
        assert!(Command::new("kill").args([signal, &pid]).status().unwrap().success());
    }

    /// Its number among the processes that run.
    pub fn pid(&self) -> u32 {
        self.child.as_ref().unwrap().id()
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

/// The program as it was built for the tests, or a release one for a long run.
#[expect(clippy::disallowed_methods, reason = "which program is tried is for whoever runs the tests")]
pub fn program() -> PathBuf {
    std::env::var_os("HILUM_PROGRAM").map_or_else(|| env!("CARGO_BIN_EXE_hilum").into(), PathBuf::from)
}

/// A folder with a clock that stands at the start.
fn stopped_clock() -> TempDir {
    let folder = TempDir::new().unwrap();
    std::fs::write(clock(&folder), START.to_string()).unwrap();
    folder
}

fn clock(folder: &TempDir) -> PathBuf {
    folder.path().join("clock")
}

fn printed(out: ChildStdout, words: &str) -> String {
    let mut lines = BufReader::new(out).lines().map_while(Result::ok);
    let line = lines.find(|line| line.contains(words));
    let line = line.unwrap_or_else(|| panic!("the program prints no {words}"));
    std::thread::spawn(move || lines.for_each(drop));
    line.trim().to_owned()
}
