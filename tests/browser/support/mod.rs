mod axe;
mod chrome;
#[path = "../../http/support/database.rs"]
mod database;
mod ink;
mod paper;
mod plain;
mod program;
mod proxy;
#[path = "../../http/support/routes.rs"]
mod routes;
mod walk;

pub use chrome::Phone;
pub use ink::{Box4, Ink};
pub use paper::Print;
pub use plain::STATES;
pub use program::{Program, START};
pub use proxy::{Mode, Proxy};
pub use walk::Walk;

use std::net::TcpListener;
use std::path::PathBuf;
use std::time::{Duration, Instant};

/// A port that is free now.
fn free_port() -> u16 {
    TcpListener::bind("127.0.0.1:0").unwrap().local_addr().unwrap().port()
}

/// Waits until something answers on `port`.
async fn answers(port: u16) {
    let until = Instant::now() + Duration::from_secs(30);
    while tokio::net::TcpStream::connect(("127.0.0.1", port)).await.is_err() {
        assert!(Instant::now() < until, "nothing answers on port {port}");
        tokio::time::sleep(Duration::from_millis(50)).await;
    }
}

/// A file among those that a run leaves to be looked at.
fn kept(name: &str) -> PathBuf {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("../screenshots");
    std::fs::create_dir_all(&folder).unwrap();
    folder.join(name)
}
