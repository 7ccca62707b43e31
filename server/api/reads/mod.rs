//! What can be read: one file for each sort of thing, with its shape and its operations.

mod bags;
mod due;
mod entries;
mod kinds;
mod me;
mod packets;
mod rates;
mod trays;
mod trials;

use super::table::Table;

/// Adds every operation that reads.
pub fn add(table: Table) -> Table {
    let table = due::add(me::add(table));
    let table = trials::add(packets::add(table));
    let table = trays::add(bags::add(table));
    rates::add(kinds::add(entries::add(table)))
}
