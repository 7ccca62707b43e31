pub mod list;
pub mod outcomes;
pub mod plant;
pub mod planting;
pub mod sheet;
pub mod tray;
