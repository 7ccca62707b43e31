use hilum::db::Db;
use std::sync::Mutex;
use std::sync::atomic::{AtomicU32, Ordering};
use tempfile::TempDir;
use tokio::sync::OnceCell;

/// A migrated database that nobody else uses.
pub struct Database {
    pub url: String,
    pub db: Db,
    pub _folder: Option<TempDir>,
}

static NEXT: AtomicU32 = AtomicU32::new(0);
/// So many databases stand about: all of them would fill a small disk, and dropping one alone costs a checkpoint.
const ENOUGH: usize = 40;
/// Addresses whose test is over.
static ENDED: Mutex<Vec<String>> = Mutex::new(Vec::new());

impl Drop for Database {
    fn drop(&mut self) {
        if self._folder.is_none() {
            ENDED.lock().unwrap().push(self.url.clone());
        }
    }
}

impl Database {
    pub async fn fresh() -> Self {
        match server() {
            Some(server) => postgres(&server).await,
            None => sqlite().await,
        }
    }
}

#[expect(clippy::disallowed_methods, reason = "the tests choose their engine by the environment")]
pub fn server() -> Option<String> {
    std::env::var("TEST_DATABASE_URL").ok()
}

/// A copy of one migrated file: cheaper than migrating for each test.
async fn sqlite() -> Database {
    static TEMPLATE: OnceCell<(TempDir, std::path::PathBuf)> = OnceCell::const_new();
    let (_, template) = TEMPLATE
        .get_or_init(|| async {
            let folder = TempDir::new().unwrap();
            let path = folder.path().join("template.db");
            Db::open(&format!("sqlite:{}", path.display())).await.unwrap().close().await;
            (folder, path)
        })
        .await;
    let folder = TempDir::new().unwrap();
    let path = folder.path().join("club.db");
    std::fs::copy(template, &path).unwrap();
    let url = format!("sqlite:{}", path.display());
    Database { db: Db::open(&url).await.unwrap(), url, _folder: Some(folder) }
}

/// A clone of one migrated database on the server named by the environment.
async fn postgres(server: &str) -> Database {
    static TEMPLATE: OnceCell<String> = OnceCell::const_new();
    let template = TEMPLATE
        .get_or_init(|| async {
            let name = format!("hilum_test_{}", std::process::id());
            run(
                server,
                &format!("CREATE DATABASE {name} TEMPLATE template0 LC_COLLATE 'C' LC_CTYPE 'C.UTF-8'"),
            )
            .await;
            Db::open(&at(server, &name)).await.unwrap().close().await;
            name
        })
        .await;
    for url in ended() {
        let (_, name) = url.rsplit_once('/').unwrap();
        run(server, &format!("DROP DATABASE {name} WITH (FORCE)")).await;
    }
    let name = format!("{template}_{}", NEXT.fetch_add(1, Ordering::SeqCst));
    run(server, &format!("CREATE DATABASE {name} TEMPLATE {template}")).await;
    let url = at(server, &name);
    Database { db: Db::open(&url).await.unwrap(), url, _folder: None }
}

fn ended() -> Vec<String> {
    let mut all = ENDED.lock().unwrap();
    if all.len() < ENOUGH { Vec::new() } else { std::mem::take(&mut *all) }
}

pub fn at(server: &str, name: &str) -> String {
    let (base, _) = server.rsplit_once('/').expect("the server's address ends in a database");
    format!("{base}/{name}")
}

#[expect(clippy::disallowed_methods, reason = "making databases is not the app's work")]
pub async fn run(server: &str, sql: &str) {
    use sqlx::Connection;
    // one clone at a time: the server refuses to copy a template that is in use
    static TURN: tokio::sync::Mutex<()> = tokio::sync::Mutex::const_new(());
    let _turn = TURN.lock().await;
    let mut conn = sqlx::PgConnection::connect(server).await.unwrap();
    sqlx::query(sqlx::AssertSqlSafe(sql)).execute(&mut conn).await.unwrap();
}
