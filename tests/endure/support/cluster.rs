use super::database::Database;
use hilum::db::Db;
use std::process::Command;

/// A PostgreSQL server of the test's own, which it may crash.
pub struct Cluster {
    pub url: String,
    folder: String,
}

/// Whether the tests run on PostgreSQL.
#[expect(clippy::disallowed_methods, reason = "the tests choose their engine by the environment")]
pub fn on_postgres() -> bool {
    std::env::var("TEST_DATABASE_URL").is_ok()
}

impl Cluster {
    pub fn start() -> Self {
        let out = Command::new("tests/postgres").arg("start").output().unwrap();
        let text = String::from_utf8(out.stdout).unwrap();
        let named = |name: &str| {
            let word = text.split_whitespace().find_map(|word| word.strip_prefix(name));
            word.unwrap_or_else(|| panic!("{text} {}", String::from_utf8_lossy(&out.stderr))).to_owned()
        };
        Self { url: named("TEST_DATABASE_URL="), folder: named("HILUM_TEST_CLUSTER=") }
    }

    /// A new, empty database on it.
    pub async fn database(&self) -> Database {
        self.run("CREATE DATABASE club TEMPLATE template0 LC_COLLATE 'C' LC_CTYPE 'C.UTF-8'").await;
        let url = format!("{}/club", self.url.rsplit_once('/').unwrap().0);
        Database { db: Db::open(&url).await.unwrap(), url, _folder: None }
    }

    #[expect(clippy::disallowed_methods, reason = "what is set on a server is not the app's work")]
    pub async fn run(&self, sql: &str) {
        use sqlx::Connection;
        let mut conn = sqlx::PgConnection::connect(&self.url).await.unwrap();
        sqlx::query(sqlx::AssertSqlSafe(sql)).execute(&mut conn).await.unwrap();
    }

    /// The server and all its processes end at once, with no time to tidy up.
    pub fn crash(&self) {
        self.signal("-KILL");
    }

    /// They stand still, or go on.
    pub fn hang(&self, hangs: bool) {
        self.signal(if hangs { "-STOP" } else { "-CONT" });
    }

    /// Once more on the same data.
    pub fn again(&self) {
        self.script("again");
    }

    /// The folder of its data.
    pub fn data(&self) -> std::path::PathBuf {
        std::path::Path::new(&self.folder).join("data")
    }

    fn signal(&self, signal: &str) {
        let pids = std::fs::read_to_string(format!("{}/data/postmaster.pid", self.folder)).unwrap();
        let server = pids.lines().next().unwrap().to_owned();
        let children = Command::new("ps").args(["-o", "pid=", "--ppid", &server]).output().unwrap().stdout;
        let children = String::from_utf8(children).unwrap();
        // the server first: it would start others for those that end
        for pid in std::iter::once(server.as_str()).chain(children.split_whitespace()) {
            // one that ended meanwhile is no matter
            let _ = Command::new("kill").args([signal, pid]).output().unwrap();
        }
    }

    fn script(&self, what: &str) {
        let mut script = Command::new("tests/postgres");
        let done = script.arg(what).env("HILUM_TEST_CLUSTER", &self.folder).status().unwrap();
        assert!(done.success(), "tests/postgres {what}");
    }
}

impl Drop for Cluster {
    fn drop(&mut self) {
        self.hang(false);
        let mut script = Command::new("tests/postgres");
        let _ = script.arg("stop").env("HILUM_TEST_CLUSTER", &self.folder).status();
    }
}
