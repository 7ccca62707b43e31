//! What must hold for any input: made numbers, the same on every run.

mod bounded;
mod malformed;
mod random;
mod rows;
mod seeds;
