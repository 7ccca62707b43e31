//! The notebook: dated entries that are only ever added, voids that take one back, and the kept sums that
//! are replayed from them. Every invariant about seeds is enforced here, in one transaction with the entry.

pub mod bag;
pub mod check;
pub mod history;
pub mod packet;
pub mod planting;
pub mod seen;
pub mod trial;
pub mod void;
pub mod words;
mod write;

pub use write::{About, Act, row as entry_row, write};

/// Every SQL text of the notebook.
pub fn all_sql() -> Vec<&'static str> {
    [bag::ALL, history::ALL, packet::ALL, planting::ALL, trial::ALL, void::ALL, write::ALL].concat()
}

/// A replay that does not come out: the entry at which it breaks, and why.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Broken {
    pub entry: String,
    pub why: String,
}

impl Broken {
    fn new(entry: &str, why: impl Into<String>) -> Self {
        Self { entry: entry.to_owned(), why: why.into() }
    }
}
