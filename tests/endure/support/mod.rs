mod client;
#[path = "../../http/support/database.rs"]
mod database;
#[path = "../../browser/support/ports.rs"]
mod ports;
#[path = "../../browser/support/program.rs"]
mod program;

pub use client::{Client, key};
use ports::answers;
pub use ports::free_port;
pub use program::{Program, START};

/// How many times a harness goes round: `usual`, or what the environment asks for by `name`.
#[expect(clippy::disallowed_methods, reason = "how long a harness runs is for whoever runs it")]
pub fn times(name: &str, usual: usize) -> usize {
    std::env::var(name).ok().map_or(usual, |asked| asked.parse().expect("a number of times"))
}
