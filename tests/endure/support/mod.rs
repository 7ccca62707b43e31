#[path = "../../http/support/chance.rs"]
mod chance;
mod client;
mod club;
pub mod cluster;
#[path = "../../http/support/database.rs"]
pub mod database;
#[path = "../../http/support/form.rs"]
mod form;
mod forms;
pub mod hand;
pub mod ledger;
#[path = "../../browser/support/ports.rs"]
mod ports;
#[path = "../../browser/support/program.rs"]
mod program;
#[path = "../../http/support/routes.rs"]
pub mod routes;
mod season;
pub mod strace;
#[path = "../../http/support/times.rs"]
mod times;

use hilum::app::App;
use hilum::args;
use hilum::clock::Clock;
use hilum::config::Config;
use hilum::db::Db;
use hilum::db::ids::At;
use hilum::upkeep::check;

pub use chance::Chance;
pub use client::{Answer, Client, key};
pub use club::{Told, at_step, copied, empty, filled, fixture, grown, hilum, tables_of, whole};
pub use forms::{Filled, at_once};
use ports::answers;
pub use ports::free_port;
pub use program::{Program, START};
pub use season::Season;
pub use times::{time_is_left, times};

/// Chance from a seed that is told, so that a failure can be run again.
pub fn by_lot(what: &str) -> Chance {
    let seed = uuid::Uuid::new_v4().as_u64_pair().0;
    println!("{what}: seed {seed}");
    Chance(seed)
}

/// An empty database of the engine under test.
pub async fn fresh() -> database::Database {
    database::Database::fresh().await
}

/// What `hilum check` finds.
pub async fn breaches(db: &Db) -> Vec<String> {
    let config = Config::default();
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
