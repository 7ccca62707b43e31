pub mod calendar;
mod enter;
pub mod me;
pub mod members;
pub mod outside;
pub mod passkeys;
pub mod proof;
pub mod sessions;
pub mod tokens;
