pub mod chance;
mod client;
pub mod cluster;
#[path = "../../http/support/database.rs"]
pub mod database;
pub mod hand;
pub mod ledger;
#[path = "../../browser/support/ports.rs"]
mod ports;
#[path = "../../browser/support/program.rs"]
mod program;
pub mod strace;

use hilum::app::App;
use hilum::args;
use hilum::clock::Clock;
use hilum::config::Config;
use hilum::db::Db;
use hilum::db::ids::At;
use hilum::upkeep::check;

pub use client::{Answer, Client, key};
use ports::answers;
pub use ports::free_port;
pub use program::{Program, START};

/// How many times a harness goes round: `usual`, or what the environment asks for by `name`.
#[expect(clippy::disallowed_methods, reason = "how long a harness runs is for whoever runs it")]
pub fn times(name: &str, usual: usize) -> usize {
    std::env::var(name).ok().map_or(usual, |asked| asked.parse().expect("a number of times"))
}

/// An empty database of the engine under test.
pub async fn fresh() -> database::Database {
    database::Database::fresh().await
}

/// What `hilum check` finds.
pub async fn breaches(db: &Db) -> Vec<String> {
    let config = Config {
        data: std::path::PathBuf::new(),
        database_url: None,
        listen: "127.0.0.1:0".parse().unwrap(),
        base_url: None,
        no_offline: false,
        clock_file: None,
    };
    let app = App::new(db.clone(), config, Clock::fixed(At(START)));
    check::breaches(&app).await.unwrap()
}

/// Leaves the comparison of the sources as it is, so that nobody but the test writes.
pub async fn held_off(app: &App) {
    let sql = "INSERT INTO leases (job, holder, until_at) VALUES ('standing', 'the test', 9000000000)";
    let mut conn = app.db.write().await.unwrap();
    conn.run(sql, args![]).await.unwrap();
    conn.commit().await.unwrap();
}
