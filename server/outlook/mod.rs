//! What is still to come of seeds on paper: when to look next, how many more, when to give up.
//!
//! `pool` makes rows of the club's bags of a variety, `row` keeps them small; `model` fits them; `own` fits one bag;
//! `verdict` decides what is true of a bag; `words` says it; `kept` holds what was fitted; `published` is the guess of a
//! club without bags.

mod intervals;
mod kept;
mod model;
mod own;
mod pool;
mod published;
mod row;
mod verdict;
mod waiting;
mod words;

pub use kept::{Outlooks, Sought, View, paces, views};
pub use model::Outlook;
pub use published::days_to_emergence;
pub use waiting::Waiting;
pub use words::{Long, Short, long, short};
