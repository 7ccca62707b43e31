//! Trials in the database. The acting member (in the act, or given) stands in the WHERE.

mod read;
mod start;
mod write;

pub use read::{
    Bag, Done, Listed, Packet, Place, bags, companions, done, due, last_place, packets, past, running,
    soaking_alike, trial, trials_after,
};
pub use start::{shortages, start};
pub use write::{event, leave, put_on_paper, step_done, tally};

/// Every SQL text of the trials.
pub fn all_sql() -> Vec<&'static str> {
    [read::ALL, start::ALL, write::ALL].concat()
}
