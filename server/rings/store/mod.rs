//! What is stored of ring trials.

pub mod counts;
mod read;
mod write;

pub use read::{candidates, growers, lots, members, parts, ring, rings, takes_part, varieties};
pub use write::{Drawn, Numbers, give_up, hand_out, lock, make, open, put_drawn, set_numbers};

pub use read::{Listed, Offered};

pub fn all_sql() -> Vec<&'static str> {
    [counts::ALL, read::ALL, write::ALL].concat()
}
