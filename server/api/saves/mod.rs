//! What can be saved: one file for each sort of thing, with what it takes and the form that saves it.

mod bags;
mod entries;
mod packets;
mod trays;
mod trials;

use super::table::Table;

/// More seeds than any one save is about.
pub const MOST: i64 = 100_000;

/// How a save gives its id and its moment.
macro_rules! named_and_dated {
    () => {
        fn id(&self) -> &$crate::api::values::SaveId {
            &self.id
        }

        fn at(&self) -> Option<&$crate::api::values::Moment> {
            self.at.as_ref()
        }
    };
}
use named_and_dated;

/// Adds every operation that saves.
pub fn add(table: Table) -> Table {
    let table = bags::add(trials::add(packets::add(table)));
    entries::add(trays::add(table))
}
