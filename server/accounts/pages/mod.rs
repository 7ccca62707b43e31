pub mod audit;
pub mod me;
pub mod members;
pub mod outside;
pub mod passkeys;
pub mod proof;
pub mod tokens;
