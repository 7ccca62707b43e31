pub mod calendar;
pub mod me;
pub mod members;
pub mod outside;
pub mod tokens;
