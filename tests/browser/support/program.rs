use super::database::Database;
use super::{answers, free_port};
use hilum::app::App;
use hilum::config::Config;
use hilum::rates::standing;
use hilum::upkeep::demo;
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
    /// The one-time link it printed for the first organiser; empty where the club is there already.
    pub set_up: String,
    folder: TempDir,
    _database: Database,
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
        let (database, folder) = (Database::fresh().await, stopped_clock());
        let config = Config {
            data: folder.path().to_owned(),
            database_url: Some(database.url.clone()),
            listen: "127.0.0.1:0".parse().unwrap(),
            base_url: None,
            clock_file: Some(clock(&folder)),
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
        let mut child = Command::new(env!("CARGO_BIN_EXE_hilum"))
            .args(["--data", folder.path().to_str().unwrap()])
            .args(["--database-url", &database.url])
            .args(["--listen", &format!("127.0.0.1:{port}")])
            .args(["--clock-file", clock(&folder).to_str().unwrap()])
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        let line = printed(&mut child, words);
        answers(port).await;
        let base = format!("http://127.0.0.1:{port}");
        (Self { child, base, set_up: String::new(), folder, _database: database }, line)
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

/// A folder with a clock that stands at the start.
fn stopped_clock() -> TempDir {
    let folder = TempDir::new().unwrap();
    std::fs::write(clock(&folder), START.to_string()).unwrap();
    folder
}

fn clock(folder: &TempDir) -> PathBuf {
    folder.path().join("clock")
}

fn printed(child: &mut Child, words: &str) -> String {
    let out = BufReader::new(child.stdout.take().unwrap());
    let mut lines = out.lines().map_while(Result::ok);
    let line = lines.find(|line| line.contains(words));
    let line = line.unwrap_or_else(|| panic!("the program prints no {words}"));
    std::thread::spawn(move || lines.for_each(drop));
    line.trim().to_owned()
}
