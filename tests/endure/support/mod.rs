mod client;
#[path = "../../http/support/database.rs"]
mod database;
#[path = "../../http/support/form.rs"]
mod form;
mod forms;
#[path = "../../browser/support/ports.rs"]
mod ports;
#[path = "../../browser/support/program.rs"]
mod program;
#[path = "../../http/support/routes.rs"]
pub mod routes;
mod season;
#[path = "../../http/support/times.rs"]
mod times;

pub use client::{Answer, Client, key};
pub use forms::{Filled, at_once};
use ports::{answers, free_port};
pub use program::{Program, START};
pub use season::Season;
pub use times::times;
