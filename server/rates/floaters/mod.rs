//! Does floating foretell failure in this club's seeds? It records and tests the rule; it never writes floaters off.

mod page;
mod say;
mod tally;

pub use page::show;
