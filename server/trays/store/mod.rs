//! Reading and writing trays. Order of locks: bag, tray, planting.

pub mod outcomes;
pub mod plant;
pub mod plantings;
pub mod tray;

pub use outcomes::outcome;
pub use plant::{Plan, plant};
pub use plantings::waiting;
pub use tray::{NewTray, make};
