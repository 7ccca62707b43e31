pub mod list;
pub mod new;
pub mod open;
pub mod paper;
mod plan;
mod running;
pub mod show;

pub use plan::{draw as draw_plan, filled};
pub use running::draw as draw_running;
