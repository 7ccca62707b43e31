//! Between clubs: our shared table goes out as one file, and those of other clubs come in. Theirs are a level of
//! their own in the model and are never among our counts.

mod actions;
pub mod file;
mod out;
mod package;
mod pages;
pub mod store;

pub use actions::{bring_in, look, remove, set_used};
pub use out::{SharedTables, Wanted, shared_table, table};
pub use pages::show;
pub use store::ALL;
