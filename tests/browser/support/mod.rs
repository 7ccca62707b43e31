mod axe;
#[path = "../../http/support/chance.rs"]
mod chance;
mod chrome;
#[path = "../../http/support/database.rs"]
mod database;
mod ink;
mod paper;
mod plain;
mod ports;
mod program;
mod proxy;
#[path = "../../http/support/routes.rs"]
mod routes;
mod speech;
mod walk;

pub use chance::Chance;
pub use chrome::Phone;
pub use ink::{Box4, Ink};
pub use paper::Print;
pub use plain::STATES;
use ports::{answers, free_port};
pub use program::{Program, START};
pub use proxy::{Mode, Proxy};
pub use walk::Walk;

use std::path::PathBuf;

/// A file among those that a run leaves to be looked at.
fn kept(name: &str) -> PathBuf {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("../screenshots");
    std::fs::create_dir_all(&folder).unwrap();
    folder.join(name)
}
