//! What pages say, in each language.

mod messages;
mod pages;
mod set_up;
